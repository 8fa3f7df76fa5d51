package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/integrator/units"
)

// SetAside gives an object that stands at the right over the time strip, beside
// chart and instruments or the stage, while it is to be seen; width is how wide it
// is in a window of some size.
func (t *Table) SetAside(o fyne.CanvasObject, width func(w, h float32) float32) {
	t.aside, t.asideWidth = o, width
	t.content.Objects = t.objects()
	t.content.Refresh()
}

// planOf lays the view out in its place.
func (t *Table) planOf(size fyne.Size) plan {
	p := planOf(size.Width, size.Height)
	if t.aside != nil && t.aside.Visible() {
		// The bar above belongs to the window: sizes go by the whole of it.
		p.makeRoom(t.asideWidth(max(size.Width, t.screen.W), max(size.Height, t.screen.H)))
		if t.PinsOn() && t.standing == TableAlone {
			p.pinsUnderAside()
		}
	}
	return p
}

// makeRoom gives an object w wide the right side over the time strip. The chart
// gives way, and the instruments to a width at which all can still be read.
func (p *plan) makeRoom(w float32) {
	gap := p.position.x - p.chart.x - p.chart.w
	right := p.position.x + p.position.w
	column := max(leastColumn, p.position.w-max(0, leastChart-(p.chart.w-w-gap)))
	p.aside = box{right - w, p.chart.y, w, p.chart.h}
	x := right - w - gap - column
	p.chart.w = x - gap - p.chart.x
	last := p.small[len(p.small)-1]
	p.column(x, p.position.y, column, last.y+last.h-p.position.y, p.airLog.y-p.position.y-p.position.h)
}

// roomyAside is the width from which the list of pins has room under what stands
// aside, and pinShare its part of the height.
const (
	roomyAside = 560
	pinShare   = 0.54
)

// pinsUnderAside puts the list of pins under what stands aside, where there is room,
// so that the chart on which they are put has the room of the instruments.
func (p *plan) pinsUnderAside() {
	if p.aside.w < roomyAside {
		return
	}
	gap := p.position.x - p.chart.x - p.chart.w
	tall := round(pinShare * p.aside.h)
	p.pins = box{p.aside.x, p.aside.y + p.aside.h - tall, p.aside.w, tall}
	p.aside.h -= tall + gap
	p.chart.w = p.aside.x - gap - p.chart.x
}

// pinCard is where the list of pins stands.
func (p *plan) pinCard() box {
	if p.pins.w > 0 {
		return p.pins
	}
	return p.instruments()
}

// leastChart is the width that a chart should keep beside instruments and aside, and
// leastColumn how far the instruments give way for it, units.
const (
	leastChart  = 640
	leastColumn = 404
)

// PinPlace is a pin as it stands on the chart.
type PinPlace struct {
	Letter, Name string
	At           units.Position
}

// PinPlaces are the pins that have been put.
func (t *Table) PinPlaces() (all []PinPlace) {
	for _, p := range t.pins.all {
		all = append(all, PinPlace{string(p.letter), p.name, p.at})
	}
	return all
}

// Unpin takes all pins off the chart.
func (t *Table) Unpin() { t.pins.clear() }

// PinsRevealed has the key of the pins that shows the truth do something else, as
// long as instead says that it did.
func (t *Table) PinsRevealed(instead func() bool) { t.pins.instead = instead }

// Part is where a part stands in the view, by its name in a lesson, and whether it
// is to be seen; round parts are ringed round.
func (t *Table) Part(name string) (at kit.Box, seen, round bool) {
	parts := map[string][]fyne.CanvasObject{
		"air-counters": {t.position}, "air-log-counter": {t.airLog}, "air-log": {t.airLog}, "heading": {t.heading}, "airspeed": {t.speed},
		"wind-setter": {t.wind}, "variation-setter": {t.variation}, "chart": {t.chart}, "time-strip": {t.strip},
		"compass": {t.small[3]}, "dials": {t.small[0], t.small[1], t.small[2], t.small[3]},
	}
	if name == "marker" || name == "ground-counters" {
		return t.markerPart()
	}
	for i, o := range parts[name] {
		if !o.Visible() {
			return at, false, false
		}
		if i == 0 {
			at = kit.Box{X: o.Position().X, Y: o.Position().Y, H: o.Size().Height}
		}
		at.W = o.Position().X + o.Size().Width - at.X
	}
	return at, len(parts[name]) > 0, false
}

// markerRing is the radius of the ring round the marker, units.
const markerRing = 20

// markerPart is the place of the marker, if it lies on the chart.
func (t *Table) markerPart() (at kit.Box, seen, round bool) {
	c := t.chart
	if !c.Visible() || !c.fitted {
		return at, false, false
	}
	place, device := c.view.ToPixel(units.Position(t.moment.View.Marker)), c.device()
	if !c.view.Box.Contains(place) {
		return at, false, false
	}
	x, y := c.Position().X+float32(place.X/device), c.Position().Y+float32(place.Y/device)
	return kit.Box{X: x - markerRing, Y: y - markerRing, W: 2 * markerRing, H: 2 * markerRing}, true, true
}

// Cover is where a card lies over the instruments, or over the stage that stands in
// their place; nothing of what is under it is to be seen.
func (t *Table) Cover() (at kit.Box, lies bool) {
	if !t.columnTaken() {
		return at, false
	}
	p := t.planOf(t.content.Size())
	b := p.instruments()
	switch {
	case t.PinsOn():
		b = p.pinCard()
	case t.BreakageOpen():
		b = t.breakPlace(&p)
	}
	return kit.Box{X: b.x, Y: b.y, W: b.w, H: b.h}, true
}
