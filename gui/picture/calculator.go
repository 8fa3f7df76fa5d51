package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Quantity is one of the six boxes under the triangle.
type Quantity struct {
	Name, Value, Said string
	Side              TriangleSide
	Locked            bool
	Answer            bool // it follows from the others
}

// TriangleSide is a side of the triangle.
type TriangleSide uint8

// The sides.
const (
	AirSide TriangleSide = iota
	WindSide
	GroundSide
)

// sideColour is the colour of a side.
func (b *Brush) sideColour(s TriangleSide) colour {
	return [...]colour{AirSide: b.C.Air, WindSide: b.C.Wind, GroundSide: b.C.Ink}[s]
}

// TriangleCard is the card of the wind triangle.
type TriangleCard struct {
	Figure     WindTriangle
	Quantities [6]Quantity
	Said       string
	Wrong      bool // Said is what is wrong
}

// TriangleCardPlaces is where things stand on the card.
type TriangleCardPlaces struct {
	Card, Figure, Said, Keys paint.Rect
	Boxes                    [6]paint.Rect
}

// LockRoom is the height of the part of a box that locks it, units.
const LockRoom = 52

// cardTitle is the height of the title of a card.
func cardTitle(z look.Size) float64 { return math.Max(z.Px(56), 2.3*z.Text(look.TextLabel)) }

// TriangleCardLayout lays the card out in a box; keys is the width kept for keys beside
// the sentence.
func TriangleCardLayout(z look.Size, box paint.Rect, keys float64) TriangleCardPlaces {
	pad, gap := math.Max(z.Px(20), 10*z.Device), 8*z.Device
	in := paint.R(box.X+pad, box.Y, box.W-2*pad, box.H-0.6*pad)
	p := TriangleCardPlaces{Card: box}
	lines := 3.0
	if z.Small() || z.Larger {
		lines = 4
	}
	foot := math.Max(look.Control*z.Device, lines*1.3*z.Text(look.TextBody))
	p.Said = paint.R(in.X, in.Bottom()-foot, in.W-keys-2*gap, foot)
	p.Keys = paint.R(in.Right()-keys, in.Bottom()-(foot+look.Control*z.Device)/2, keys, look.Control*z.Device)
	tall := math.Max(z.Px(120), (LockRoom+56)*z.Device)
	if z.Larger {
		tall += 14 * z.Device
	}
	wide := (in.W - 5*gap) / 6
	for i := range p.Boxes {
		p.Boxes[i] = paint.R(in.X+float64(i)*(wide+gap), p.Said.Y-gap-tall, wide, tall)
	}
	top := box.Y + cardTitle(z)
	p.Figure = paint.R(box.X+2*z.Device, top, box.W-4*z.Device, p.Boxes[0].Y-gap-top)
	return p
}

// DrawTriangleCard draws the card without its boxes, which are controls of their own;
// sheet is that of the figure.
func DrawTriangleCard(b *Brush, p TriangleCardPlaces, sheet TriangleView, t *TriangleCard) {
	b.calculatorCard(p.Card, look.Text(look.CalcTriangle), look.Text(look.CalcDragHint))
	DrawWindTriangle(b, sheet, &t.Figure)
	c := b.C.Ink
	if t.Wrong {
		c = b.C.Verm
	}
	b.paragraph(p.Said, t.Said, c, true)
}

// calculatorCard draws a card with its title and, at the right, what to do.
func (b *Brush) calculatorCard(r paint.Rect, title, hint string) {
	b.rect(r.Inset(0.5*b.K.Hair()), b.K.Px(look.CardRadius), b.C.Card, b.C.Line, b.K.Hair())
	pad := math.Max(b.K.Px(20), 10*b.K.Device)
	size, small := b.K.Text(look.TextLabel), b.K.Text(look.TextSmall)
	y := r.Y + 0.5*cardTitle(b.K) + 0.36*size
	face := paint.Type{Font: look.Semibold.Font(), Size: size}
	used := face.Font.Width(title, size)
	b.write(r.X+pad, y, title, look.Semibold, size, paint.Start, b.C.Ink)
	if look.Regular.Font().Width(hint, small) < r.W-2*pad-used-small {
		b.write(r.Right()-pad, y, hint, look.Regular, small, paint.End, b.C.Ink2)
	}
}

// paragraph writes wrapped words into a room, middled in height if asked.
func (b *Brush) paragraph(r paint.Rect, words string, c colour, middled bool) float64 {
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextBody)}
	lines := t.Wrap(words, r.W)
	pitch := 1.28 * t.Size
	y := r.Y + 0.95*t.Size
	if middled {
		y = r.Y + (r.H-pitch*float64(len(lines)))/2 + 0.98*t.Size
	}
	for _, l := range lines {
		b.Text(r.X, y, l, t, c)
		y += pitch
	}
	return y - 0.95*t.Size
}

// DrawQuantity draws one of the six boxes: its side's colour above, its name, its
// value, and below whether it is given, with the lock.
func DrawQuantity(b *Brush, r paint.Rect, q *Quantity) {
	k := b.K
	fill, edge, width := b.C.Card, b.C.SlateHi, 1.5*k.Device
	if q.Answer {
		fill, edge, width = b.C.Ground, b.C.BrassLo, 2.5*k.Device
	}
	b.rect(r, 8*k.Device, fill, edge, width)
	pad := math.Max(k.Px(12), 7*k.Device)
	b.rect(paint.R(r.X+pad, r.Y+k.Px(10), r.W-2*pad, math.Max(k.Px(4), 3*k.Device)), 1.5*k.Device, b.sideColour(q.Side), none, 0)
	room := r.W - 2*pad
	name := b.fitted(look.Semibold, q.Name, k.Text(look.TextSmall), room)
	named, foot := r.Y+k.Px(14)+math.Max(k.Px(4), 3*k.Device)+name, r.Bottom()-(LockRoom-4)*k.Device
	value := math.Min(b.fitted(look.Engraved, q.Value, k.Text(look.TextHeading), room), (foot-named-0.32*name)/0.72)
	b.write(r.X+pad, named, q.Name, look.Semibold, name, paint.Start, b.C.Ink2)
	b.write(r.X+pad, foot, q.Value, look.Engraved, value, paint.Start, b.C.Ink)
	y := r.Bottom() - 0.38*LockRoom*k.Device
	b.line(paint.Pt(r.X+pad, y-0.4*LockRoom*k.Device), paint.Pt(r.Right()-pad, y-0.4*LockRoom*k.Device), k.Hair(), b.C.Line)
	c, face := b.C.Ink2, look.Regular
	if q.Answer {
		c, face = b.C.BrassText, look.Bold
	}
	b.lock(paint.Pt(r.X+pad+7*k.Device, y), k.Device, q.Locked, c)
	size := b.fitted(face, q.Said, k.Text(look.TextSmall), room-22*k.Device)
	b.write(r.X+pad+22*k.Device, y+0.36*size, q.Said, face, size, paint.Start, c)
}

// fitted is the size of words, smaller if they must be to fit.
func (b *Brush) fitted(f look.Face, words string, size, room float64) float64 {
	if w := f.Font().Width(words, size); w > room {
		size *= room / w
	}
	return size
}

// lock draws a padlock round a middle, shut or open.
func (b *Brush) lock(at paint.Point, k float64, shut bool, c colour) {
	body := paint.R(at.X-7*k, at.Y-3*k, 14*k, 11*k)
	lift := 0.0
	if !shut {
		lift = 4 * k
	}
	b.path.Reset().Arc(at.X, at.Y-4*k-lift, 4.6*k, -90, 90)
	b.path.Segment(paint.Pt(at.X-4.6*k, at.Y-4*k-lift), paint.Pt(at.X-4.6*k, at.Y-2*k))
	if shut {
		b.path.Segment(paint.Pt(at.X+4.6*k, at.Y-4*k), paint.Pt(at.X+4.6*k, at.Y-2*k))
	}
	b.Stroke(&b.path, paint.Pen{Width: 2 * k}, c)
	b.rect(body, 2*k, c, none, 0)
}
