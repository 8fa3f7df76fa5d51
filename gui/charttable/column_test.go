package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// Of the cards that lie over the instruments one is open at a time, and shutting
// it brings the instruments back.
func TestOneCardOverTheInstruments(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, _ := table(t, 1366, 704)
	tab.broken.onMain = func(func()) {} // no forecast
	cards := []struct {
		name string
		open func()
		is   func() bool
	}{
		{"counters", tab.OpenCounters, func() bool { return tab.counters.open }},
		{"pins", func() { tab.PinMode(true) }, tab.PinsOn},
		{"break", tab.ToggleBreakage, tab.BreakageOpen},
		{"twin", tab.ToggleTwin, tab.TwinOpen},
		{"curves", tab.ToggleStarCurves, tab.CurvesOpen},
	}
	for _, first := range cards {
		for _, second := range cards {
			if first.name == second.name {
				continue
			}
			first.open()
			second.open()
			for _, c := range cards {
				assert.Equal(t, c.name == second.name, c.is(), "%s after %s, then %s", c.name, first.name, second.name)
			}
			assert.False(t, tab.speed.Visible())
			tab.clearColumn()
			assert.True(t, tab.speed.Visible() && tab.position.Visible(), second.name)
			assert.False(t, tab.Shut())
		}
	}
}

// slipping is a table on which the drive slips from now on.
func slipping(t *testing.T) (*Table, *helm.Helm) {
	tab, h := table(t, 1366, 704)
	e, _ := fault.Lookup("drive-slip")
	h.Break(fault.Order{ID: e.ID, Params: e.Defaults()})
	wait(t, tab, h, "the order", func(m *helm.Moment) bool { return len(m.Ordered) == 1 })
	return tab, h
}

func TestTwinCardTellsTheGap(t *testing.T) {
	tab, h := slipping(t)
	tab.ToggleTwin()
	wait(t, tab, h, "the twin", func(m *helm.Moment) bool { return m.Twin != nil })
	assert.Equal(t, sim.WithoutFaults, tab.moment.Twin.Lacks.Kind)
	assert.Zero(t, tab.moment.Twin.Gap, "nothing has been lost yet")
	h.GoTo(10 * 60 * sim.TicksPerSecond)
	wait(t, tab, h, "ten minutes", func(m *helm.Moment) bool { return m.View.Tick == 10*60*sim.TicksPerSecond })
	// 5 in 100 of 178 kt for ten minutes; a tenth of a minute is printed.
	assert.InDelta(t, 178.0/6*0.05, tab.moment.Twin.Gap.NM(), 0.1)
	require.Len(t, tab.twin.offers, 4, "wind, variation, all faults and the one given here")
	test.Tap(tab.twin.keys[3])
	wait(t, tab, h, "without that fault", func(m *helm.Moment) bool { return m.Twin.Lacks.Kind == sim.WithoutFault })
	tab.ToggleTwin()
	assert.NotNil(t, h.Moment().Twin, "it flies on with the card shut")
	test.Tap(tab.twin.none)
	wait(t, tab, h, "no twin", func(m *helm.Moment) bool { return m.Twin == nil })
}

// A fault of the file is not named until the truth is shown.
func TestTwinCardNamesNoHiddenFault(t *testing.T) {
	e, _ := fault.Lookup("drive-slip")
	tab, h := tableOf(t, 1366, 704, func(p *sim.Plan) {
		p.Faults = []fault.Order{{ID: e.ID, Params: e.Defaults()}}
	})
	tab.ToggleTwin()
	wait(t, tab, h, "the twin", func(m *helm.Moment) bool { return m.Twin != nil })
	assert.Len(t, tab.twin.offers, 3)
	h.Reveal(true)
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	require.Len(t, tab.twin.offers, 4)
	assert.Contains(t, tab.twin.offers[3].word, e.Title)
	h.Reveal(false)
	wait(t, tab, h, "no truth", func(m *helm.Moment) bool { return m.Revealed == nil })
	assert.Len(t, tab.twin.offers, 3)
}

func TestTwinCardFits(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 656}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}} {
		tab, h := table(t, size.Width, size.Height)
		tab.ToggleTwin()
		wait(t, tab, h, "the twin", func(m *helm.Moment) bool { return m.Twin != nil })
		w := tab.twin
		top := w.place.y + w.foot
		for _, k := range append(w.keys[:len(w.offers):len(w.offers)], w.none, w.shut) {
			p, s := k.Position(), k.Size()
			assert.True(t, p.Y >= top-1 && p.Y+s.Height <= w.place.y+w.place.h+1 && p.X+s.Width <= w.place.x+w.place.w+1, "%v: %v %v", size, p, s)
		}
		assert.GreaterOrEqual(t, w.foot, float32(120), "%v: room for drums and gap", size)
	}
}

func TestTwinGapThatIsNoneIsNotWritten(t *testing.T) {
	assert.Equal(t, "0.0 NM", units.DistanceText(leastGap*0.999))
	assert.NotEqual(t, "0.0 NM", units.DistanceText(leastGap*1.001))
}
