package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// dial is a card of the column: it can be reached with the keyboard, says in
// words what it shows, and may open something.
type dial struct {
	card
	table *Table
	self  fyne.CanvasObject // what stands in the window
	words func() string     // what it shows, spelled out
	how   look.Key          // what can be done to it, "" for nothing
	open  func()            // nil: nothing opens
}

// newDial makes a dial that is only read.
func newDial(t *Table, title look.Key, words func() string, inner func(d *paint.Raster, w, h float64, z look.Size)) *dial {
	d := &dial{table: t, words: words}
	d.self = d
	d.init(d, t.screen, title, inner)
	return d
}

// Spoken is what the dial shows, spelled out in words.
func (d *dial) Spoken() string { return d.words() }

// hint is what the dial shows and what can be done to it.
func (d *dial) hint() string {
	if d.how == "" {
		return d.words()
	}
	return d.words() + ".\n" + look.Text(d.how)
}

// MouseIn is part of the toolkit's contract.
func (d *dial) MouseIn(*desktop.MouseEvent) { d.table.screen.Hints.Rest(d.self, d.hint()) }

// MouseMoved is part of the toolkit's contract.
func (d *dial) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of the toolkit's contract.
func (d *dial) MouseOut() { d.table.screen.Hints.Leave(d.self) }

// Tapped opens the dial, or has it say what it shows.
func (d *dial) Tapped(*fyne.PointEvent) { d.enter() }

func (d *dial) enter() {
	if d.open == nil {
		d.table.screen.Hints.Tell(d.self, d.hint())
		return
	}
	d.table.screen.Hints.Leave(d.self)
	d.open()
}

// Cursor is part of the toolkit's contract.
func (d *dial) Cursor() desktop.Cursor {
	if d.open == nil {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

// FocusGained puts the ring of the keyboard round the dial.
func (d *dial) FocusGained() {
	d.table.ring.round(d.self)
	d.table.screen.Hints.Tell(d.self, d.hint())
}

// FocusLost takes it away.
func (d *dial) FocusLost() {
	d.table.ring.leave(d.self)
	d.table.screen.Hints.Leave(d.self)
}

// TypedRune is part of the toolkit's contract.
func (d *dial) TypedRune(rune) {}

// TypedKey opens with Enter; the dial has no use for the others.
func (d *dial) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		d.enter()
		return
	}
	d.table.screen.PassOn(e)
}

// focusRing is the outline round the card that has the keyboard. It stands
// outside the card, so it is an object of its own above all cards.
type focusRing struct {
	*canvas.Rectangle
	owner fyne.CanvasObject
}

// Width of the ring and its distance from the card, units.
const ringWidth, ringGap = 3, 3

func newFocusRing() focusRing {
	r := canvas.NewRectangle(nil)
	r.StrokeWidth = ringWidth
	r.CornerRadius = look.CardRadius + ringGap + ringWidth
	r.Hide()
	return focusRing{Rectangle: r}
}

// round puts the ring round an object of the same container.
func (f *focusRing) round(o fyne.CanvasObject) {
	const out = ringGap + ringWidth
	f.owner = o
	f.Move(o.Position().SubtractXY(out, out))
	f.Resize(o.Size().AddWidthHeight(2*out, 2*out))
	f.Show()
}

// leave takes the ring from an object that has it.
func (f *focusRing) leave(o fyne.CanvasObject) {
	if f.owner == o {
		f.owner = nil
		f.Hide()
	}
}

// follow keeps the ring at its owner when the layout has moved it, and in the
// colour of the light.
func (f *focusRing) follow(p *look.Palette) {
	f.StrokeColor = p.SlateHi
	if f.owner != nil {
		f.round(f.owner)
	}
	f.Refresh()
}
