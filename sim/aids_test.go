package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// navigated is a flight among stations, by night over the sea.
func navigated(t *testing.T) *Engine {
	t.Helper()
	p := plan(-47, 179, 60, 180, 3*time.Hour)
	p.Start = time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	p.Aircraft.PressureAltitude = 8000 * units.Foot
	p.Air.Winds = []WindEntry{{Wind: wind(308, 33)}}
	p.Setting.Wind = wind(308, 33)
	p.Stations = []Station{
		{"Skerrow", ChainStation, units.At(-47.4333, -179.8544)}, {"Mollyhawk", ChainStation, units.At(-46.2883, 179.1471)},
		{"Gannet Rock", BeaconStation, units.At(-47.223, -177.373)}, {"Rockall Isle", Landmark, units.At(-47.0, 179.05)},
		{"Far Beacon", BeaconStation, units.At(-30, 170)},
	}
	return engine(t, p)
}

func aim(t *testing.T, text string) aboard.Aim {
	t.Helper()
	a, ok := aboard.ParseAim(text)
	require.True(t, ok, text)
	return a
}

// TestAidsShowTheTruthWithTheirErrors: each against the geometry of the true place,
// worked apart; the errors are those that aid's package states, at five sigma.
func TestAidsShowTheTruthWithTheirErrors(t *testing.T) {
	e := navigated(t)
	e.Advance(TicksOf(40 * time.Minute))
	truth := e.Snapshot().Truth
	drift := e.Scene(aim(t, "drift"))
	assert.InDelta(t, units.WrapHalf(truth.Track-units.Angle(truth.Heading)).Degrees(), drift.Along.Degrees(), 1.5)
	assert.InEpsilon(t, float64(truth.Groundspeed)/float64(truth.Height), drift.Rate, 5*0.01)

	loop := e.Scene(aim(t, "loop Gannet Rock"))
	az, _, d := geodesy.GeodesicInverse(truth.Position, units.At(-47.223, -177.373))
	assert.Less(t, d.NM(), 200.0)
	assert.InDelta(t, 0, units.WrapHalf(loop.Null-(az-units.Angle(truth.Heading))).Degrees(), 0.8+5*0.6+5*8*0.25)
	assert.Greater(t, loop.Signal(loop.Null+90*units.Degree), 0.99)
	assert.InDelta(t, loop.Floor, loop.Signal(loop.Null), 1e-12)

	pulse := e.Scene(aim(t, "pulse Mollyhawk"))
	_, _, m := geodesy.GeodesicInverse(truth.Position, units.At(-47.4333, -179.8544))
	_, _, s := geodesy.GeodesicInverse(truth.Position, units.At(-46.2883, 179.1471))
	_, _, b := geodesy.GeodesicInverse(units.At(-47.4333, -179.8544), units.At(-46.2883, 179.1471))
	assert.InDelta(t, 1000+float64(b+s-m)/299.792458*1.0003, pulse.Delay, 5*0.7)

	up := 0
	for _, o := range e.Offers() {
		if o.Aid != aboard.Sextant || o.Missing != aboard.Had {
			continue
		}
		up++
		scene := e.Scene(o.Aim)
		over := sky.At(e.now())
		body, err := sky.Lookup(o.Source)
		require.NoError(t, err)
		h, _ := over.Horizontal(body, truth.Position)
		lifted := sight.Lifted(h, 1)
		assert.InDelta(t, lifted.Minutes(), scene.Altitude.Minutes(), 12, "%s: the tilt of the bubble is the rest", o.Source)
	}
	assert.Greater(t, up, 5, "stars of a night")
	check := e.Scene(aim(t, "heading Altair"))
	assert.InDelta(t, truth.Heading.Degrees(), check.Heading.Degrees(), 5*0.3)
}

// TestWhatCannotBeHadSaysWhy.
func TestWhatCannotBeHadSaysWhy(t *testing.T) {
	e := navigated(t)
	for text, want := range map[string]aboard.Missing{
		"loop Far Beacon": aboard.TooFar, "loop Nowhere": aboard.NotThere, "pulse Skerrow": aboard.NotThere, "sextant Sun": aboard.TooLow,
		"sextant Vulcan": aboard.NotThere, "pinpoint Gannet Rock": aboard.OutOfSight, "pinpoint Rockall Isle": aboard.Had, "drift": aboard.Had,
	} {
		assert.Equal(t, want, e.Scene(aim(t, text)).Missing, text)
	}
	p := *e.Plan()
	p.Stations = p.Stations[:1]
	assert.Equal(t, aboard.OnlyOneThere, engine(t, &p).Scene(aim(t, "pulse Skerrow")).Missing)
	p.Start = time.Date(1957, 8, 14, 0, 30, 0, 0, time.UTC) // noon there
	day := engine(t, &p)
	assert.Equal(t, aboard.Had, day.Scene(aim(t, "sextant Sun")).Missing)
	for _, o := range day.Offers() {
		assert.NotEqual(t, "Altair", o.Source, "no stars by day")
	}
}

// TestLookingChangesNothing: a flight that is looked out of is the same flight, and a
// reading moves nothing but the log.
func TestLookingChangesNothing(t *testing.T) {
	plain, looked := navigated(t), navigated(t)
	for range 10 {
		plain.Advance(960)
		looked.Advance(960)
		looked.Offers()
		looked.Scene(aim(t, "sextant Altair"))
	}
	assert.Equal(t, plain.Hash(), looked.Hash())
	require.NoError(t, looked.Do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aim(t, "drift"), Angle: 0.1}}))
	log := looked.View().Log
	last := log[len(log)-1]
	assert.Equal(t, aboard.Observed, last.Event)
	assert.Equal(t, units.Angle(0.1), last.Action.Reading.Angle)
	assert.Equal(t, plain.View().Ground, looked.View().Ground)
	assert.InDelta(t, plain.Snapshot().Error.Ground.NM(), looked.Snapshot().Error.Ground.NM(), 0)
}

// TestTheCrewReadTrulyButForTheStatedError: an observed altitude, refraction and tilt
// taken off by what the crew know, is the computed one of the true place but for index
// and error; a bearing, a delay and a pinpoint likewise.
func TestTheCrewReadTrulyButForTheStatedError(t *testing.T) {
	e := navigated(t)
	e.Advance(TicksOf(20 * time.Minute))
	take := func(text string, off float64) aboard.Reading {
		require.NoError(t, e.Do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aim(t, text), ByCrew: true, Error: off}}))
		log := e.View().Log
		return log[len(log)-1].Action.Reading
	}
	truth := e.Snapshot().Truth
	over := sky.At(e.now())
	for _, o := range e.Offers() {
		if o.Aid == aboard.Sextant && o.Missing == aboard.Had {
			b, _ := sky.Lookup(o.Source)
			h, _ := over.Horizontal(b, truth.Position)
			r := take(o.Aim.String(), 2)
			assert.InDelta(t, h.Minutes()+2, r.Observed.Minutes(), 5*0.8, o.Source)
			gha, dec := over.Place(b)
			assert.InDelta(t, dec.Degrees(), r.At.Lat.Degrees(), 1e-9)
			assert.InDelta(t, 0, units.WrapHalf(r.At.Lon+gha).Degrees(), 1e-9)
		}
	}
	a, z := take("loop Gannet Rock", 0), take("loop Gannet Rock", 1.5)
	assert.InDelta(t, 1.5, units.WrapHalf(z.Angle-a.Angle).Degrees(), 1e-9)
	assert.Equal(t, units.At(-47.223, -177.373), z.At)
	assert.InDelta(t, -0.7, take("pulse Mollyhawk", -0.7).Delay-take("pulse Mollyhawk", 0).Delay, 1e-9)
	assert.Equal(t, aboard.TooFar, take("loop Far Beacon", 0).Missing)
	assert.False(t, math.IsNaN(take("heading Altair", 0).Angle.Degrees()))
}

// TestAnAidThatIsWrong: what is added to it shows in the scene and nowhere else; one that
// has failed shows nothing and says so; neither is felt by the flight.
func TestAnAidThatIsWrong(t *testing.T) {
	right, wrong := navigated(t), navigated(t)
	wrong.course.plan.Aids = Aids{
		Drift: units.Degree, Timing: -0.04, Sextant: 5 * units.ArcMinute, Loop: 3 * units.Degree, Heading: -2 * units.Degree, Pulse: 7,
		OutOfOrder: []aboard.Aid{aboard.Pinpoint},
	}
	right.Advance(TicksOf(40 * time.Minute))
	wrong.Advance(TicksOf(40 * time.Minute))
	assert.Equal(t, right.Hash(), wrong.Hash())
	both := func(text string) (a, b aboard.Scene) { return right.Scene(aim(t, text)), wrong.Scene(aim(t, text)) }
	a, b := both("drift")
	assert.InDelta(t, 1, (b.Along - a.Along).Degrees(), 1e-9)
	assert.InEpsilon(t, 0.96, b.Rate/a.Rate, 1e-9)
	a, b = both("sextant Altair")
	assert.InDelta(t, 5, (b.Altitude - a.Altitude).Minutes(), 1e-9)
	a, b = both("loop Gannet Rock")
	assert.InDelta(t, 3, units.WrapHalf(b.Null-a.Null).Degrees(), 1e-9)
	a, b = both("heading Altair")
	assert.InDelta(t, -2, units.WrapHalf(b.Heading-a.Heading).Degrees(), 1e-9)
	a, b = both("pulse Mollyhawk")
	assert.InDelta(t, 7, b.Delay-a.Delay, 1e-9)
	_, b = both("pinpoint Rockall Isle")
	assert.Equal(t, aboard.OutOfOrder, b.Missing)
	_, b = both("pinpoint Nowhere")
	assert.Equal(t, aboard.NotThere, b.Missing)
}

// TestOverCloud: while a closed layer lies below, neither sea nor land is seen; stars are.
func TestOverCloud(t *testing.T) {
	e := navigated(t)
	e.course.plan.Undercast = []Span{{From: TicksOf(10 * time.Minute), To: TicksOf(20 * time.Minute)}}
	for _, at := range []struct {
		minutes int64
		want    aboard.Missing
	}{{9, aboard.Had}, {10, aboard.OverCloud}, {19, aboard.OverCloud}, {20, aboard.Had}} {
		e.GoTo(at.minutes * MinuteTicks)
		assert.Equal(t, at.want, e.Scene(aim(t, "drift")).Missing)
		assert.Equal(t, aboard.Had, e.Scene(aim(t, "sextant Altair")).Missing)
		assert.Equal(t, aboard.Had, e.Scene(aim(t, "loop Gannet Rock")).Missing)
	}
}
