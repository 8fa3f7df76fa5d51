package paint

import "math"

// Op is one kind of step of a Path.
type Op uint8

// The steps of a path and the number of points each takes.
const (
	Move  Op = iota // 1
	Line            // 1
	Quad            // 2
	Cubic           // 3
	Close           // 0
)

// Path is a sequence of contours. The zero value is empty and ready.
type Path struct {
	Ops []Op
	Pts []Point
}

// Reset empties the path and keeps its memory.
func (p *Path) Reset() *Path {
	p.Ops, p.Pts = p.Ops[:0], p.Pts[:0]
	return p
}

// MoveTo begins a contour.
func (p *Path) MoveTo(x, y float64) *Path {
	p.Ops, p.Pts = append(p.Ops, Move), append(p.Pts, Point{x, y})
	return p
}

// LineTo adds a straight piece.
func (p *Path) LineTo(x, y float64) *Path {
	p.Ops, p.Pts = append(p.Ops, Line), append(p.Pts, Point{x, y})
	return p
}

// QuadTo adds a quadratic piece.
func (p *Path) QuadTo(a, b Point) *Path {
	p.Ops, p.Pts = append(p.Ops, Quad), append(p.Pts, a, b)
	return p
}

// CubicTo adds a cubic piece.
func (p *Path) CubicTo(a, b, c Point) *Path {
	p.Ops, p.Pts = append(p.Ops, Cubic), append(p.Pts, a, b, c)
	return p
}

// Close closes the contour.
func (p *Path) Close() *Path {
	p.Ops = append(p.Ops, Close)
	return p
}

// Segment adds one straight line from a to b.
func (p *Path) Segment(a, b Point) *Path { return p.MoveTo(a.X, a.Y).LineTo(b.X, b.Y) }

// Polyline adds an open line through the points.
func (p *Path) Polyline(pts ...Point) *Path {
	for i, q := range pts {
		if i == 0 {
			p.MoveTo(q.X, q.Y)
		} else {
			p.LineTo(q.X, q.Y)
		}
	}
	return p
}

// Polygon adds a closed line through the points.
func (p *Path) Polygon(pts ...Point) *Path {
	if len(pts) == 0 {
		return p
	}
	return p.Polyline(pts...).Close()
}

// Rect adds a rectangle.
func (p *Path) Rect(r Rect) *Path {
	return p.MoveTo(r.X, r.Y).LineTo(r.Right(), r.Y).LineTo(r.Right(), r.Bottom()).LineTo(r.X, r.Bottom()).Close()
}

// kappa places the handles of a quarter circle drawn as one cubic:
// 4/3 (sqrt 2 - 1); the radius is then out by less than 3 in 10,000.
const kappa = 0.5522847498307936

// RoundRect adds a rectangle with corners of radius rad.
func (p *Path) RoundRect(r Rect, rad float64) *Path {
	rad = math.Min(rad, math.Min(r.W, r.H)/2)
	if rad <= 0 {
		return p.Rect(r)
	}
	x0, y0, x1, y1, h := r.X, r.Y, r.Right(), r.Bottom(), rad*(1-kappa)
	p.MoveTo(x0+rad, y0).LineTo(x1-rad, y0).CubicTo(Pt(x1-h, y0), Pt(x1, y0+h), Pt(x1, y0+rad))
	p.LineTo(x1, y1-rad).CubicTo(Pt(x1, y1-h), Pt(x1-h, y1), Pt(x1-rad, y1))
	p.LineTo(x0+rad, y1).CubicTo(Pt(x0+h, y1), Pt(x0, y1-h), Pt(x0, y1-rad))
	return p.LineTo(x0, y0+rad).CubicTo(Pt(x0, y0+h), Pt(x0+h, y0), Pt(x0+rad, y0)).Close()
}

// Circle adds a full circle.
func (p *Path) Circle(x, y, r float64) *Path {
	h := r * kappa
	p.MoveTo(x, y-r).CubicTo(Pt(x+h, y-r), Pt(x+r, y-h), Pt(x+r, y))
	p.CubicTo(Pt(x+r, y+h), Pt(x+h, y+r), Pt(x, y+r))
	p.CubicTo(Pt(x-h, y+r), Pt(x-r, y+h), Pt(x-r, y))
	return p.CubicTo(Pt(x-r, y-h), Pt(x-h, y-r), Pt(x, y-r)).Close()
}

// Arc adds an open arc from direction a to direction b, in degrees clockwise
// from the top; b below a runs the other way.
func (p *Path) Arc(x, y, r, a, b float64) *Path {
	n := math.Max(1, math.Ceil(math.Abs(b-a)/60))
	step := (b - a) / n
	h := r * 4 / 3 * math.Tan(step*math.Pi/720)
	q := Polar(x, y, r, a)
	p.MoveTo(q.X, q.Y)
	for i := 0.0; i < n; i++ {
		t0, t1 := a+i*step, a+(i+1)*step
		p0, p1 := Polar(x, y, r, t0), Polar(x, y, r, t1)
		d0, d1 := Polar(0, 0, h, t0+90), Polar(0, 0, h, t1-90)
		p.CubicTo(p0.Add(d0.X, d0.Y), p1.Add(d1.X, d1.Y), p1)
	}
	return p
}

// Bounds is the rectangle round all points, handles included.
func (p *Path) Bounds() Rect {
	if len(p.Pts) == 0 {
		return Rect{}
	}
	a, b := p.Pts[0], p.Pts[0]
	for _, q := range p.Pts[1:] {
		a.X, a.Y = math.Min(a.X, q.X), math.Min(a.Y, q.Y)
		b.X, b.Y = math.Max(b.X, q.X), math.Max(b.Y, q.Y)
	}
	return Rect{a.X, a.Y, b.X - a.X, b.Y - a.Y}
}

// tolerance is how far a flattened curve may lie from the true one, pixels;
// soft is the same for halos, whose edge nobody looks at.
const (
	tolerance = 0.05
	soft      = 0.35
)

// flatten calls line for every straight piece of the path, curves cut up;
// each contour is closed if fill is set. start is called at each contour.
func (p *Path) flatten(tol float64, fill bool, start func(Point), line func(a, b Point), end func(closed bool)) {
	var first, at Point
	open := false
	finish := func(closed bool) {
		if !open {
			return
		}
		if (closed || fill) && at != first {
			line(at, first)
		}
		end(closed)
		open = false
	}
	k := 0
	for _, op := range p.Ops {
		switch op {
		case Move:
			finish(false)
			first = p.Pts[k]
			at, open = first, true
			start(first)
		case Line:
			q := p.Pts[k]
			line(at, q)
			at = q
		case Quad:
			a, b := p.Pts[k], p.Pts[k+1]
			flattenQuad(tol, at, a, b, line)
			at = b
		case Cubic:
			a, b, c := p.Pts[k], p.Pts[k+1], p.Pts[k+2]
			flattenCubic(tol, at, a, b, c, line)
			at = c
		case Close:
			finish(true)
			at = first
		}
		k += op.points()
	}
	finish(false)
}

func (o Op) points() int { return [...]int{1, 1, 2, 3, 0}[o] }

func flattenQuad(tol float64, p, a, b Point, line func(a, b Point)) {
	// The chord of a piece lies within |p - 2a + b| / (4 n^2) of the curve.
	n := math.Ceil(math.Sqrt(math.Hypot(p.X-2*a.X+b.X, p.Y-2*a.Y+b.Y) / (4 * tol)))
	from := p
	for i := 1.0; i < n; i++ {
		t := i / n
		u := 1 - t
		q := Point{u*u*p.X + 2*u*t*a.X + t*t*b.X, u*u*p.Y + 2*u*t*a.Y + t*t*b.Y}
		line(from, q)
		from = q
	}
	line(from, b)
}

func flattenCubic(tol float64, p, a, b, c Point, line func(a, b Point)) {
	// The second differences bound the distance of chord and curve.
	d := math.Max(math.Hypot(p.X-2*a.X+b.X, p.Y-2*a.Y+b.Y), math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y))
	n := math.Ceil(math.Sqrt(0.75 * d / tol))
	from := p
	for i := 1.0; i < n; i++ {
		t := i / n
		u := 1 - t
		w0, w1, w2, w3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		q := Point{w0*p.X + w1*a.X + w2*b.X + w3*c.X, w0*p.Y + w1*a.Y + w2*b.Y + w3*c.Y}
		line(from, q)
		from = q
	}
	line(from, c)
}
