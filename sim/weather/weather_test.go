package weather

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

func blow(from, kt, feet float64, begin, end int64) Entry {
	h := units.Length(feet) * units.Foot
	return Entry{units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(kt) * units.Knot}, &h, begin, end}
}

func knots(a *Air, tick int64, feet float64) (north, east float64) {
	n, e := a.Wind(tick, feet*0.3048)
	return units.Speed(n).Knots(), units.Speed(e).Knots()
}

// Between levels the wind is linear in height as a vector, beyond them it is
// that of the nearest level.
func TestLayers(t *testing.T) {
	a := New(0, []Entry{blow(360, 40, 10000, 0, 0), blow(270, 20, 2000, 0, 0)})
	for feet, want := range map[float64][2]float64{
		0: {0, 20}, 2000: {0, 20}, 6000: {-20, 10}, 10000: {-40, 0}, 30000: {-40, 0},
	} {
		n, e := knots(a, 5, feet)
		assert.InDelta(t, want[0], n, 1e-9, "%v ft", feet)
		assert.InDelta(t, want[1], e, 1e-9, "%v ft", feet)
	}
}

// A block acts while from <= tick < until; time without a wind is calm.
func TestBlocks(t *testing.T) {
	first, second := blow(180, 30, 0, 100, 200), blow(90, 10, 0, 200, 0)
	first.Base, second.Base = nil, nil
	a := New(0, []Entry{second, first})
	for tick, want := range map[int64][2]float64{0: {0, 0}, 99: {0, 0}, 100: {30, 0}, 199: {30, 0}, 200: {0, -10}, 1 << 40: {0, -10}} {
		n, e := knots(a, tick, 5000)
		assert.InDelta(t, want[0], n, 1e-9, "tick %d", tick)
		assert.InDelta(t, want[1], e, 1e-9, "tick %d", tick)
	}
	n, e := knots(New(0, nil), 7, 0)
	assert.Zero(t, n)
	assert.Zero(t, e)
}

func TestTemperature(t *testing.T) {
	h := 8000 * units.Foot
	assert.InDelta(t, isa.Temperature(h).Kelvins()+12.5, New(12.5, nil).Temperature(h).Kelvins(), 1e-9)
}

// The departure comes on top of the entries, stretch by stretch, the last to the
// end; the weather it was taken from goes on without.
func TestDeparture(t *testing.T) {
	plain := New(0, []Entry{blow(180, 30, 0, 0, 0)})
	a := plain.With(Departure{Every: 100, Vectors: []Vector{{2 * units.Knot, 0}, {0, -3 * units.Knot}}})
	for tick, want := range map[int64][2]float64{0: {32, 0}, 99: {32, 0}, 100: {30, -3}, 250: {30, -3}, 1 << 40: {30, -3}} {
		n, e := knots(a, tick, 5000)
		assert.InDelta(t, want[0], n, 1e-9, "tick %d", tick)
		assert.InDelta(t, want[1], e, 1e-9, "tick %d", tick)
	}
	n, e := knots(plain, 0, 5000)
	assert.InDelta(t, 30, n, 1e-9)
	assert.InDelta(t, 0, e, 1e-9)
}

// A change blows from its tick on, until the next; what was before it stays, and the
// weather it was taken from goes on without.
func TestChanges(t *testing.T) {
	plain := New(0, []Entry{blow(180, 30, 0, 0, 500)})
	of := func(from, kt float64) units.Wind {
		return units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(kt) * units.Knot}
	}
	a := plain.Changed([]Change{{100, of(90, 10)}, {200, of(90, 10)}, {200, of(360, 20)}, {700, of(180, 5)}})
	for tick, want := range map[int64][2]float64{0: {30, 0}, 99: {30, 0}, 100: {0, -10}, 199: {0, -10}, 200: {-20, 0}, 600: {-20, 0}, 1 << 40: {5, 0}} {
		n, e := knots(a, tick, 5000)
		assert.InDelta(t, want[0], n, 1e-9, "tick %d", tick)
		assert.InDelta(t, want[1], e, 1e-9, "tick %d", tick)
	}
	n, _ := knots(plain, 300, 5000)
	assert.InDelta(t, 30, n, 1e-9)
}
