package charttable

import (
	"image"

	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// lamp is the pool of light that follows the pointer over the chart: the chart
// drawn lit, seen through a circle in the chart drawn unlit. When only the lamp
// moves, what lay under the circle is put back and the circle laid anew; nothing
// else is touched.
type lamp struct {
	at      paint.Point // the pointer
	pointed bool        // there is one; else the lamp stands on the marker

	lit   *paint.Raster
	on    *image.RGBA // the picture the pool lies on
	under *image.RGBA // what lies under it there, from the corner
	box   image.Rectangle
}

// paintLamp draws the chart under the lamp.
func (c *chart) paintLamp(d *paint.Raster, z look.Size) {
	l := &c.lamp
	if !c.stale && l.on == d.Pixels() {
		l.lift()
	} else {
		if l.lit == nil || l.lit.Pixels().Rect != d.Pixels().Rect {
			l.lit = paint.NewImage(c.base.w, c.base.h)
		}
		c.paintSheet(l.lit, &c.base.sheets[1], z)
		c.paintSheet(d, &c.base.sheets[0], z)
		l.on = d.Pixels()
	}
	pool := picture.LampPool(c.lampAt(), z, c.view.Box)
	l.keep(pool.Box())
	pool.Compose(l.on, l.lit.Pixels())
}

// keep remembers what the pool will cover.
func (l *lamp) keep(box image.Rectangle) {
	l.box = box.Intersect(l.on.Rect)
	if l.under == nil || l.under.Rect.Dx() < l.box.Dx() || l.under.Rect.Dy() < l.box.Dy() {
		l.under = image.NewRGBA(image.Rectangle{Max: l.box.Size()})
	}
	l.rows(func(under, on []byte) { copy(under, on) })
}

// lift takes the pool away again.
func (l *lamp) lift() { l.rows(func(under, on []byte) { copy(on, under) }) }

// rows goes through the rows of the box, kept and shown.
func (l *lamp) rows(do func(under, on []byte)) {
	for y := range l.box.Dy() {
		i, j, n := l.under.PixOffset(0, y), l.on.PixOffset(l.box.Min.X, l.box.Min.Y+y), l.box.Dx()*4
		do(l.under.Pix[i:i+n], l.on.Pix[j:j+n])
	}
}

// lampAt is the middle of the pool: the pointer, or the marker, or as near to
// it as the chart goes.
func (c *chart) lampAt() paint.Point {
	at := c.lamp.at
	if !c.lamp.pointed {
		at = c.view.ToPixel(units.Position(c.table.moment.View.Marker))
	}
	b := c.view.Box
	return paint.Pt(max(b.X, min(at.X, b.Right())), max(b.Y, min(at.Y, b.Bottom())))
}

// lampTo has the lamp follow the pointer.
func (c *chart) lampTo(p paint.Point) {
	c.lamp.at, c.lamp.pointed = p, true
	c.moveLamp()
}

// lampToMarker leaves the pointer: it is gone, or keys are used.
func (c *chart) lampToMarker() {
	if c.lamp.pointed {
		c.lamp.pointed = false
		c.moveLamp()
	}
}

// moveLamp paints the pool where it is now.
func (c *chart) moveLamp() {
	if c.Palette().Variant == look.Lamp {
		c.Painted.Repaint() // not stale
	}
}

// MouseIn is part of the toolkit's contract.
func (c *chart) MouseIn(e *desktop.MouseEvent) { c.lampTo(c.pixel(e.Position)) }

// MouseMoved is part of the toolkit's contract.
func (c *chart) MouseMoved(e *desktop.MouseEvent) { c.lampTo(c.pixel(e.Position)) }

// MouseOut is part of the toolkit's contract.
func (c *chart) MouseOut() { c.lampToMarker() }
