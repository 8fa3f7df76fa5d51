package sealed

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// plan is an hour with a turn, a climb and a change of speed.
func plan() *sim.Plan {
	feet := units.Length(12000) * units.Foot
	climb := units.Speed(500*units.Foot) / 60
	slower := sim.SpeedOrder{Kind: sim.HoldTAS, Speed: 160 * units.Knot}
	return &sim.Plan{
		Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Seed: 3,
		Aircraft: sim.Aircraft{
			Position: units.Position{Lat: -47 * units.Degree, Lon: 178 * units.Degree}, Heading: units.TrueHeading(60 * units.Degree),
			PressureAltitude: 8000 * units.Foot, Speed: sim.SpeedOrder{Kind: sim.HoldTAS, Speed: 190 * units.Knot},
		},
		Air:     sim.Air{QNH: 1013.25 * units.Hectopascal, Winds: []sim.WindEntry{{Wind: units.Wind{From: 270 * units.Degree, Speed: 25 * units.Knot}}}},
		Setting: sim.Setting{Wind: units.Wind{From: 270 * units.Degree, Speed: 25 * units.Knot}},
		Legs: []sim.Leg{
			{Direction: 60 * units.Degree, Ticks: sim.TicksOf(30 * time.Minute), TurnRate: 3, Climb: climb},
			{Direction: 130 * units.Degree, Ticks: sim.TicksOf(30 * time.Minute), TurnRate: 3, Altitude: &feet, Speed: &slower, Climb: climb},
		},
	}
}

func TestKindsAreOfTheCatalogue(t *testing.T) {
	for _, k := range kinds {
		e, ok := fault.Lookup(k.id)
		require.True(t, ok, k.id)
		assert.Empty(t, e.Refusal(), k.id)
		for _, sp := range k.spans {
			i, ok := e.Param(sp.name)
			require.True(t, ok, "%s %s", k.id, sp.name)
			assert.NoError(t, e.Params[i].Check(sp.lo), k.id)
			assert.NoError(t, e.Params[i].Check(sp.hi), k.id)
		}
		_, trains := e.Param("train")
		assert.True(t, trains || !k.train, k.id)
	}
}

// Whatever seed: a fault or two, of different links, each of which some dial tells of.
func TestWhatIsDrawnIsSeen(t *testing.T) {
	p := plan()
	two := 0
	drawn := map[string]int{}
	for seed := range uint64(24) {
		orders, err := Draw(p, seed)
		require.NoError(t, err)
		require.NotEmpty(t, orders)
		links := map[string]bool{}
		for _, o := range orders {
			require.NoError(t, o.Check())
			e, _ := fault.Lookup(o.ID)
			links[e.Link] = true
			dials, err := Seen(p, o)
			require.NoError(t, err)
			assert.NotEmpty(t, dials, "%v", o)
			drawn[o.ID]++
			at := sim.TimeOf(o.At)
			assert.True(t, at >= 7*time.Minute && at <= 28*time.Minute, "%v", at)
		}
		assert.Len(t, links, len(orders))
		if len(orders) == 2 {
			two++
		}
	}
	assert.True(t, two > 3 && two < 18, "%d of 24 with two", two)
	assert.Greater(t, len(drawn), 9, "%v", drawn)
}

// No dial tells of a deviation of the compass while the pilot holds the heading shown.
func TestWhatNoDialTellsIsNotSeen(t *testing.T) {
	e, _ := fault.Lookup("compass-deviation")
	params := e.Defaults()
	params[0] = 8
	dials, err := Seen(plan(), fault.Order{ID: "compass-deviation", Params: params})
	require.NoError(t, err)
	assert.Empty(t, dials)
}

func TestThePlanIsNotTouched(t *testing.T) {
	p := plan()
	_, err := Draw(p, 1)
	require.NoError(t, err)
	assert.Empty(t, p.Faults)
}
