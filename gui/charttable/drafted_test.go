package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
)

// While a draft is on the chart it has taps and drags to itself and its own ground; when
// it goes, all is the flight's again.
func TestADraftHasTheChart(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	c := tab.chart
	c.generateOnce(t)
	plan, _, err := scenarios.Open("far-south")
	require.NoError(t, err)
	flown, before := c.ground, c.view
	drawn, tapped, asked := 0, 0, 0
	c.onTap(func(units.Position) bool { asked++; return true })
	others := &pinned{at: paint.Pt(300, 200)}
	c.onGrab(others)
	own := &pinned{at: paint.Pt(300, 200)}
	d := &Drafted{
		Plan: plan, Hand: own, Shown: []units.Position{plan.Aircraft.Position},
		Draw: func(*picture.Brush, picture.View, *picture.Room) { drawn++ },
		Tap:  func(units.Position) bool { tapped++; return true },
	}
	require.NoError(t, tab.Draft(d, true))
	assert.True(t, tab.Drafts())
	assert.NotEqual(t, flown, c.ground)
	c.generateOnce(t)
	c.working.Store(true) // the worker has no part in this
	c.base = drawBase(c.wanted, c.ground)
	c.generateOnce(t)
	assert.Positive(t, drawn)
	assert.InDelta(t, plan.Aircraft.Position.Lat.Degrees(), c.view.Centre.Lat.Degrees(), 0.5, "the chart is fitted to the draft")
	c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 200)})
	drag(c, 302, 200, 30, 10)
	c.DragEnd()
	assert.Equal(t, []int{1, 0}, []int{tapped, asked})
	assert.Len(t, own.to, 1)
	assert.Equal(t, 1, own.dropped)
	assert.Empty(t, others.to)
	ground := c.ground
	require.NoError(t, tab.Draft(d, false))
	assert.Same(t, ground, c.ground, "another state of the same waters keeps the ground")
	require.NoError(t, tab.Draft(nil, false))
	assert.False(t, tab.Drafts())
	assert.Same(t, flown, c.ground)
	c.generateOnce(t)
	assert.InDelta(t, before.Centre.Lat.Degrees(), c.view.Centre.Lat.Degrees(), 0.5)
	c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 200)})
	assert.Equal(t, []int{1, 1}, []int{tapped, asked})
}
