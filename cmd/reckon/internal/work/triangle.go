package work

import (
	"errors"
	"math"

	"stillair/integrator/geodesy"
)

// side is a vector of the wind triangle: its length, and its direction in
// degrees clockwise from north; NaN where not known. Taken in turn (air vector,
// wind toward, ground vector reversed) the three sides close: their sum is 0.
type side struct{ size, dir float64 }

// Reasons why a figure is not determined.
var (
	errNoFigure  = errors.New("no triangle has these")
	errMirror    = errors.New("two triangles that are mirror images have these")
	errTwo       = errors.New("two triangles with the same groundspeed have these")
	errManySides = errors.New("any number of triangles have these")
	errNothing   = errors.New("a vector of no length has no direction")
)

// rounding is the relative error granted to figures that were rounded to
// float64 when a limiting case (collinear, tangent) is to be told.
const rounding = 1e-14

// closeTriangle fills in the two unknowns of the triangle, of which exactly two must be
// NaN. Of two figures it gives both; the caller chooses.
func closeTriangle(s [3]side) (figures [2][3]side, n int, err error) {
	var sizes, dirs []int
	for i, v := range s {
		if math.IsNaN(v.size) {
			sizes = append(sizes, i)
		}
		if math.IsNaN(v.dir) {
			dirs = append(dirs, i)
		}
	}
	one := func(t [3]side, err error) ([2][3]side, int, error) { return [2][3]side{t}, 1, err }
	switch {
	case len(sizes) == 2:
		return one(twoSizes(s, sizes[0], sizes[1]))
	case len(dirs) == 2:
		return one(twoDirections(s, dirs[0], dirs[1]))
	case sizes[0] == dirs[0]:
		return one(wholeSide(s, sizes[0]))
	}
	return sizeAndDirection(s, sizes[0], dirs[0])
}

// others are the two indices besides i.
func others(i int) (j, k int) { return (i + 1) % 3, (i + 2) % 3 }

// atan2 is the angle in degrees.
func atan2(y, x float64) float64 { return math.Atan2(y, x) * (180 / math.Pi) }

// wholeSide: one side wanted, both others known. The sum is taken in the frame
// of one of them, so that round angles stay round.
func wholeSide(s [3]side, i int) ([3]side, error) {
	j, k := others(i)
	sin, cos := geodesy.SinCosDegrees(s[k].dir - s[j].dir)
	along, across := s[j].size+s[k].size*cos, s[k].size*sin
	s[i] = side{math.Hypot(along, across), s[j].dir + atan2(-across, -along)}
	if s[i].size <= rounding*(s[j].size+s[k].size) {
		s[i] = side{0, math.NaN()}
	}
	return s, nil
}

// twoSizes: all directions known and one length; the sine rule.
func twoSizes(s [3]side, i, j int) ([3]side, error) {
	k := 3 - i - j
	spread, _ := geodesy.SinCosDegrees(s[i].dir - s[j].dir)
	kj, _ := geodesy.SinCosDegrees(s[k].dir - s[j].dir)
	ki, _ := geodesy.SinCosDegrees(s[k].dir - s[i].dir)
	if math.Abs(spread) <= rounding {
		if s[k].size == 0 || math.Abs(kj) <= rounding {
			return s, errManySides
		}
		return s, errNoFigure
	}
	s[i].size = -s[k].size * kj / spread
	s[j].size = s[k].size * ki / spread
	return s, positive(&s[i].size, &s[j].size, s[k].size)
}

// positive refuses lengths below 0, and mends those that rounding made so.
func positive(a, b *float64, scale float64) error {
	for _, v := range []*float64{a, b} {
		switch {
		case *v >= 0:
		case *v > -rounding*scale:
			*v = 0
		default:
			return errNoFigure
		}
	}
	return nil
}

// twoDirections: all lengths known and one direction. The two figures are
// mirror images about the known side, unless all three lie on one line.
func twoDirections(s [3]side, i, j int) ([3]side, error) {
	k := 3 - i - j
	a, b, c := s[i].size, s[j].size, s[k].size
	slack := rounding * (a + b + c)
	switch {
	case c == 0 && math.Abs(a-b) <= slack:
		return s, errManySides
	case math.Abs(a+b-c) <= slack: // i and j together against k
		s[i].dir, s[j].dir = s[k].dir+180, s[k].dir+180
	case math.Abs(a+c-b) <= slack: // j against i and k
		s[i].dir, s[j].dir = s[k].dir, s[k].dir+180
	case math.Abs(b+c-a) <= slack:
		s[i].dir, s[j].dir = s[k].dir+180, s[k].dir
	case a+b > c && b+c > a && c+a > b:
		return s, errMirror
	default:
		return s, errNoFigure
	}
	for _, v := range []*side{&s[i], &s[j]} {
		if v.size == 0 {
			v.dir = math.NaN()
		}
	}
	return s, nil
}

// sizeAndDirection: the length of side i and the direction of another, j, are
// wanted; k is known. With k = (x, y) in the frame of side i, its length z
// satisfies (x+z)^2 + y^2 = j^2.
func sizeAndDirection(s [3]side, i, j int) (figures [2][3]side, n int, err error) {
	k := 3 - i - j
	sin, cos := geodesy.SinCosDegrees(s[k].dir - s[i].dir)
	x, y, r := s[k].size*cos, s[k].size*sin, s[j].size
	slack, gap := rounding*(s[k].size+r), r-math.Abs(y)
	if gap < -slack {
		return figures, 0, errNoFigure
	}
	tangent := gap <= slack
	root := 0.0
	if !tangent {
		root = math.Sqrt(gap * (r + math.Abs(y)))
	}
	for m, z := range roots(x, root, (s[k].size-r)*(s[k].size+r)) {
		if z < -slack || m == 1 && tangent {
			continue
		}
		t := s
		t[i].size = math.Max(0, z)
		t[j].dir = s[i].dir + atan2(-y, root*float64(2*m-1))
		if r == 0 {
			t[j].dir = math.NaN()
		}
		figures[n] = t
		n++
	}
	if n == 0 {
		return figures, 0, errNoFigure
	}
	return figures, n, nil
}

// roots of z^2 + 2xz + product = 0, which are -x + root and -x - root, in this
// order and neither by a difference of near equals.
func roots(x, root, product float64) [2]float64 {
	if root == 0 {
		return [2]float64{-x, -x}
	}
	if x <= 0 {
		great := -x + root
		return [2]float64{great, product / great}
	}
	small := -x - root
	return [2]float64{product / small, small}
}
