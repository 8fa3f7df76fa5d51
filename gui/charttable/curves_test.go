package charttable

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// atNight opens the default flight, by night, with everything worked at once.
func atNight(t *testing.T, w, h float32) (*Table, *helm.Helm) {
	t.Helper()
	return nightOf(t, w, h, func(*sim.Plan) {})
}

func nightOf(t *testing.T, w, h float32, change func(*sim.Plan)) (*Table, *helm.Helm) {
	t.Helper()
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, hm := tableOf(t, w, h, change)
	settled(tab)
	tab.away = func(work func()) { work() }
	return tab, hm
}

// worked waits until what is wanted has been worked.
func worked(t *testing.T, tab *Table) *curvesDone {
	t.Helper()
	c := tab.curves
	for range 2000 {
		c.ask()
		if w, ok := c.want(); ok && c.job.done != nil && c.job.done.curvesWant == w {
			return c.job.done
		}
		time.Sleep(5 * time.Millisecond)
	}
	require.Fail(t, "the overlay was never worked")
	return nil
}

// goTo brings the flight to a minute.
func goTo(t *testing.T, tab *Table, h *helm.Helm, minute int64) {
	t.Helper()
	tick := minute * 60 * sim.TicksPerSecond
	h.GoTo(tick)
	wait(t, tab, h, "the minute", func(m *helm.Moment) bool { return m.View.Tick == tick })
}

// The tool lays the curves and opens their card; shut, the curves stay; pressed
// again, with the card open, it takes them off.
func TestStarCurvesAreLaidAndLifted(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	tab.ToggleTray()
	test.Tap(tab.tray.curves)
	stars, lattice := tab.Overlay()
	require.True(t, stars && !lattice && tab.CurvesOpen() && tab.tray.curves.Chosen)
	done := worked(t, tab)
	require.NotNil(t, done.image(tab.screen.Palette))
	require.Len(t, tab.curves.rows, 3)
	assert.True(t, tab.Shut(), "the card")
	stars, _ = tab.Overlay()
	assert.True(t, stars && !tab.CurvesOpen())
	test.Tap(tab.tray.curves)
	assert.True(t, tab.CurvesOpen(), "it opens the card of curves that lie there")
	test.Tap(tab.tray.curves)
	stars, _ = tab.Overlay()
	assert.False(t, stars || tab.CurvesOpen())
	require.True(t, kit.Perform(tab.Deeds(), fyne.KeyF7, false))
	stars, _ = tab.Overlay()
	assert.True(t, stars, "a key does the same")
}

// The curves are on the chart, and go when they are lifted.
func TestCurvesAreDrawn(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	ink := tab.screen.Palette.Pos
	all := tab.chart.view.Box
	bare := inked(settled(tab), all, ink)
	tab.ToggleStarCurves()
	worked(t, tab)
	tab.chart.stale = true
	assert.Greater(t, inked(settled(tab), all, ink), bare+400)
	tab.curves.lift()
	assert.Equal(t, bare, inked(settled(tab), all, ink))
}

// By day the card says that there are no stars.
func TestByDayTheCardSaysSo(t *testing.T) {
	tab, _ := nightOf(t, 1366, 704, func(p *sim.Plan) { p.Start = p.Start.Add(14 * time.Hour) })
	tab.ToggleStarCurves()
	worked(t, tab)
	assert.Contains(t, tab.curves.note(), "No stars: at 2330Z it is light")
	assert.Empty(t, tab.curves.rows)
	assert.NotEmpty(t, tab.curves.card.put.Reason)
}

// read types a reading on a plate.
func read(t *testing.T, tab *Table, i int, typed string) {
	t.Helper()
	r, err := tab.curves.parse(i, typed)
	require.NoError(t, err)
	tab.curves.setRead(i, r)
}

// Two altitudes of a place, typed to a tenth of a minute, give the place: within
// what the tenth of a minute makes of the cut. Putting the fix on the chart finds
// the wind: that from the air position to it.
func TestTwoAltitudesAreAFix(t *testing.T) {
	tab, h := atNight(t, 1366, 704)
	goTo(t, tab, h, 30)
	tab.ToggleStarCurves()
	worked(t, tab)
	c := tab.curves
	assert.NotEmpty(t, c.card.put.Reason, "nothing has been read")
	at, err := geodesy.RhumbDirect(units.Position(tab.moment.View.Ground), units.Degree*50, 9*units.NM)
	require.NoError(t, err)
	k := c.known()
	over := sky.At(k.Time)
	for i, b := range c.pair {
		seen, _ := over.Seen(b, at, k.Thin)
		tenths := int(math.Round(seen.Minutes() * 10))
		read(t, tab, i, units.Figure(float64(tenths/600), 0)+" "+units.Figure(float64(tenths%600)/10, 1))
	}
	assert.False(t, c.held.IsZero(), "a reading is good at one time: the curves stand")
	worked(t, tab)
	found, when, ok := c.fix()
	require.True(t, ok, c.why())
	_, off := geodesy.RhumbInverse(at, found)
	assert.Less(t, off.NM(), 0.1)
	assert.True(t, when.Equal(tab.moment.View.Clock))

	assert.Empty(t, c.card.put.Reason)
	test.Tap(c.card.put)
	fixes := c.fixes()
	require.Len(t, fixes, 1)
	course, d := geodesy.RhumbInverse(units.Position(tab.moment.View.Air), found)
	assert.InDelta(t, units.Wrap(course+math.Pi).Degrees(), fixes[0].Found.From.Degrees(), 0.5)
	assert.InDelta(t, d.NM()/0.5, fixes[0].Found.Speed.Knots(), 0.5, "in half an hour")
	// It is offered where the counters are set, run on with the ground position.
	tab.OpenCounters()
	offered := tab.counters.offers
	require.Len(t, offered, 1)
	goTo(t, tab, h, 34)
	ran := offered[0].At()
	_, back := geodesy.RhumbInverse(found, ran)
	assert.Greater(t, back.NM(), 9.0, "four minutes at some 200 kt")
	goTo(t, tab, h, 20)
	assert.Empty(t, c.fixes(), "before it was made there is none")
}

// The curves follow the clock until they are held, up to an hour from it.
func TestTimeOfTheCurves(t *testing.T) {
	tab, h := atNight(t, 1366, 704)
	tab.ToggleStarCurves()
	c := tab.curves
	goTo(t, tab, h, 5)
	assert.Equal(t, tab.moment.View.Clock, c.time())
	s := c.card.slide
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Equal(t, time.Minute, c.offset())
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	assert.Equal(t, -9*time.Minute, c.offset())
	s.to(s.Size().Width)
	assert.Equal(t, time.Hour, c.offset())
	s.to(0)
	assert.Equal(t, -time.Hour, c.offset())
	goTo(t, tab, h, 6)
	assert.Equal(t, -61*time.Minute, c.offset(), "held curves stand")
	test.Tap(c.card.follow)
	assert.Zero(t, c.offset())
}

// Keys change a reading that is there and begin one that is not with what would be
// read at the ground position shown.
func TestKeysChangeAReading(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	tab.ToggleStarCurves()
	worked(t, tab)
	c := tab.curves
	p := c.card.plates[0]
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	first := c.reads()[0]
	assert.InDelta(t, c.known().Altitude(c.pair[0], units.Position(tab.moment.View.Ground)), first.Value, 0.05)
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.InDelta(t, first.Value+0.1, c.reads()[0].Value, 1e-9)
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	assert.InDelta(t, first.Value+0.1-10, c.reads()[0].Value, 1e-9)
	read(t, tab, 0, "")
	assert.False(t, c.reads()[0].Known, "nothing takes it away")
}

func TestWhatIsTyped(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	tab.ToggleStarCurves()
	c := tab.curves
	for typed, minutes := range map[string]float64{"42 22.5": 2542.5, "42°22.5′": 2542.5, "42,5": 2550, "42": 2520, " 5 0 ": 300} {
		r, err := c.parse(0, typed)
		require.NoError(t, err, typed)
		assert.InDelta(t, minutes, r.Value, 1e-9, typed)
	}
	for _, typed := range []string{"42 60", "89", "4 59", "abc", "42.5 10", "42 -1", "NaN", "1 2 3", "-42"} {
		_, err := c.parse(0, typed)
		assert.Error(t, err, typed)
	}
	tab.ToggleLattice()
	r, err := c.parse(0, "1828.5")
	require.NoError(t, err)
	assert.Equal(t, 1828.5, r.Value)
	for _, typed := range []string{"999", "5000", "x", "NaN"} {
		_, err := c.parse(1, typed)
		assert.ErrorContains(t, err, "1000.0", typed)
	}
}

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

// Everything on the card fits and is large enough to touch, in every window.
func TestCurvesCardFits(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 656}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}} {
		tab, _ := atNight(t, size.Width, size.Height)
		for _, lay := range []func(){tab.ToggleStarCurves, tab.ToggleLattice} {
			lay()
			worked(t, tab)
			k := tab.curves.card
			var before []fyne.CanvasObject
			for _, o := range k.objects()[1:] {
				if !o.Visible() {
					continue
				}
				p, s := o.Position(), o.Size()
				assert.True(t, p.X >= k.place.x && p.Y >= k.place.y && p.X+s.Width <= k.place.x+k.place.w+1 && p.Y+s.Height <= k.place.y+k.place.h+1, "%v %T %v %v", size, o, p, s)
				assert.GreaterOrEqual(t, s.Height, float32(kit.Target), "%v %T", size, o)
				for _, q := range before {
					a, b := q.Position(), q.Size()
					apart := p.X+s.Width <= a.X+1 || a.X+b.Width <= p.X+1 || p.Y+s.Height <= a.Y+1 || a.Y+b.Height <= p.Y+1
					assert.True(t, apart, "%v: %T lies on %T", size, o, q)
				}
				before = append(before, o)
			}
		}
	}
}

// In each light the overlay has the colours of that light; under the lamp both.
func TestOverlayInEachLight(t *testing.T) {
	tab, _ := atNight(t, 1366, 704)
	tab.ToggleStarCurves()
	for _, v := range []look.Variant{look.Paper, look.Night, look.Lamp} {
		tab.screen.Palette = look.Of(v)
		settled(tab)
		done := worked(t, tab)
		if v == look.Lamp {
			assert.True(t, done.image(look.Of(look.LampLit)) != nil && done.image(look.Of(look.LampUnlit)) != nil)
			continue
		}
		assert.NotNil(t, done.image(look.Of(v)))
	}
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
