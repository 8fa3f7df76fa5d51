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
// and its words beside it, where room is free, and gives where they stand; room nil: beside
// its middle.
func DrawPencil(b *Brush, v View, p Pencil, room *Room) paint.Rect {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{p.A, p.B})
	n := across(pts[0], pts[1])
	if p.Chosen {
		b.line(pts[0], pts[1], 7*k, paint.Alpha(b.C.BrassHi, 0.55))
	}
	b.pencilLine(pts[0], pts[1], k)
	if p.Words == "" {
		return paint.Rect{}
	}
	face, size := look.Regular, b.K.Text(look.TextSmall)
	if p.Meant {
		face = look.Semibold
	}
	w := face.Font().Width(p.Words, size)
	q := pencilWordsAt(pts, n, w, size, k, v.Box, room)
	b.haloed(q.X+w/2, q.Y+1.05*size, p.Words, face, size, paint.Middle, b.C.Ink2, b.C.Sea)
	if room != nil {
		room.TakeText(q)
	}
	return q
}

func (b *Brush) pencilLine(a, z paint.Point, k float64) {
	b.line(a, z, pencilSoft*k, paint.Alpha(b.C.Ink2, pencilTint))
	b.line(a, z, pencilWide*k, b.C.Ink2)
	n := across(a, z)
	for _, q := range []paint.Point{a, z} {
		b.line(q.Add(n.X*pencilTick*k, n.Y*pencilTick*k), q.Add(-n.X*pencilTick*k, -n.Y*pencilTick*k), pencilWide*k, b.C.Ink2)
	}
}

// pencilWordsAt is where the words stand beside what is to be seen of the line, clear of it
// whichever way it runs: near its middle, on either side, where there is room, else where
// they cover least.
func pencilWordsAt(pts []paint.Point, n paint.Point, w, size, k float64, box paint.Rect, room *Room) (best paint.Rect) {
	a, z := pts[0], pts[1]
	if p, q, ok := paint.ClipSegment(a, z, box); ok {
		a, z = p, q
	}
	clear, least := 0.5*w*math.Abs(n.X)+0.7*size*math.Abs(n.Y)+6*k, math.Inf(1)
	for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95} {
		for _, side := range []float64{1, -1} {
			x, y := a.X+share*(z.X-a.X)+side*n.X*clear, a.Y+share*(z.Y-a.Y)+side*n.Y*clear
			q := paint.R(x-w/2, y-0.7*size, w, 1.4*size)
			if room == nil || room.Free(q) {
				return q
			}
			if burden := room.burden(q); burden < least && box.Covers(q) {
				best, least = q, burden
			}
		}
	}
	if math.IsInf(least, 1) {
		return paint.R((a.X+z.X)/2-w/2, (a.Y+z.Y)/2-0.7*size, w, 1.4*size)
	}
	return best
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
