package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// What the pilot holds, and what follows from it. Expected values are closed
// forms of design section 5 and of geodesy, which is checked by itself against
// published tables.

// With perfect senses the dials say the truth: by instruments flies as steady.
func TestByInstrumentsWithPerfectSenses(t *testing.T) {
	steady, dials := busy(), busy()
	dials.Pilot = ByInstruments
	a, b := engine(t, steady), engine(t, dials)
	for range 25 {
		a.Advance(TicksOf(time.Minute))
		b.Advance(TicksOf(time.Minute))
		s, d := a.Snapshot(), b.Snapshot()
		require.Less(t, OffsetOf(s.Truth.Position, d.Truth.Position).NM(), 1e-6, "at %v", TimeOf(s.Tick))
		require.InDelta(t, s.Truth.TAS.Knots(), d.Truth.TAS.Knots(), 1e-6)
		require.InDelta(t, s.Truth.Height.Feet(), d.Truth.Height.Feet(), 1e-6)
	}
}

// As planned a track is made good whatever the wind: the ground track is the
// rhumb line of that course, flown at the groundspeed of the triangle.
func TestTrackMadeGood(t *testing.T) {
	for _, track := range []float64{0, 30, 90, 200, 315} {
		p := plan(40, -10, track, 180, time.Hour)
		p.Legs = []Leg{{Steer: TrackTrue, Direction: units.Angle(track) * units.Degree, Ticks: TicksOf(time.Hour)}}
		p.Air.Winds = []WindEntry{{Wind: wind(track+90, 60)}}
		e := engine(t, p)
		e.Advance(1 << 30)
		course, d := geodesy.RhumbInverse(units.At(40, -10), e.Snapshot().Truth.Position)
		assert.InDelta(t, 0, units.WrapHalf(course-units.Angle(track)*units.Degree).Degrees(), 1e-6, "track %v", track)
		// A wind square to the track: sqrt(180^2 - 60^2) kt.
		assert.InDelta(t, 169.705627, d.NM(), 1e-5, "track %v", track)
	}
}

// A pilot who knows the wind reaches the place though nothing but the dials
// tells where it is: what is left is the mechanism's sphere.
func TestToAPlaceByWhatIsShown(t *testing.T) {
	p := plan(45, 5, 60, 200, time.Hour)
	p.Pilot = Steady
	there := units.At(46, 7)
	p.Legs = []Leg{{Steer: ToPlace, Place: "there", Target: there, TurnRate: 3}}
	p.Air.Winds, p.Setting.Wind = []WindEntry{{Wind: wind(310, 35)}}, wind(310, 35)
	e := engine(t, p)
	e.Advance(1 << 30)
	require.True(t, e.Over())
	s := e.Snapshot()
	assert.Less(t, OffsetOf(units.Position(s.Shown.Ground), there).NM(), 0.3)
	_, run := geodesy.RhumbInverse(units.At(45, 5), there)
	assert.Less(t, s.Error.Ground.NM(), 0.005*run.NM(), "half a percent of the run")

	wrong := *p
	wrong.Setting.Wind = units.Wind{}
	lost := engine(t, &wrong)
	lost.Advance(1 << 30)
	hours := float64(lost.Tick()) / TicksPerSecond / 3600
	assert.InDelta(t, 35*hours, lost.Snapshot().Error.Ground.NM(), 0.01*run.NM(), "astray by wind x time")
}

// TestAResetDoesNotEndALeg: the counters are set back by ten miles on the way to a place, as a
// fix shows; the pilot flies on, and ten miles longer than by what was shown before: 3 minutes
// and 20 seconds at 180 kt.
func TestAResetDoesNotEndALeg(t *testing.T) {
	p := plan(-47, 179, 90, 180, time.Hour)
	p.Pilot = Steady
	there := units.At(-47, -179.5)
	p.Legs = []Leg{{Steer: ToPlace, Place: "there", Target: there, TurnRate: 3}}
	lasts := func(a *aboard.Action) float64 {
		e := engine(t, p)
		e.Advance(TicksOf(10 * time.Minute))
		if a != nil {
			if a.Kind == aboard.SetCounters { // ten miles west of where they stand
				a.Position = units.Position(e.Snapshot().Shown.Ground)
				a.Position.Lon -= units.Angle(10/math.Cos(a.Position.Lat.Radians())) * units.ArcMinute
			}
			require.NoError(t, e.Do(*a))
		}
		e.Advance(1 << 30)
		require.True(t, e.Over())
		return float64(e.Tick()) / TicksPerSecond
	}
	straight := lasts(nil)
	assert.InDelta(t, straight+200, lasts(&aboard.Action{Kind: aboard.SetCounters}), 1)
	assert.InDelta(t, straight, lasts(&aboard.Action{Kind: aboard.SetWind, Wind: wind(90, 0)}), 0.2)
}

// Setting the counters, at that very moment.
func TestCountersSetAtOnce(t *testing.T) {
	p := plan(-47, 179.9, 30, 180, time.Hour)
	p.Air.Winds = []WindEntry{{Wind: wind(300, 30)}}
	e := engine(t, p)
	e.Advance(TicksOf(20 * time.Minute))
	before := e.Snapshot()
	require.NotEqual(t, before.Truth.Position, before.Truth.Air)
	at := units.At(-46.5, -179.5)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: at}))
	s := e.Snapshot()
	assert.Equal(t, before.Truth.Position, s.Truth.Position)
	assert.Equal(t, s.Truth.Position, s.Truth.Air)
	assert.Zero(t, s.Shown.North)
	assert.Zero(t, s.Shown.East)
	assert.Equal(t, before.Shown.AirMiles, s.Shown.AirMiles)
	for _, shown := range []units.Position{units.Position(s.Shown.Air), units.Position(s.Shown.Ground), units.Position(s.Shown.Marker)} {
		assert.InDelta(t, 0, OffsetOf(shown, at).NM(), 1e-9)
	}
}
