package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// Overlay draws something of its own over the finished plot, inside the frame.
// Under the lamp it is called twice, once for each light: what it draws may
// depend only on its arguments and on what does not change in between.
type Overlay func(b *picture.Brush, v picture.View)

// hand is something on the chart that can be taken hold of and moved.
type hand interface {
	// Grab says whether it is taken hold of at p, in device pixels.
	Grab(p paint.Point, v picture.View) bool
	// Drag moves it to a position under the pointer.
	Drag(to units.Position)
	// Drop lets go.
	Drop()
}

// hands are what others have put on the chart.
type hands struct {
	overlays []Overlay
	tapped   []func(units.Position) bool
	grabbed  []hand
	held     hand // in the hand now; nil: the chart itself is dragged
	dragging bool
}

// overlay adds a drawing over the plot; the last one added lies on top.
func (c *chart) overlay(draw Overlay) { c.hands.overlays = append(c.hands.overlays, draw) }

// onTap adds a taker of taps on the chart; the first that says true has it.
func (c *chart) onTap(take func(units.Position) bool) { c.hands.tapped = append(c.hands.tapped, take) }

// onGrab adds something to be dragged; the first that is grabbed has the drag.
func (c *chart) onGrab(h hand) { c.hands.grabbed = append(c.hands.grabbed, h) }

// Tapped gives a tap to the first that takes it.
func (c *chart) Tapped(e *fyne.PointEvent) {
	p := c.pixel(e.Position)
	if !c.view.Box.Contains(p) {
		return
	}
	at := c.view.FromPixel(p)
	if c.draft.Drafted != nil {
		c.draft.Tap(at)
		return
	}
	for _, take := range c.hands.tapped {
		if take(at) {
			return
		}
	}
}

// Dragged moves what was grabbed where the drag began, or the chart.
func (c *chart) Dragged(e *fyne.DragEvent) {
	now := c.pixel(e.Position)
	c.lamp.at, c.lamp.pointed = now, true // no other event says where the pointer is
	k := c.device()
	dx, dy := float64(e.Dragged.DX)*k, float64(e.Dragged.DY)*k
	if !c.hands.dragging {
		c.hands.dragging = true
		c.hands.held = c.grabAt(now.Add(-dx, -dy))
	}
	if h := c.hands.held; h != nil {
		h.Drag(c.view.FromPixel(now))
	} else {
		c.view = c.view.Shift(dx, dy)
		c.following = false
	}
	c.Repaint()
}

// grabAt is what can be taken hold of at p, nil if nothing can.
func (c *chart) grabAt(p paint.Point) hand {
	if c.draft.Drafted != nil {
		if c.draft.Hand.Grab(p, c.view) {
			return c.draft.Hand
		}
		return nil
	}
	for _, h := range c.hands.grabbed {
		if h.Grab(p, c.view) {
			return h
		}
	}
	return nil
}

// DragEnd lets go.
func (c *chart) DragEnd() {
	if h := c.hands.held; h != nil {
		h.Drop()
		c.Repaint()
	}
	c.hands.held, c.hands.dragging = nil, false
}

// pixel is a place of the toolkit in device pixels.
func (c *chart) pixel(p fyne.Position) paint.Point {
	k := c.device()
	return paint.Pt(float64(p.X)*k, float64(p.Y)*k)
}
