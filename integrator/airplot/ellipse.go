package airplot

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"stillair/integrator/units"
)

// Ellipse is an error ellipse: the semi-axes for one standard deviation, which
// hold the position with probability 0.39, and the direction of the longer one,
// true, in [0, 180) degrees.
type Ellipse struct {
	Major, Minor units.Length
	Bearing      units.Angle
}

// information is the sum of g g'/sigma^2, the inverse of a covariance.
type information struct{ nn, ne, ee float64 }

// add takes up a reading with a gradient in units of its sigma.
func (m *information) add(g vector) {
	m.nn += g.north * g.north
	m.ne += g.north * g.east
	m.ee += g.east * g.east
}

// solve gives x with M x = b.
func (m information) solve(b vector) vector {
	det := m.nn*m.ee - m.ne*m.ne
	return vector{(m.ee*b.north - m.ne*b.east) / det, (m.nn*b.east - m.ne*b.north) / det}
}

// ellipse is that of the covariance M^-1: its axes are those of M, and the
// longer one is where M has least.
func (m information) ellipse() Ellipse {
	mean, half := (m.nn+m.ee)/2, math.Hypot((m.nn-m.ee)/2, m.ne)
	great := mean + half
	small := (m.nn*m.ee - m.ne*m.ne) / great // not by the difference of near equals
	axis := math.Atan2(2*m.ne, m.nn-m.ee)/2 + math.Pi/2
	return Ellipse{
		Major:   units.Length(1 / math.Sqrt(small)),
		Minor:   units.Length(1 / math.Sqrt(great)),
		Bearing: halfTurn(units.Angle(axis)),
	}
}

// halfTurn brings the direction of an axis into [0, 180) degrees.
func halfTurn(a units.Angle) units.Angle {
	a = units.Wrap(a)
	if a >= math.Pi {
		a -= math.Pi
	}
	return a
}

// DRMS is the root of the mean square distance from the position.
func (e Ellipse) DRMS() units.Length {
	return units.Length(math.Hypot(e.Major.Metres(), e.Minor.Metres()))
}

// ScaleFor is what the axes for one standard deviation are multiplied by for an
// ellipse that holds the position with probability p, 0 <= p < 1:
// sqrt(-2 ln(1-p)).
func ScaleFor(p float64) float64 { return math.Sqrt(-2 * math.Log1p(-p)) }

// Probability is that of a distance below r from the position, for errors of
// the normal law. In polar angle t it is the mean of 1 - exp(-r^2 q(t)/2) over
// q(t), q(t) = cos^2 t/s1^2 + sin^2 t/s2^2, which is smooth and periodic.
func (e Ellipse) Probability(r units.Length) float64 {
	s1, s2, x := e.Major.Metres(), e.Minor.Metres(), r.Metres()
	if x <= 0 {
		return 0
	}
	if s2 < 1e-6*s1 { // a line
		return math.Erf(x / (s1 * math.Sqrt2))
	}
	// integrate over the coordinate along the major axis: the rest is an error
	// function; the substitution x sin t takes away the root at the ends
	inner := func(t float64) float64 {
		s, c := math.Sincos(t)
		u := x * s
		return math.Exp(-u*u/(2*s1*s1)) * math.Erf(x*c/(s2*math.Sqrt2)) * x * c
	}
	// what lies beyond 9 sigma is nothing; within it the integrand is smooth on
	// the scale of a sigma
	top := math.Pi / 2
	if x > 9*s1 {
		top = math.Asin(9 * s1 / x)
	}
	return 2 * quad.Fixed(inner, 0, top, 200, nil, 0) / (s1 * math.Sqrt(2*math.Pi))
}

// Radius is that of the circle that holds the position with probability p, 0 <
// p < 1: the circular error probable for 0.5.
func (e Ellipse) Radius(p float64) units.Length {
	low, high := units.Length(0), 20*e.Major
	for range 60 {
		mid := (low + high) / 2
		if e.Probability(mid) < p {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// CircularErrorProbable is the rule of thumb 0.589 (s1 + s2), within 2.1 % of
// Radius(0.5) while the minor axis is above a fifth of the major one.
func (e Ellipse) CircularErrorProbable() units.Length { return 0.589 * (e.Major + e.Minor) }

// InsideHat is the probability that the true position lies inside the triangle
// of three position lines, whatever its size: of the eight combinations of
// sides two put it inside (navigation note, 7.2).
const InsideHat = 0.25
