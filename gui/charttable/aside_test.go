package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// What stands aside takes nothing from the time strip, lies on nothing, and leaves the
// chart and the instruments what they need.
func TestAsideMakesRoom(t *testing.T) {
	for _, c := range []struct {
		size  fyne.Size
		wide  float32
		chart float32 // that it keeps at least
	}{{fyne.Size{Width: 1280, Height: 656}, 412, 400}, {fyne.Size{Width: 1366, Height: 704}, 421, 480}, {fyne.Size{Width: 1920, Height: 1008}, 592, 740}, {fyne.Size{Width: 3840, Height: 2016}, 1184, 1500}} {
		before := planOf(c.size.Width, c.size.Height)
		p := before
		p.makeRoom(c.wide)
		all := append([]box{p.chart, p.position, p.airLog, p.heading, p.speed, p.wind, p.variation, p.strip, p.aside}, p.small[:]...)
		for i, a := range all {
			assert.True(t, a.x >= 0 && a.y >= 0 && a.x+a.w <= c.size.Width+0.5 && a.y+a.h <= c.size.Height, "%v: %d leaves the window", c.size, i)
			for j, b := range all[:i] {
				apart := a.x+a.w <= b.x+0.5 || b.x+b.w <= a.x+0.5 || a.y+a.h <= b.y+0.5 || b.y+b.h <= a.y+0.5
				assert.True(t, apart, "%v: %d lies on %d", c.size, i, j)
			}
		}
		assert.Equal(t, before.strip, p.strip)
		assert.GreaterOrEqual(t, p.chart.w, c.chart, "%v", c.size)
		assert.GreaterOrEqual(t, p.position.w, float32(leastColumn))
		assert.InDelta(t, before.small[3].h, p.small[3].h, 0.1, "%v: the instruments keep their heights", c.size)
	}
}

// Hidden, it takes no room; parts are found by their names.
func TestAsideComesAndGoes(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	wide := tab.chart.Size().Width
	o := canvas.NewRectangle(nil)
	tab.SetAside(o, func(w, h float32) float32 { return 400 })
	assert.Less(t, tab.chart.Size().Width, wide)
	assert.Equal(t, float32(400), o.Size().Width)
	o.Hide()
	tab.content.Refresh()
	assert.Equal(t, wide, tab.chart.Size().Width)
	for _, name := range []string{"air-counters", "air-log-counter", "heading", "airspeed", "wind-setter", "variation-setter", "dials", "compass", "chart", "time-strip"} {
		at, seen, round := tab.Part(name)
		assert.True(t, seen && !round && at.W > 20 && at.H > 20, name)
	}
	dials, _, _ := tab.Part("dials")
	assert.InDelta(t, tab.position.Size().Width, dials.W, 1)
	_, seen, _ := tab.Part("no such part")
	assert.False(t, seen)
	tab.PinMode(true)
	_, seen, _ = tab.Part("wind-setter")
	assert.False(t, seen, "the card of the pins lies over it")
}

// The lesson may show the truth itself.
func TestThePinsAreRevealedInAnotherWay(t *testing.T) {
	tab, h := table(t, 1366, 704)
	tab.PinMode(true)
	tab.pins.put(units.At(-46, 178))
	assert.Equal(t, []PinPlace{{Letter: "A", At: units.At(-46, 178)}}, tab.PinPlaces())
	asked := 0
	tab.PinsRevealed(func() bool { asked++; return true })
	tab.pins.toggleReveal()
	assert.Equal(t, 1, asked)
	assert.Nil(t, h.Moment().Revealed)
	tab.Unpin()
	assert.Empty(t, tab.PinPlaces())
}

// What the crew of a lesson will do would be the answer to what it asks: the time line
// does not tell it ahead, but afterwards.
func TestALessonsCrewIsNotToldAhead(t *testing.T) {
	plan, _, err := scenarios.Open("lesson-wind")
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	marks := func() (n int) {
		m := &helm.Moment{View: e.View(), Frontier: e.Frontier()}
		p := &past{}
		p.note(m)
		for _, k := range marksOf(p, m, plan, false) {
			if k.kind == windMark {
				n++
			}
		}
		return n
	}
	assert.Zero(t, marks())
	e.Advance(2 * sim.TicksPerSecond)
	assert.Equal(t, 1, marks())
	plan, _, err = scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	e, err = sim.New(plan)
	require.NoError(t, err)
	assert.Equal(t, 1, marks(), "other flights tell what they have in store")
}

// Where there is room the list of pins stands under what stands aside, and the chart
// has the room of the instruments; else it lies over them.
func TestTheListOfPinsMakesRoomForTheChart(t *testing.T) {
	for size, under := range map[fyne.Size]bool{{Width: 1366, Height: 704}: false, {Width: 1920, Height: 1008}: true} {
		tab, _ := table(t, size.Width, size.Height)
		o := canvas.NewRectangle(nil)
		wide := float32(592)
		if !under {
			wide = 421
		}
		tab.SetAside(o, func(w, h float32) float32 { return wide })
		before, high := tab.chart.Size().Width, o.Size().Height
		tab.PinMode(true)
		card := tab.pins.card.paper
		assert.Equal(t, under, tab.chart.Size().Width > before, "%v", size)
		assert.Equal(t, under, o.Size().Height < high)
		assert.Equal(t, under, card.Position().X == o.Position().X)
		if under {
			assert.GreaterOrEqual(t, card.Position().Y, o.Position().Y+o.Size().Height)
		}
		assert.LessOrEqual(t, tab.chart.Position().X+tab.chart.Size().Width, card.Position().X)
		cover, lies := tab.Cover()
		assert.True(t, lies)
		assert.InDelta(t, card.Position().X, cover.X, 0.6)
		tab.PinMode(false)
		assert.Equal(t, before, tab.chart.Size().Width)
		_, lies = tab.Cover()
		assert.False(t, lies)
	}
}
