package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
)

// box is a place in the window, units.
type box struct{ x, y, w, h float32 }

// put places an object on whole units, so that its edges are sharp.
func (b box) put(o fyne.CanvasObject) { kit.Box{X: b.x, Y: b.y, W: b.w, H: b.h}.Put(o) }

func round(v float32) float32 { return kit.Whole(v) }

// plan is where everything stands in a window of some size: chart at the left,
// the column of instruments at the right, the time strip at the foot.
type plan struct {
	chart, position, airLog, heading, speed, wind, variation, strip box
	aside, pins                                                     box
	small                                                           [4]box
}

// shares are the heights of the five rows of the column, of one in all.
var shares = [5]float32{0.237, 0.083, 0.236, 0.260, 0.184}

// planOf lays a window of w by h out.
func planOf(w, h float32) plan {
	f := min(w/1920, h/1080)
	edge := max(12, look.Edge*f)
	gap, cardGap := max(8, look.GapColumn*f), max(8, look.GapCard*f)
	column := max(404, look.Column*f)
	strip := max(124, look.TimeStrip*f)
	var p plan
	p.strip = box{edge, h - edge/2 - strip, w - 2*edge, strip}
	top, foot := gap, p.strip.y-gap
	p.chart = box{edge, top, w - 2*edge - gap - column, foot - top}
	p.column(w-edge-column, top, column, foot-top, cardGap)
	return p
}

func (p *plan) column(x, y, w, h, gap float32) {
	room := h - 4*gap
	row := func(i int) (at, tall float32) {
		at, tall = y, room*shares[i]
		y += tall + gap
		return at, tall
	}
	half := (w - gap) / 2
	at, tall := row(0)
	p.position = box{x, at, w, tall}
	at, tall = row(1)
	p.airLog = box{x, at, w, tall}
	at, tall = row(2)
	p.heading, p.speed = box{x, at, half, tall}, box{x + half + gap, at, half, tall}
	at, tall = row(3)
	p.wind, p.variation = box{x, at, half, tall}, box{x + half + gap, at, half, tall}
	at, tall = row(4)
	quarter := (w - 3*gap) / 4
	for i := range p.small {
		p.small[i] = box{x + float32(i)*(quarter+gap), at, quarter, tall}
	}
}

// Layout is part of the toolkit's contract.
func (t *Table) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	p := t.planOf(size)
	if t.stage != nil {
		t.roomForStage(&p).put(t.stage.Content())
	}
	p.chart.put(t.chart)
	p.position.put(t.position)
	p.airLog.put(t.airLog)
	p.heading.put(t.heading)
	p.speed.put(t.speed)
	p.wind.put(t.wind)
	p.variation.put(t.variation)
	for i, b := range p.small {
		b.put(t.small[i])
	}
	p.strip.put(t.strip)
	t.strip.lay(p.strip)
	t.wind.placeKeys()
	t.counters.lay(p.instruments())
	t.ring.follow(t.screen.Palette)
	t.pins.card.lay(p.pinCard())
	t.broken.lay(t.breakPlace(&p))
	t.twin.lay(p)
	t.curves.card.lay(p.instruments())
	t.tools.place()
	t.tray.lay(p.chart)
	if t.aside != nil {
		p.aside.put(t.aside)
	}
}

// instruments is the whole column.
func (p *plan) instruments() box {
	last := p.small[len(p.small)-1]
	return box{p.position.x, p.position.y, p.position.w, last.y + last.h - p.position.y}
}

// MinSize is part of the toolkit's contract.
func (t *Table) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1024, 600) }
