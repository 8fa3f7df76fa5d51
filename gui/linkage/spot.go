package linkage

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/picture"
)

// spot lies over one link of the picture.
type spot struct {
	kit.Spot
	view *View
	link picture.Link
}

func newSpot(v *View, l picture.Link) *spot {
	s := &spot{view: v, link: l}
	s.Press = func() { v.Open(l) }
	s.Point = func(tell func(fyne.CanvasObject, string)) { v.point(s, tell) }
	s.Extend(s, v.screen)
	return s
}

// Dragged turns what is held by hand.
func (s *spot) Dragged(e *fyne.DragEvent) { s.view.dragged(s.link, e.Position.Add(s.Position())) }

// DragEnd is part of the toolkit's contract.
func (s *spot) DragEnd() {}
