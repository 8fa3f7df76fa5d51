package calc

import "math"

// Corner is a corner of the figure that can be dragged.
type Corner uint8

// The corners.
const (
	AirCorner    Corner = iota // tip of the air vector
	GroundCorner               // tip of the ground vector
)

// of are the quantities of the vector that ends in a corner.
func (c Corner) of() (size, dir Quantity) {
	if c == AirCorner {
		return TAS, Heading
	}
	return Groundspeed, Track
}

// At is where a corner stands, knots north and east of the origin.
func (t *Triangle) At(c Corner) (north, east float64) {
	v := t.values.corner(c)
	return v.north, v.east
}

func (f figure) corner(c Corner) vec {
	size, dir := c.of()
	return polar(f[size], f[dir])
}

// Drag brings a corner as near to a place as what is locked lets it come; the place is
// in knots north and east of the origin. The other corner stays if it can. With four
// given nothing moves, which is an error.
func (t *Triangle) Drag(c Corner, north, east float64) error {
	if t.given() == Settles {
		return errFour()
	}
	to := at(north, east)
	wanted := t.aimed(c, to)
	other, least := t.values.corner(1-c), math.Inf(1)
	best := t.values
	for _, set := range completions(t.locked, []Quantity{Heading, TAS, WindFrom, WindSpeed, Track, Groundspeed}) {
		best, least = wanted.better(set, c, to, other, best, least)
	}
	if !math.IsInf(least, 1) {
		t.values, t.problem = best, nil
	}
	return nil
}

// movedCost is what a knot costs by which the other corner moves, in knots by which
// the dragged one misses the hand.
const movedCost = 1e-3

// better takes the figure that holds four if its corner comes nearer to the hand.
func (f figure) better(set [Quantities]bool, c Corner, to, other vec, best figure, least float64) (figure, float64) {
	g, err := f.held(set, true)
	if err != nil || !g.sound() {
		return best, least
	}
	cost := g.corner(c).distance(to) + movedCost*g.corner(1-c).distance(other)
	if cost < least-1e-9 {
		return g, cost
	}
	return best, least
}

// aimed is the figure with the dragged vector toward the hand, as far as its own locks
// allow: on the ray of a locked direction, on the circle of a locked speed.
func (t *Triangle) aimed(c Corner, to vec) figure {
	f := t.values
	size, dir := c.of()
	if !t.locked[dir] && to.size() > 0 {
		f[dir] = to.direction()
	}
	if !t.locked[size] {
		along := dot(to, polar(1, f[dir]))
		f[size] = math.Max(limits[size][0], math.Min(along, limits[size][1]))
	}
	return f
}
