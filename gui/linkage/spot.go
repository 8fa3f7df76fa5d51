package linkage

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/picture"
)

// spot lies over one link of the picture: it is pointed at, tabbed to and
// touched. It shows nothing but an outline when it is.
type spot struct {
	widget.BaseWidget
	view    *View
	link    picture.Link
	outline *canvas.Rectangle
	hover   bool
	focused bool
}

// outlineWidth is that of the focus ring, units.
const outlineWidth = 3

func newSpot(v *View, l picture.Link) *spot {
	s := &spot{view: v, link: l, outline: canvas.NewRectangle(color.Transparent)}
	s.outline.CornerRadius = 8
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer is part of the toolkit's contract.
func (s *spot) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.outline) }

// mark shows the outline that the state asks for.
func (s *spot) mark() {
	p, width, ink := s.view.screen.Palette, float32(0), color.Color(color.Transparent)
	switch {
	case s.focused:
		width, ink = outlineWidth, p.SlateHi
	case s.hover:
		width, ink = 1.5, p.SlateHi
	}
	s.outline.StrokeWidth, s.outline.StrokeColor = width, ink
	s.outline.Refresh()
}

// Tapped opens the card of the link.
func (s *spot) Tapped(*fyne.PointEvent) { s.view.Open(s.link) }

// Dragged turns what is held by hand.
func (s *spot) Dragged(e *fyne.DragEvent) { s.view.dragged(s.link, e.Position.Add(s.Position())) }

// DragEnd is part of the toolkit's contract.
func (s *spot) DragEnd() {}

// MouseIn is part of the toolkit's contract.
func (s *spot) MouseIn(*desktop.MouseEvent) {
	s.hover = true
	s.mark()
	s.view.point(s, s.view.screen.Hints.Rest)
}

// MouseMoved is part of the toolkit's contract.
func (s *spot) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of the toolkit's contract.
func (s *spot) MouseOut() {
	s.hover = false
	s.mark()
	s.view.screen.Hints.Leave(s)
}

// FocusGained is part of the toolkit's contract.
func (s *spot) FocusGained() {
	s.focused = true
	s.mark()
	s.view.point(s, s.view.screen.Hints.Tell)
}

// FocusLost is part of the toolkit's contract.
func (s *spot) FocusLost() {
	s.focused = false
	s.mark()
	s.view.screen.Hints.Leave(s)
}

// TypedRune is part of the toolkit's contract.
func (s *spot) TypedRune(rune) {}

// TypedKey opens the card with Enter; other keys go on.
func (s *spot) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		s.view.Open(s.link)
		return
	}
	s.view.screen.PassOn(e)
}
