package paint

import "math"

// Point is a place on the surface.
type Point struct{ X, Y float64 }

// Pt makes a Point.
func Pt(x, y float64) Point { return Point{x, y} }

// Add moves the point.
func (p Point) Add(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// Dist is the distance between two points.
func (p Point) Dist(q Point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// Polar is the point at distance r from (x, y) in direction deg, clockwise
// from the top.
func Polar(x, y, r, deg float64) Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Point{x + r*s, y - r*c}
}

// Rect is a rectangle: corner, width, height.
type Rect struct{ X, Y, W, H float64 }

// R makes a Rect.
func R(x, y, w, h float64) Rect { return Rect{x, y, w, h} }

// Right is the x of the right edge.
func (r Rect) Right() float64 { return r.X + r.W }

// Bottom is the y of the lower edge.
func (r Rect) Bottom() float64 { return r.Y + r.H }

// Centre is the middle of the rectangle.
func (r Rect) Centre() Point { return Point{r.X + r.W/2, r.Y + r.H/2} }

// Inset moves every edge inwards by d (outwards if negative).
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Contains says whether the point lies inside or on the edge.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.X && p.X <= r.Right() && p.Y >= r.Y && p.Y <= r.Bottom()
}

// Covers says whether q lies wholly inside r.
func (r Rect) Covers(q Rect) bool {
	return q.X >= r.X && q.Y >= r.Y && q.Right() <= r.Right() && q.Bottom() <= r.Bottom()
}

// Overlaps says whether the two rectangles share an area.
func (r Rect) Overlaps(q Rect) bool {
	return r.X < q.Right() && q.X < r.Right() && r.Y < q.Bottom() && q.Y < r.Bottom()
}

// Intersect is the common part; W or H is 0 where there is none.
func (r Rect) Intersect(q Rect) Rect {
	x, y := math.Max(r.X, q.X), math.Max(r.Y, q.Y)
	return Rect{x, y, math.Max(0, math.Min(r.Right(), q.Right())-x), math.Max(0, math.Min(r.Bottom(), q.Bottom())-y)}
}

// Snap rounds the edges to whole pixels.
func (r Rect) Snap() Rect {
	x, y := math.Round(r.X), math.Round(r.Y)
	return Rect{x, y, math.Round(r.Right()) - x, math.Round(r.Bottom()) - y}
}

// Affine maps (x, y) to (A x + C y + E, B x + D y + F).
type Affine struct{ A, B, C, D, E, F float64 }

// Identity leaves points alone.
var Identity = Affine{A: 1, D: 1}

// Turn scales by k, turns clockwise by deg and moves the origin to (x, y).
func Turn(x, y, k, deg float64) Affine {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Affine{A: k * c, B: k * s, C: -k * s, D: k * c, E: x, F: y}
}

// At maps a point.
func (m Affine) At(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// ClipSegment cuts the segment to the rectangle (Liang and Barsky); ok is
// false if nothing is left.
func ClipSegment(a, b Point, r Rect) (p, q Point, ok bool) {
	t0, t1 := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X - r.X}, {dx, r.Right() - a.X}, {-dy, a.Y - r.Y}, {dy, r.Bottom() - a.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return p, q, false
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	if t0 > t1 {
		return p, q, false
	}
	return Point{a.X + t0*dx, a.Y + t0*dy}, Point{a.X + t1*dx, a.Y + t1*dy}, true
}

// ClipPolygon cuts a closed polygon to the rectangle (Sutherland and
// Hodgman); the cut runs along the rectangle's edges.
func ClipPolygon(pts []Point, r Rect) []Point {
	inside := [4]func(Point) float64{
		func(p Point) float64 { return p.X - r.X },
		func(p Point) float64 { return r.Right() - p.X },
		func(p Point) float64 { return p.Y - r.Y },
		func(p Point) float64 { return r.Bottom() - p.Y },
	}
	for _, d := range inside {
		pts = clipHalf(pts, d)
	}
	return pts
}

func clipHalf(pts []Point, d func(Point) float64) []Point {
	var out []Point
	for i, b := range pts {
		a := pts[(i+len(pts)-1)%len(pts)]
		da, db := d(a), d(b)
		if (da < 0) != (db < 0) {
			t := da / (da - db)
			out = append(out, Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)})
		}
		if db >= 0 {
			out = append(out, b)
		}
	}
	return out
}
