package charttable

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// story is what a shipped flight tells of the readings in its log.
type story struct {
	flight  string
	lay     func(*Table)
	minute  int64   // at which the log is taken
	miles   float64 // of the fix from the marker, as the file tells
	wind    string  // found, as the crew of the file set it
	out     float64 // of the fix from the truth at most, NM
	run     int64   // minutes from the fix to the setting of the counters; 0: none
	fixedAt int64
}

// What the comments of the flights promise comes about: the fix from the log lies so
// far from the marker, the wind found is the one that the crew set a little later,
// and they set the counters to the fix run on with it.
func TestStoriesOfFlightsWithOverlays(t *testing.T) {
	for _, s := range []story{
		{"night-stars", (*Table).ToggleStarCurves, 48, 26, "225/38", 6, 6, 44},
		{"inside-the-lattice", (*Table).ToggleLattice, 24, 11, "285/45", 0.5, 3, 23},
		{"inside-the-lattice", (*Table).ToggleLattice, 28, 11, "285/45", 0.5, 0, 23}, // after the counters were set
		{"inside-the-lattice", (*Table).ToggleLattice, 90, 5.5, "289/41", 3.5, 0, 89},
	} {
		plan, _, err := scenarios.Open(s.flight)
		require.NoError(t, err)
		tab, h := nightOf(t, 1366, 704, func(p *sim.Plan) { *p = *plan })
		goTo(t, tab, h, s.fixedAt)
		h.Reveal(true)
		wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
		truth, marker := tab.moment.Revealed.Now.Truth.Position, units.Position(tab.moment.View.Ground)
		goTo(t, tab, h, s.minute)
		s.lay(tab)
		worked(t, tab)
		tab.curves.takeLog()
		worked(t, tab)
		at, _, ok := tab.curves.fix()
		require.True(t, ok, s.flight)
		assert.InDelta(t, s.miles, apartMiles(marker, at), 0.5, s.flight)
		assert.Less(t, apartMiles(truth, at), s.out, s.flight)
		tab.curves.putFix()
		fix := tab.curves.fixes()[0]
		require.NotNil(t, fix.Found)
		assert.Equal(t, s.wind, fix.Found.String(), s.flight)
		if s.run == 0 {
			continue
		}
		after(t, tab, h, s.fixedAt+s.run-1)
		assert.Equal(t, s.wind, tab.moment.View.WindSet.String())
		v := tab.moment.View
		track, speed := shownTrack(&v) // heading and airspeed with the wind found
		on, err := geodesy.RhumbDirect(at, track, units.Length(speed.MetresPerSecond()*60*float64(s.run)))
		require.NoError(t, err)
		after(t, tab, h, s.fixedAt+s.run)
		assert.Less(t, apartMiles(on, units.Position(tab.moment.View.Ground)), 0.5, "the counters are set to the fix, run on")
	}
}

// after goes to a tick after a minute: what the crew do by the clock is done then.
func after(t *testing.T, tab *Table, h *helm.Helm, minute int64) {
	tick := minute*60*sim.TicksPerSecond + 1
	h.GoTo(tick)
	wait(t, tab, h, "the minute", func(m *helm.Moment) bool { return m.View.Tick == tick })
}

func apartMiles(a, b units.Position) float64 {
	_, d := geodesy.RhumbInverse(a, b)
	return d.NM()
}

// The second fix of inside-the-lattice is taken where the sheet is hatched: one
// microsecond of B moves its line by miles there, and by a tenth of one before.
func TestTheLatticeIsPoorBehindTealHolm(t *testing.T) {
	plan, _, err := scenarios.Open("inside-the-lattice")
	require.NoError(t, err)
	tab, _ := nightOf(t, 1366, 704, func(p *sim.Plan) { *p = *plan })
	c := tab.curves.chain
	chain := airplot.Chain{Master: c[0].At, A: c[1].At, B: c[2].At, Index: 1.0003}
	before := chain.LatticeAt(units.At(-47.35, -178.19), airplot.Microsecond, 0)
	behind := chain.LatticeAt(units.At(-47.8, -175.8), airplot.Microsecond, 0)
	assert.Less(t, before.ShiftB.NM(), 0.2)
	assert.Greater(t, behind.ShiftB.NM(), 2.0)
}
