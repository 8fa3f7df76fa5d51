package gui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// spotlight darkens the window but for a circle that follows the pointer. Taps,
// drags and the wheel go through to what lies below, for it has no use for them.
type spotlight struct {
	widget.BaseWidget
	screen *kit.Screen
	sides  [4]*canvas.Rectangle // above, below, left and right of the hole
	hole   *hole
	at     fyne.Position
}

// spotRadius is the radius of the light at 1080 lines.
const spotRadius = 210

// dusk is what lies over the rest of the window.
var dusk = color.NRGBA{A: 0xB8}

func newSpotlight(screen *kit.Screen) *spotlight {
	s := &spotlight{screen: screen, hole: newHole(screen)}
	for i := range s.sides {
		s.sides[i] = canvas.NewRectangle(dusk)
	}
	s.ExtendBaseWidget(s)
	s.Hide()
	return s
}

// radius is the radius of the light, units.
func (s *spotlight) radius() float32 {
	return float32(int(max(150, spotRadius*min(s.screen.W/1920, s.screen.H/1080))))
}

// lay puts the hole at the pointer and darkness round it.
func (s *spotlight) lay() {
	size, r := s.Size(), s.radius()
	x0, y0 := float32(int(s.at.X-r)), float32(int(s.at.Y-r))
	x1, y1 := x0+2*r, y0+2*r
	s.hole.Move(fyne.NewPos(x0, y0))
	if s.hole.Size().Width != 2*r {
		s.hole.Resize(fyne.NewSize(2*r, 2*r))
	}
	put := func(i int, left, top, right, bottom float32) {
		s.sides[i].Move(fyne.NewPos(left, top))
		s.sides[i].Resize(fyne.NewSize(max(0, right-left), max(0, bottom-top)))
	}
	put(0, 0, 0, size.Width, y0)
	put(1, 0, y1, size.Width, size.Height)
	put(2, 0, max(0, y0), x0, y1)
	put(3, x1, max(0, y0), size.Width, y1)
}

// CreateRenderer is part of the toolkit's contract.
func (s *spotlight) CreateRenderer() fyne.WidgetRenderer { return spotRenderer{s} }

// MouseIn is part of the toolkit's contract.
func (s *spotlight) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved takes the light along.
func (s *spotlight) MouseMoved(e *desktop.MouseEvent) {
	s.at = e.Position
	s.lay()
}

// MouseOut is part of the toolkit's contract.
func (s *spotlight) MouseOut() {}

type spotRenderer struct{ *spotlight }

func (r spotRenderer) Layout(fyne.Size)   { r.lay() }
func (r spotRenderer) MinSize() fyne.Size { return fyne.NewSize(1, 1) }
func (r spotRenderer) Refresh()           { r.lay() }
func (r spotRenderer) Destroy()           {}
func (r spotRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.hole}
	for _, s := range r.sides {
		out = append(out, s)
	}
	return out
}

// hole is the square round the light: dark outside its circle, clear inside.
type hole struct{ kit.Painted }

func newHole(screen *kit.Screen) *hole {
	h := &hole{}
	h.Extend(h, screen, fyne.NewSize(1, 1), h.paint)
	return h
}

func (h *hole) paint(d *paint.Raster, w, tall float64, _ look.Size) {
	pix := d.Pixels()
	clear(pix.Pix)
	var p paint.Path
	p.Circle(w/2, tall/2, w/2)
	d.Fill(&p, color.NRGBA{A: 0xFF})
	for i := 3; i < len(pix.Pix); i += 4 { // the circle's edge is smooth in its alpha
		pix.Pix[i] = uint8((255 - int(pix.Pix[i])) * int(dusk.A) / 255)
	}
}

// blank covers the window, so that the audience looks at the speaker.
type blank struct {
	widget.BaseWidget
	back func()
}

func newBlank(back func()) *blank {
	b := &blank{back: back}
	b.ExtendBaseWidget(b)
	b.Hide()
	return b
}

// CreateRenderer is part of the toolkit's contract.
func (b *blank) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(look.Of(look.Night).Low))
}

// Tapped brings the window back.
func (b *blank) Tapped(*fyne.PointEvent) { b.back() }

// Dragged keeps a drag from what lies below.
func (b *blank) Dragged(*fyne.DragEvent) {}

// DragEnd is part of the toolkit's contract.
func (b *blank) DragEnd() {}

// Scrolled keeps the wheel from what lies below.
func (b *blank) Scrolled(*fyne.ScrollEvent) {}

// Cursor hides the pointer.
func (b *blank) Cursor() desktop.Cursor { return desktop.HiddenCursor }
