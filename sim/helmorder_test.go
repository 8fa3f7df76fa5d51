package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

func wanted(heading, kt, from, windKt float64) HelmOrder {
	return HelmOrder{
		Heading: units.TrueHeading(units.Angle(heading) * units.Degree), TAS: units.Speed(kt) * units.Knot,
		Wind: units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(windKt) * units.Knot},
	}
}

// helmFlight is a calm flight of one long leg due north from the equator.
func helmFlight(t *testing.T) *Engine {
	t.Helper()
	none := units.Variation(0)
	speed := SpeedOrder{HoldTAS, 180 * units.Knot}
	e, err := New(&Plan{
		Seed: 3, Pilot: Steady, Field: &none,
		Aircraft: Aircraft{Position: units.At(0, 10), PressureAltitude: 8000 * units.Foot, Speed: speed},
		Legs:     []Leg{{Steer: HeadingTrue, Ticks: 48 * 3600 * TicksPerSecond}},
	})
	require.NoError(t, err)
	return e
}

// Closed form: half an hour due east at 200 kt in a wind from the north of 40 kt is
// 100 NM of air to the east and 20 NM of wind to the south. Turn rate 0 turns at once;
// the 20 kt of speed take 20 s, over which 10 kt are missing in the mean: 0.056 NM.
// The wind comes a tick late (0.0007 NM), and the first tick is still the leg's: 180 kt
// north, 0.0031 NM. WGS-84 at the equator: radii of curvature 6378137 m and 6335439 m
// (closed form of the ellipsoid), and 8000 ft more.
func TestAnOrderOfTheHelmIsFlown(t *testing.T) {
	e := helmFlight(t)
	require.NoError(t, e.Steer(wanted(90, 200, 0, 40)))
	e.Advance(1800 * TicksPerSecond)
	p := e.Snapshot().Truth
	const arcMinute, height = math.Pi / 10800, 2438.4
	assert.InDelta(t, (100-0.0556)*1852/(6378137+height)/arcMinute, (p.Position.Lon - 10*units.Degree).Minutes(), 0.002, "east")
	assert.InDelta(t, (0.0031+0.0007-20)*1852/(6335439+height)/arcMinute, p.Position.Lat.Minutes(), 0.001, "south")
	assert.InDelta(t, 40, p.Wind.Speed.Knots(), 1e-9)
	assert.InDelta(t, 200, p.TAS.Knots(), 1e-9)
	assert.InDelta(t, 90, p.Heading.Degrees(), 1e-9)
}

// The same orders give the same flight whether it is flown through, gone back in and
// flown again, forked, or followed by a twin that lacks nothing.
func TestOrdersOfTheHelmAreRepeated(t *testing.T) {
	e := helmFlight(t)
	for i := range 40 {
		e.Advance(int64(1 + 37*i))
		require.NoError(t, e.Steer(wanted(float64(i*31%360), 100+float64(i), float64(i*77%360), float64(i))))
		if i%3 == 0 { // the last of one tick remains
			require.NoError(t, e.Steer(wanted(float64(i*13%360), 150, 270, 20)))
		}
	}
	e.Advance(1000)
	want, at := e.Hash(), e.Tick()
	e.GoTo(0)
	e.GoTo(at)
	assert.Equal(t, want, e.Hash(), "flown again")
	assert.Equal(t, want, e.Fork().state.Hash(), "forked")
	twin, err := e.Twin(Twin{})
	require.NoError(t, err)
	twin.GoTo(at)
	assert.Equal(t, want, twin.Hash(), "twin")
	other := helmFlight(t)
	for _, c := range e.Given() {
		other.GoTo(c.Tick)
		require.NoError(t, other.Give(c))
	}
	other.GoTo(at)
	assert.Equal(t, want, other.Hash(), "given again")
	require.NoError(t, e.TakeBack(500))
	assert.Less(t, len(e.Given()), 20)
	last := e.Given()[len(e.Given())-1].Helm
	e.Advance(100)
	assert.InDelta(t, last.Wind.Speed.Knots(), e.Snapshot().Truth.Wind.Speed.Knots(), 1e-9, "later winds are dropped")
}

func TestOrdersThatNoFlightCouldHave(t *testing.T) {
	e := helmFlight(t)
	for _, o := range []HelmOrder{
		wanted(0, 39.9, 0, 0), wanted(0, 450.1, 0, 0), wanted(0, math.NaN(), 0, 0), wanted(0, 180, 0, -1), wanted(0, 180, 0, 250.1),
		wanted(0, 180, 0, math.NaN()), wanted(math.NaN(), 180, 0, 0), wanted(0, 180, math.Inf(1), 0),
	} {
		assert.Error(t, e.Steer(o), "%+v", o)
	}
	assert.Empty(t, e.Given())
	require.NoError(t, e.Steer(wanted(720, 450, -90, 250)), "directions go round")
}
