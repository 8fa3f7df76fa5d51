package charttable

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// pinRow is a row of the list: pressed at its letter it chooses the pin, at its
// name it asks for another.
type pinRow struct {
	kit.Painted
	card    *pinCard
	index   int
	focused bool
}

func newPinRow(c *pinCard, index int) *pinRow {
	r := &pinRow{card: c, index: index}
	r.Extend(r, c.pins.table.screen, fyne.NewSize(100, 30), r.paint)
	return r
}

// pin is the one in the row, nil if there is none.
func (r *pinRow) pin() *pin {
	if all := r.card.pins.all; r.index < len(all) {
		return &all[r.index]
	}
	return nil
}

// rowKey is what a row shows.
type rowKey struct {
	letter  byte
	name    string
	words   string
	chosen  bool
	share   float64
	focused bool
	palette *look.Palette
}

func (r *pinRow) key() rowKey {
	q, p := r.pin(), r.card.pins
	if q == nil {
		return rowKey{}
	}
	k := rowKey{letter: q.letter, name: q.name, words: p.distance(q), focused: r.focused, palette: r.Palette()}
	if p.answer == nil {
		k.chosen = q.letter == p.held && p.locked() == ""
		return k
	}
	k.chosen = r.index == 0
	if far := p.all[len(p.all)-1].off.miles; far > 0 {
		k.share = float64(q.off.miles / far)
	}
	return k
}

func (r *pinRow) show() { r.Update(r.key()) }

func (r *pinRow) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, k := r.Palette(), r.key()
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	if k.letter == 0 {
		return
	}
	fill, edge, width := c.Card, c.Line, z.Hair()
	if k.chosen {
		fill, edge, width = c.Low, c.BrassLo, 2.5*z.Device
	}
	if k.focused {
		edge, width = c.SlateHi, 3*z.Device
	}
	var path paint.Path
	path.RoundRect(paint.R(0, 0, w, h).Inset(1.5*z.Device), look.CardRadius*z.Device)
	d.Fill(&path, fill)
	d.Stroke(&path, paint.Pen{Width: width}, edge)
	b := picture.NewBrush(d, c, z)
	b.PinBadge(paint.Pt(rowBadge/2*z.Device, h/2), min(15*z.Device, 0.38*h), string(k.letter))
	end := r.paintWords(d, w, h, z, k)
	left := rowBadge * z.Device
	if r.card.pins.answer != nil {
		r.paintBar(d, paint.R(left, 0, end-left, h), z, k)
		return
	}
	name, ink := k.name, c.Ink
	if name == "" {
		name, ink = look.Text(look.PinNoName), c.Ink2
	}
	r.paintName(d, left, h/2+0.35*z.Text(look.TextBody), end-left, name, ink, z)
}

// rowBadge is the room for the letter, units.
const rowBadge = 46

// paintWords writes the distance and gives where the room for the name ends.
func (r *pinRow) paintWords(d *paint.Raster, w, h float64, z look.Size, k rowKey) float64 {
	text := paint.Type{Font: look.Engraved.Font(), Size: z.Text(look.TextBody), Anchor: paint.End}
	x := w - 10*z.Device
	d.Text(x, h/2+0.35*text.Size, k.words, text, r.Palette().Ink)
	return x - text.Font.Width(k.words, text.Size) - 10*z.Device
}

// paintBar draws the miles off as a bar, under the name if there is one.
func (r *pinRow) paintBar(d *paint.Raster, room paint.Rect, z look.Size, k rowKey) {
	tall := min(8*z.Device, 0.2*room.H)
	y := room.H/2 - tall/2
	if k.name != "" {
		size := z.Text(look.TextBody)
		y = room.H/2 + 0.24*size
		r.paintName(d, room.X, room.H/2-0.12*size, room.W, k.name, r.Palette().Ink, z)
	}
	long := max(tall/2, k.share*(room.W-6*z.Device))
	d.Fill(new(paint.Path).RoundRect(paint.R(room.X, y, long, tall), 2*z.Device), r.Palette().Verm)
}

func (r *pinRow) paintName(d *paint.Raster, x, y, room float64, name string, ink color.NRGBA, z look.Size) {
	text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	d.Text(x, y, text.Shorten(name, room), text, ink)
}

// Tapped chooses the pin, or asks for its name.
func (r *pinRow) Tapped(e *fyne.PointEvent) {
	q, p := r.pin(), r.card.pins
	if q == nil || p.locked() != "" {
		return
	}
	letter := q.letter
	p.choose(letter)
	if e.Position.X > rowBadge {
		p.ask(letter)
	}
}

// FocusGained chooses the pin.
func (r *pinRow) FocusGained() {
	r.focused = true
	if q := r.pin(); q != nil {
		r.card.pins.choose(q.letter)
	}
	r.show()
}

// FocusLost is part of the toolkit's contract.
func (r *pinRow) FocusLost() { r.focused = false; r.show() }

// TypedRune is part of the toolkit's contract.
func (r *pinRow) TypedRune(rune) {}

// TypedKey asks for the name with Enter and passes the rest on.
func (r *pinRow) TypedKey(e *fyne.KeyEvent) {
	q := r.pin()
	if q != nil && r.card.pins.locked() == "" && (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) {
		r.card.pins.ask(q.letter)
		return
	}
	r.card.pins.table.screen.PassOn(e)
}
