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
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

const untilTheEnd = 1 << 30

// A command acts at the boundary its tick names: not seen one tick before, in
// force for the whole tick that follows.
func TestCommandsActAtTheirTicks(t *testing.T) {
	at := TicksOf(10 * time.Minute)
	set := wind(360, 36)
	p := plan(0, 0, 90, 200, time.Hour)
	p.Crew = []Command{{Tick: at, Action: aboard.Action{Kind: aboard.SetWind, Wind: set}}}
	e := engine(t, p)
	e.Advance(at)
	assert.Zero(t, e.Snapshot().Shown.Wind.Speed)
	assert.Empty(t, e.Commands())
	e.Advance(1)
	s := e.Snapshot()
	assert.Equal(t, set, s.Shown.Wind)
	require.Len(t, e.Commands(), 1)
	// 36 kt from the north for one tick: 36/3600/16 NM south.
	assert.InDelta(t, -36.0/3600/16, units.Position(s.Shown.Ground).Lat.Minutes(), 1e-12)
	e.Advance(untilTheEnd)
	assert.InDelta(t, -30, units.Position(e.Snapshot().Shown.Ground).Lat.Minutes(), 1e-9, "50 minutes of it, and not the ten before")
}

// Two commands of one tick act in the order in which they came.
func TestCommandsOfOneTickKeepTheirOrder(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Minute)
	p.Crew = []Command{
		{Tick: 160, Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(1, 2)}},
		{Tick: 80, Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(5, 6)}},
		{Tick: 160, Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(3, 4)}},
	}
	e := engine(t, p)
	e.Advance(100)
	assert.Equal(t, wind(5, 6), e.Snapshot().Shown.Wind)
	e.Advance(100)
	assert.Equal(t, wind(3, 4), e.Snapshot().Shown.Wind)
}

// Left to itself the setter follows the field at the true place; a hand on it
// ends that, and the crew can give it back.
func TestTrueToField(t *testing.T) {
	p := plan(-47, 178, 90, 240, 2*time.Hour)
	p.Field = nil
	p.Crew = []Command{
		{Tick: TicksOf(30 * time.Minute), Action: aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(10 * units.Degree)}},
		{Tick: TicksOf(60 * time.Minute), Action: aboard.Action{Kind: aboard.FollowField}},
	}
	e := engine(t, p)
	first := e.Snapshot().Truth.Variation
	e.Advance(TicksOf(30 * time.Minute))
	s := e.Snapshot()
	assert.InDelta(t, s.Truth.Variation.Degrees(), s.Shown.Variation.Degrees(), 1e-9)
	assert.Greater(t, math.Abs((s.Truth.Variation - first).Degrees()), 0.1, "the field changes on the way")
	assert.InDelta(t, 90, s.Shown.Heading.Degrees(), 1e-6)
	e.Advance(TicksOf(10 * time.Minute))
	s = e.Snapshot()
	assert.InDelta(t, 10, s.Shown.Variation.Degrees(), 1e-12)
	assert.InDelta(t, 90-(s.Truth.Variation.Degrees()-10), s.Shown.Heading.Degrees(), 1e-6)
	e.Advance(TicksOf(30 * time.Minute))
	s = e.Snapshot()
	assert.InDelta(t, s.Truth.Variation.Degrees(), s.Shown.Variation.Degrees(), 1e-9)
}

// A magnetic leg is flown by the compass, whoever flies and whatever is set.
func TestMagneticLegs(t *testing.T) {
	for _, pilot := range []Pilot{AsPlanned, Steady, ByInstruments} {
		for _, steer := range []Steer{HeadingMagnetic, HeadingCompass} {
			p := plan(10, 20, 0, 200, 10*time.Minute)
			p.Pilot = pilot
			p.Legs[0].Steer, p.Legs[0].Direction = steer, 100*units.Degree
			set := units.Variation(-3 * units.Degree)
			p.Setting.Variation = &set
			e := engine(t, p)
			e.Advance(untilTheEnd)
			s := e.Snapshot()
			assert.InDelta(t, 100, s.Sensed.Heading.Degrees(), 1e-9)
			assert.InDelta(t, 115, s.Truth.Heading.Degrees(), 1e-9, "15 E")
			assert.InDelta(t, 97, s.Shown.Heading.Degrees(), 1e-9)
		}
	}
}

// Both ways over 180: the counters and the true place agree on the equator,
// where a minute of the sphere is 1855.325 m of WGS-84 (6378137 pi/10800).
func TestAcross180(t *testing.T) {
	for _, c := range []struct{ lon, heading, sign float64 }{{179.5, 90, 1}, {-179.5, 270, -1}} {
		e := engine(t, plan(0, c.lon, c.heading, 120, time.Hour))
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		want := c.lon + c.sign*(2-360)
		assert.InDelta(t, want, units.Position(s.Shown.Air).Lon.Degrees(), 1e-9)
		assert.InDelta(t, c.lon+c.sign*(2*1852/1855.3248-360), s.Truth.Position.Lon.Degrees(), 1e-6)
		assert.InDelta(t, 120*(1-1852/1855.3248)*c.sign, s.Error.Air.East, 1e-4, "only the earth model")
	}
}

// Counters set wrong at the start stay wrong by as much in latitude; the true
// air position does not start there.
func TestCountersAtTheStart(t *testing.T) {
	p := plan(-47, 178, 0, 180, time.Hour)
	wrong := units.At(-46, 179)
	p.Setting.Counters = &wrong
	e := engine(t, p)
	s := e.Snapshot()
	assert.InDelta(t, 60, s.Error.Air.North, 1e-9)
	assert.InDelta(t, 60*math.Cos(47*math.Pi/180), s.Error.Air.East, 1e-9)
	assert.InDelta(t, -47, s.Truth.Air.Lat.Degrees(), 1e-12)
	e.Advance(untilTheEnd)
	assert.InDelta(t, -43, units.Position(e.Snapshot().Shown.Air).Lat.Degrees(), 1e-9)
}

// CAS is held through a climb at the rate ordered: at every height the true
// airspeed is the standard one of that CAS and temperature.
func TestCASHeldThroughAClimb(t *testing.T) {
	p := plan(0, 0, 90, 150, 30*time.Minute)
	p.Aircraft.Speed.Kind, p.Air.ISADeviation = HoldCAS, 12
	height := 12000 * units.Foot
	p.Legs[0].Altitude = &height
	e := engine(t, p)
	for range 24 {
		e.Advance(TicksOf(time.Minute))
		s := e.Snapshot()
		want := isa.TASFromCAS(150*units.Knot, s.Truth.Height, isa.Temperature(s.Truth.Height)+12)
		assert.InDelta(t, want.Knots(), s.Truth.TAS.Knots(), 1e-9)
		assert.InDelta(t, want.Knots(), s.Shown.TAS.Knots(), 1e-6, "the dial is right")
		assert.InDelta(t, 150, e.View().IAS.Knots(), 1e-6)
		assert.InDelta(t, 500*float64(e.Tick())/TicksPerSecond/60, s.Truth.Height.Feet(), 1e-6)
	}
	e.Advance(untilTheEnd)
	assert.InDelta(t, 12000, e.Snapshot().Truth.Height.Feet(), 1e-9)
}

// By instruments the pilot makes the dial read what was ordered: a unit that
// reads 2 percent high is flown 2 percent slow. The others do not believe it.
func TestWhoBelievesTheAirspeedDial(t *testing.T) {
	for pilot, want := range map[Pilot]float64{ByInstruments: 200 / 1.02, Steady: 200, AsPlanned: 200} {
		p := plan(0, 0, 90, 200, time.Hour)
		p.Pilot = pilot
		p.Mechanism = integrator.Config{Values: map[string]float64{"tas_scale": 0.02}}
		e := engine(t, p)
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		assert.InDelta(t, want, s.Truth.TAS.Knots(), 1e-3, "pilot %d", pilot)
		assert.InDelta(t, want*1.02, s.Shown.TAS.Knots(), 1e-3, "pilot %d", pilot)
	}
}

// A track leg of a steady pilot is worked from the wind set: in another wind
// the track is missed by the angle between the two triangles.
func TestTrackLegUsesTheWindSet(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	p.Pilot, p.Setting.Wind = Steady, wind(0, 40)
	p.Air.Winds = []WindEntry{{Wind: wind(180, 20)}}
	p.Legs[0].Steer = TrackTrue
	e := engine(t, p)
	e.Advance(untilTheEnd)
	s := e.Snapshot()
	heading := 90 - math.Asin(40.0/200)*180/math.Pi
	assert.InDelta(t, heading, s.Truth.Heading.Degrees(), 1e-9)
	// Made good: 200 kt at the heading and 20 kt to the north.
	north, east := 200*math.Cos(heading*math.Pi/180)+20, 200*math.Sin(heading*math.Pi/180)
	assert.InDelta(t, math.Atan2(east, north)*180/math.Pi, s.Truth.Track.Degrees(), 1e-9)
	assert.InDelta(t, math.Hypot(north, east), s.Truth.Groundspeed.Knots(), 1e-9)
}

// Out and back ends where it began, whatever the heading, and a flight with its
// wind turned through an angle is the same figure turned (on the equator, for
// so short a run that the sphere is flat to 1e-4 NM).
func TestOutAndBackAndTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heading, turned := rapid.Float64Range(0, 359).Draw(t, "heading"), rapid.Float64Range(0, 359).Draw(t, "turned")
		lat := rapid.Float64Range(-70, 70).Draw(t, "lat")
		p := plan(lat, 179.9, heading, 200, 5*time.Minute)
		p.Legs[0].TurnRate = 0
		back := p.Legs[0]
		back.Direction = units.Wrap(back.Direction + math.Pi)
		p.Legs = append(p.Legs, back)
		e := engine(t, p)
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		require.Less(t, OffsetOf(s.Truth.Position, units.At(lat, 179.9)).NM(), 1e-7)
		require.Less(t, OffsetOf(units.Position(s.Shown.Air), units.At(lat, 179.9)).NM(), 1e-7)
		require.InDelta(t, 0, s.Shown.North.NM(), 1e-9)
		require.InDelta(t, 0, s.Shown.East.NM(), 1e-9)

		fly := func(by float64) (north, east float64) {
			q := plan(0, 0, heading+by, 180, 2*time.Minute)
			q.Air.Winds = []WindEntry{{Wind: wind(200+by, 30)}}
			q.Setting.Wind = q.Air.Winds[0].Wind
			e := engine(t, q)
			e.Advance(untilTheEnd)
			o := OffsetOf(units.Position(e.Snapshot().Shown.Ground), units.At(0, 0))
			return o.North, o.East
		}
		n0, e0 := fly(0)
		n1, e1 := fly(turned)
		sin, cos := math.Sincos(turned * math.Pi / 180)
		require.InDelta(t, n0*cos-e0*sin, n1, 1e-4)
		require.InDelta(t, n0*sin+e0*cos, e1, 1e-4)
	})
}

// Whatever is legal stays finite, and the flight ends.
func TestExtremePlansStayFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan(rapid.SampledFrom([]float64{-90, -89.9999, -60, 0, 45, 89.99, 90}).Draw(t, "lat"),
			rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(0, 359).Draw(t, "heading"),
			rapid.Float64Range(40, 450).Draw(t, "kt"), 6*time.Minute)
		p.Pilot = Pilot(rapid.IntRange(0, 2).Draw(t, "pilot"))
		p.Aircraft.PressureAltitude = units.Length(rapid.Float64Range(-1000, 40000).Draw(t, "feet")) * units.Foot
		p.Air.ISADeviation = rapid.Float64Range(-60, 60).Draw(t, "deviation")
		p.Air.Winds = []WindEntry{{Wind: wind(rapid.Float64Range(0, 359).Draw(t, "from"), rapid.Float64Range(0, 250).Draw(t, "wind"))}}
		p.Setting.Wind = wind(rapid.Float64Range(0, 359).Draw(t, "from set"), rapid.Float64Range(0, 250).Draw(t, "wind set"))
		p.Field = nil
		p.Legs = append(p.Legs, Leg{Steer: TrackTrue, Direction: units.Degree, Ticks: 1000, TurnRate: 3},
			Leg{Steer: HeadingMagnetic, Direction: 3, Distance: 4 * units.NM, TurnRate: 10})
		e := engine(t, p)
		e.Advance(untilTheEnd)
		require.True(t, e.Over())
		s := e.Snapshot()
		for i, x := range []float64{
			float64(s.Truth.Position.Lat), float64(s.Truth.Position.Lon), float64(s.Truth.Air.Lon), float64(s.Truth.TAS),
			float64(s.Truth.Heading), float64(s.Truth.Track), float64(s.Truth.Variation), s.Error.Air.NM(), s.Error.Ground.NM(),
			float64(s.Shown.TAS), float64(s.Shown.AirMiles), float64(s.Sensed.Pitot),
		} {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%d", i)
		}
		require.LessOrEqual(t, math.Abs(float64(s.Truth.Position.Lat)), math.Pi/2)
		require.LessOrEqual(t, math.Abs(float64(s.Truth.Air.Lat)), math.Pi/2)
	})
}
