package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
)

// Peep is a strip of the mechanism: capsules, shaft, disc with its pin, the lowest drum.
// Where it is broken the shaft is parted and what follows is striped.
type Peep struct {
	Turns   float64 // of the shaft
	Heading float64 // of the pin, degrees
	Full    float64 // of the capsules, of one
	Drum    float64 // lowest drum, 0 to 10
	Broken  PeepPart
	Fast    bool
}

// PeepPart is a part of the strip.
type PeepPart uint8

// The parts, in the order of the drawing. What is broken beyond the strip, such as the
// wind setter, leaves it plain.
const (
	PeepSound PeepPart = iota
	PeepCapsules
	PeepShaft
	PeepDisc
	PeepDrum
)

// DrawPeep draws it in a box, as large as it goes.
func DrawPeep(b *Brush, box paint.Rect, p Peep) {
	f := math.Min(box.W/560, box.H/96)
	x0, y := box.X+(box.W-560*f)/2, box.Y+box.H/2
	x := func(v float64) float64 { return x0 + v*f }
	for i := range 3 {
		b.ellipseAt(x(38), y+float64(i-1)*22*f, 38*f, (8+3*p.Full)*f)
	}
	if p.Broken == PeepShaft {
		b.peepShaft(x(78), x(214), y, f, p, false)
		b.rect(paint.R(x(212), y-24*f, 14*f, 48*f), 2*f, b.C.BrassHi, b.C.BrassLo, 1.6*f)
		b.peepShaft(x(262), x(362), y, f, p, true)
		b.rect(paint.R(x(250), y-24*f, 14*f, 48*f), 2*f, b.C.BrassHi, b.C.Verm, 2*f)
	} else {
		b.peepShaft(x(78), x(362), y, f, p, p.Broken == PeepCapsules)
	}
	b.disc(x(402), y, 40*f, b.C.BrassHi, b.C.BrassLo, 2*f)
	b.disc(x(402), y, 26*f, none, b.C.Brass, 1.4*f)
	pin := paint.Polar(x(402), y, 20*f, p.Heading)
	b.disc(pin.X, pin.Y, 8*f, b.C.Card, b.C.Ink, 2.4*f)
	b.peepShaft(x(442), x(512), y, f, p, p.Broken != PeepSound && p.Broken < PeepDrum)
	defer b.peepRing(map[PeepPart]float64{PeepCapsules: x(38), PeepShaft: x(238), PeepDisc: x(402), PeepDrum: x(516)}[p.Broken], y, f, p.Broken)
	b.rect(paint.R(x(512), y-24*f, 40*f, 48*f), 5*f, b.C.Slate, none, 0)
	c := Counter{Reading: counter.Reading{N: 1}, Row: MilesRow, Fast: p.Fast}
	c.Reading.Drums[0] = p.Drum
	face := paint.R(x(518), y-19*f, 28*f, 38*f)
	if c.Fast {
		b.fastDrum(face)
		return
	}
	b.digitDrum(face, 0, c)
}

// peepRing is the ring round what is broken.
func (b *Brush) peepRing(x, y, f float64, part PeepPart) {
	if part == PeepSound {
		return
	}
	b.Stroke(b.path.Reset().Circle(x, y, 44*f), paint.Pen{Width: 4 * f, Dash: []float64{12 * f, 7 * f}}, b.C.Verm)
}

func (b *Brush) ellipseAt(x, y, rx, ry float64) {
	pts := make([]paint.Point, 40)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(len(pts)))
		pts[i] = paint.Pt(x+rx*c, y+ry*s)
	}
	b.polygon(b.C.BrassHi, b.C.BrassLo, 1.6*ry/10, pts...)
}

// peepShaft draws a length of shaft with its marks, or with stripes.
func (b *Brush) peepShaft(from, to, y, f float64, p Peep, striped bool) {
	r := paint.R(from, y-13*f, to-from, 26*f)
	b.rect(r, 0, b.C.Brass, none, 0)
	b.rect(paint.R(r.X, r.Y, r.W, 8*f), 0, b.C.BrassHi, none, 0)
	pitch, width, mark, edge := turnPitch*f, 6*f, b.C.BrassLo, b.C.BrassLo
	if striped {
		pitch, width, mark, edge = stripePitch*f, 7*f, b.C.Verm, b.C.Verm
	}
	b.PushClip(r)
	if p.Fast && !striped {
		b.rect(r, 0, paint.Alpha(mark, 0.3), none, 0)
	} else {
		off := p.Turns - math.Floor(p.Turns)
		if p.Fast {
			off = 0
		}
		for x := r.X - 2*pitch + off*pitch; x < r.Right()+pitch; x += pitch {
			b.polygon(mark, none, 0, paint.Pt(x, r.Bottom()), paint.Pt(x+18*f, r.Y), paint.Pt(x+18*f+width, r.Y), paint.Pt(x+width, r.Bottom()))
		}
	}
	b.PopClip()
	b.rect(r, 0, none, edge, 1.6*f)
}

// ExhibitKnob is a slider for a speed: a slot with a scale and a brass knob at a share
// of it; r is the radius of the knob.
func ExhibitKnob(b *Brush, slot paint.Rect, r, at float64) {
	y := slot.Y + slot.H/2
	k := r / 36
	b.rect(paint.R(slot.X-22*k, y-12*k, slot.W+44*k, 24*k), 12*k, b.C.Slate, none, 0)
	for i := range 9 {
		x, long, width := slot.X+slot.W*float64(i)/8, 8.0, 1.6
		if i%4 == 0 {
			long, width = 16, 2.6
		}
		b.line(paint.Pt(x, y+44*k), paint.Pt(x, y+(44+long)*k), width*k, b.C.Ink)
	}
	x := slot.X + slot.W*math.Max(0, math.Min(1, at))
	b.rect(paint.R(slot.X-14*k, y-4*k, x-slot.X+14*k, 8*k), 4*k, b.C.BrassHi, none, 0)
	b.disc(x, y, r, b.C.Brass, b.C.BrassLo, 3*k)
	b.disc(x, y, r*25/36, b.C.BrassHi, b.C.BrassLo, 1.5*k)
}

// ExhibitHeading is a heading card whose middle has the figures alone.
func ExhibitHeading(b *Brush, x, y, r, heading float64, words string) {
	b.headingCard(x, y, r, heading, words)
}

// Engrave writes in the face of the drums.
func (b *Brush) Engrave(x, y float64, s string, size float64, a paint.Anchor, c colour) {
	b.write(x, y, s, look.Engraved, size, a, c)
}
