package geodesy

import "math"

// pair is two points in the arrangement that GeodesicInverseDegrees makes.
type pair struct {
	beta1, beta2 direction
	lambda       direction // difference of longitude
	dLon         float64   // the same in radians
}

// solve finds the azimuths and the length of the shortest line of a pair.
func solve(lat1, lat2, dLon float64) (alpha1, alpha2 direction, metres float64) {
	p := pair{beta1: reduced(lat1), beta2: reduced(lat2), dLon: dLon * perDegree}
	p.lambda.sin, p.lambda.cos = SinCosDegrees(dLon)
	p.align()
	switch {
	case lat1 == -90 || p.lambda.sin == 0:
		return p.meridian()
	case p.beta1.sin == 0 && p.dLon <= (1-flattening)*math.Pi:
		east := direction{1, 0}
		return east, east, equatorialRadius * p.dLon
	}
	alpha1, alpha2, metres = p.short()
	if metres > 0 {
		return alpha1, alpha2, metres
	}
	return p.newton(p.guess())
}

// align makes latitudes of equal size equal to the last bit; otherwise the sum
// of two nearly opposite ones carries rounding into near-antipodal lines.
func (p *pair) align() {
	if p.beta1.cos < -p.beta1.sin {
		if p.beta2.cos == p.beta1.cos {
			p.beta2.sin = math.Copysign(p.beta1.sin, p.beta2.sin)
		}
		return
	}
	if math.Abs(p.beta2.sin) == -p.beta1.sin {
		p.beta2.cos = p.beta1.cos
	}
}

// meridian solves a pair on one meridian, or with a pole. On an ellipsoid that
// is flattened the meridian is the shortest line even when it crosses a pole.
func (p *pair) meridian() (alpha1, alpha2 direction, metres float64) {
	nd := node{direction{0, 1}, epsilon(ep2)}
	from := direction{p.beta1.sin, p.lambda.cos * p.beta1.cos}
	to := p.beta2
	dSigma := arcBetween(from, to)
	if dSigma < 3*smallest {
		return p.lambda, direction{0, 1}, 0
	}
	return p.lambda, direction{0, 1}, nd.metres(from, to, dSigma)
}

// arcBetween is the arc from one point of the auxiliary sphere on to another.
func arcBetween(from, to direction) float64 {
	s, c := to.minus(from)
	return math.Atan2(math.Max(0, s), c)
}

// shortArc is the longest line that the sphere of mean curvature gives to full
// accuracy: about 10 cm (Karney 2013, section 5: its error grows as the cube).
const shortArc = 1e-8

// short solves pairs that are next to each other on a sphere; 0 metres for the
// others.
func (p *pair) short() (alpha1, alpha2 direction, metres float64) {
	sinD, cosD := p.beta2.minus(p.beta1)
	if !p.near(sinD, cosD) {
		return
	}
	w, dn := p.sphereLongitude()
	s, c := math.Sincos(w)
	bulge := s * s / (1 + c)
	a1 := direction{p.beta2.cos * s, sinD + p.beta2.cos*p.beta1.sin*bulge}
	arc := math.Hypot(a1.sin, a1.cos)
	if !(arc < shortArc) {
		return
	}
	a2 := direction{p.beta1.cos * s, sinD - p.beta1.cos*p.beta2.sin*bulge}
	return directionOf(a1.sin, a1.cos), directionOf(a2.sin, a2.cos), polarRadius * arc * dn
}

// near says whether a pair is so close that a sphere gives a good first azimuth
// if its longitude is corrected for the flattening at the mean latitude.
func (p *pair) near(sinD, cosD float64) bool {
	return cosD >= 0 && sinD < 0.5 && p.beta2.cos*p.dLon < 0.5
}

// sphereLongitude is the difference of longitude on the auxiliary sphere for a
// near pair, and the factor from arc to length over b.
func (p *pair) sphereLongitude() (omega, dn float64) {
	s2 := squared(p.beta1.sin + p.beta2.sin)
	s2 /= s2 + squared(p.beta1.cos+p.beta2.cos)
	dn = math.Sqrt(1 + ep2*s2)
	return p.dLon / ((1 - flattening) * dn), dn
}

// guess gives a first azimuth for Newton's method: that of the great circle,
// or, near the antipode, that of the astroid.
func (p *pair) guess() direction {
	sinD, cosD := p.beta2.minus(p.beta1)
	omega := p.lambda
	if p.near(sinD, cosD) {
		w, _ := p.sphereLongitude()
		omega.sin, omega.cos = math.Sincos(w)
	}
	sinSum := p.beta2.sin*p.beta1.cos + p.beta2.cos*p.beta1.sin
	a := p.sphereAzimuth(omega, sinD, sinSum)
	arc := math.Hypot(a.sin, a.cos)
	cosArc := p.beta1.sin*p.beta2.sin + p.beta1.cos*p.beta2.cos*omega.cos
	if cosArc < 0 && arc < 6*thirdFlattening*math.Pi*squared(p.beta1.cos) {
		a = p.antipodal(sinD, sinSum)
	}
	if !(a.sin > 0) {
		return direction{1, 0}
	}
	return directionOf(a.sin, a.cos)
}

// sphereAzimuth is the azimuth of the great circle, its length not 1. The two
// forms keep the digits for small omega and for omega near half round.
func (p *pair) sphereAzimuth(omega direction, sinD, sinSum float64) direction {
	if omega.cos >= 0 {
		bulge := squared(omega.sin) / (1 + omega.cos)
		return direction{p.beta2.cos * omega.sin, sinD + p.beta2.cos*p.beta1.sin*bulge}
	}
	bulge := squared(omega.sin) / (1 - omega.cos)
	return direction{p.beta2.cos * omega.sin, sinSum - p.beta2.cos*p.beta1.sin*bulge}
}

// antipodal gives the azimuth for a second point near the antipode of the
// first: there the geodesics envelop an astroid, and the problem is plane
// (Karney 2013, section 5). x and y are the second point's place relative to
// the antipode, in units of the astroid's size.
func (p *pair) antipodal(sinD, sinSum float64) direction {
	eps := epsilon(ep2 * squared(p.beta1.sin))
	xScale := flattening * p.beta1.cos * seriesA3(eps) * math.Pi
	yScale := xScale * p.beta1.cos
	x := math.Atan2(-p.lambda.sin, -p.lambda.cos) / xScale // dLon - pi
	y := sinSum / yScale
	const (
		near = 200 * machine
		cusp = 1.5e-5 // 1000 roots of machine
	)
	if y > -near && x > -1-cusp { // on the segment between the cusps
		s := math.Min(1, -x)
		return direction{s, -math.Sqrt(1 - s*s)}
	}
	k := astroid(x, y)
	// past the segment the azimuth is very sensitive: go by the longitude
	w := xScale * -x * k / (1 + k)
	s, c := math.Sincos(w)
	return p.sphereAzimuth(direction{s, -c}, sinD, sinSum)
}

// machine is the distance from 1 to the next float64.
const machine = 0x1p-52

// astroid gives the positive root k of k^4 + 2k^3 - (x^2+y^2-1)k^2 - 2y^2 k -
// y^2 = 0 (Karney 2013, eq. 55), in closed form by its cubic resolvent.
func astroid(x, y float64) float64 {
	p, q := x*x, y*y
	r := (p + q - 1) / 6
	if q == 0 && r <= 0 {
		return 0
	}
	u := resolvent(p*q/4, r)
	v := math.Sqrt(u*u + q)
	uv := u + v
	if u < 0 { // no cancellation
		uv = q / (v - u)
	}
	w := (uv - q) / (2 * v)
	return uv / (math.Sqrt(uv+w*w) + w)
}

// resolvent gives u, the root of the cubic that splits the quartic: with S =
// pq/4 and r, T^3 = S + r^3 +- sqrt(S(S + 2r^3)), u = r + T + r^2/T.
func resolvent(s, r float64) float64 {
	r3 := r * r * r
	disc := s * (s + 2*r3)
	if disc < 0 { // three real roots
		angle := math.Atan2(math.Sqrt(-disc), -(s + r3))
		return r + 2*r*math.Cos(angle/3)
	}
	t3 := s + r3
	t3 += math.Copysign(math.Sqrt(disc), t3)
	t := math.Cbrt(t3)
	if t == 0 {
		return r
	}
	return r + t + r*r/t
}

// trial is a geodesic from the first point to the parallel of the second.
type trial struct {
	node
	alpha1, alpha2 direction
	sigma1, sigma2 direction
	dSigma         float64
	miss           float64 // longitude beyond the second point's, radians
}

// try follows the azimuth alpha1 to the parallel of the second point.
func (p *pair) try(alpha1 direction) trial {
	if p.beta1.sin == 0 && alpha1.cos == 0 {
		alpha1.cos = -smallest // a line along the equator has no node
	}
	t := trial{node: nodeOf(alpha1, p.beta1), alpha1: alpha1, alpha2: p.arrival(alpha1)}
	var omega1, omega2 direction
	t.sigma1, omega1 = t.onSphere(t.alpha1, p.beta1)
	t.sigma2, omega2 = t.onSphere(t.alpha2, p.beta2)
	t.dSigma = arcBetween(t.sigma1, t.sigma2)
	s, c := omega2.minus(omega1)
	s = math.Max(0, s)
	beyond := math.Atan2(s*p.lambda.cos-c*p.lambda.sin, c*p.lambda.cos+s*p.lambda.sin)
	t.miss = beyond - t.longitude(t.sigma1, t.sigma2, t.dSigma)
	return t
}

// arrival is the azimuth at the second parallel, by Clairaut's relation.
func (p *pair) arrival(alpha1 direction) direction {
	if p.beta2.cos == p.beta1.cos && math.Abs(p.beta2.sin) == -p.beta1.sin {
		return direction{alpha1.sin, math.Abs(alpha1.cos)}
	}
	// cos^2 beta2 - cos^2 beta1 by the form that keeps the digits
	d := (p.beta1.sin - p.beta2.sin) * (p.beta1.sin + p.beta2.sin)
	if p.beta1.cos < -p.beta1.sin {
		d = (p.beta2.cos - p.beta1.cos) * (p.beta1.cos + p.beta2.cos)
	}
	return direction{
		alpha1.sin * p.beta1.cos / p.beta2.cos,
		math.Sqrt(math.Max(0, squared(alpha1.cos*p.beta1.cos)+d)) / p.beta2.cos,
	}
}

// slope is the change of miss with alpha1.
func (p *pair) slope(t *trial) float64 {
	if t.alpha2.cos == 0 {
		return -2 * (1 - flattening) * math.Sqrt(1+ep2*squared(p.beta1.sin)) / p.beta1.sin
	}
	m := t.reducedLength(t.sigma1, t.sigma2, p.beta1, p.beta2, t.dSigma)
	return m * (1 - flattening) / (t.alpha2.cos * p.beta2.cos)
}

// Limits of the search: Newton's method needs three or four rounds, seldom ten;
// bisection from a bracket of a half turn needs one for each bit.
const (
	newtonRounds = 20
	allRounds    = newtonRounds + 53 + 10
)

// newton finds the azimuth whose geodesic meets the second point. The miss
// grows with the azimuth all the way, so the azimuths tried bracket it, and a
// step that leaves the bracket or does not serve is replaced by halving it.
func (p *pair) newton(alpha1 direction) (direction, direction, float64) {
	low, high := direction{smallest, 1}, direction{smallest, -1}
	var t trial
	for round, close := 0, false; round < allRounds; round++ {
		t = p.try(alpha1)
		tolerance := machine
		if close {
			tolerance = 8 * machine // the last step was at the noise: enough
		}
		if !(math.Abs(t.miss) >= tolerance) {
			break
		}
		if t.miss > 0 {
			high = alpha1
		} else {
			low = alpha1
		}
		next, ok := p.step(&t)
		if ok = ok && round < newtonRounds; ok && within(low, next, high) {
			close = math.Abs(t.miss) <= 16*machine
			alpha1 = next
			continue
		}
		close = false
		next = directionOf((low.sin+high.sin)/2, (low.cos+high.cos)/2)
		if next == low || next == high {
			break
		}
		alpha1 = next
	}
	return t.alpha1, t.alpha2, t.metres(t.sigma1, t.sigma2, t.dSigma)
}

// step is Newton's step from a trial, if there is one.
func (p *pair) step(t *trial) (direction, bool) {
	slope := p.slope(t)
	if !(slope > 0) {
		return direction{}, false
	}
	d := -t.miss / slope
	if !(math.Abs(d) < math.Pi) {
		return direction{}, false
	}
	s, c := math.Sincos(d)
	next := directionOf(t.alpha1.sin*c+t.alpha1.cos*s, t.alpha1.cos*c-t.alpha1.sin*s)
	return next, next.sin > 0
}

// within says whether an azimuth lies in the bracket, ends included.
func within(low, a, high direction) bool {
	fromLow, _ := a.minus(low)
	toHigh, _ := high.minus(a)
	return fromLow >= 0 && toHigh >= 0
}
