package charttable

import (
	"io"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/paint"
)

// Stage is a view that may stand in the place of chart and instruments, or of
// the instruments alone. The time strip, and the cards that lie over the column
// of instruments, are there in any case.
type Stage interface {
	Content() fyne.CanvasObject
	// Apply brings it up to a moment; only while it is to be seen.
	Apply(m *helm.Moment)
	// Shape is its width to its height beside the chart; more room it does not need.
	Shape() float32
	// Name is what it is called.
	Name() string
	// Page writes its picture of this moment, whenever it is called.
	Page() func(io.Writer, paint.Format) error
}

// Host is a stage that has a place of its own, in its content, for the card on which
// links are broken.
type Host interface {
	CardRoom(w, h float32) kit.Box // of a content of w by h
	Covered(on bool)               // the card lies there
}

// host is the stage that takes the card in, nil if it lies over the instruments.
func (t *Table) host() Host {
	if h, ok := t.stage.(Host); ok && t.standing == StageAlone {
		return h
	}
	return nil
}

// breakPlace is where the card on which links are broken lies.
func (t *Table) breakPlace(p *plan) box {
	h := t.host()
	if h == nil {
		return p.instruments()
	}
	room := t.roomForStage(p)
	at := h.CardRoom(room.w, room.h)
	return box{room.x + at.X, room.y + at.Y, at.W, at.H}
}

// Standing says what stands over the time strip.
type Standing uint8

// The standings.
const (
	TableAlone    Standing = iota // chart and instruments
	StageAlone                    // the stage
	ChartAndStage                 // the chart, and the stage for the instruments
)

// SetStage gives the view that may stand in the place of the instruments.
func (t *Table) SetStage(s Stage) {
	t.stage = s
	show(t.standing != TableAlone, s.Content())
	t.content.Objects = t.objects()
}

// Stand changes what stands over the time strip.
func (t *Table) Stand(s Standing) {
	t.standing = s
	show(s != StageAlone, t.chart)
	show(s != TableAlone, t.stage.Content())
	t.screen.Hints.Clear()
	t.showColumn()
	t.content.Refresh()
	t.Apply(t.moment)
}

// Stands says what stands over the time strip.
func (t *Table) Stands() Standing { return t.standing }

// columnTaken says whether a card lies over the whole column of instruments.
func (t *Table) columnTaken() bool {
	pinned := t.pins != nil && t.pins.on // nil while the view is being built
	return t.counters.open || pinned || t.BreakageOpen() || t.CurvesOpen()
}

// roomyStage is the width from which the stage makes room for a card.
const roomyStage = 1180

// mostStage is the part of the room that the stage has at most beside the chart.
const mostStage = 0.54

// stage makes room in a plan for what stands over the strip; shape is that of the
// stage beside the chart.
func (p *plan) stage(s Standing, taken bool, shape float32) box {
	all := box{p.chart.x, p.chart.y, p.position.x + p.position.w - p.chart.x, p.chart.h}
	gap := p.position.x - p.chart.x - p.chart.w
	switch {
	case s == ChartAndStage:
		p.chart.w = round(all.w - gap - min(mostStage*all.w, shape*all.h))
		all.x, all.w = p.chart.x+p.chart.w+gap, all.w-p.chart.w-gap
	case taken && p.chart.w >= roomyStage:
		all.w = p.chart.w
	}
	return all
}

// layStage gives the stage the room that the cards leave it.
func (t *Table) layStage() {
	if h := t.host(); h != nil {
		h.Covered(t.BreakageOpen())
	}
	if t.standing == TableAlone {
		return
	}
	if size := t.content.Size(); size.Width > 0 {
		p := t.planOf(size)
		t.roomForStage(&p).put(t.stage.Content())
	}
}

func (t *Table) roomForStage(p *plan) box {
	taken := t.columnTaken() && !(t.BreakageOpen() && t.host() != nil)
	return p.stage(t.standing, taken || t.TwinOpen(), t.stage.Shape())
}
