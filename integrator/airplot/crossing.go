package airplot

import (
	"math"

	"stillair/integrator/units"
)

// The places where two circles or two hyperbolas of a sphere cross are found in
// closed form; from there Solve takes the earth's figure and the runs into
// account. Space vectors: x toward latitude and longitude 0, z to the pole.

type space [3]float64

func onSphere(p units.Position) space {
	sPhi, cPhi := math.Sincos(p.Lat.Radians())
	sLon, cLon := math.Sincos(p.Lon.Radians())
	return space{cPhi * cLon, cPhi * sLon, sPhi}
}

func (a space) place() units.Position {
	return units.Position{
		Lat: units.Angle(math.Atan2(a[2], math.Hypot(a[0], a[1]))),
		Lon: units.WrapHalf(units.Angle(math.Atan2(a[1], a[0]))),
	}
}

func (a space) dot(b space) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a space) cross(b space) space {
	return space{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// plus is a + k b.
func (a space) plus(k float64, b space) space {
	return space{a[0] + k*b[0], a[1] + k*b[1], a[2] + k*b[2]}
}

func (a space) times(k float64) space { return space{}.plus(k, a) }

// crossings gives up to two places near which two lines cross; none where no
// closed form is known.
func crossings(near units.Position, a, b Line) []units.Position {
	var on []units.Position
	switch la := a.Locus.(type) {
	case Altitude:
		if lb, is := b.Locus.(Altitude); is {
			on = circles(la, lb)
		}
	case Hyperbola:
		if lb, is := b.Locus.(Hyperbola); is && la.Pair.Master == lb.Pair.Master {
			on = hyperbolas(la, lb)
		}
	}
	for i, p := range on { // what was read early is run on
		if q, err := a.Run.Forward(p); err == nil {
			on[i] = q
		}
	}
	return on
}

// circles gives the crossings of two circles of equal altitude, or the place
// between them where they do not quite meet. With unit vectors g to the places
// below the bodies and c = sin Ho: x.g1 = c1, x.g2 = c2, |x| = 1.
func circles(a, b Altitude) []units.Position {
	g1 := onSphere(units.Position{Lat: a.Declination, Lon: -a.GHA})
	g2 := onSphere(units.Position{Lat: b.Declination, Lon: -b.GHA})
	c1, c2 := math.Sin(a.Observed.Radians()), math.Sin(b.Observed.Radians())
	axis, k := g1.cross(g2), g1.dot(g2)
	spread := axis.dot(axis)
	if spread < 1e-12 {
		return nil
	}
	mid := g1.times((c1-k*c2)/spread).plus((c2-k*c1)/spread, g2)
	rest := (1 - mid.dot(mid)) / spread
	if rest <= 0 {
		return []units.Position{mid.place()}
	}
	t := math.Sqrt(rest)
	return []units.Position{mid.plus(t, axis).place(), mid.plus(-t, axis).place()}
}

// meanRadius makes arcs of distances for the closed form of the hyperbolas, m.
const meanRadius = 6371008.8

// hyperbolas gives the crossings of two hyperbolas with one master, as arcs on
// a sphere. With r the arc to the master, d that by which a secondary is farther,
// and unit vectors m, a, b to the stations: x.m = cos r, x.a = cos(r + d), so
//
//	(a - cos da m).x = -sin r sin da      (b - cos db m).x = -sin r sin db
//
// are three linear equations for x = cos r P + sin r Q, and |x| = 1 is a
// quadratic for tan r.
func hyperbolas(first, second Hyperbola) []units.Position {
	m, a, b := onSphere(first.Pair.Master), onSphere(first.Pair.Secondary), onSphere(second.Pair.Secondary)
	da, db := first.farther().Metres()/meanRadius, second.farther().Metres()/meanRadius
	if math.Abs(m.dot(a.cross(b))) < 1e-5 {
		// stations in line: both crossings lie beside it, alike. A secondary
		// moved off the line by 6 miles keeps the equations regular.
		b = b.plus(1e-3, m.cross(a).times(1/math.Sqrt(m.cross(a).dot(m.cross(a)))))
		b = b.times(1 / math.Sqrt(b.dot(b)))
	}
	ra, rb := a.plus(-math.Cos(da), m), b.plus(-math.Cos(db), m)
	det := m.dot(ra.cross(rb))
	p := ra.cross(rb).times(1 / det)
	q := rb.cross(m).times(-math.Sin(da)/det).plus(-math.Sin(db)/det, m.cross(ra))
	var all []units.Position
	for _, r := range arcs(q.dot(q)-1, p.dot(q), p.dot(p)-1) {
		s, c := math.Sincos(r)
		if r+da < -0.01 || r+db < -0.01 {
			continue // the other branch
		}
		all = append(all, p.times(c).plus(s, q).place())
	}
	return all
}

// arcs gives the r in [0, pi) with a t^2 + 2 b t + c = 0, t = tan r. Where the
// roots have just parted from the real line the place between them is given.
func arcs(a, b, c float64) []float64 {
	disc := b*b - a*c
	if disc < 0 {
		if disc < -0.01*b*b {
			return nil
		}
		disc = 0
	}
	// one of the roots without cancellation; the other by their product
	h := -b - math.Copysign(math.Sqrt(disc), b)
	return []float64{arcOf(h, a), arcOf(c, h)}
}

func arcOf(sin, cos float64) float64 {
	if sin < 0 || sin == 0 && cos < 0 {
		sin, cos = -sin, -cos
	}
	return math.Atan2(sin, cos)
}
