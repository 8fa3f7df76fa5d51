package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

func twin(t require.TestingT, e *Engine, lacks Twin) *Engine {
	got, err := e.Twin(lacks)
	require.NoError(t, err)
	return got
}

// shafts is how far the two shafts have turned together, NM.
func shafts(e *Engine) float64 {
	v := e.View()
	return math.Hypot(v.Northing.NM(), v.Easting.NM())
}

// slips is a drive that slips by so much from a time on.
func slips(share float64, at time.Duration) fault.Order {
	return fault.Order{ID: "drive-slip", At: TicksOf(at), Params: []float64{share}}
}

// A twin that lacks nothing, and one that lacks a fault no flight has, is the
// flight to the last bit; whatever is done to the flight, at whatever tick, a
// twin that follows is what one flown anew would be.
func TestTwinFollows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := busy()
		p.Faults = []fault.Order{slips(0.1, 3*time.Minute)}
		e := engine(t, p)
		same := twin(t, e, Twin{})
		lacking := twin(t, e, Twin{Kind: WithoutFault})
		for range rapid.IntRange(1, 8).Draw(t, "deeds") {
			switch rapid.IntRange(0, 4).Draw(t, "deed") {
			case 0:
				e.GoTo(int64(rapid.IntRange(0, 20000).Draw(t, "tick")))
			case 1:
				e.Advance(int64(rapid.IntRange(0, 2000).Draw(t, "ticks")))
			case 2:
				_ = e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(rapid.Float64Range(0, 359).Draw(t, "from"), 30)})
			case 3:
				_ = e.Break(slips(0.3, 0))
			case 4:
				_ = e.Hold(drawHand(t))
			}
			if rapid.Bool().Draw(t, "seen") { // it may have missed what came between
				same.Follow(e)
				lacking.Follow(e)
			}
		}
		if e.Over() {
			e.GoTo(0)
		}
		e.Advance(1) // between two ticks what is done there may be done or still due
		same.Follow(e)
		lacking.Follow(e)
		assert.Equal(t, e.Hash(), same.Hash())
		assert.Equal(t, before(e), before(same))
		assert.Equal(t, twin(t, e, Twin{Kind: WithoutFault}).Hash(), lacking.Hash())
	})
}

// before is how many marks there are of earlier ticks. Of this tick the flight,
// taken back, may show one that its twin has not come to.
func before(e *Engine) (n int) {
	for _, m := range e.View().Marks {
		if m.Elapsed < TimeOf(e.Tick()) {
			n++
		}
	}
	return n
}

// A drive that slips by s loses s of the air miles: from tick 0 on, though the
// twin is asked for late.
func TestTwinLacksAFaultFromTheStart(t *testing.T) {
	p := plan(0, 10, 0, 180, time.Hour)
	p.Faults = []fault.Order{slips(0.02, 0), {ID: "variation-wrong-sign"}}
	e := engine(t, p)
	e.Advance(TicksOf(30 * time.Minute))
	before := e.Hash()
	for _, c := range []struct {
		lacks Twin
		miles float64
	}{{Twin{}, 88.2}, {Twin{Kind: WithoutFault, Fault: 0}, 90}, {Twin{Kind: WithoutFault, Fault: 1}, 88.2}, {Twin{Kind: WithoutFaults}, 90}} {
		miles := shafts(twin(t, e, c.lacks))
		assert.InDelta(t, c.miles, miles, 1e-3, "%+v", c.lacks)
	}
	assert.Equal(t, before, e.Hash(), "a twin leaves the flight alone")
	assert.True(t, e.Faults()[0].Stands == FaultInForce)
	_, err := e.Twin(Twin{Kind: WithoutFault, Fault: 2})
	assert.ErrorContains(t, err, "no fault number 2")
}

// A fault given in flight is lacked too, and mending another keeps its number.
func TestTwinLacksAFaultGivenInFlight(t *testing.T) {
	e := engine(t, plan(0, 10, 0, 180, time.Hour))
	require.NoError(t, e.Break(slips(0.1, 0)))
	require.NoError(t, e.Break(slips(0.2, 0)))
	e.Advance(TicksOf(10 * time.Minute))
	without := twin(t, e, Twin{Kind: WithoutFault, Fault: 1})
	require.NoError(t, e.Mend(0))
	e.Advance(TicksOf(10 * time.Minute))
	without.Follow(e)
	assert.InDelta(t, 30*0.9+30, shafts(without), 1e-3)
	assert.InDelta(t, 30*0.8+30*0.8, shafts(e), 1e-3)
}

// With the right wind the ground position is the true one where nothing else is
// wrong; with the field's variation the air position is.
func TestTwinWithASettingPutRight(t *testing.T) {
	p := plan(-20, 40, 60, 180, time.Hour)
	p.Setting.Wind, p.Air.Winds = wind(295, 27), []WindEntry{{Wind: wind(308, 33)}}
	wrong := units.Variation(5 * units.Degree)
	p.Setting.Variation = &wrong
	p.Crew = []Command{{Tick: 960, Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(100, 50)}}}
	e := engine(t, p)
	e.Advance(TicksOf(30 * time.Minute))
	windy, field := twin(t, e, Twin{Kind: RightWind}), twin(t, e, Twin{Kind: FieldVariation})
	assert.InDelta(t, 33, windy.View().WindSet.Speed.Knots(), 1e-6)
	assert.InDelta(t, 5, units.Angle(windy.View().VariationSet).Degrees(), 1e-9)
	assert.InDelta(t, 15, units.Angle(field.View().VariationSet).Degrees(), 1e-9)
	assert.InDelta(t, 50, field.View().WindSet.Speed.Knots(), 1e-6)
	assert.Greater(t, windy.Snapshot().Error.Air.NM(), 5.0)
	assert.Less(t, field.Snapshot().Error.Air.NM(), 0.5, "what a minute of arc taken as a mile does in 90 NM")
	assert.Less(t, windy.Snapshot().Error.Ground.NM()-windy.Snapshot().Error.Air.NM(), 0.1)
}

// BenchmarkTwinned flies a flight with its twin; BenchmarkStep without one.
func BenchmarkTwinned(b *testing.B) {
	e := engine(b, busy())
	t := twin(b, e, Twin{Kind: RightWind})
	for b.Loop() {
		if e.Over() {
			e.GoTo(0)
		}
		e.Advance(1)
		t.Follow(e)
	}
}

// BenchmarkAlone flies the same flight alone.
func BenchmarkAlone(b *testing.B) {
	e := engine(b, busy())
	for b.Loop() {
		if e.Over() {
			e.GoTo(0)
		}
		e.Advance(1)
	}
}

// A flight taken back and flown on to the tick at which something was done has
// not done it again yet; nor has its twin, though it missed the way there.
func TestTwinAtTheTickOfAnAction(t *testing.T) {
	for _, at := range []int64{2, keyframeTicks, keyframeTicks + 7} {
		e := engine(t, busy())
		e.Advance(at)
		require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(46, 30)}))
		same := twin(t, e, Twin{})
		assert.Equal(t, e.Hash(), same.Hash())
		e.GoTo(at - 1)
		e.Advance(1)
		same.Follow(e)
		assert.Equal(t, e.Hash(), same.Hash())
		e.Advance(1)
		same.Follow(e)
		assert.Equal(t, e.Hash(), same.Hash())
	}
}
