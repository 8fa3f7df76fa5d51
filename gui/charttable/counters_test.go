package charttable

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// watch is a clock that goes only when told.
type watch struct{ now time.Time }

func (w *watch) pass(d time.Duration) { w.now = w.now.Add(d) }

// opened is the table of the default flight with its counters opened and a clock
// of the test's own; change alters the flight before it begins.
func opened(t *testing.T, w, h float32, change func(*sim.Plan)) (*Table, *helm.Helm, *watch) {
	t.Helper()
	if change == nil {
		change = func(*sim.Plan) {}
	}
	tab, hm := tableOf(t, w, h, change)
	clock := &watch{time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)}
	tab.air.clock = func() time.Time { return clock.now }
	tab.OpenCounters()
	return tab, hm, clock
}

// deeds counts what the crew has done, by kind.
func deeds(tab *Table, kind aboard.Kind) (found []aboard.Action) {
	for _, e := range tab.moment.View.Log {
		if e.Action.Kind == kind {
			found = append(found, e.Action)
		}
	}
	return found
}

// caughtUp waits until the engine has done all that was ordered so far and brings
// the table up to that moment.
func caughtUp(t *testing.T, tab *Table, h *helm.Helm) {
	t.Helper()
	h.SetRate(0.25)
	wait(t, tab, h, "the rate", func(m *helm.Moment) bool { return m.Rate == 0.25 })
	h.SetRate(10)
	wait(t, tab, h, "the rate before", func(m *helm.Moment) bool { return m.Rate == 10 })
}

var (
	primary = &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	enter   = &fyne.KeyEvent{Name: fyne.KeyReturn}
	space   = &fyne.KeyEvent{Name: fyne.KeySpace}
)

// touch is what the toolkit sends for one.
func touch(c *cover) {
	c.MouseDown(primary)
	c.MouseUp(primary)
	c.Tapped(&fyne.PointEvent{})
}

func TestGuardNeedsTwoTouchesAndTime(t *testing.T) {
	at := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	var g guard
	g.touch(at)
	assert.True(t, g.open())
	assert.False(t, g.at(at.Add(5*time.Second)), "the touch that lifts does not set, however long")
	g.letGo()
	g.touch(at.Add(5 * time.Second))
	assert.False(t, g.at(at.Add(5*time.Second+holdTime-time.Millisecond)))
	assert.InDelta(t, 0.5, g.held(at.Add(5*time.Second+holdTime/2)), 1e-9)
	assert.True(t, g.at(at.Add(5*time.Second+holdTime)))
	assert.False(t, g.open(), "it falls when the counters are set")
	assert.False(t, g.at(at.Add(6*time.Second)), "and sets once")
}

func TestGuardFallsShut(t *testing.T) {
	at := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	var g guard
	g.touch(at)
	g.letGo()
	g.at(at.Add(coverFalls - time.Millisecond))
	assert.True(t, g.open())
	g.touch(at.Add(coverFalls - time.Millisecond))
	g.at(at.Add(coverFalls + 100*time.Millisecond))
	assert.True(t, g.open(), "not on a hand that presses")
	g.letGo()
	g.at(at.Add(coverFalls + 101*time.Millisecond))
	assert.False(t, g.open())
	assert.Zero(t, g.held(at.Add(coverFalls+time.Hour)))
}

// No single tap, Enter or space bar sets the counters, however long it lasts and
// however often the keyboard repeats it; nor do many short ones.
func TestNothingSetsByAccident(t *testing.T) {
	for name, press := range map[string]func(c *cover, clock *watch){
		"one tap":         func(c *cover, _ *watch) { touch(c) },
		"many short taps": func(c *cover, _ *watch) { touch(c); touch(c); touch(c); touch(c) },
		"a tap held":      func(c *cover, _ *watch) { c.MouseDown(primary) },
		"slipping off":    func(c *cover, _ *watch) { touch(c); c.MouseDown(primary); c.MouseOut() },
		"right button": func(c *cover, _ *watch) {
			touch(c)
			c.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary})
		},
		"focus lost":       func(c *cover, _ *watch) { touch(c); c.KeyDown(enter); c.FocusLost() },
		"Enter held":       func(c *cover, _ *watch) { c.KeyDown(enter); repeat(c, enter) },
		"space bar held":   func(c *cover, _ *watch) { c.KeyDown(space); repeat(c, space) },
		"Enter twice":      func(c *cover, _ *watch) { c.KeyDown(enter); c.KeyUp(enter); c.KeyDown(enter); c.KeyUp(enter) },
		"another key held": func(c *cover, _ *watch) { touch(c); c.KeyDown(&fyne.KeyEvent{Name: fyne.KeyRight}) },
		"a hold cut short": func(c *cover, clock *watch) {
			touch(c)
			c.MouseDown(primary)
			clock.pass(holdTime - time.Millisecond)
			c.step()
			c.MouseUp(primary)
		},
	} {
		t.Run(name, func(t *testing.T) {
			tab, h, clock := opened(t, 1366, 704, nil)
			tab.counters.pick(1)
			c := tab.counters.cover
			require.Empty(t, c.reason)
			press(c, clock)
			for range 40 {
				clock.pass(100 * time.Millisecond)
				c.step()
			}
			caughtUp(t, tab, h)
			assert.Empty(t, deeds(tab, aboard.SetCounters))
			clock.pass(coverFalls)
			c.letGo()
			c.step()
			assert.False(t, c.guard.open(), "and the cover falls")
		})
	}
}

// repeat is what a keyboard sends while a key stays down.
func repeat(c *cover, key *fyne.KeyEvent) {
	for range 50 {
		c.TypedKey(key)
	}
}

// holdToSet goes through the whole ceremony.
func holdToSet(c *cover, clock *watch) {
	touch(c)
	clock.pass(time.Second)
	c.step()
	c.MouseDown(primary)
	for range 20 {
		clock.pass(50 * time.Millisecond)
		c.step()
	}
	c.MouseUp(primary)
}

func TestSettingIsOneActionAtThePlace(t *testing.T) {
	tab, h, clock := opened(t, 1366, 704, nil)
	tab.counters.entry.SetText("46 53.0 S 178 24.8 W")
	holdToSet(tab.counters.cover, clock)
	wait(t, tab, h, "the counters set", func(m *helm.Moment) bool { return m.View.Air.Lon < 0 })
	caughtUp(t, tab, h)
	done := deeds(tab, aboard.SetCounters)
	require.Len(t, done, 1, "held on beyond the end it still sets once")
	want := units.At(-(46 + 53.0/60), -(178 + 24.8/60))
	assert.InDelta(t, want.Lat.Minutes(), done[0].Position.Lat.Minutes(), 1e-9)
	assert.InDelta(t, want.Lon.Minutes(), done[0].Position.Lon.Minutes(), 1e-9)
	assert.Equal(t, "S 46 53.0", tab.moment.View.AirCounters.Latitude.Arc())
	assert.Equal(t, "W 178 24.8", tab.moment.View.AirCounters.Longitude.Arc())
	assert.Equal(t, units.Position(tab.moment.View.Marker), done[0].Position, "the marker is put down there")
}

func TestKeyboardSetsByEnterThenHoldingEnter(t *testing.T) {
	tab, h, clock := opened(t, 1366, 704, nil)
	tab.counters.pick(0)
	c := tab.counters.cover
	c.KeyDown(enter)
	c.KeyUp(enter)
	clock.pass(2 * time.Second)
	c.step()
	c.KeyDown(enter)
	clock.pass(holdTime)
	c.step()
	wait(t, tab, h, "the counters set", func(m *helm.Moment) bool { return len(m.View.Log) > 0 })
	caughtUp(t, tab, h)
	assert.Len(t, deeds(tab, aboard.SetCounters), 1)
}

func TestCoverTellsWhyItStaysDown(t *testing.T) {
	tab, _, _ := opened(t, 1366, 704, nil)
	c, e := tab.counters.cover, tab.counters.entry
	assert.Equal(t, look.Text(look.NoTarget), c.reason)
	touch(c)
	assert.False(t, c.guard.open())
	e.SetText("47 70.0 S 178 30.0 E")
	assert.Equal(t, look.Text(look.NoTarget), c.reason, "nothing is wrong before the hand is done")
	e.done()
	assert.Contains(t, c.reason, "latitude minutes")
	assert.Contains(t, c.reason, "0 to below 60")
	assert.Contains(t, c.Spoken(), c.reason)
	e.SetText("47 10.0 S 178 30.0 E")
	assert.Empty(t, c.reason)
	touch(c)
	assert.True(t, c.guard.open())
	e.SetText("47 10.0 S 178 30.0")
	assert.False(t, c.guard.open(), "another place, and the cover falls")
}

func TestEscapeLetsTheCoverFallThenCloses(t *testing.T) {
	tab, _, _ := opened(t, 1366, 704, nil)
	esc := &fyne.KeyEvent{Name: fyne.KeyEscape}
	p := tab.counters
	p.pick(1)
	touch(p.cover)
	p.cover.TypedKey(esc)
	assert.False(t, p.cover.guard.open())
	assert.True(t, p.open)
	p.entry.TypedKey(esc)
	assert.False(t, p.open)
	assert.False(t, p.cover.Visible())
	assert.True(t, tab.position.Visible())
	assert.False(t, tab.CloseCounters(), "nothing is left to close")
	tab.OpenCounters()
	p.pick(1)
	touch(p.cover)
	tab.CloseCounters()
	tab.CloseCounters()
	tab.OpenCounters()
	assert.False(t, p.cover.guard.open(), "opened anew with the cover down")
	assert.Nil(t, p.target)
}

func TestPlacesAreReadAsFlightsWriteThem(t *testing.T) {
	want := units.At(-47-10.0/60, 178.5)
	for _, s := range []string{"47 10.0 S 178 30.0 E", " 47 10.0 s 178 30.0 e ", "47°10.0′ S 178°30.0′ E", "[-47.1666666667, 178.5]", "-47.1666666667,178.5"} {
		p, err := parsePlace(s)
		require.NoError(t, err, s)
		assert.InDelta(t, want.Lat.Minutes(), p.Lat.Minutes(), 1e-6, s)
		assert.InDelta(t, want.Lon.Minutes(), p.Lon.Minutes(), 1e-6, s)
	}
	for _, s := range []string{"", "47", "47 60.0 S 178 E", "91 S 0 E", "47 S 181 E", "[91, 0]", "[0, 181]", "[NaN, 0]", "1,2,3", "x, y"} {
		_, err := parsePlace(s)
		assert.Error(t, err, s)
	}
}

func TestOfferedPlaces(t *testing.T) {
	tab, _, _ := opened(t, 1366, 704, nil)
	p := tab.counters
	tab.Offer(Fixed("Fix 1012Z", units.At(-46.5, -178)))
	require.Len(t, p.picksOffered(), 3)
	assert.True(t, p.picks[2].Visible())
	p.pick(2)
	require.NotNil(t, p.target)
	assert.Equal(t, units.At(-46.5, -178), p.target.At())
	assert.True(t, p.picks[2].Chosen)
	tab.Offer(Fixed("Fix 1040Z", units.At(-47, -178)))
	assert.Equal(t, "Fix 1040Z", p.picks[2].Word, "the newest has the key")
	tab.Offer(Fixed("Fix 1040Z", units.At(-48, -178)))
	assert.Len(t, p.offers, 2)
	tab.Withdraw("Fix 1040Z")
	tab.Withdraw("Fix 1012Z")
	assert.False(t, p.picks[2].Visible())
	p.pick(0)
	assert.Equal(t, units.Position(tab.moment.View.Marker), p.target.At(), "where the marker stands when asked")
}

func TestAfterTheEndNothingIsSetOrSlewed(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, nil)
	h.GoTo(1 << 40)
	wait(t, tab, h, "the end", func(m *helm.Moment) bool { return m.Over })
	tab.counters.pick(1)
	assert.Equal(t, look.Text(look.FlightEnded), tab.counters.cover.reason)
	assert.Equal(t, look.Text(look.FlightEnded), tab.counters.slews[0].keys[0].Reason)
	assert.Equal(t, look.Text(look.FlightEnded), tab.wind.keys[0].Reason)
	tab.counters.slews[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.Zero(t, tab.air.pending(latitude))
	tab.CloseCounters()
	tab.wind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.False(t, tab.wind.held)
}

// Everything on the panel is in it, large enough, and on nothing else.
func TestCountersFitEveryWindow(t *testing.T) {
	sizes := []fyne.Size{{Width: 1280, Height: 656}, {Width: 1280, Height: 736}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}, {Width: 3840, Height: 2016}}
	for i, size := range append(sizes, sizes...) {
		tab, _, _ := opened(t, size.Width, size.Height, func(p *sim.Plan) { p.Mechanism.Longitude = integrator.HemisphereLever })
		tab.screen.LargerText = i >= len(sizes)
		tab.counters.lay(tab.counters.at)
		tab.Offer(Fixed("Fix 1012Z", units.At(-46.5, -178)))
		p := tab.counters
		panel := boxOf(p.panel)
		var all []fyne.CanvasObject
		for _, o := range p.objects()[1:] {
			if o.Visible() && o != p.lever { // which stands on the row of its drums
				all = append(all, o)
			}
		}
		require.Len(t, all, 2+12+1+3+2)
		for i, o := range all {
			b := boxOf(o)
			assert.True(t, b.x >= panel.x && b.y >= panel.y && b.x+b.w <= panel.x+panel.w && b.y+b.h <= panel.y+panel.h, "%v: %T %v leaves the panel %v", size, o, b, panel)
			if o != p.entry {
				assert.GreaterOrEqual(t, b.h, float32(kit.Target), "%v: %T", size, o)
				assert.GreaterOrEqual(t, b.w, float32(kit.Target), "%v: %T", size, o)
			}
			for _, q := range all[:i] {
				a := boxOf(q)
				apart := a.x+a.w <= b.x || b.x+b.w <= a.x || a.y+a.h <= b.y || b.y+b.h <= a.y
				assert.True(t, apart, "%v: %T %v lies on %T %v", size, o, b, q, a)
			}
		}
		words := p.words + p.wordsTall()
		assert.LessOrEqual(t, words, p.cover.Position().Y, "%v: the sentence runs under the cover", size)
		lever := boxOf(p.lever)
		row := p.slews[longitude]
		assert.GreaterOrEqual(t, lever.w, float32(kit.Target))
		assert.GreaterOrEqual(t, lever.x, row.Position().X+row.Size().Height, "%v: right of the knob", size)
		assert.LessOrEqual(t, lever.x+lever.w, row.Position().X+row.drumsLeft(), "%v: left of the drums", size)
	}
}

func boxOf(o fyne.CanvasObject) box {
	return box{o.Position().X, o.Position().Y, o.Size().Width, o.Size().Height}
}
