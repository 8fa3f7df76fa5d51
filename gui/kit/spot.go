package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Spot lies over a part of a picture: it is pointed at, tabbed to and touched. It
// shows nothing but an outline when it is.
type Spot struct {
	widget.BaseWidget
	// Press does what a touch or Enter does.
	Press func()
	// Point tells what the part is; tell brings up the slip, at once or after a
	// rest of the hand.
	Point func(tell func(fyne.CanvasObject, string))

	outer   fyne.Widget
	screen  *Screen
	outline *canvas.Rectangle
	hover   bool
	focused bool
}

// outlineWidth is that of the focus ring, units.
const outlineWidth = 3

// Extend makes a spot ready; outer is the widget it is or is part of.
func (s *Spot) Extend(outer fyne.Widget, screen *Screen) {
	s.outer, s.screen, s.outline = outer, screen, canvas.NewRectangle(color.Transparent)
	s.outline.CornerRadius = 8
	s.ExtendBaseWidget(outer)
}

// NewSpot makes a spot.
func NewSpot(screen *Screen, press func(), point func(tell func(fyne.CanvasObject, string))) *Spot {
	s := &Spot{Press: press, Point: point}
	s.Extend(s, screen)
	return s
}

// CreateRenderer is part of the toolkit's contract.
func (s *Spot) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.outline) }

// Focused says whether the keyboard is on it.
func (s *Spot) Focused() bool { return s.focused }

// Mark shows the outline that the state asks for.
func (s *Spot) Mark() {
	p, width, ink := s.screen.Palette, float32(0), color.Color(color.Transparent)
	switch {
	case s.focused:
		width, ink = outlineWidth, p.SlateHi
	case s.hover:
		width, ink = 1.5, p.SlateHi
	}
	s.outline.StrokeWidth, s.outline.StrokeColor = width, ink
	s.outline.Refresh()
}

// Tapped is part of the toolkit's contract.
func (s *Spot) Tapped(*fyne.PointEvent) { s.Press() }

// MouseIn is part of the toolkit's contract.
func (s *Spot) MouseIn(*desktop.MouseEvent) {
	s.hover = true
	s.Mark()
	s.Point(s.screen.Hints.Rest)
}

// MouseMoved is part of the toolkit's contract.
func (s *Spot) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of the toolkit's contract.
func (s *Spot) MouseOut() {
	s.hover = false
	s.Mark()
	s.screen.Hints.Leave(s.outer)
}

// FocusGained is part of the toolkit's contract.
func (s *Spot) FocusGained() {
	s.focused = true
	s.Mark()
	s.Point(s.screen.Hints.Tell)
}

// FocusLost is part of the toolkit's contract.
func (s *Spot) FocusLost() {
	s.focused = false
	s.Mark()
	s.screen.Hints.Leave(s.outer)
}

// TypedRune is part of the toolkit's contract.
func (s *Spot) TypedRune(rune) {}

// TypedKey presses with Enter; other keys go on.
func (s *Spot) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		s.Press()
		return
	}
	s.screen.PassOn(e)
}
