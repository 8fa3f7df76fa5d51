package geodesy

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

// The slow twins: the definitions as integrals, by Gauss-Legendre quadrature of
// order 5 on many panels, against the series and closed forms of the package.

// integral of f over [a, b] on n panels.
func integral(f func(float64) float64, a, b float64, n int) float64 {
	// nodes and weights: Abramowitz & Stegun table 25.4, n = 5
	x := [3]float64{0, 0.5384693101056831, 0.9061798459386640}
	w := [3]float64{0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
	h, total := (b-a)/float64(n), 0.0
	for i := range n {
		mid := a + (float64(i)+0.5)*h
		panel := w[0] * f(mid)
		for j := 1; j < 3; j++ {
			panel += w[j] * (f(mid+x[j]*h/2) + f(mid-x[j]*h/2))
		}
		total += panel * h / 2
	}
	return total
}

const (
	slowA  = 6378137.0
	slowF  = 1 / 298.257223563
	slowE2 = slowF * (2 - slowF)
)

func slowM(phi float64) float64 {
	return slowA * (1 - slowE2) / math.Pow(1-slowE2*squared(math.Sin(phi)), 1.5)
}

func slowN(phi float64) float64 { return slowA / math.Sqrt(1-slowE2*squared(math.Sin(phi))) }

func TestMeridianArcIsTheIntegralOfM(t *testing.T) {
	for lat := -90.0; lat <= 90; lat += 2.5 {
		phi := units.Angle(lat) * units.Degree
		slow := integral(slowM, 0, phi.Radians(), 64)
		assert.InDelta(t, slow, MeridianArc(phi).Metres(), 1e-8, lat)
		assert.InDelta(t, lat, LatitudeOfArc(units.Length(slow)).Degrees(), 1e-13*90, lat)
	}
}

func TestIsometricLatitudeIsTheIntegralOfMOverNCos(t *testing.T) {
	density := func(phi float64) float64 { return slowM(phi) / (slowN(phi) * math.Cos(phi)) }
	for lat := -85.0; lat <= 85; lat += 2.5 {
		phi := units.Angle(lat) * units.Degree
		slow := integral(density, 0, phi.Radians(), 4096)
		assert.InDelta(t, slow, IsometricLatitude(phi), 1e-13, lat)
		assert.InDelta(t, lat, LatitudeOfIsometric(slow).Degrees(), 1e-11, lat)
	}
}

// TestRhumbLineStepped flies a rhumb line by its equations of motion (physics
// note 4.1), by the classical Runge-Kutta method; the longitude needs the
// latitude only, so one quadrature over the run does it.
func TestRhumbLineStepped(t *testing.T) {
	for _, l := range [][4]float64{{50, 10, 77, 2e6}, {-47, 178, 91, 5e6}, {-30, -170, 359, 8e6}, {5, 0, 200, 3e6}} {
		sinC, cosC := math.Sincos(l[2] * math.Pi / 180)
		const steps = 4000
		h := l[3] / steps
		phi, lambda := l[0]*math.Pi/180, l[1]*math.Pi/180
		east := func(phi float64) float64 { return sinC / (slowN(phi) * math.Cos(phi)) }
		for range steps {
			k1 := cosC / slowM(phi)
			k2 := cosC / slowM(phi+h/2*k1)
			k3 := cosC / slowM(phi+h/2*k2)
			k4 := cosC / slowM(phi+h*k3)
			next := phi + h/6*(k1+2*k2+2*k3+k4)
			lambda += h / 6 * (east(phi) + 4*east(phi+h/2*k2) + east(next))
			phi = next
		}
		lat, lon, err := RhumbDirectDegrees(l[0], l[1], l[2], l[3])
		assert.NoError(t, err)
		assert.InDelta(t, phi*180/math.Pi, lat, 1e-11, l)
		assertBearing(t, lambda*180/math.Pi, lon, 1e-10, l)
	}
}
