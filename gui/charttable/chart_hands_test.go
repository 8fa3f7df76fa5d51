package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// pinned is a hand that stands at one place, for the test.
type pinned struct {
	at      paint.Point
	to      []units.Position
	dropped int
}

func (p *pinned) Grab(q paint.Point, _ picture.View) bool { return p.at.Dist(q) < 10 }
func (p *pinned) Drag(to units.Position)                  { p.to = append(p.to, to) }
func (p *pinned) Drop()                                   { p.dropped++ }

func drag(c *chart, x, y, dx, dy float32) {
	c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x+dx, y+dy)}, Dragged: fyne.NewDelta(dx, dy)})
}

// What is grabbed has the drag and the chart stays; beside it the chart goes.
func TestFirstHandHasTheDrag(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	tab.chart.generateOnce(t)
	first, second := &pinned{at: paint.Pt(300, 200)}, &pinned{at: paint.Pt(300, 200)}
	tab.chart.onGrab(first)
	tab.chart.onGrab(second)
	before := tab.chart.view
	drag(tab.chart, 302, 200, 30, 10)
	drag(tab.chart, 332, 210, 5, 5)
	tab.chart.DragEnd()
	assert.Equal(t, before, tab.chart.view)
	assert.Equal(t, []units.Position{before.FromPixel(paint.Pt(332, 210)), before.FromPixel(paint.Pt(337, 215))}, first.to)
	assert.Equal(t, 1, first.dropped)
	assert.Empty(t, second.to)
	drag(tab.chart, 400, 300, 30, 10)
	tab.chart.DragEnd()
	assert.NotEqual(t, before, tab.chart.view)
	assert.Len(t, first.to, 2)
	assert.Equal(t, 1, first.dropped)
}

// The first that takes a tap has it; a tap on the frame is nobody's.
func TestFirstTakerHasTheTap(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	tab.chart.generateOnce(t)
	var asked []string
	taker := func(name string, takes bool) func(units.Position) bool {
		return func(at units.Position) bool {
			asked = append(asked, name+" "+at.String())
			return takes
		}
	}
	tab.chart.onTap(taker("a", false))
	tab.chart.onTap(taker("b", true))
	tab.chart.onTap(taker("c", true))
	at := tab.chart.view.FromPixel(paint.Pt(300, 200)).String()
	tab.chart.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 200)})
	assert.Equal(t, []string{"a " + at, "b " + at}, asked)
	tab.chart.Tapped(&fyne.PointEvent{Position: fyne.NewPos(2, 2)})
	assert.Len(t, asked, 2)
}
