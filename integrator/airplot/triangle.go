package airplot

import (
	"errors"
	"math"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Triangle is a wind triangle by its six figures: the air vector, where the wind
// comes from and how fast, the ground vector; knots and degrees true. NaN stands
// for a figure that is not known. Bare figures, so that round degrees stay round.
type Triangle struct {
	TASKnots, HeadingDegrees       float64
	WindKnots, WindFromDegrees     float64
	GroundspeedKnots, TrackDegrees float64
}

// Reasons why a triangle is not determined.
var (
	ErrNoTriangle = errors.New("no triangle has these")
	ErrMirror     = errors.New("two triangles that are mirror images have these")
	ErrTwo        = errors.New("two triangles with the same groundspeed have these")
	ErrMany       = errors.New("any number of triangles have these")
	ErrNoLength   = errors.New("a vector of no length has no direction")
	ErrNotFour    = errors.New("a triangle is settled by four of its six figures")
)

// Solve works the two figures that are not known from the four that are, which stay
// as they are. Of two triangles it is the one with the greater groundspeed. Results
// lie in [0, 360); still air comes from 0.
func (t Triangle) Solve() (Triangle, error) {
	unknown := 0
	for _, v := range t.figures() {
		if math.IsNaN(*v) {
			unknown++
		}
	}
	if unknown != 2 {
		return t, ErrNotFour
	}
	s, err := determine([3]side{
		{t.TASKnots, t.HeadingDegrees},
		{t.WindKnots, t.WindFromDegrees + 180},     // toward
		{t.GroundspeedKnots, t.TrackDegrees + 180}, // reversed
	})
	if err != nil {
		return t, err
	}
	from := s[1].dir - 180
	if math.IsNaN(from) {
		from = 0
	}
	found := Triangle{s[0].size, units.WrapDegrees(s[0].dir), s[1].size, units.WrapDegrees(from),
		s[2].size, units.WrapDegrees(s[2].dir - 180)}
	answers := found.figures()
	for i, v := range t.figures() {
		if math.IsNaN(*v) {
			*v = *answers[i]
		}
	}
	return t, nil
}

// figures are the six, in the order of the fields.
func (t *Triangle) figures() [6]*float64 {
	return [6]*float64{&t.TASKnots, &t.HeadingDegrees, &t.WindKnots, &t.WindFromDegrees, &t.GroundspeedKnots, &t.TrackDegrees}
}

// DriftDegrees is track less heading, + to the right, -180 to 180.
func (t Triangle) DriftDegrees() float64 { return math.Remainder(t.TrackDegrees-t.HeadingDegrees, 360) }

// determine closes the triangle and takes the figure with the greater
// groundspeed where there are two.
func determine(s [3]side) ([3]side, error) {
	figures, n, err := closeTriangle(s)
	if err != nil {
		return s, err
	}
	figure := figures[0]
	if n == 2 {
		if figures[1][2].size == figure[2].size {
			return s, ErrTwo
		}
		if figures[1][2].size > figure[2].size {
			figure = figures[1]
		}
	}
	if math.IsNaN(figure[0].dir) || math.IsNaN(figure[2].dir) {
		return s, ErrNoLength
	}
	return figure, nil
}

// side is a vector of the wind triangle: its length, and its direction in
// degrees clockwise from north; NaN where not known. Taken in turn (air vector,
// wind toward, ground vector reversed) the three sides close: their sum is 0.
type side struct{ size, dir float64 }

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
			return s, ErrMany
		}
		return s, ErrNoTriangle
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
			return ErrNoTriangle
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
		return s, ErrMany
	case math.Abs(a+b-c) <= slack: // i and j together against k
		s[i].dir, s[j].dir = s[k].dir+180, s[k].dir+180
	case math.Abs(a+c-b) <= slack: // j against i and k
		s[i].dir, s[j].dir = s[k].dir, s[k].dir+180
	case math.Abs(b+c-a) <= slack:
		s[i].dir, s[j].dir = s[k].dir+180, s[k].dir
	case a+b > c && b+c > a && c+a > b:
		return s, ErrMirror
	default:
		return s, ErrNoTriangle
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
		return figures, 0, ErrNoTriangle
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
		return figures, 0, ErrNoTriangle
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
