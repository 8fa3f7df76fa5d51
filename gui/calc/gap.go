package calc

import (
	"errors"
	"math"

	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// vec is a vector of the triangle, knots.
type vec struct{ north, east float64 }

func polar(size, deg float64) vec {
	s, c := math.Sincos(deg * math.Pi / 180)
	return vec{size * c, size * s}
}

func plus(a, b vec) vec           { return vec{a.north + b.north, a.east + b.east} }
func minus(a, b vec) vec          { return vec{a.north - b.north, a.east - b.east} }
func dot(a, b vec) float64        { return a.north*b.north + a.east*b.east }
func cross(a, b vec) float64      { return a.north*b.east - a.east*b.north }
func (a vec) size() float64       { return math.Hypot(a.north, a.east) }
func (a vec) times(k float64) vec { return vec{k * a.north, k * a.east} }
func (a vec) direction() float64 {
	return units.WrapDegrees(math.Atan2(a.east, a.north) * (180 / math.Pi))
}
func at(north, east float64) vec     { return vec{north, east} }
func (a vec) distance(b vec) float64 { return minus(a, b).size() }

// The three sides taken in turn: air vector, wind (toward), ground vector reversed;
// they close where their sum is 0. sides names the quantities of each, and by how
// much the direction of the side differs from that of the quantity.
var sides = [3]struct {
	size, dir Quantity
	turned    float64
}{{TAS, Heading, 0}, {WindSpeed, WindFrom, 180}, {Groundspeed, Track, 180}}

// nearest is the figure with the smallest gap that holds four quantities; where two
// figures have them, it is one of the two.
func (f figure) nearest(fixed [Quantities]bool, problem error) figure {
	var size, dir []int // sides of which they are not known
	for i, s := range sides {
		if !fixed[s.size] {
			size = append(size, i)
		}
		if !fixed[s.dir] {
			dir = append(dir, i)
		}
	}
	switch {
	case errors.Is(problem, airplot.ErrNoLength) || errors.Is(problem, errOutside) || len(size)+len(dir) != 2:
		return f
	case len(size) == 2:
		f.nearestSizes(size[0], size[1])
	case len(dir) == 2:
		f.nearestDirections(dir[0], dir[1])
	case size[0] != dir[0]:
		f.nearestMixed(size[0], dir[0])
	}
	return f
}

// side is one of the three as a vector; along is its direction, as one of length 1.
func (f *figure) side(i int) vec { return polar(f[sides[i].size], f[sides[i].dir]+sides[i].turned) }

func (f *figure) along(i int) vec { return polar(1, f[sides[i].dir]+sides[i].turned) }

// point turns a side into a direction.
func (f *figure) point(i int, deg float64) {
	f[sides[i].dir] = units.WrapDegrees(deg - sides[i].turned)
}

// parallel is the sine below which two directions are one: their lines meet beyond
// all that can be shown.
const parallel = 1e-9

// nearestSizes finds the lengths, none below 0, of two sides whose directions are
// known: the least of |k + a u + b w| lies inside, or where one of them is 0.
func (f *figure) nearestSizes(i, j int) {
	k, u, w := f.side(3-i-j), f.along(i), f.along(j)
	best, least := [2]float64{}, math.Inf(1)
	try := func(a, b float64) {
		if gap := plus(k, plus(u.times(a), w.times(b))).size(); a >= 0 && b >= 0 && gap < least {
			best, least = [2]float64{a, b}, gap
		}
	}
	try(0, 0)
	try(-dot(k, u), 0)
	try(0, -dot(k, w))
	if d := cross(u, w); math.Abs(d) > parallel {
		try(-cross(k, w)/d, cross(k, u)/d)
	}
	f[sides[i].size], f[sides[j].size] = best[0], best[1]
}

// nearestDirections turns two sides of known length to the third: along one line if
// the longest is longer than the others together, else so that they close, on the
// side on which the first stood.
func (f *figure) nearestDirections(i, j int) {
	k := f.side(3 - i - j)
	a, b, c, line := f[sides[i].size], f[sides[j].size], k.size(), k.direction()
	switch {
	case c >= a+b:
		f.point(i, line+180)
		f.point(j, line+180)
	case a >= b+c:
		f.point(i, line+180)
		f.point(j, line)
	case b >= a+c:
		f.point(i, line)
		f.point(j, line+180)
	default: // the angle between k and i, opposite to j: tan of its half
		bend := 2 * math.Atan2(math.Sqrt((b-(a-c))*(b+(a-c))), math.Sqrt((a+c+b)*(a+c-b))) * (180 / math.Pi)
		if cross(k, f.along(i)) < 0 {
			bend = -bend
		}
		f.point(i, line+180-bend)
		f.point(j, plus(k, f.side(i)).times(-1).direction())
	}
}

// nearestMixed finds the length of side i, whose direction is known, and the
// direction of side j, whose length is: where the line of i comes nearest to the
// circle of j round the end of k.
func (f *figure) nearestMixed(i, j int) {
	k, u, r := f.side(3-i-j), f.along(i), f[sides[j].size]
	z := math.Max(0, -dot(k, u))
	if off := math.Abs(cross(k, u)); off < r {
		z = math.Max(z, -dot(k, u)+math.Sqrt((r-off)*(r+off)))
	}
	f[sides[i].size] = z
	f.point(j, plus(k, u.times(z)).times(-1).direction())
}
