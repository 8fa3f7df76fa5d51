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

// bodyName writes the name up to the right of the body, or to its left where the
// rim is near; never on the rings or the wires.
func (e eye) bodyName(h HeadingCheck) {
	if h.Name == "" || !inView(h.BodyX, h.BodyY, 0) {
		return
	}
	size := e.K.Text(math.Max(look.TextSmall, e.R*0.092/e.K.Part))
	face := paint.Type{Font: look.Regular.Font(), Size: size}
	v := e.View()
	// In the quarter of the view beside the body, clear of the outer ring.
	y := math.Min(h.BodyY*v-0.17*v, -sightOuter*v*0.62)
	if h.BodyY > sightOuter {
		y = h.BodyY*v + 0.17*v
	}
	y = math.Max(-0.80*v, math.Min(0.80*v, y))
	edge := math.Sqrt(v*v-math.Pow(math.Abs(y)+0.5*size, 2)) - 0.25*size
	clear := 0.3 * size
	if ring := math.Abs(y) - 0.5*size; ring < sightOuter*v {
		clear += math.Sqrt(math.Pow(sightOuter*v, 2) - math.Pow(math.Max(0, ring), 2))
	}
	room := edge - clear
	words := face.Shorten(h.Name, room)
	width := face.Font.Width(words, size)
	left := math.Max(clear, math.Min(h.BodyX*v+0.15*v, edge-width))
	if h.BodyX < 0 && left > h.BodyX*v+0.4*v {
		left = math.Min(-clear-width, math.Max(h.BodyX*v-0.15*v-width, -edge))
	}
	e.write(e.X+left, e.Y+y+0.36*size, words, look.Regular, size, paint.Start, e.s.strong)
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
