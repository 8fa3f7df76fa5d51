package sim

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Each knob turns what it is the knob of, and leaves its own event behind.
func TestEveryKnob(t *testing.T) {
	e := engine(t, plan(0, 10, 90, 120, time.Hour))
	e.Advance(160)
	before := e.Snapshot()
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SlewLongitude, Slew: 7 * units.ArcMinute}))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SlewLatitude, Slew: -2 * units.ArcMinute}))
	after := e.Snapshot()
	assert.InDelta(t, 7, (units.Position(after.Shown.Air).Lon - units.Position(before.Shown.Air).Lon).Minutes(), 1e-9)
	assert.InDelta(t, -2, (units.Position(after.Shown.Air).Lat - units.Position(before.Shown.Air).Lat).Minutes(), 1e-9)
	assert.Equal(t, before.Shown.Ground, after.Shown.Ground)
	assert.Equal(t, before.Truth, after.Truth)
	assert.Equal(t, before.Shown.North, after.Shown.North, "the shafts' counts stay")

	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetVariation, Variation: 0.2}))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.FollowField}))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(1, 2)}))
	var events []aboard.Event
	for _, m := range e.View().Marks[len(e.View().Marks)-5:] {
		events = append(events, m.Event)
	}
	assert.Equal(t, []aboard.Event{aboard.CountersSet, aboard.CountersSet, aboard.VarSet, aboard.VarSet, aboard.WindSet}, events)
}

// The lever design starts with the lever where the longitude is, and the lever
// thrown in flight mirrors the reading to come.
func TestLeverInFlight(t *testing.T) {
	for lon, east := range map[float64]bool{179.75: true, -0.25: false} {
		p := plan(0, lon, 90, 60, time.Hour)
		p.Mechanism.Longitude = integrator.HemisphereLever
		p.Crew = []Command{{Tick: TicksOf(15 * time.Minute), Action: aboard.Action{Kind: aboard.SetLongitudeLever, East: !east}}}
		e := engine(t, p)
		assert.Equal(t, east, e.View().LeverEast)
		e.Advance(TicksOf(20 * time.Minute))
		assert.Equal(t, !east, e.View().LeverEast)
		want := map[bool]string{true: "W 179 55.0", false: "E 000 05.0"}[east]
		assert.Equal(t, want, e.View().AirCounters.Longitude.Arc(), "five minutes on, and the lever in time")
	}
}

func TestEastwardCounter(t *testing.T) {
	p := plan(0, -10.5, 90, 60, time.Minute)
	p.Mechanism.Longitude = integrator.East360
	v := engine(t, p).View()
	assert.Equal(t, "349 30.0", v.AirCounters.Longitude.Arc())
	assert.Equal(t, "349 30.0", v.GroundCounters.Longitude.Arc())
}

// As planned a new speed is there with the leg; by any other pilot in its time.
func TestSpeedAtOnceAsPlanned(t *testing.T) {
	for pilot, want := range map[Pilot]float64{AsPlanned: 180, Steady: 120 + 1.0/16, ByInstruments: 120 + 1.0/16} {
		p := plan(0, 0, 90, 120, time.Minute)
		p.Pilot = pilot
		p.Legs = append(p.Legs, Leg{Direction: 90 * units.Degree, Ticks: 160, Speed: &SpeedOrder{HoldTAS, 180 * units.Knot}})
		e := engine(t, p)
		e.Advance(TicksOf(time.Minute))
		assert.InDelta(t, 2, e.Snapshot().Shown.AirMiles.NM(), 1e-9)
		e.Advance(1)
		assert.InDelta(t, want, e.Snapshot().Truth.TAS.Knots(), 1e-6, "pilot %d", pilot)
		if pilot == AsPlanned {
			assert.InDelta(t, 2+180.0/3600/16, e.Snapshot().Shown.AirMiles.NM(), 1e-12, "from the first tick")
		}
	}
}

func TestDescent(t *testing.T) {
	p := plan(0, 0, 90, 120, 10*time.Minute)
	p.Aircraft.PressureAltitude = 5000 * units.Foot
	down := 3000 * units.Foot
	p.Legs[0].Altitude = &down
	e := engine(t, p)
	e.Advance(TicksOf(time.Minute))
	assert.InDelta(t, -500, e.View().VerticalSpeed.MetresPerSecond()*60/0.3048, 1e-9, "feet a minute")
	assert.InDelta(t, 4500, e.Snapshot().Truth.Height.Feet(), 1e-6)
	e.Advance(untilTheEnd)
	assert.InDelta(t, 3000, e.Snapshot().Truth.Height.Feet(), 1e-9)
	assert.Zero(t, e.View().VerticalSpeed)
}

// Many commands of one tick keep their order, and there is nothing before 0.
func TestOrderAndTheBeginning(t *testing.T) {
	p := plan(0, 0, 90, 120, time.Minute)
	for i := range 40 {
		p.Crew = append(p.Crew, Command{Tick: int64(100 - i%2*50), Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(1, float64(i))}})
	}
	e := engine(t, p)
	e.Advance(51)
	assert.InDelta(t, 39, e.Snapshot().Shown.Wind.Speed.Knots(), 1e-9)
	e.Advance(50)
	assert.InDelta(t, 38, e.Snapshot().Shown.Wind.Speed.Knots(), 1e-9)
	for i, c := range e.Commands() {
		assert.InDelta(t, float64((i*2+1)%40-i/20), c.Action.Wind.Speed.Knots(), 1e-9, "%d", i)
	}
	e.GoTo(-5)
	assert.Zero(t, e.Tick())
	assert.Equal(t, engine(t, p).Hash(), e.Hash())
}

// The part of a tick left over belongs to the time before a pause.
func TestPauseDropsThePartOfATick(t *testing.T) {
	p, now := Pacer{Rate: 1}, time.Unix(0, 0)
	p.Ticks(now)
	now = now.Add(60 * time.Millisecond)
	require.Zero(t, p.Ticks(now))
	p.Pause()
	p.Ticks(now)
	assert.Zero(t, p.Ticks(now.Add(10*time.Millisecond)))
}
