package airplot

import (
	"math"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// vector is a displacement in a tangent plane, metres.
type vector struct{ north, east float64 }

func (v vector) size() float64          { return math.Hypot(v.north, v.east) }
func (v vector) dot(w vector) float64   { return v.north*w.north + v.east*w.east }
func (v vector) cross(w vector) float64 { return v.north*w.east - v.east*w.north }
func (v vector) times(k float64) vector { return vector{v.north * k, v.east * k} }
func (v vector) minus(w vector) vector  { return vector{v.north - w.north, v.east - w.east} }
func (v vector) direction() units.Angle { return units.Wrap(units.Angle(math.Atan2(v.east, v.north))) }
func toward(a units.Angle, size float64) vector {
	s, c := math.Sincos(a.Radians())
	return vector{size * c, size * s}
}

// metric is the earth of a tangent plane.
type metric uint8

const (
	onEllipsoid metric = iota
	byArc              // a minute of arc is a mile
)

// metricFor: nothing but altitudes are plotted in miles that are minutes.
func metricFor(lines []Line) metric {
	for _, l := range lines {
		if l.Locus.Kind() != AltitudeKind {
			return onEllipsoid
		}
	}
	return byArc
}

// perRadian gives metres per radian of latitude and of arc along the parallel.
func (m metric) perRadian(lat units.Angle) (north, east float64) {
	if m == byArc {
		const radius = 1852 * 10800 / math.Pi
		return radius, radius
	}
	return geodesy.MeridianRadius(lat).Metres(), geodesy.PrimeVerticalRadius(lat).Metres()
}

// moved is p displaced by v: along a great circle, so that it may run over a
// pole, with the radii of curvature at p, so that small displacements are true.
func (m metric) moved(p units.Position, v vector) units.Position {
	north, east := m.perRadian(p.Lat)
	arc := vector{v.north / north, v.east / east}
	return geodesy.GreatCirclePoint(p, arc.direction(), units.Angle(arc.size()))
}

// between is the displacement from p to q, for places near each other.
func (m metric) between(p, q units.Position) vector {
	north, east := m.perRadian(p.Lat)
	arc, course := geodesy.GreatCircle(p, q)
	v := toward(course, arc.Radians())
	return vector{v.north * north, v.east * east}
}

// probe is half the width of the differences that gradients are taken by: wide
// enough for their rounding (1e-9 of them), narrow enough for a station a mile
// off.
const probe = 5.0 // metres

// gradient is that of a line's reading at p, per metre.
func (m metric) gradient(l Line, p units.Position) vector {
	slope := func(v vector) float64 {
		back := l.departure(m.moved(p, v.times(-1)))
		return math.Remainder(back-l.departure(m.moved(p, v)), l.turn()) / (2 * probe)
	}
	return vector{slope(vector{north: probe}), slope(vector{east: probe})}
}

// turn is what the reading wraps round at.
func (l Line) turn() float64 {
	if l.Locus.Kind() == BearingKind {
		return 2 * math.Pi
	}
	return math.Inf(1)
}
