package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Eyepiece is where the eyepiece of one of the navigator's aids stands: its
// middle and R, the outer radius of its brass ring, device pixels. All five have
// the ring, the rim of the view and the view in common; the hand turns the ring
// (or a wheel beside it), the eye looks into the view.
//
// Notation: r is R; v the radius of the view, 0.80 R. Places in the view are in
// parts of v, x to the right and y down, as on the surface. Directions are
// degrees clockwise from the top. What lies outside the view is not drawn: the
// surface clips to rectangles only, so lines are cut at the circle here.
type Eyepiece struct{ X, Y, R float64 }

// The radii of an eyepiece, parts of R.
const (
	eyeView    = 0.80  // the view
	eyeRim     = 0.83  // outer edge of the rim of the view, inner edge of the brass
	eyeMark    = 0.97  // where the marks on the brass begin
	eyeKnobAt  = 0.92  // the middle of the knob
	eyeKnob    = 0.115 // the knob
	eyeFigures = 1.13  // figures outside
)

// eyeDrawn is the R at which the widths of lines below are given.
const eyeDrawn = 160

// EyepieceBox is the room of any of the five eyepieces round its middle at
// (0, 0): the scale and figures outside the ring and the wheel of the sextant
// included. It holds from 90 units up.
func EyepieceBox(r float64) paint.Rect { return paint.R(-1.40*r, -1.29*r, 2.80*r, 2.52*r) }

// RingAt is the direction of the hand at p round the eyepiece at (x, y), degrees
// from 0 to 360; it is 0 at the very middle. ok says whether the hand is on the
// ring, or near enough to take hold of it.
func RingAt(x, y, r float64, p paint.Point) (deg float64, ok bool) {
	deg, _ = directionAt(x, y, r, p)
	d := p.Dist(paint.Pt(x, y))
	return deg, d >= 0.70*r && d <= 1.15*r
}

// Box is the room of the eyepiece where it stands.
func (e Eyepiece) Box() paint.Rect {
	q := EyepieceBox(e.R)
	q.X, q.Y = q.X+e.X, q.Y+e.Y
	return q
}

// RingAt is the function RingAt for this eyepiece.
func (e Eyepiece) RingAt(p paint.Point) (deg float64, ok bool) { return RingAt(e.X, e.Y, e.R, p) }

// View is the radius of the view.
func (e Eyepiece) View() float64 { return eyeView * e.R }

// At is the point of the surface at a place in the view.
func (e Eyepiece) At(x, y float64) paint.Point {
	return paint.Pt(e.X+x*e.View(), e.Y+y*e.View())
}

// sight are the colours of what is seen in the view.
type sight struct{ ground, strong, second, faint, star, flame colour }

// darkSight is a view out of the aircraft or at a tube: dark in every light.
func (b *Brush) darkSight() sight {
	if b.C.Variant >= look.Lamp {
		c := look.Of(look.Lamp)
		return sight{ground: c.Ground, strong: c.Ink, second: paint.Mix(c.Ground, c.Ink, 0.62), faint: paint.Mix(c.Ground, c.Ink, 0.30), star: c.DrumInk, flame: c.BrassHi}
	}
	c := look.Of(look.Night)
	return sight{ground: c.Sea, strong: c.Ink, second: c.Rod, faint: c.Line, star: look.Of(look.Paper).OnSlate, flame: c.BrassHi}
}

// cardSight is a view of an instrument: the colours of cards.
func (b *Brush) cardSight() sight {
	c := b.C
	return sight{ground: c.Card, strong: c.Ink, second: c.Ink2, faint: c.Line, star: c.Ink, flame: c.BrassHi}
}

// brass are the colours of the ring.
type brass struct{ face, edge, mark, figure colour }

// brassRing: under the lamp the face is the dark brass, for a ring as bright as
// its light edge would blind the eye at the view.
func (b *Brush) brassRing() brass {
	if b.C.Variant >= look.Lamp {
		c := look.Of(look.Lamp)
		return brass{face: paint.Mix(c.Ground, c.Brass, 0.75), edge: c.Brass, mark: c.BrassHi, figure: c.BrassHi}
	}
	return brass{face: b.C.BrassHi, edge: b.C.Brass, mark: b.C.BrassLo, figure: b.C.OnBrass}
}

// eye is an eyepiece being drawn.
type eye struct {
	Eyepiece
	*Brush
	s sight
	m brass
	w float64 // factor of the widths of lines
}

// lookInto begins an eyepiece with its view and nothing in it.
func (b *Brush) lookInto(x, y, r float64, s sight) eye {
	e := eye{Eyepiece: Eyepiece{X: x, Y: y, R: r}, Brush: b, s: s, m: b.brassRing()}
	e.w = math.Max(r/eyeDrawn, 0.7*b.K.Device)
	b.disc(x, y, r*(eyeView+0.01), s.ground, none, 0)
	return e
}

// ring lays the rim and the brass over the edge of the view.
func (e eye) ring() {
	whole := func(radius, width float64, c colour) {
		e.path.Reset().Circle(e.X, e.Y, e.R*radius)
		e.Stroke(&e.path, paint.Pen{Width: width}, c)
	}
	whole((eyeView+eyeRim+0.01)/2, e.R*(eyeRim-eyeView+0.01), e.C.Rod)
	whole((1+eyeRim)/2, e.R*(1-eyeRim), e.m.face)
	whole(0.985, 0.03*e.R, e.m.edge)
	whole(1, 1.8*e.w, e.C.BrassLo)
}

// marks draws n marks on the brass, turned by deg, each major one longer.
func (e eye) marks(n, major int, deg float64) {
	e.marksWhere(n, major, deg, func(float64) bool { return true })
}

// marksWhere draws those marks whose own direction on the ring is wanted.
func (e eye) marksWhere(n, major int, deg float64, wanted func(deg float64) bool) {
	for _, long := range []bool{false, true} {
		to, width := 0.92, 1.2
		if long {
			to, width = 0.87, 2.3
		}
		e.path.Reset()
		for k := range n {
			if d := float64(k) * 360 / float64(n); k%major == 0 == long && wanted(d) {
				e.radial(eyeMark, to, d+deg)
			}
		}
		e.Stroke(&e.path, paint.Pen{Width: width * e.w}, e.m.mark)
	}
}

// radial adds a line along a radius to the scratch path.
func (e eye) radial(from, to, deg float64) {
	e.path.Segment(paint.Polar(e.X, e.Y, e.R*from, deg), paint.Polar(e.X, e.Y, e.R*to, deg))
}

// knob draws the knob on the ring.
func (e eye) knob(deg float64) {
	p := paint.Polar(e.X, e.Y, e.R*eyeKnobAt, deg)
	e.disc(p.X, p.Y, e.R*eyeKnob, e.C.Brass, e.C.BrassLo, 1.8*e.w)
	e.disc(p.X, p.Y, e.R*eyeKnob*0.36, e.C.BrassHi, e.C.BrassLo, e.w)
}

// index draws the triangle on the ring that points outwards at a scale.
func (e eye) index(deg float64) {
	at := func(radius, off float64) paint.Point { return paint.Polar(e.X, e.Y, e.R*radius, deg+off) }
	e.polygon(e.indexColour(), none, 0, at(1.01, 0), at(0.89, 4), at(0.89, -4))
}

// indexColour is ink, on brass.
func (e eye) indexColour() colour { return e.m.figure }

// lubber draws the fixed mark above the ring.
func (e eye) lubber() {
	at := func(radius, off float64) paint.Point { return paint.Polar(e.X, e.Y, e.R*radius, off) }
	e.polygon(e.C.Ink, none, 0, at(1.13, -4.6), at(1.13, 4.6), at(1.05, 5), at(0.965, 0), at(1.05, -5))
}

// figureSize is the size of a figure outside the ring, drawn at share of R.
func (e eye) figureSize(share float64) float64 { return e.K.Figure(e.R * share / e.K.Part) }

// outside writes a figure outside the ring with its middle at radius, or as far
// out as it must stand to keep clear of what ends at free (parts of R).
func (e eye) outside(radius, free, deg float64, s string, share float64, c colour) {
	size := e.figureSize(share)
	sin, cos := math.Sincos(deg * math.Pi / 180)
	half := math.Abs(sin)*look.Engraved.Font().Width(s, size)/2 + math.Abs(cos)*size*0.36
	reach := math.Max(e.R*radius, e.R*free+half+0.16*size)
	e.upright(paint.Polar(e.X, e.Y, reach, deg), s, size, c)
}

// within is the part of the line from p to q that lies within the view less
// margin pixels.
func (e Eyepiece) within(p, q paint.Point, margin float64) (a, z paint.Point, ok bool) {
	r := e.View() - margin
	dx, dy, fx, fy := q.X-p.X, q.Y-p.Y, p.X-e.X, p.Y-e.Y
	// |f + t d|^2 = r^2
	a2, half, c := dx*dx+dy*dy, fx*dx+fy*dy, fx*fx+fy*fy-r*r
	root := half*half - a2*c
	if !(a2 > 0) || !(root > 0) {
		return p, q, false
	}
	root = math.Sqrt(root)
	t0, t1 := math.Max(0, (-half-root)/a2), math.Min(1, (-half+root)/a2)
	if !(t0 < t1) {
		return p, q, false
	}
	return paint.Pt(p.X+t0*dx, p.Y+t0*dy), paint.Pt(p.X+t1*dx, p.Y+t1*dy), true
}

// inside adds what is seen of a line to the scratch path.
func (e eye) inside(pts ...paint.Point) {
	var last paint.Point
	open := false
	for i := 1; i < len(pts); i++ {
		a, z, ok := e.within(pts[i-1], pts[i], 0)
		switch {
		case !ok:
			open = false
			continue
		case open && a == last:
			e.path.LineTo(z.X, z.Y)
		default:
			e.path.Segment(a, z)
		}
		last, open = z, true
	}
}

// wire draws what is seen of a straight line.
func (e eye) wire(p, q paint.Point, width float64, c colour, dash ...float64) {
	e.path.Reset()
	e.inside(p, q)
	e.Stroke(&e.path, paint.Pen{Width: width * e.w, Dash: dash}, c)
}

// circle draws what is seen of a circle; place and radius in parts of the view.
func (e eye) circle(x, y, radius, width float64, c colour) {
	m, r := e.At(x, y), radius*e.View()
	e.path.Reset()
	if math.Hypot(x, y)+radius < 1 {
		e.path.Circle(m.X, m.Y, r)
	} else {
		const n = 72
		pts := make([]paint.Point, n+1)
		for k := range pts {
			pts[k] = paint.Polar(m.X, m.Y, r, float64(k)*360/n)
		}
		e.inside(pts...)
	}
	e.Stroke(&e.path, paint.Pen{Width: width * e.w}, c)
}

// inView says whether any of a small disc is to be seen; the rim, drawn after it,
// covers what hangs over.
func inView(x, y, radius float64) bool { return math.Hypot(x, y) < 1+0.8*radius }

// heaven strews n faint stars over the view; the same field gives the same ones.
func (e eye) heaven(n, field int) {
	small, large := 1.1*e.w, 1.8*e.w
	e.path.Reset()
	for k := range n {
		h := hashOf(int64(k), int64(field))
		p := paint.Polar(e.X, e.Y, 0.97*e.View()*math.Sqrt(share(h)), 360*share(h>>20))
		r := small
		if share(h>>40) > 0.78 {
			r = large
		}
		e.path.Circle(p.X, p.Y, r)
	}
	e.Fill(&e.path, e.s.second)
}

// star draws the body observed: a disc with a cross of rays.
func (e eye) star(x, y, radius float64) {
	if !inView(x, y, radius) {
		return
	}
	p, ray := e.At(x, y), 0.1
	e.wire(e.At(x-ray, y), e.At(x+ray, y), 1.2, e.s.star)
	e.wire(e.At(x, y-ray), e.At(x, y+ray), 1.2, e.s.star)
	e.disc(p.X, p.Y, radius*e.View(), e.s.star, none, 0)
}

// finite is v, or 0 for what no control can stand at.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}
