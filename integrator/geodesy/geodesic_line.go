package geodesy

import "math"

// direction is a point of the unit circle: an angle by sine and cosine.
type direction struct{ sin, cos float64 }

func directionOf(sin, cos float64) direction {
	h := math.Hypot(sin, cos)
	return direction{sin / h, cos / h}
}

func (d direction) angle() float64 { return math.Atan2(d.sin, d.cos) }

// minus gives sine and cosine of the difference of two angles.
func (d direction) minus(o direction) (sin, cos float64) {
	return d.sin*o.cos - d.cos*o.sin, d.cos*o.cos + d.sin*o.sin
}

// reduced is the reduced latitude, tan beta = (1-f) tan phi, of a latitude in
// degrees. Its cosine is kept above 0, so that the poles need no case of their
// own.
func reduced(lat float64) direction {
	s, c := SinCosDegrees(lat)
	d := directionOf((1-flattening)*s, c)
	d.cos = math.Max(d.cos, smallest)
	return d
}

// smallest is an angle whose square does not underflow and that moves nothing.
const smallest = 1.4916681462400413e-154 // 2^-511

// node is a geodesic seen from where it crosses the equator northward: the
// azimuth there, and the series that belong to it.
type node struct {
	alpha0 direction
	eps    float64
}

func nodeOf(alpha, beta direction) node {
	a0 := direction{alpha.sin * beta.cos, math.Hypot(alpha.cos, alpha.sin*beta.sin)}
	return node{a0, epsilon(ep2 * a0.cos * a0.cos)}
}

// onSphere gives arc sigma and longitude omega, from the node, of the point at
// beta where the geodesic has azimuth alpha. On the equator a geodesic along it
// counts from here.
func (nd node) onSphere(alpha, beta direction) (sigma, omega direction) {
	x := alpha.cos * beta.cos
	if beta.sin == 0 && x == 0 {
		x = 1
	}
	return directionOf(beta.sin, x), direction{nd.alpha0.sin * beta.sin, x}
}

// longitude gives what the ellipsoid takes off the longitude omega of the
// sphere, for an arc of dSigma between two points.
func (nd node) longitude(from, to direction, dSigma float64) float64 {
	c3 := seriesC3(nd.eps)
	b := c3.sum(to.sin, to.cos) - c3.sum(from.sin, from.cos)
	return flattening * seriesA3(nd.eps) * nd.alpha0.sin * (dSigma + b)
}

// metres is the length of an arc of dSigma between two points.
func (nd node) metres(from, to direction, dSigma float64) float64 {
	c1 := seriesC1(nd.eps)
	b := c1.sum(to.sin, to.cos) - c1.sum(from.sin, from.cos)
	return polarRadius * (1 + seriesA1(nd.eps)) * (dSigma + b)
}

// reducedLength is m/b, the width at the far end of a narrow fan of geodesics
// per radian, over the polar radius (Karney 2013, eq. 38).
func (nd node) reducedLength(from, to, beta1, beta2 direction, dSigma float64) float64 {
	a1, a2 := seriesA1(nd.eps), seriesA2(nd.eps)
	c1, c2 := seriesC1(nd.eps), seriesC2(nd.eps)
	for j := range c1 {
		c1[j] = (1+a1)*c1[j] - (1+a2)*c2[j]
	}
	j12 := (a1-a2)*dSigma + c1.sum(to.sin, to.cos) - c1.sum(from.sin, from.cos)
	dn1, dn2 := math.Sqrt(1+ep2*squared(beta1.sin)), math.Sqrt(1+ep2*squared(beta2.sin))
	return dn2*from.cos*to.sin - dn1*from.sin*to.cos - from.cos*to.cos*j12
}
