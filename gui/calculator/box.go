package calculator

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/calc"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// box is one of the six quantities: typed, stepped, locked.
type box struct {
	kit.Control
	view *View
	q    calc.Quantity
}

func newBox(v *View, q calc.Quantity) *box {
	b := &box{view: v, q: q}
	b.Begin(b, v.screen, fyne.NewSize(80, 108), b.paint, b.said, b.said)
	return b
}

// said is what the box says of itself.
func (b *box) said() string {
	t := b.view.triangle
	return look.Capital(look.Textf(look.CalcBoxSaid, b.q.Name(), t.Text(b.q), look.Text(stateWords[t.State(b.q)]))) + ".\n" + look.Text(look.CalcBoxHow)
}

func (b *box) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := b.Palette()
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
	shown := b.view.quantity(b.q)
	picture.DrawQuantity(picture.NewBrush(d, c, z), paint.R(0, 0, w, h).Inset(3*z.Device), &shown)
	b.Ring(d, w, h, z)
}

// Tapped types a value, or locks and unlocks in the lower part. The box has the keyboard
// then: up and down go on from there.
func (b *box) Tapped(e *fyne.PointEvent) {
	b.view.canvas().Focus(b)
	if e.Position.Y > b.Size().Height-picture.LockRoom {
		b.toggle()
		return
	}
	b.ask()
}

// Cursor is part of the toolkit's contract.
func (b *box) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey is part of the toolkit's contract.
func (b *box) TypedKey(e *fyne.KeyEvent) {
	by := 1.0
	if shiftHeld() {
		by = 10
	}
	switch {
	case e.Name == fyne.KeyUp:
		b.done(b.view.triangle.Step(b.q, by))
	case e.Name == fyne.KeyDown:
		b.done(b.view.triangle.Step(b.q, -by))
	case e.Name == fyne.KeyL:
		b.toggle()
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter: // the space bar stays the clock's
		b.ask()
	default:
		b.PassOn(e)
	}
}

func (b *box) toggle() { b.done(b.view.triangle.Toggle(b.q)) }

// done shows what was changed, or says why nothing was.
func (b *box) done(err error) {
	if err != nil {
		b.Tell(err.Error())
		return
	}
	b.Hush()
	b.view.apply()
}

// ask has a value typed.
func (b *box) ask() {
	t := b.view.triangle
	if err := t.Refusal(b.q); err != nil {
		b.Tell(err.Error())
		return
	}
	now := ""
	if t.State(b.q) != calc.None {
		now = t.Text(b.q)
	}
	b.Hush()
	kit.Ask(b.view.canvas(), b.view.screen, look.Capital(b.q.Name()), look.Text(look.CalcTypeHint), now, func(text string) error {
		err := t.Type(b.q, text)
		b.view.apply()
		return err
	})
}

// shiftHeld says whether the shift key is down; a driver without a keyboard has none.
func shiftHeld() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}
