package airplot

import (
	"math"

	"stillair/integrator/units"
)

// Straight is a position line as it is drawn near a place: a point of it, its
// direction (either way), and one standard deviation across.
type Straight struct {
	Point   units.Position
	Bearing units.Angle
	Sigma   units.Length
}

// metric is that of a single line.
func (l Line) metric() metric { return metricFor([]Line{l}) }

// Near is the line near a place: the nearest point of the curve, with a run
// already made. The error is ErrNoFix where the curve is not to be found from
// there.
func (l Line) Near(p units.Position) (Straight, error) {
	m := l.metric()
	on, g, ok := m.nearest(l, p)
	if !ok {
		return Straight{}, ErrNoFix
	}
	return Straight{
		Point:   on,
		Bearing: units.Wrap(g.direction() + math.Pi/2),
		Sigma:   units.Length(l.Locus.sigma(g.size()) / g.size()),
	}, nil
}

// nearest slides along the curve until it stands square off p; where the curve
// bends so much that this does not settle, it is near enough.
func (m metric) nearest(l Line, p units.Position) (on units.Position, g vector, ok bool) {
	on, g, ok = m.onto(l, p)
	for range 20 {
		if !ok {
			break
		}
		along := vector{-g.east, g.north}.times(1 / g.size())
		slide := m.between(on, p).dot(along)
		if math.Abs(slide) < 1 { // metres
			break
		}
		on, g, ok = m.onto(l, m.moved(on, along.times(slide)))
	}
	return on, g, ok
}

// onto steps across the curve until it stands on it, and gives the gradient
// there.
func (m metric) onto(l Line, p units.Position) (on units.Position, g vector, ok bool) {
	for range 30 {
		g = m.gradient(l, p)
		off := l.departure(p) / g.size()
		if math.IsNaN(off) || math.IsInf(off, 0) {
			return p, g, false
		}
		if math.Abs(off) < smallStep {
			return p, g, true
		}
		off = math.Max(-farthest, math.Min(farthest, off))
		p = m.moved(p, g.times(off/g.size()))
	}
	return p, g, false
}

// Trace is the curve of the line for so far on either side of the point nearest
// to p, in so many steps each way: 2 steps + 1 places, from one end to the
// other.
func (l Line) Trace(p units.Position, half units.Length, steps int) ([]units.Position, error) {
	m := l.metric()
	middle, g, ok := m.nearest(l, p)
	if !ok || steps < 1 {
		return nil, ErrNoFix
	}
	points := make([]units.Position, 2*steps+1)
	points[steps] = middle
	size := half.Metres() / float64(steps)
	for _, side := range []int{-1, 1} {
		ahead := vector{-g.east, g.north}.times(float64(side))
		at, slope := middle, g
		for i := 1; i <= steps; i++ {
			along := vector{-slope.east, slope.north}
			if along.dot(ahead) < 0 {
				along = along.times(-1)
			}
			ahead = along
			if at, slope, ok = m.onto(l, m.moved(at, along.times(size/along.size()))); !ok {
				return nil, ErrNoFix
			}
			points[steps+side*i] = at
		}
	}
	return points, nil
}

// Hat is a cocked hat: the corners where each two of three lines cross, the
// first one opposite the first line, and the area in square miles. The true
// position lies inside with probability InsideHat only.
type Hat struct {
	Corners [3]units.Position
	AreaNM2 float64
}

// CockedHat works the triangle of three lines near a place. The error is that of
// the two lines that do not make a corner.
func CockedHat(near units.Position, lines [3]Line) (Hat, error) {
	var h Hat
	for i := range h.Corners {
		found, err := Solve(near, []Line{lines[(i+1)%3], lines[(i+2)%3]})
		if err != nil {
			return Hat{}, err
		}
		h.Corners[i] = found[0].Position
	}
	m := metricFor(lines[:])
	a, b := m.between(h.Corners[0], h.Corners[1]), m.between(h.Corners[0], h.Corners[2])
	h.AreaNM2 = math.Abs(a.cross(b)) / 2 / (1852 * 1852)
	return h, nil
}
