package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Sextant is what is seen in the bubble sextant.
type Sextant struct {
	BubbleX, BubbleY float64 // middle of the bubble, parts of the view, y down
	BodyX, BodyY     float64 // the star or the Sun, likewise
	Sun              bool
	Share            float64 // of the two minutes, 0 to 1
	Wheel            float64 // turns of the wheel, for its teeth
	Field            int     // which faint stars stand round about
	Day              bool    // none of them
}

// The sextant, parts of the view and (arc) of R.
const (
	bubbleOuter = 0.25
	bubbleInner = 0.205
	starDisc    = 0.055
	sunDisc     = 0.115
	minutesAt   = 1.065
	minutesWide = 0.05
)

// DrawSextant draws the bubble sextant: a body to be held in the middle of the
// bubble by the wheel at the left, two minutes long.
func DrawSextant(b *Brush, x, y, r float64, s Sextant) {
	e := b.lookInto(x, y, r, b.darkSight())
	if !s.Day {
		e.heaven(26, s.Field)
	}
	e.wire(e.At(0, -1), e.At(0, 1), 1.2, e.s.faint)
	e.wire(e.At(-1, 0), e.At(1, 0), 1.2, e.s.faint)
	if s.Sun {
		e.sun(s.BodyX, s.BodyY)
	} else {
		e.star(s.BodyX, s.BodyY, starDisc)
	}
	bx, by := finite(s.BubbleX), finite(s.BubbleY)
	e.circle(bx, by, bubbleInner, 1, e.s.second)
	e.circle(bx, by, bubbleOuter, 2.6, e.s.strong)
	e.ring()
	e.marks(24, 6, 0)
	e.minutes(math.Max(0, math.Min(1, finite(s.Share))))
	e.sextantWheel(SextantWheel(b.K, x, y, r), finite(s.Wheel))
}

// sun draws the Sun behind the shade.
func (e eye) sun(x, y float64) {
	if !inView(x, y, sunDisc) {
		return
	}
	p, r := e.At(x, y), sunDisc*e.View()
	e.disc(p.X, p.Y, r*1.3, paint.Alpha(e.s.flame, 0.25), none, 0)
	e.disc(p.X, p.Y, r, e.s.flame, none, 0)
}

// minutes draws round the ring how much of the two minutes has gone.
func (e eye) minutes(part float64) {
	width := e.R * minutesWide
	e.path.Reset().Circle(e.X, e.Y, e.R*minutesAt)
	e.Stroke(&e.path, paint.Pen{Width: width}, e.C.Line)
	if part > 0 {
		e.arc(e.X, e.Y, e.R*minutesAt, 0, 360*part, width, e.minutesColour())
	}
}

// minutesColour is slate where it stands out from the line under it.
func (e eye) minutesColour() colour {
	if e.C.Variant == look.Paper {
		return e.C.Slate
	}
	return e.C.Rod
}

// SextantWheel is where the wheel of the sextant at (x, y) is.
func SextantWheel(k look.Size, x, y, r float64) paint.Rect {
	w := math.Max(0.175*r, math.Min(22*k.Device, 0.24*r))
	return paint.R(x-1.38*r, y-0.35*r, w, 0.70*r)
}

// wheelTeeth is the number of teeth on the half of the wheel that is seen.
const wheelTeeth = 12

// sextantWheel draws the wheel from its edge: its teeth lie by the cosine of
// where they are on it, and go up as it is turned forwards.
func (e eye) sextantWheel(q paint.Rect, turns float64) {
	rad := look.PlateRadius * e.w
	e.rect(q, rad, e.m.edge, none, 0)
	e.rect(paint.R(q.X+2*e.w, q.Y+q.H*0.25, q.W-4*e.w, q.H*0.5), 0, paint.Alpha(e.m.face, 0.55), none, 0)
	e.path.Reset()
	phase := turns*2*wheelTeeth - math.Floor(turns*2*wheelTeeth)
	for k := range wheelTeeth {
		at := (float64(k) + 1 - phase) / wheelTeeth
		y := q.Y + q.H/2 - 0.97*q.H/2*math.Cos(math.Pi*at)
		e.path.Segment(paint.Pt(q.X+0.18*q.W, y), paint.Pt(q.Right()-0.18*q.W, y))
	}
	e.Stroke(&e.path, paint.Pen{Width: 2.2 * e.w}, e.C.BrassLo)
	e.rect(q, rad, none, e.C.BrassLo, 1.8*e.w)
}
