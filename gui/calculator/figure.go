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

// figure is the card of the triangle: its corners are dragged.
type figure struct {
	kit.Painted
	view    *View
	held    bool // a corner is in the hand
	corner  calc.Corner
	refused bool // the drag in hand moves nothing
	over    bool // the pointer is over a corner
}

func newFigure(v *View) *figure {
	f := &figure{view: v}
	f.Extend(f, v.screen, fyne.NewSize(300, 200), f.paint)
	return f
}

func (f *figure) paint(d *paint.Raster, w, h float64, z look.Size) {
	v := f.view
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), f.Palette().Ground)
	k := z.Device
	p := picture.TriangleCardLayout(z, paint.R(0, 0, w, h), v.left.Keys.W*k)
	card := v.card()
	picture.DrawTriangleCard(picture.NewBrush(d, f.Palette(), z), p, v.sheet.Times(k), &card)
}

// grip is how near to a corner a hand takes hold of it, units: half a target.
const grip = kit.Target / 2

// near is the corner at a place of the card, if there is one.
func (f *figure) near(at fyne.Position) (calc.Corner, bool) {
	card := f.view.card()
	air, ground := f.view.sheet.Corners(&card.Figure)
	p := paint.Pt(float64(at.X), float64(at.Y))
	c, far := calc.AirCorner, p.Dist(air)
	if d := p.Dist(ground); d < far {
		c, far = calc.GroundCorner, d
	}
	return c, far <= grip
}

// Dragged brings the corner in hand after the pointer.
func (f *figure) Dragged(e *fyne.DragEvent) {
	if f.refused {
		return
	}
	if !f.held {
		c, ok := f.near(e.Position.Subtract(e.Dragged))
		if !ok {
			f.refused = true
			return
		}
		f.held, f.corner = true, c
	}
	v := f.view
	north, east := v.sheet.Knots(paint.Pt(float64(e.Position.X), float64(e.Position.Y)))
	if err := v.triangle.Drag(f.corner, north, east); err != nil {
		f.refused = true
		v.screen.Hints.Tell(v.letGo, err.Error())
		return
	}
	v.apply()
}

// DragEnd lets the corner go.
func (f *figure) DragEnd() {
	f.held, f.refused = false, false
	f.view.apply()
}

// MouseIn is part of the toolkit's contract.
func (f *figure) MouseIn(*desktop.MouseEvent) {}

// MouseMoved notices whether the pointer is over a corner.
func (f *figure) MouseMoved(e *desktop.MouseEvent) { _, f.over = f.near(e.Position) }

// MouseOut is part of the toolkit's contract.
func (f *figure) MouseOut() { f.over = false }

// Cursor is a hand over a corner.
func (f *figure) Cursor() desktop.Cursor {
	if f.over || f.held {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
