package geodesy

import (
	"math"

	"stillair/integrator/units"
)

// The WGS-84 ellipsoid (NIMA TR8350.2): equatorial radius and flattening are
// defining, hence exact; all else follows.
const (
	equatorialRadius = 6378137.0
	flattening       = 1 / 298.257223563
	polarRadius      = equatorialRadius * (1 - flattening)
	thirdFlattening  = flattening / (2 - flattening)
	e2               = flattening * (2 - flattening)
	ep2              = e2 / ((1 - flattening) * (1 - flattening))
)

// eccentricity is the root of e2.
var eccentricity = math.Sqrt(e2)

// powers of the third flattening, for the series below.
const (
	n1 = thirdFlattening
	n2 = n1 * n1
	n3 = n2 * n1
	n4 = n3 * n1
	n5 = n4 * n1
	n6 = n5 * n1
)

// rectifyingRadius is that of the circle with the meridian's length, exact to
// the order of n^8.
const rectifyingRadius = equatorialRadius / (1 + n1) * (1 + n2/4 + n4/64 + n6/256)

// fourier holds the coefficients of sin 2x, sin 4x ... sin 12x.
type fourier [6]float64

// toRectifying: mu = phi + sum toRectifying[j-1] sin 2j phi; toGeographic is
// its inverse, phi = mu + sum toGeographic[j-1] sin 2j mu. Both to order n^6:
// what is left out is below 1e-18.
var (
	toRectifying = fourier{
		-3./2*n1 + 9./16*n3 - 3./32*n5,
		15./16*n2 - 15./32*n4 + 135./2048*n6,
		-35./48*n3 + 105./256*n5,
		315./512*n4 - 189./512*n6,
		-693. / 1280 * n5,
		1001. / 2048 * n6,
	}
	toGeographic = fourier{
		3./2*n1 - 27./32*n3 + 269./512*n5,
		21./16*n2 - 55./32*n4 + 6759./4096*n6,
		151./96*n3 - 417./128*n5,
		1097./512*n4 - 15543./2560*n6,
		8011. / 2560 * n5,
		293393. / 61440 * n6,
	}
)

// sum evaluates the series at x given by sine and cosine (Clenshaw's method).
func (c *fourier) sum(sinX, cosX float64) float64 {
	twice := 2 * (cosX - sinX) * (cosX + sinX) // 2 cos 2x
	var u0, u1 float64
	for j := len(c) - 1; j >= 0; j-- {
		u0, u1 = c[j]+twice*u0-u1, u0
	}
	return 2 * sinX * cosX * u0
}

// difference is sum at x + d less sum at x, without loss when d is small: the
// middle x + d/2 is given by sine and cosine, d in radians.
func (c *fourier) difference(sinMid, cosMid, d float64) float64 {
	// sin 2j(x+d) - sin 2jx = 2 cos(2j mid) sin(jd), both by recurrence
	cos2 := (cosMid - sinMid) * (cosMid + sinMid)
	sinD, cosD := math.Sincos(d)
	total, cosJ, cosBefore, sinJ, sinBefore := 0.0, cos2, 1.0, sinD, 0.0
	for _, cj := range c {
		total += cj * cosJ * sinJ
		cosJ, cosBefore = 2*cos2*cosJ-cosBefore, cosJ
		sinJ, sinBefore = 2*cosD*sinJ-sinBefore, sinJ
	}
	return 2 * total
}

// MeridianRadius is M, the radius of curvature along the meridian.
func MeridianRadius(lat units.Angle) units.Length {
	s := math.Sin(lat.Radians())
	w := 1 - e2*s*s
	return units.Length(equatorialRadius * (1 - e2) / (w * math.Sqrt(w)))
}

// PrimeVerticalRadius is N, the radius of curvature across the meridian; a
// degree of longitude is N cos(lat) times a degree.
func PrimeVerticalRadius(lat units.Angle) units.Length {
	return units.Length(primeVertical(math.Sin(lat.Radians())))
}

func primeVertical(sinLat float64) float64 {
	return equatorialRadius / math.Sqrt(1-e2*sinLat*sinLat)
}

// MeridianArc is the length of the meridian from the equator to a latitude,
// negative to the south.
func MeridianArc(lat units.Angle) units.Length {
	s, c := math.Sincos(lat.Radians())
	return units.Length(rectifyingRadius * (lat.Radians() + toRectifying.sum(s, c)))
}

// LatitudeOfArc is the inverse of MeridianArc; NaN beyond a pole.
func LatitudeOfArc(arc units.Length) units.Angle {
	mu := arc.Metres() / rectifyingRadius
	if !(math.Abs(mu) <= math.Pi/2*(1+1e-15)) {
		return units.Angle(math.NaN())
	}
	s, c := math.Sincos(mu)
	return units.Angle(mu + toGeographic.sum(s, c))
}
