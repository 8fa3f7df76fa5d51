package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// The edges of the four wraps, worked by hand: the interval includes its lower
// end and excludes its upper one, and nought is always +0.

var (
	negZero = math.Copysign(0, -1)
	inf     = math.Inf(1)
	nan     = math.NaN()
)

// sameBits checks a value including the sign of nought.
func sameBits(t *testing.T, want, got float64, what string, in float64) {
	t.Helper()
	assert.Equal(t, math.Float64bits(want), math.Float64bits(got), "%s(%v) = %v, want %v", what, in, got, want)
}

func TestWrapDegreesEdges(t *testing.T) {
	for in, want := range map[float64]float64{
		0: 0, 180: 180, 359.5: 359.5, 360: 0, 720: 0, -360: 0, -180: 180, 540: 180,
		-1e-20: 0, -1e-300: 0, -0.5: 359.5, 3600359: 359, -90: 270,
		math.Nextafter(360, 0): math.Nextafter(360, 0), math.Nextafter(360, 361): math.Nextafter(360, 361) - 360,
	} {
		sameBits(t, want, units.WrapDegrees(in), "WrapDegrees", in)
	}
	sameBits(t, 0, units.WrapDegrees(negZero), "WrapDegrees", negZero)
}

func TestWrapHalfDegreesEdges(t *testing.T) {
	for in, want := range map[float64]float64{
		0: 0, 90: 90, -90: -90, 180: -180, -180: -180, 360: 0, -360: 0, 540: -180, -540: -180,
		181.5: -178.5, -181.5: 178.5, -1e-20: -1e-20, 720.25: 0.25,
		math.Nextafter(180, 0): math.Nextafter(180, 0),
	} {
		sameBits(t, want, units.WrapHalfDegrees(in), "WrapHalfDegrees", in)
	}
	sameBits(t, 0, units.WrapHalfDegrees(negZero), "WrapHalfDegrees", negZero)
}

func TestWrapEdges(t *testing.T) {
	for in, want := range map[float64]float64{
		0: 0, math.Pi: math.Pi, 2 * math.Pi: 0, -2 * math.Pi: 0, 4 * math.Pi: 0,
		-math.Pi: math.Pi, -1e-20: 0, math.Nextafter(2*math.Pi, 0): math.Nextafter(2*math.Pi, 0),
	} {
		sameBits(t, want, float64(units.Wrap(units.Angle(in))), "Wrap", in)
	}
	sameBits(t, 0, float64(units.Wrap(units.Angle(negZero))), "Wrap", negZero)
	sameBits(t, 0, float64(units.Wrap(360*units.Degree)), "Wrap", 2*math.Pi)
}

func TestWrapHalfEdges(t *testing.T) {
	for in, want := range map[float64]float64{
		0: 0, math.Pi / 2: math.Pi / 2, math.Pi: -math.Pi, -math.Pi: -math.Pi,
		2 * math.Pi: 0, -2 * math.Pi: 0, 4 * math.Pi: 0, -1e-20: -1e-20,
		math.Nextafter(math.Pi, 0): math.Nextafter(math.Pi, 0),
	} {
		sameBits(t, want, float64(units.WrapHalf(units.Angle(in))), "WrapHalf", in)
	}
	sameBits(t, 0, float64(units.WrapHalf(units.Angle(negZero))), "WrapHalf", negZero)
	sameBits(t, -math.Pi, float64(units.WrapHalf(180*units.Degree)), "WrapHalf", math.Pi)
	sameBits(t, -math.Pi, float64(units.WrapHalf(-180*units.Degree)), "WrapHalf", -math.Pi)
}

func TestWrapsOfNoNumber(t *testing.T) {
	for _, in := range []float64{nan, inf, -inf} {
		assert.True(t, math.IsNaN(units.WrapDegrees(in)), "WrapDegrees(%v)", in)
		assert.True(t, math.IsNaN(units.WrapHalfDegrees(in)), "WrapHalfDegrees(%v)", in)
		assert.True(t, math.IsNaN(float64(units.Wrap(units.Angle(in)))), "Wrap(%v)", in)
		assert.True(t, math.IsNaN(float64(units.WrapHalf(units.Angle(in)))), "WrapHalf(%v)", in)
	}
}

// Whatever goes in, the result lies in the interval and is the same direction.
func TestWrapsKeepTheDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-1e4, 1e4).Draw(t, "a")
		w, h := float64(units.Wrap(units.Angle(a))), float64(units.WrapHalf(units.Angle(a)))
		if !(w >= 0 && w < 2*math.Pi) || !(h >= -math.Pi && h < math.Pi) {
			t.Fatalf("out of the interval: %v, %v", w, h)
		}
		for _, x := range []float64{w, h} {
			if math.Abs(math.Sin(x)-math.Sin(a)) > 1e-11 || math.Abs(math.Cos(x)-math.Cos(a)) > 1e-11 {
				t.Fatalf("%v became %v", a, x)
			}
		}
	})
}

// Steps of a degree across the date line and through north, in whole degrees.
func TestWrapsStayWhole(t *testing.T) {
	for d := -1080.0; d <= 1080; d++ {
		w, h := units.WrapDegrees(d), units.WrapHalfDegrees(d)
		assert.Equal(t, math.Trunc(w), w)
		assert.True(t, w >= 0 && w < 360, "%v", w)
		assert.True(t, h >= -180 && h < 180, "%v", h)
		assert.Zero(t, math.Mod(w-h, 360))
		assert.Zero(t, math.Mod(w-d, 360))
	}
}
