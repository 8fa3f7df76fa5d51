package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim/sensor"
)

// Radii of WGS-84 at the equator, m: along the meridian a(1-e2), along it a.
const (
	meridian = 6335439.327
	equator  = 6378137.0
)

// A block of wind begins with the tick that begins at its time: it is seen at
// that moment and has moved nothing yet.
func TestWindBeginsAtItsTick(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Minute)
	p.Air.Winds = []WindEntry{{Wind: wind(180, 36), From: 160, Until: 320}}
	e := engine(t, p)
	e.Advance(159)
	assert.Zero(t, e.Snapshot().Truth.Wind.Speed)
	e.Advance(1)
	s := e.Snapshot()
	assert.InDelta(t, 36, s.Truth.Wind.Speed.Knots(), 1e-9)
	assert.InDelta(t, 0, s.Truth.Position.Lat.Degrees(), 1e-12)
	e.Advance(160)
	s = e.Snapshot()
	assert.Zero(t, s.Truth.Wind.Speed)
	assert.InDelta(t, 36*10.0/3600*1852/meridian*180/math.Pi, s.Truth.Position.Lat.Degrees(), 1e-10, "ten seconds of it")
	e.Advance(100)
	assert.InDelta(t, s.Truth.Position.Lat.Degrees(), e.Snapshot().Truth.Position.Lat.Degrees(), 1e-12)
}

// Climbing through a wind that grows with height from nothing to 60 kt, 12
// minutes at 500 ft a minute: half of it, the mean, over a radius that grows
// with height too (its mean by weight of the wind is at two thirds of the climb).
func TestClimbThroughAShear(t *testing.T) {
	p := plan(0, 0, 90, 200, 12*time.Minute)
	low, high, top := 0*units.Foot, 6000*units.Foot, 6000*units.Foot
	p.Air.Winds = []WindEntry{{Wind: wind(180, 0), Base: &low}, {Wind: wind(180, 60), Base: &high}}
	p.Legs[0].Altitude = &top
	e := engine(t, p)
	e.Advance(untilTheEnd)
	s := e.Snapshot()
	metres := 60.0 / 5 / 2 * 1852
	assert.InDelta(t, metres/(meridian+2.0/3*top.Metres())*180/math.Pi, s.Truth.Position.Lat.Degrees(), 2e-8)
	assert.InDelta(t, 60, s.Truth.Groundspeed.Knots()*math.Sin(float64(90*units.Degree-s.Truth.Track)), 1e-6)
}

// From 100 to 160 kt at 1 kt a second is 60 s at a mean of 130 kt; then 160.
func TestSpeedingUp(t *testing.T) {
	p := plan(0, 0, 90, 100, 2*time.Minute)
	p.Pilot = Steady
	p.Legs[0].Speed = &SpeedOrder{HoldTAS, 160 * units.Knot}
	e := engine(t, p)
	e.Advance(TicksOf(time.Minute))
	s := e.Snapshot()
	assert.InDelta(t, 160, s.Truth.TAS.Knots(), 1e-9)
	assert.InDelta(t, 130.0/60*1852/equator*180/math.Pi, s.Truth.Position.Lon.Degrees(), 1e-10)
	assert.InDelta(t, 130.0/60, s.Shown.AirMiles.NM(), 1e-9)
	e.Advance(untilTheEnd)
	assert.InDelta(t, 290.0/60, e.Snapshot().Shown.AirMiles.NM(), 1e-9)
}

// Each leg counts its own air miles; a turn counts as flown, wind does not.
func TestLegsByDistanceCountAfresh(t *testing.T) {
	p := plan(0, 0, 90, 120, time.Minute)
	p.Air.Winds = []WindEntry{{Wind: wind(45, 50)}}
	leg := Leg{Direction: 90 * units.Degree, Distance: 10 * units.NM, TurnRate: 3}
	on := leg
	on.Direction = 200 * units.Degree
	p.Legs = []Leg{leg, on, leg}
	e := engine(t, p)
	e.Advance(untilTheEnd)
	assert.Equal(t, TicksOf(15*time.Minute), e.Tick(), "thirty air miles at 120 kt")
}

// The pilot's repeater hangs on the transmission that feeds the resolver: if it
// reads three too much, the aircraft is flown three too little, and nobody knows.
func TestRepeaterMisleadsThePilot(t *testing.T) {
	for pilot, want := range map[Pilot]float64{Steady: 87, ByInstruments: 87, AsPlanned: 90} {
		p := plan(0, 0, 90, 200, 5*time.Minute)
		p.Pilot = pilot
		e := engine(t, p)
		e.state.Mechanism.Wrong.Heading.Repeater = 3 * units.Degree
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		assert.InDelta(t, want, s.Truth.Heading.Degrees(), 1e-9, "pilot %d", pilot)
		assert.InDelta(t, want+3, s.Shown.Heading.Degrees(), 1e-9, "pilot %d", pilot)
	}
}

// Every stream is drawn once a tick, whether anything looks at it or not.
func TestChanceIsDrawnEachTick(t *testing.T) {
	p := busy()
	e := engine(t, p)
	want := sensor.NewChance(p.Seed)
	require.Equal(t, want, e.State().Chance)
	for range 500 {
		e.Advance(1)
		want.Draw()
		require.Equal(t, want, e.State().Chance)
	}
}

func TestTrackIsACourse(t *testing.T) {
	for _, heading := range []float64{1, 179, 181, 270, 359} {
		e := engine(t, plan(10, 0, heading, 200, time.Minute))
		e.Advance(16)
		assert.InDelta(t, heading, e.Snapshot().Truth.Track.Degrees(), 1e-9)
	}
}

// A mark where a turn ends, at its very tick; a state kept each minute.
func TestMarkAtTheEndOfATurn(t *testing.T) {
	p := plan(0, 0, 0, 200, time.Minute)
	p.Legs = append(p.Legs, Leg{Direction: 42 * units.Degree, Ticks: TicksOf(3 * time.Minute), TurnRate: 3})
	e := engine(t, p)
	e.Advance(untilTheEnd)
	var at []time.Duration
	for _, m := range e.View().Marks {
		if m.Event == aboard.TurnEnded {
			at = append(at, m.Elapsed)
		}
	}
	assert.Contains(t, at, 74*time.Second, "42 degrees at 3 a second, begun at 60 s")
	assert.Len(t, e.frames, 5, "0 to 4 minutes")
}

// What the crew see of the ground is the ground's, and the marker is a thing of
// its own.
func TestViewOfTheGround(t *testing.T) {
	p := plan(0, 0, 90, 120, time.Hour)
	p.Setting.Wind = wind(180, 30)
	e := engine(t, p)
	e.state.Mechanism.Wrong.Ground.Marker.North = 5
	e.Advance(untilTheEnd)
	v := e.View()
	assert.Equal(t, "N 00 00.0", v.AirCounters.Latitude.Arc())
	assert.Equal(t, "N 00 30.0", v.GroundCounters.Latitude.Arc())
	assert.Equal(t, "E 002 00.0", v.AirCounters.Longitude.Arc())
	assert.InDelta(t, 5, (v.Marker.Lat - v.Ground.Lat).Minutes(), 1e-9)
	assert.InDelta(t, 5, (e.Snapshot().Shown.Marker.Lat - v.Ground.Lat).Minutes(), 1e-9)
}

// In the plotted design the time since the reset counts, and no other.
func TestPlottedAfterAReset(t *testing.T) {
	p := plan(0, 0, 90, 120, time.Hour)
	p.Mechanism.Ground, p.Setting.Wind = ground.Plotted, wind(180, 30)
	p.Crew = []Command{{Tick: TicksOf(20 * time.Minute), Action: aboard.Action{Kind: aboard.SetCounters, Position: units.At(10, 20)}}}
	e := engine(t, p)
	e.Advance(untilTheEnd)
	assert.InDelta(t, 10+20.0/60, units.Position(e.Snapshot().Shown.Ground).Lat.Degrees(), 1e-9, "40 minutes at 30 kt")
}
