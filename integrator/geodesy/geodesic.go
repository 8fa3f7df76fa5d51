package geodesy

import (
	"math"

	"stillair/integrator/units"
)

// GeodesicInverse finds the shortest line from a to b: its azimuths at both
// ends, both in the direction of travel, and its length.
func GeodesicInverse(a, b units.Position) (azimuth1, azimuth2 units.Angle, distance units.Length) {
	lat1, lon1 := degrees(a)
	lat2, lon2 := degrees(b)
	z1, z2, s := GeodesicInverseDegrees(lat1, lon1, lat2, lon2)
	return units.Angle(z1) * units.Degree, units.Angle(z2) * units.Degree, units.Length(s)
}

// Distance is the length of the geodesic between two positions.
func Distance(a, b units.Position) units.Length {
	_, _, d := GeodesicInverse(a, b)
	return d
}

// GeodesicDirect finds where the geodesic from a ends, and its azimuth there. A
// negative distance runs backwards.
func GeodesicDirect(a units.Position, azimuth units.Angle, distance units.Length) (units.Position, units.Angle) {
	lat1, lon1 := degrees(a)
	lat2, lon2, z2 := GeodesicDirectDegrees(lat1, lon1, azimuth.Degrees(), distance.Metres())
	return units.At(lat2, lon2), units.Angle(z2) * units.Degree
}

// GeodesicDirectDegrees is GeodesicDirect in degrees and metres.
func GeodesicDirectDegrees(lat1, lon1, azimuth1, metres float64) (lat2, lon2, azimuth2 float64) {
	if !valid(lat1, lon1) || !valid(0, azimuth1) || !valid(0, metres) {
		return math.NaN(), math.NaN(), math.NaN()
	}
	beta1 := reduced(settle(lat1))
	var alpha1 direction
	alpha1.sin, alpha1.cos = SinCosDegrees(settle(azimuth1))
	nd := nodeOf(alpha1, beta1)
	sigma1, omega1 := nd.onSphere(alpha1, beta1)

	dSigma := nd.arc(sigma1, metres)
	s, c := math.Sincos(dSigma)
	sigma2 := direction{sigma1.sin*c + sigma1.cos*s, sigma1.cos*c - sigma1.sin*s}
	sinBeta2 := nd.alpha0.cos * sigma2.sin
	cosBeta2 := math.Max(math.Hypot(nd.alpha0.sin, nd.alpha0.cos*sigma2.cos), smallest)
	omega2 := direction{nd.alpha0.sin * sigma2.sin, sigma2.cos}

	dOmega := math.Atan2(omega2.minus(omega1))
	dLon := (dOmega - nd.longitude(sigma1, sigma2, dSigma)) / perDegree
	return math.Atan2(sinBeta2, (1-flattening)*cosBeta2) / perDegree,
		units.WrapHalfDegrees(units.WrapHalfDegrees(lon1) + dLon),
		bearingDegrees(nd.alpha0.sin, nd.alpha0.cos*sigma2.cos)
}

// arc is the arc that a length from a point makes, the inverse of metres.
func (nd node) arc(from direction, metres float64) float64 {
	c1, back := seriesC1(nd.eps), seriesC1Inverse(nd.eps)
	b1 := c1.sum(from.sin, from.cos)
	dTau := metres / (polarRadius * (1 + seriesA1(nd.eps)))
	s, c := math.Sincos(from.angle() + b1 + dTau)
	return dTau + back.sum(s, c) + b1
}

// settle rounds angles next to 0 to a grid of 1.4e-17 degrees, so that nothing
// underflows; see Karney's AngRound for the trick.
func settle(d float64) float64 {
	const grid = 1. / 16
	size := math.Abs(d)
	if size < grid {
		size = grid - (grid - size)
	}
	return math.Copysign(size, d)
}

// GeodesicInverseDegrees is GeodesicInverse in degrees and metres.
func GeodesicInverseDegrees(lat1, lon1, lat2, lon2 float64) (azimuth1, azimuth2, metres float64) {
	if !valid(lat1, lon1) || !valid(lat2, lon2) {
		return math.NaN(), math.NaN(), math.NaN()
	}
	lat1, lat2 = settle(lat1), settle(lat2)
	dLon := settle(lonDifference(lon1, lon2))
	east, north := math.Copysign(1, dLon), 1.0
	// Mirrored and turned about, every pair becomes one with the first point
	// in the south, at least as far from the equator as the second, and the
	// second eastward: lat1 <= 0, lat1 <= lat2 <= -lat1, 0 <= dLon <= 180.
	swap := math.Abs(lat1) < math.Abs(lat2)
	if swap {
		lat1, lat2 = lat2, lat1
	}
	if lat1 >= 0 {
		lat1, lat2, north = -lat1, -lat2, -1
	}
	alpha1, alpha2, metres := solve(lat1, lat2, math.Abs(dLon))
	if swap { // the line run backwards, its mirror image in the meridian
		alpha1, alpha2, north = alpha2, alpha1, -north
	}
	return bearingDegrees(alpha1.sin*east, alpha1.cos*north),
		bearingDegrees(alpha2.sin*east, alpha2.cos*north), metres
}
