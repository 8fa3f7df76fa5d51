package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// What a hand takes hold of at the counters: a milled knob, the sense lever of
// the longitude counter, and the hatched cover over a key.

// knobTeeth is the number of notches round a milled knob.
const knobTeeth = 30

// MilledKnob draws a knob of brass that is turned by its rim; deg is how far its
// index stands from the top, clockwise.
func MilledKnob(b *Brush, x, y, r, deg float64) {
	b.disc(x, y, r, b.C.Brass, b.C.BrassLo, 1.5*b.K.Symbol())
	for k := range knobTeeth {
		b.tick(x, y, 0.97*r, 0.86*r, deg+float64(k)*360/knobTeeth, 1.6*b.K.Symbol(), b.C.BrassLo)
	}
	b.disc(x, y, 0.74*r, b.C.BrassHi, b.C.BrassLo, 1.2*b.K.Symbol())
	b.tick(x, y, 0.70*r, 0.34*r, deg, 0.11*r, b.C.OnBrass)
	b.disc(x, y, 0.13*r, b.C.Brass, b.C.BrassLo, b.K.Hair())
}

// SenseLever draws the lever that sets the sense of the longitude counter: a
// slot in a plate with W at its left end and E at its right, and a brass arm
// that points at the sense in use.
func SenseLever(b *Brush, room paint.Rect, east bool) {
	h := math.Min(room.H, room.W*0.8)
	m := room.Centre()
	reach := math.Min(room.W/2, 0.95*h)
	foot := paint.Pt(m.X, m.Y+0.30*h)
	size := b.K.Text(look.TextLabel)
	for _, end := range []struct {
		word  string
		side  float64
		inUse bool
	}{{look.Text(look.West), -1, !east}, {look.Text(look.East), 1, east}} {
		c := b.C.Ink2
		if end.inUse {
			c = b.C.Ink
		}
		b.upright(paint.Pt(m.X+end.side*(reach-0.42*size), foot.Y), end.word, size, c)
	}
	b.arc(foot.X, foot.Y, 0.62*h, -leverThrow, leverThrow, 0.15*h, b.C.Slate)
	tip := paint.Polar(foot.X, foot.Y, 0.62*h, leverDegrees(east))
	b.roundLine(0.15*h+2.4*b.K.Symbol(), b.C.BrassLo, foot, tip)
	b.roundLine(0.15*h, b.C.Brass, foot, tip)
	b.disc(tip.X, tip.Y, 0.14*h, b.C.BrassHi, b.C.BrassLo, 1.5*b.K.Symbol())
	b.disc(foot.X, foot.Y, 0.15*h, b.C.Slate, b.C.Housing, b.K.Hair())
	b.disc(foot.X, foot.Y, 0.05*h, b.C.BrassHi, none, 0)
}

// leverThrow is how far the arm stands to either side, degrees.
const leverThrow = 42

func leverDegrees(east bool) float64 {
	if east {
		return leverThrow
	}
	return -leverThrow
}

// Cover draws a hatched cover, brass over whatever it guards.
func Cover(b *Brush, r paint.Rect) {
	b.rect(r, look.PlateRadius*b.K.Symbol(), b.C.BrassHi, none, 0)
	b.hatch(r.Inset(1.5*b.K.Symbol()), 11*b.K.Symbol(), 3*b.K.Symbol(), b.C.Brass)
	b.rect(r, look.PlateRadius*b.K.Symbol(), none, b.C.BrassLo, 1.8*b.K.Symbol())
}

// HoldRing draws how much of the time a key must be held has gone: a brass arc
// that fills clockwise from the top; share is 0 to 1.
func HoldRing(b *Brush, x, y, r, share float64) {
	b.disc(x, y, r, none, b.C.OnBrass, 1.4*b.K.Symbol())
	if share <= 0 {
		return
	}
	b.arc(x, y, r*0.68, 0, 360*math.Min(1, share), r*0.42, b.C.OnBrass)
}
