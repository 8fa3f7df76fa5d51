package charttable

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/overlay"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// Two time differences of a place give the place.
func TestTwoTimeDifferencesAreAFix(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	tab.ToggleLattice()
	c := tab.curves
	at := units.At(-46.9, -178.9)
	o := overlay.LatticeOrder{Master: c.chain[0].At, A: c.chain[1].At, B: c.chain[2].At}
	for i, p := range o.Pairs() {
		read(t, tab, i, units.Figure(p.At(at).Microseconds(), 1))
	}
	worked(t, tab)
	found, _, ok := c.fix()
	require.True(t, ok, c.why())
	_, off := geodesy.RhumbInverse(at, found)
	assert.Less(t, off.NM(), 0.05, "0.05 us at 0.3 NM a microsecond and less")
	worth, ok := c.worth()
	require.True(t, ok)
	assert.Greater(t, worth.Cut, 30*units.Degree)
}

// Waters without a chain have no lattice, and the tool says so.
func TestNoChainNoLattice(t *testing.T) {
	tab, _ := nightOf(t, 1366, 704, func(p *sim.Plan) { p.Stations = nil })
	tab.ToggleTray()
	assert.NotEmpty(t, tab.tray.lattice.Reason)
	tab.ToggleLattice()
	_, lattice := tab.Overlay()
	assert.False(t, lattice)
}

// The readings of the log are taken, the earlier brought to the time of the later:
// the fix is that of the flight, as near as sextant and wind allow.
func TestReadingsFromTheLog(t *testing.T) {
	take := func(minute int64, aim string) sim.Command {
		a, ok := aboard.ParseAim(aim)
		require.True(t, ok)
		return sim.Command{Tick: minute * 60 * sim.TicksPerSecond, Action: aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: a, ByCrew: true}}}
	}
	tab, h := nightOf(t, 1366, 704, func(p *sim.Plan) {
		p.Crew = append([]sim.Command{take(18, "sextant Achernar"), take(22, "sextant Altair"), take(30, "pulse Mollyhawk"), take(33, "pulse Teal Holm")}, p.Crew...)
	})
	tab.ToggleStarCurves()
	assert.NotEmpty(t, tab.curves.card.log.Reason, "nothing is in it")
	goTo(t, tab, h, 24)
	h.Reveal(true)
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	c := tab.curves
	c.card.apply()
	require.Empty(t, c.card.log.Reason)
	test.Tap(c.card.log)
	assert.Equal(t, -2*time.Minute, c.offset(), "the time of the later")
	worked(t, tab)
	found, _, ok := c.fix()
	require.True(t, ok, c.why())
	// Two minutes on it should be where the aircraft is, but for the index error of
	// the sextant (0.8' in one standard deviation) and four minutes of a wind 8 kt out.
	track, speed := shownTrack(&tab.moment.View)
	on, err := geodesy.RhumbDirect(found, track, units.Length(speed.MetresPerSecond()*120))
	require.NoError(t, err)
	_, off := geodesy.RhumbInverse(tab.moment.Revealed.Now.Truth.Position, on)
	assert.Less(t, off.NM(), 4.0)

	goTo(t, tab, h, 35)
	tab.ToggleLattice()
	test.Tap(c.card.log)
	worked(t, tab)
	found, when, ok := c.fix()
	require.True(t, ok, c.why())
	assert.Equal(t, "1003Z", units.TimeText(when))
	track, speed = shownTrack(&tab.moment.View)
	on, err = geodesy.RhumbDirect(found, track, units.Length(speed.MetresPerSecond()*120))
	require.NoError(t, err)
	_, off = geodesy.RhumbInverse(tab.moment.Revealed.Now.Truth.Position, on)
	assert.Less(t, off.NM(), 2.0)
}

// The truth, revealed or not, changes nothing of what is worked.
func TestOverlayKnowsNoTruth(t *testing.T) {
	tab, h := atNight(t, 1366, 704)
	goTo(t, tab, h, 25)
	tab.ToggleStarCurves()
	before := worked(t, tab).curvesWant
	h.Reveal(true)
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	after, ok := tab.curves.want()
	require.True(t, ok)
	after.room = before.room // of a ground whose key has the true track
	assert.Equal(t, before, after)
}

// plottedAt finds the positions of any time: between marks, and on the near side of a
// setting of the counters.
func TestPlottedAt(t *testing.T) {
	mark := func(seconds int, lat float64, e aboard.Event) aboard.Mark {
		at := units.At(lat, 179.9+lat/10)
		return aboard.Mark{Elapsed: time.Duration(seconds) * time.Second, Air: units.AirPosition(at), Ground: units.GroundPosition(at), Event: e}
	}
	v := &aboard.View{
		Elapsed: 50 * time.Second, Ground: units.GroundPosition(units.At(9.5, 0)), Air: units.AirPosition(units.At(9.5, 0)),
		Marks: []aboard.Mark{
			mark(0, 0, aboard.CountersSet), mark(10, 1, aboard.Sample), mark(20, 2, aboard.Sample),
			mark(25, 8, aboard.CountersSet), mark(30, 8.5, aboard.Sample), mark(40, 9, aboard.Sample),
		},
	}
	for _, c := range []struct {
		at     int
		lat    float64
		since  int
		closed bool
	}{{0, 0, 0, true}, {5, 0.5, 5, true}, {20, 2, 20, true}, {24, 2.4, 24, true}, {25, 8, 0, false}, {35, 8.75, 10, false}, {45, 9.25, 20, false}, {50, 9.5, 25, false}} {
		p, ok := plottedAt(v, time.Duration(c.at)*time.Second)
		require.True(t, ok, "%v", c)
		assert.InDelta(t, c.lat, p.ground.Lat.Degrees(), 1e-9, "%v", c)
		assert.InDelta(t, c.lat, p.air.Lat.Degrees(), 1e-9, "%v", c)
		assert.Equal(t, time.Duration(c.since)*time.Second, p.since, "%v", c)
		assert.Equal(t, c.closed, p.closed, "%v", c)
	}
	for _, at := range []time.Duration{-1, 51 * time.Second} {
		_, ok := plottedAt(v, at)
		assert.False(t, ok)
	}
}
