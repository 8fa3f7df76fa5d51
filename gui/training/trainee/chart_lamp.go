package trainee

import (
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// lamp is the pool of light over the chart; it follows the pointer, else the marker.
type lamp struct {
	at      paint.Point // the pointer
	pointed bool
	lit     *paint.Raster // the chart as it is where the lamp shines
}

// shine lays the pool over a chart that is drawn unlit.
func (c *chart) shine(d *paint.Raster, box paint.Rect, z look.Size) {
	l := &c.lamp
	if l.lit == nil || l.lit.Pixels().Rect != d.Pixels().Rect {
		l.lit = paint.NewImage(c.sheet.w, c.sheet.h)
	}
	c.plotOn(l.lit, c.sheet.lit, look.Of(look.LampLit), box, z)
	at := l.at
	if !l.pointed {
		at = c.at.ToPixel(units.Position(c.view.now.View.Marker))
	}
	at = paint.Pt(max(box.X, min(at.X, box.Right())), max(box.Y, min(at.Y, box.Bottom())))
	pool := picture.LampPool(at, z, box)
	pool.Compose(d.Pixels(), l.lit.Pixels())
}

// moveLamp has the pool follow the pointer, or go back to the marker.
func (c *chart) moveLamp(at paint.Point, pointed bool) {
	c.lamp.at, c.lamp.pointed = at, pointed
	if c.Palette().Variant == look.Lamp {
		c.Repaint()
	}
}

// MouseIn is part of the toolkit's contract.
func (c *chart) MouseIn(e *desktop.MouseEvent) { c.moveLamp(c.pixel(e.Position), true) }

// MouseMoved is part of the toolkit's contract.
func (c *chart) MouseMoved(e *desktop.MouseEvent) { c.moveLamp(c.pixel(e.Position), true) }

// MouseOut is part of the toolkit's contract.
func (c *chart) MouseOut() { c.moveLamp(paint.Point{}, false) }
