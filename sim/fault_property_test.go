package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// drawOrder is any entry that can be given, with legal parameters and times.
func drawOrder(t *rapid.T, last int64) fault.Order {
	var can []fault.Entry
	for _, e := range fault.Catalogue() {
		if e.Refusal() == "" {
			can = append(can, e)
		}
	}
	e := rapid.SampledFrom(can).Draw(t, "fault")
	tick := rapid.Int64Range(0, last)
	o := fault.Order{ID: e.ID, At: tick.Draw(t, "at"), For: tick.Draw(t, "for"), Params: e.Defaults()}
	o.Shape = rapid.SampledFrom(e.Shapes).Draw(t, "shape")
	if o.Shape == fault.Ramp && !e.CanRamp() {
		o.Shape = fault.Step
	}
	o.RampTicks, o.On, o.Off = tick.Draw(t, "ramp"), 1+tick.Draw(t, "on"), tick.Draw(t, "off")
	for i, p := range e.Params {
		if p.Type == fault.Number {
			o.Params[i] = rapid.Float64Range(p.Min, p.Max).Draw(t, p.Name)
		} else {
			o.Params[i] = float64(rapid.IntRange(int(p.Min), int(p.Max)).Draw(t, p.Name))
		}
	}
	o.Trigger = rapid.SampledFrom([]fault.Trigger{{}, {}, {Kind: fault.BySignal, Signal: 3},
		{Kind: fault.ByPlace, Place: units.At(-47, 179.5), Within: 5 * units.NM}}).Draw(t, "trigger")
	return o
}

// Any faults together, with any legal parameters, planned or given in flight:
// every figure is a number, the counters are legal, and the flight is the same
// whether it was flown at once or in steps, straight on or back and forth.
func TestAnyFaultsTogether(t *testing.T) {
	const last = 2400
	rapid.Check(t, func(t *rapid.T) {
		p := busy()
		p.Legs[0].Ticks = 1200
		p.Pilot = rapid.SampledFrom([]Pilot{Steady, ByInstruments, AsPlanned}).Draw(t, "pilot")
		p.Mechanism.Class = rapid.SampledFrom([]integrator.Class{integrator.Ideal, integrator.Service}).Draw(t, "class")
		p.Mechanism.Ground = ground.Plotted
		for range rapid.IntRange(1, 6).Draw(t, "planned") {
			p.Faults = append(p.Faults, drawOrder(t, last))
		}
		e, live := engine(t, p), drawOrder(t, last)
		e.Advance(last / 4)
		require.NoError(t, e.Break(live))
		e.Advance(last / 4)
		require.NoError(t, e.Signal(3))
		require.NoError(t, e.Mend(0))
		e.Advance(last)
		finite(t, e)
		hash, tick := e.Hash(), e.Tick()
		e.GoTo(7)
		for range last / 3 {
			e.Advance(1)
		}
		e.GoTo(tick)
		require.Equal(t, hash, e.Hash(), "back and forth")
		again := engine(t, p)
		again.Advance(last / 4)
		require.NoError(t, again.Break(live))
		for range last / 4 {
			again.Advance(1)
		}
		require.NoError(t, again.Signal(3))
		require.NoError(t, again.Mend(0))
		again.Advance(tick - again.Tick())
		require.Equal(t, hash, again.Hash(), "by single steps")
	})
}

func finite(t *rapid.T, e *Engine) {
	s, v := e.Snapshot(), e.View()
	for i, x := range []float64{
		float64(s.Truth.Position.Lat), float64(s.Truth.Position.Lon), float64(s.Truth.TAS), float64(s.Truth.Heading), float64(s.Truth.Height),
		float64(s.Sensed.Pitot), float64(s.Sensed.Static), float64(s.Sensed.Temperature), float64(s.Sensed.Heading),
		float64(s.Shown.North), float64(s.Shown.East), float64(s.Shown.AirMiles), float64(s.Shown.TAS), float64(s.Shown.Heading),
		float64(s.Shown.Marker.Lat), float64(s.Shown.Marker.Lon), s.Error.Air.NM(), s.Error.Ground.NM(),
		float64(v.IAS), float64(v.PressureAltitude), float64(v.VerticalSpeed), float64(v.Compass), float64(v.WindSet.Speed),
	} {
		require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "figure %d: %+v", i, s)
	}
	for _, r := range []counter.Reading{v.AirCounters.Latitude, v.AirCounters.Longitude, v.GroundCounters.Latitude, v.GroundCounters.Longitude, v.AirLogCounter} {
		for _, d := range r.Drums[:r.N] {
			require.True(t, d >= 0 && d < 10, "%+v", r)
		}
	}
	require.LessOrEqual(t, math.Abs(s.Shown.Air.Lat.Degrees()), 90.0)
}

// Broken and mended again before a tick has gone by, a fault leaves no trace in
// world, senses and mechanism; and whatever was broken, every stream of chance
// stands where it would.
func TestBrokenAndMendedLeavesNoTrace(t *testing.T) {
	for _, entry := range fault.Catalogue() {
		o := fault.Order{ID: entry.ID, Params: entry.Defaults()}
		if entry.Refusal() != "" || entry.NeedsPlotted() || entry.Kind == fault.CrewError {
			continue // what the crew did stands
		}
		if entry.ID == "repeater-lost-steps" || entry.ID == "counter-mis-set" {
			continue // lost and set is done at once
		}
		plain, e := engine(t, busy()), engine(t, busy())
		for _, x := range []*Engine{plain, e} {
			x.Advance(4000)
		}
		require.NoError(t, e.Break(o))
		require.NoError(t, e.Mend(0))
		plain.Advance(200)
		e.Advance(200)
		a, b := plain.State(), e.State()
		require.Equal(t, a.World, b.World, entry.ID)
		require.Equal(t, a.Sensed, b.Sensed, entry.ID)
		require.Equal(t, plain.Snapshot(), e.Snapshot(), entry.ID)
		require.NoError(t, e.Break(o))
		e.Advance(300)
		require.NoError(t, e.Mend(1))
		e.Advance(300)
		plain.Advance(600)
		a, b = plain.State(), e.State()
		require.Equal(t, a.Chance, b.Chance, entry.ID)
	}
}

// A fault waits for its place, by the truth, or for its signal; the list says
// how it stands, and the crew's log and plot know nothing of it.
func TestTriggersAndTheList(t *testing.T) {
	p := plan(0, 0, 90, 240, time.Hour) // 4 NM a minute along the equator
	e := engine(t, p)
	broken := func() float64 { return e.State().Mechanism.Wrong.Drive.Slip }
	slip := func(x float64, trigger fault.Trigger) fault.Order {
		return fault.Order{ID: "drive-slip", For: 160, Params: []float64{x}, Trigger: trigger}
	}
	require.NoError(t, e.Break(slip(0.1, fault.Trigger{Kind: fault.ByPlace, Place: units.At(0, 1), Within: 20 * units.NM})))
	require.NoError(t, e.Break(slip(0.2, fault.Trigger{Kind: fault.BySignal, Signal: 4})))
	stands := func() (list []FaultStands) {
		for _, f := range e.Faults() {
			list = append(list, f.Stands)
		}
		return list
	}
	assert.Equal(t, []FaultStands{FaultWaiting, FaultWaiting}, stands())
	marks, log := len(e.View().Marks), len(e.View().Log)
	require.NoError(t, e.Signal(5))
	assert.Equal(t, []FaultStands{FaultWaiting, FaultWaiting}, stands(), "another signal")
	require.NoError(t, e.Signal(4))
	assert.Equal(t, []FaultStands{FaultWaiting, FaultInForce}, stands())
	assert.Equal(t, marks, len(e.View().Marks), "the plot knows nothing")
	assert.Equal(t, log, len(e.View().Log), "nor the log")
	assert.Equal(t, 0.2, broken())
	// 60 - 20 minutes called NM of a sphere, 40 NM at 240 kt: ten minutes.
	for broken() != 0.1 && e.Tick() < 20000 {
		e.Advance(1)
	}
	assert.InDelta(t, 600, float64(e.Tick())/TicksPerSecond, 3, "the equator of WGS-84 is 0.2 percent longer")
	assert.Equal(t, []FaultStands{FaultInForce, FaultOver}, stands())
	onset := e.Faults()[0].Onset
	require.NoError(t, e.Mend(0))
	assert.Zero(t, broken())
	assert.Equal(t, FaultMended, stands()[0])

	e.GoTo(onset - 100) // taken back, it waits again; acted anew, what came later is dropped
	assert.Equal(t, FaultWaiting, stands()[0])
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind}))
	e.GoTo(onset + 100)
	assert.Equal(t, FaultInForce, stands()[0], "the mending was dropped")
}

func TestOrdersThatAreRefused(t *testing.T) {
	e := engine(t, plan(0, 0, 90, 200, time.Minute))
	for want, o := range map[string]fault.Order{
		`no fault "drive-slop"`: {ID: "drive-slop"},
		"must be 0 to 1":        {ID: "drive-slip", Params: []float64{2}},
		"is an explanation":     {ID: "earth-model"},
		"plotted":               {ID: "wind-clock-not-reset", Params: []float64{45}},
		"a signal is 0 to 9":    {ID: "drive-broken", Trigger: fault.Trigger{Kind: fault.BySignal, Signal: 10}},
		"NM of a place":         {ID: "drive-broken", Trigger: fault.Trigger{Kind: fault.ByPlace, Within: units.Length(math.NaN())}},
	} {
		require.ErrorContains(t, e.Break(o), want)
		p := plan(0, 0, 90, 200, time.Minute)
		p.Faults = []fault.Order{o}
		_, err := New(p)
		require.ErrorContains(t, err, want)
	}
	assert.Error(t, e.Mend(0))
	assert.Error(t, e.MendAll("drive-slip"))
	assert.Error(t, e.Signal(10))
	for range MaxLiveFaults {
		require.NoError(t, e.Break(fault.Order{ID: "drive-broken"}))
	}
	require.ErrorContains(t, e.Break(fault.Order{ID: "drive-broken"}), "at most 32")
	require.NoError(t, e.MendAll("drive-broken"))
	assert.False(t, e.State().Mechanism.Wrong.Drive.Parted)
}
