package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Control is a painted widget that is pointed at and can have the focus. Embed
// it, call Begin.
type Control struct {
	Painted
	Hover, Focused bool

	outer  fyne.CanvasObject
	rested func() string // told when the pointer rests; nil: nothing
	held   func() string // told when the focus comes; nil: nothing
}

// Begin makes outer, which embeds c, a control that draws itself with draw.
// rested and held are what its slip says under the pointer and with the focus.
func (c *Control) Begin(outer fyne.Widget, screen *Screen, least fyne.Size,
	draw func(s *paint.Raster, w, h float64, z look.Size), rested, held func() string) {
	c.outer, c.rested, c.held = outer, rested, held
	c.Extend(outer, screen, least, draw)
}

// Ring draws the outline of the keyboard's focus, if the control has it.
func (c *Control) Ring(s *paint.Raster, w, h float64, z look.Size) {
	if !c.Focused {
		return
	}
	var p paint.Path
	p.RoundRect(paint.R(0, 0, w, h).Inset(1.5*z.Device), (look.CardRadius+2)*z.Device)
	s.Stroke(&p, paint.Pen{Width: ring * z.Device}, c.Palette().SlateHi)
}

// Tell has the slip say something of the control at once.
func (c *Control) Tell(words string) { c.screen.Hints.Tell(c.outer, words) }

// Hush takes the slip away.
func (c *Control) Hush() { c.screen.Hints.Leave(c.outer) }

// PassOn hands on a key that the control does not use.
func (c *Control) PassOn(e *fyne.KeyEvent) { c.screen.PassOn(e) }

// Presses says whether a key of the keyboard presses a control.
func Presses(e *fyne.KeyEvent) bool {
	return e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace
}

// MouseIn is part of the toolkit's contract.
func (c *Control) MouseIn(*desktop.MouseEvent) {
	c.Hover = true
	c.Repaint()
	if c.rested != nil {
		c.screen.Hints.Rest(c.outer, c.rested())
	}
}

// MouseMoved is part of the toolkit's contract.
func (c *Control) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of the toolkit's contract.
func (c *Control) MouseOut() {
	c.Hover = false
	c.Repaint()
	c.Hush()
}

// FocusGained is part of the toolkit's contract.
func (c *Control) FocusGained() {
	c.Focused = true
	c.Repaint()
	if c.held != nil {
		c.Tell(c.held())
	}
}

// FocusLost is part of the toolkit's contract.
func (c *Control) FocusLost() {
	c.Focused = false
	c.Repaint()
	c.Hush()
}

// TypedRune is part of the toolkit's contract.
func (c *Control) TypedRune(rune) {}
