package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Pin is where somebody believes the aircraft to be.
type Pin struct {
	Letter string
	Name   string // "" for none
	Words  string // how far it stands, for the list on a sheet
	At     units.Position
	Chosen bool // the one that the keyboard moves
}

// Pins are the pins on a chart and, once it may be seen, where the aircraft was.
type Pins struct {
	Title string // over the list on a sheet: what the miles count from
	All   []Pin
	// To is the true position to which lines run; nil: it is not shown.
	To    *units.Position
	Drawn float64 // how much of the lines is drawn, of one
}

// positions are all that must be on a sheet with the pins.
func (p Pins) positions() (all []units.Position) {
	for _, pin := range p.All {
		all = append(all, pin.At)
	}
	if p.To != nil {
		all = append(all, *p.To)
	}
	return all
}

// The pin at scale 1, pixels: where its head stands off its foot, the head's
// radius and the size of the letter.
const (
	pinAside  = 10
	pinAbove  = 40
	pinRadius = 17
	pinLetter = 20
	pinShaft  = 34 // the shaft ends under the head
	pinClear  = 9  // how near the lines come to the true position
)

// PinScale is the size of pins: a little larger than other symbols in a small
// window, for their letters must be read from the last row.
func PinScale(k look.Size) float64 { return math.Max(k.Part, 0.9*k.Device) }

// PinHead is the middle of the head of a pin that stands at foot.
func PinHead(foot paint.Point, scale float64) paint.Point {
	return foot.Add(pinAside*scale, -pinAbove*scale)
}

// DrawPins draws the pins over the plot, their lines under them all.
func DrawPins(b *Brush, v View, p Pins) {
	k := PinScale(b.K)
	b.PushClip(v.Box)
	defer b.PopClip()
	if p.To != nil {
		for _, pin := range p.All {
			b.pinLine(v.ToPixels([]units.Position{pin.At, *p.To}), p.Drawn, k)
		}
	}
	for _, pin := range p.All {
		b.pin(v.ToPixel(pin.At), pin, k)
	}
}

// Beside is the room that labels have beside the pins.
func (p Pins) Beside(room *Room, v View, size look.Size) *Room {
	if len(p.All) == 0 || room == nil {
		return room
	}
	room, k := room.Clone(), PinScale(size)
	for _, pin := range p.All {
		foot := v.ToPixel(pin.At)
		head := PinHead(foot, k)
		room.Take(paint.R(head.X, head.Y, 0, 0).Inset(-pinRadius * k))
		room.TakeLine([]paint.Point{foot, head})
		if p.To != nil {
			room.TakeLine(v.ToPixels([]units.Position{pin.At, *p.To}))
		}
	}
	return room
}

// pinLine is the dotted line from a pin towards the true position.
func (b *Brush) pinLine(ends []paint.Point, drawn, k float64) {
	a, z := ends[0], ends[1]
	drawn = math.Max(0, math.Min(1, drawn))
	z = paint.Pt(a.X+(z.X-a.X)*drawn, a.Y+(z.Y-a.Y)*drawn)
	if d := a.Dist(z) - pinClear*k*drawn; d >= 1 { // up to the diamond
		z = paint.Pt(a.X+(z.X-a.X)*d/a.Dist(z), a.Y+(z.Y-a.Y)*d/a.Dist(z))
		b.dashed(a, z, 2.4*k, b.C.Verm, 2.4*k, 5*k)
	}
}

func (b *Brush) pin(foot paint.Point, pin Pin, k float64) {
	head := PinHead(foot, k)
	b.roundLine(2.6*k, b.C.Ink, foot, foot.Add(pinAside*k*pinShaft/pinAbove, -pinShaft*k))
	b.disc(foot.X, foot.Y, 3*k, b.C.Ink, none, 0)
	if pin.Chosen {
		b.disc(head.X, head.Y, (pinRadius+5)*k, none, b.C.SlateHi, 3*k)
	}
	b.PinBadge(head, pinRadius*k, pin.Letter)
}

// PinBadge is the head of a pin, of radius r, with its letter.
func (b *Brush) PinBadge(p paint.Point, r float64, letter string) {
	fill, ink := b.C.Brass, b.C.OnBrass
	if b.C.Variant == look.Lamp || b.C.Variant == look.LampUnlit {
		fill, ink = b.C.Card, b.C.Ink // brass is too dark there for a letter
	}
	b.disc(p.X, p.Y, r, fill, b.C.BrassLo, math.Max(1.5, r*0.12))
	size := r * pinLetter / pinRadius
	b.write(p.X, p.Y+0.36*size, letter, look.Engraved, size, paint.Middle, ink)
}

// pinList lists the pins under a title and gives where the list ends.
func (b *Brush) pinList(x, y, w float64, p Pins) float64 {
	if len(p.All) == 0 {
		return y
	}
	size := b.K.Text(look.TextBody)
	b.line(paint.Pt(x, y), paint.Pt(x+w, y), b.K.Hair(), b.C.Line)
	y += 1.4 * b.K.Text(look.TextSmall)
	b.write(x, y, p.Title, look.Regular, b.K.Text(look.TextSmall), paint.Start, b.C.Ink2)
	for _, pin := range p.All {
		y += 1.5 * size
		b.PinBadge(paint.Pt(x+0.6*size, y-0.34*size), 0.6*size, pin.Letter)
		b.write(x+1.6*size, y, pin.Name, look.Semibold, size, paint.Start, b.C.Ink)
		b.write(x+w, y, pin.Words, look.Semibold, size, paint.End, b.C.Ink)
	}
	return y + b.K.Px(14)
}
