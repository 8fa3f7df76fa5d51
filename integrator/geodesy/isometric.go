package geodesy

import (
	"math"

	"stillair/integrator/units"
)

// IsometricLatitude is psi = asinh(tan phi) - e atanh(e sin phi), in units of
// the radian of the equator; infinite at the poles.
func IsometricLatitude(lat units.Angle) float64 {
	phi := lat.Radians()
	if math.Abs(phi) >= math.Pi/2 {
		if math.Abs(phi) > math.Pi/2*(1+1e-15) {
			return math.NaN()
		}
		return math.Inf(int(math.Copysign(1, phi)))
	}
	return isometric(math.Tan(phi), math.Sin(phi))
}

func isometric(tan, sin float64) float64 {
	return math.Asinh(tan) - eccentricity*math.Atanh(eccentricity*sin)
}

// LatitudeOfIsometric is the inverse of IsometricLatitude.
func LatitudeOfIsometric(psi float64) units.Angle {
	if math.Abs(psi) > 350 { // the pole, and sinh would overflow
		return units.Angle(math.Copysign(math.Pi/2, psi))
	}
	// Newton's method on t = tan phi for sinh(psi) = t', the tangent of the
	// conformal latitude (Karney, Transverse Mercator, J. Geodesy 85 (2011),
	// eqs. 7-9, 19-21); it doubles its digits, and three rounds are enough for
	// an ellipsoid as round as the earth.
	conformal := math.Sinh(psi)
	t := conformal / (1 - e2)
	for range 4 {
		secant := math.Hypot(1, t)
		sigma := math.Sinh(eccentricity * math.Atanh(eccentricity*t/secant))
		at := t*math.Hypot(1, sigma) - sigma*secant
		step := (conformal - at) / math.Hypot(1, at) *
			(1 + (1-e2)*t*t) / ((1 - e2) * secant)
		t += step
		if math.Abs(step) <= 1e-9*math.Max(1, math.Abs(t)) {
			break
		}
	}
	return units.Angle(math.Atan(t))
}

// MeridionalParts is the distance of a parallel from the equator on a Mercator
// chart in minutes of longitude: psi x 10800/pi.
func MeridionalParts(lat units.Angle) float64 {
	return IsometricLatitude(lat) * (10800 / math.Pi)
}
