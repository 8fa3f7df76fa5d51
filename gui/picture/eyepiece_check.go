package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// HeadingCheck is what is seen in the heading check.
type HeadingCheck struct {
	Ring         float64 // true degrees of the ring under the lubber mark
	BodyX, BodyY float64 // the body, or the tip of its shadow; parts of the view, y down
	Sun          bool    // a shadow is looked at, not the sky
	Name         string  // of the body
}

// The heading check, parts of the view.
const (
	sightOuter = 0.24
	sightInner = 0.09
	checkDisc  = 0.045
	shadowWide = 0.06
	checkField = 14
)

// DrawHeadingCheck draws the heading check: the body set for stands in the middle
// of the rings when the lubber mark reads the true heading. For the Sun it is the
// shadow of a pin with a bead that is brought there.
func DrawHeadingCheck(b *Brush, x, y, r float64, h HeadingCheck) {
	h.Ring = finite(h.Ring)
	s := b.darkSight()
	if h.Sun {
		s = b.cardSight()
	}
	e := b.lookInto(x, y, r, s)
	if h.Sun {
		e.shadow(h.BodyX, h.BodyY)
	} else {
		e.heaven(30, checkField)
	}
	e.sightRings()
	if !h.Sun {
		e.star(h.BodyX, h.BodyY, checkDisc)
	}
	e.bodyName(h)
	e.ring()
	e.degrees(180, 5, 0.04, 0.085, -h.Ring)
	e.checkFigures(h.Ring)
	e.lubber()
	e.knob(180)
}

// sightRings draws the two rings and four wires.
func (e eye) sightRings() {
	e.circle(0, 0, sightOuter, 2.6, e.s.strong)
	e.circle(0, 0, sightInner, 1.4, e.s.strong)
	for _, d := range [][2]float64{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
		e.wire(e.At(d[0]*sightOuter, d[1]*sightOuter), e.At(d[0], d[1]), 1.4, e.s.strong)
	}
}

// shadow draws the shadow of a pin, from the foot of the view up to its bead.
func (e eye) shadow(x, y float64) {
	if !(math.Abs(x) < 1) || math.IsNaN(y) {
		return
	}
	c := paint.Mix(e.s.ground, e.s.second, 0.60)
	if top := math.Max(-1, y); top < 1 {
		a, z, ok := e.within(e.At(x, top), e.At(x, 1.2), -0.02*e.R)
		if ok {
			e.line(a, z, shadowWide*e.View(), c)
		}
	}
	if inView(x, y, checkDisc) {
		p := e.At(x, y)
		e.disc(p.X, p.Y, 1.3*checkDisc*e.View(), c, none, 0)
	}
}

// bodyName writes the name near the body, in that quarter of the view where it
// stands nearest, off the wires and the outer ring.
func (e eye) bodyName(h HeadingCheck) {
	if h.Name == "" || !inView(h.BodyX, h.BodyY, 0) {
		return
	}
	size := e.K.Text(math.Max(look.TextSmall, e.R*0.092/e.K.Part))
	face := paint.Type{Font: look.Regular.Font(), Size: size}
	words := face.Shorten(h.Name, 0.62*e.View())
	w, high := face.Font.Width(words, size), 0.95*size
	body := paint.Pt(h.BodyX*e.View(), h.BodyY*e.View())
	rays := 0.11 * e.View()
	onBody := paint.R(body.X-rays, body.Y-rays, 2*rays, 2*rays)
	var best paint.Rect
	nearest := math.Inf(1)
	for _, way := range [][2]float64{{1, -1}, {-1, -1}, {1, 1}, {-1, 1}} {
		for _, over := range []bool{false, true} {
			q := e.namePlace(body, way, w, high, over)
			d := q.Centre().Dist(body)
			if q.Overlaps(onBody) {
				d += 2 * e.View()
			}
			// A little farther is borne for the upper right.
			if d < nearest-0.08*e.View() {
				best, nearest = q, d
			}
		}
	}
	m := best.Centre()
	e.haloed(e.X+best.X, e.Y+m.Y+0.36*size, words, look.Regular, size, paint.Start, e.s.strong, e.s.ground)
}

// namePlace is a rectangle of w by h in one quarter of the view, near the body but
// off it, off the wires and the ring, and within the view; beside the body, or over
// (or under) it.
func (e eye) namePlace(body paint.Point, way [2]float64, w, h float64, over bool) paint.Rect {
	v, off := e.View(), 0.05*e.View()
	// Worked as if it were the quarter to the right and down.
	bx, by := body.X*way[0], body.Y*way[1]
	x, y := math.Max(off, bx+2.6*off), math.Max(off, by+2.6*off-h/2)
	if over {
		x, y = math.Max(off, bx-w/2), math.Max(off, by+2.6*off)
	}
	inner, outer := sightOuter*v+off, 0.97*v
	for math.Hypot(x, y) < inner {
		x, y = x+1, y+1
	}
	for math.Hypot(x+w, y+h) > outer && (x > off || y > off) {
		x, y = math.Max(off, x-1), math.Max(off, y-1)
	}
	for math.Hypot(x, y) < inner && math.Hypot(x+w, y+h+1) <= outer {
		y++
	}
	if way[0] < 0 {
		x = -x - w
	}
	if way[1] < 0 {
		y = -y - h
	}
	return paint.R(x, y, w, h)
}

// checkFigures writes the figures of the ring, save under the lubber mark.
func (e eye) checkFigures(ring float64) {
	letters := compassLetters()
	size := e.figureSize(0.094)
	free := 5 + math.Asin(math.Min(1, 0.95*size/(1.1*e.R)))*180/math.Pi
	for k := range 12 {
		deg := float64(k)*30 - ring
		if math.Abs(math.Remainder(deg, 360)) < free {
			continue
		}
		words := tens(k * 3)
		if k%3 == 0 {
			words = letters[k/3]
		}
		e.outside(1.125, 1.02, deg, words, 0.094, e.C.Ink2)
	}
}
