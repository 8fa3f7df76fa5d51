package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Pencil is a line drawn by hand.
type Pencil struct {
	A, B   units.Position
	Words  string
	Meant  bool // it has been said what it is
	Chosen bool
}

// The pencil: thinner than any line that is worked, grey, and with the soft edge of lead.
const (
	pencilWide = 1.1
	pencilSoft = 2.6
	pencilTint = 0.28
	pencilTick = 5 // half of the stroke across its ends
)

// DrawPencil draws a line drawn by hand, with a stroke across its ends, as a hand ends one,
// and its words along it, and gives where they stand.
func DrawPencil(b *Brush, v View, p Pencil) paint.Rect {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{p.A, p.B})
	n := across(pts[0], pts[1])
	if p.Chosen {
		b.line(pts[0], pts[1], 7*k, paint.Alpha(b.C.BrassHi, 0.55))
	}
	b.line(pts[0], pts[1], pencilSoft*k, paint.Alpha(b.C.Ink2, pencilTint))
	b.line(pts[0], pts[1], pencilWide*k, b.C.Ink2)
	for _, q := range pts {
		b.line(q.Add(n.X*pencilTick*k, n.Y*pencilTick*k), q.Add(-n.X*pencilTick*k, -n.Y*pencilTick*k), pencilWide*k, b.C.Ink2)
	}
	if p.Words == "" {
		return paint.Rect{}
	}
	face, size := look.Regular, b.K.Text(look.TextSmall)
	if p.Meant {
		face = look.Semibold
	}
	w := face.Font().Width(p.Words, size)
	mid := pencilWordsAt(pts, n, w, size, k, v.Box)
	b.haloed(mid.X, mid.Y+0.35*size, p.Words, face, size, paint.Middle, b.C.Ink2, b.C.Sea)
	return paint.R(mid.X-w/2, mid.Y-0.7*size, w, 1.4*size)
}

// pencilWordsAt is the middle of the words beside the middle of what is to be seen of the
// line, clear of it whichever way it runs.
func pencilWordsAt(pts []paint.Point, n paint.Point, w, size, k float64, box paint.Rect) paint.Point {
	a, z := pts[0], pts[1]
	if p, q, ok := paint.ClipSegment(a, z, box); ok {
		a, z = p, q
	}
	if n.Y < 0 { // always below
		n = paint.Pt(-n.X, -n.Y)
	}
	clear := 0.5*w*math.Abs(n.X) + 0.7*size*math.Abs(n.Y) + 6*k
	return paint.Pt((a.X+z.X)/2+n.X*clear, (a.Y+z.Y)/2+n.Y*clear)
}

// leastApart is how far two places must lie apart for it to be drawn, pixels.
const leastApart = 3

// DrawApart draws how far a thing drawn by hand lies from the worked one: a dotted line in
// brass from one to the other, with a ring at the hand's.
func DrawApart(b *Brush, v View, worked, hand units.Position) {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{worked, hand})
	if pts[0].Dist(pts[1]) < leastApart*k {
		return
	}
	b.dashed(pts[0], pts[1], 2.2*k, b.C.BrassLo, 3*k, 4*k)
	b.disc(pts[1].X, pts[1].Y, 5*k, none, b.C.BrassLo, 1.8*k)
}
