package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Needle is a left-right needle: -1 hard to the left, 1 hard to the right; dead it lies in
// the middle and is pale.
type Needle struct {
	Side float64
	Dead bool
}

// How far the needle goes to each side, degrees.
const needleThrow = 50

// angle is where it points, degrees from the top.
func (n Needle) angle() float64 {
	return needleThrow * math.Max(-1, math.Min(1, finite(n.Side)))
}

// DrawHoming draws the loop with its coil athwart and the left-right needle over it, by
// which one flies to the station.
func DrawHoming(b *Brush, x, y, r float64, n Needle) {
	e := b.lookInto(x, y, r, b.cardSight())
	at := func(px, py float64) paint.Point { return e.At(px, py) }
	foot := at(0, 0.46)
	reach := 1.02 * e.View()
	e.arc(foot.X, foot.Y, reach, -needleThrow, needleThrow, 1.8*e.w, e.s.strong)
	for d := -needleThrow; d <= needleThrow; d += needleThrow / 5 {
		length, width := 0.06, 1.4
		if d == 0 || d == needleThrow || d == -needleThrow {
			length, width = 0.12, 2.6
		}
		e.tick(foot.X, foot.Y, reach, reach-length*e.View(), float64(d), width*e.w, e.s.strong)
	}
	// The station is ahead where the needle lies within the middle plate.
	e.arc(foot.X, foot.Y, reach-0.16*e.View(), -0.1*needleThrow, 0.1*needleThrow, 0.05*e.View(), e.C.Brass)
	size := e.figureSize(0.13)
	e.upright(at(-0.62, 0.16), look.Text(look.EyepieceLeft), size, e.s.strong)
	e.upright(at(0.62, 0.16), look.Text(look.EyepieceRight), size, e.s.strong)
	// The coil, seen from above, across the nose.
	a, z := at(-coilHalf, 0.74), at(coilHalf, 0.74)
	e.roundLine(e.View()*coilOutline, e.C.BrassLo, a, z)
	e.roundLine(e.View()*coilWide, e.C.Brass, a, z)
	e.sideNeedle(foot, reach*0.97, e.View(), n)
	e.ring()
	e.degrees(36, 3, 0.05, 0.09, 0)
	e.homingFigures()
	e.index(0)
	e.knob(180)
}

func (e eye) homingFigures() {
	for d := 0; d < 360; d += 30 {
		e.outside(eyeFigures, 1.02, float64(d), figures3(d), 0.091, e.C.Ink2)
	}
}

// sideNeedle draws the needle from its foot; v is the measure of its widths.
func (b *Brush) sideNeedle(foot paint.Point, reach, v float64, n Needle) {
	c := b.C.Ink
	if n.Dead {
		c = b.C.Line
	}
	deg := n.angle()
	if n.Dead {
		deg = 0
	}
	tip := paint.Polar(foot.X, foot.Y, reach, deg)
	left, right := paint.Polar(foot.X, foot.Y, 0.035*v, deg-90), paint.Polar(foot.X, foot.Y, 0.035*v, deg+90)
	b.polygon(c, none, 0, left, tip, right)
	b.disc(foot.X, foot.Y, 0.09*v, b.C.Slate, b.C.BrassLo, 0.012*v)
}

// DrawNeedle draws the needle small, over a room that is wider than high.
func DrawNeedle(b *Brush, room paint.Rect, n Needle) {
	rad := look.SmallRadius * b.K.Symbol()
	b.rect(room, rad, b.C.Low, b.C.Line, b.K.Hair())
	b.PushClip(room)
	defer b.PopClip()
	half := math.Min(room.W/2-0.2*room.H, 2*room.H)
	m := room.Centre()
	for k := -2; k <= 2; k++ {
		h := 0.22 * room.H
		if k == 0 {
			h = 0.38 * room.H
		}
		x := m.X + float64(k)*half/2
		b.line(paint.Pt(x, m.Y-h), paint.Pt(x, m.Y+h), 1.5*b.K.Symbol(), b.C.Ink2)
	}
	c, x := b.C.Pos, m.X+half*math.Max(-1, math.Min(1, finite(n.Side)))
	if n.Dead {
		c, x = b.C.Line, m.X
	}
	b.roundLine(4*b.K.Symbol(), c, paint.Pt(x, room.Y+0.16*room.H), paint.Pt(x, room.Bottom()-0.16*room.H))
}
