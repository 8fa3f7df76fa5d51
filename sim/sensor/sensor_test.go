package sensor

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

// 287.7 kt true at 10 000 ft and -6.72 C: p 20.577 inHg, qc 3.1001 inHg
// (Aviation Formulary V1.46, worked example; half a digit of the speed is
// 0.0011 inHg of qc).
func TestPressures(t *testing.T) {
	in := Feel(&World{TAS: 287.7 * units.Knot, Height: 10000 * units.Foot, Temperature: units.Celsius(-6.72)})
	assert.InDelta(t, 20.577, in.Air.Static.InchesOfMercury(), 0.0005)
	assert.InDelta(t, 3.1001, (in.Air.Pitot - in.Air.Static).InchesOfMercury(), 0.0012)
	assert.InDelta(t, -6.72, in.Air.Temperature.Celsius(), 1e-9)
}

// Variation east, magnetic least; the compass has no deviation yet.
func TestCompass(t *testing.T) {
	for _, c := range []struct{ heading, variation, compass float64 }{
		{90, 15, 75}, {5, 22, 343}, {350, -20, 10}, {0, 0, 0},
	} {
		in := Feel(&World{
			TAS: 200 * units.Knot, Temperature: 288.15,
			Heading:   units.TrueHeading(units.Angle(c.heading) * units.Degree),
			Variation: units.Variation(units.Angle(c.variation) * units.Degree),
		})
		assert.InDelta(t, c.compass, in.Compass.Degrees(), 1e-9)
	}
}

// A stream of one instrument is its own, and the same for the same seed.
func TestChance(t *testing.T) {
	a, b, other := NewChance(7), NewChance(7), NewChance(8)
	assert.Equal(t, a, b)
	assert.NotEqual(t, a, other)
	assert.NotEqual(t, a.Pitot, a.Static)
	assert.NotEqual(t, a.Thermometer, a.Compass)
	before := a
	a.Draw()
	assert.NotEqual(t, before.Pitot, a.Pitot)
	assert.NotEqual(t, before.Static, a.Static)
	assert.NotEqual(t, before.Thermometer, a.Thermometer)
	assert.NotEqual(t, before.Compass, a.Compass)
}
