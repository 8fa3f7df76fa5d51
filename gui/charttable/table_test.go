package charttable

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// table opens the default flight on a canvas without a display.
func table(t *testing.T, w, h float32) (*Table, *helm.Helm) {
	t.Helper()
	return tableOf(t, w, h, func(*sim.Plan) {})
}

// tableOf alters the flight before it begins.
func tableOf(t *testing.T, w, h float32, change func(*sim.Plan)) (*Table, *helm.Helm) {
	t.Helper()
	test.NewTempApp(t)
	t.Setenv("XDG_CONFIG_HOME", t.TempDir()) // moments named by whoever runs the tests
	plan, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	change(plan)
	e, err := sim.New(plan)
	require.NoError(t, err)
	survey, err := helm.SurveyOf(plan)
	require.NoError(t, err)
	hm := helm.New(e)
	t.Cleanup(hm.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: w, H: h}
	var window fyne.Window
	tab, err := New(hm, plan, survey, screen, func() fyne.Canvas { return window.Canvas() })
	require.NoError(t, err)
	window = test.NewTempWindow(t, tab.Content())
	window.SetPadded(false)
	window.Resize(fyne.NewSize(w, h))
	return tab, hm
}

// wait brings the table up to the first moment that is as wanted; the bound is
// on a hang, nothing is measured.
func wait(t *testing.T, tab *Table, h *helm.Helm, what string, ok func(*helm.Moment) bool) {
	t.Helper()
	for range 2000 {
		if m := h.Moment(); ok(m) {
			tab.Apply(m)
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	require.Fail(t, "never saw: "+what)
}

func TestKeysFlyTheFlight(t *testing.T) {
	tab, h := table(t, 1366, 704)
	test.Tap(tab.strip.step)
	wait(t, tab, h, "one tick", func(m *helm.Moment) bool { return m.View.Tick == 1 })
	test.Tap(tab.strip.play)
	wait(t, tab, h, "the clock running", func(m *helm.Moment) bool { return m.Playing && m.View.Tick > 20 })
	assert.Equal(t, look.Text(look.Pause), tab.strip.play.Word)
	test.Tap(tab.strip.play)
	wait(t, tab, h, "the clock stopped", func(m *helm.Moment) bool { return !m.Playing })
	assert.Equal(t, look.Text(look.Play), tab.strip.play.Word)
	test.Tap(tab.strip.again)
	wait(t, tab, h, "the start", func(m *helm.Moment) bool { return m.View.Tick == 0 })
	test.Tap(tab.strip.faster)
	wait(t, tab, h, "the next rate", func(m *helm.Moment) bool { return m.Rate == 30 })
	require.True(t, kit.Perform(tab.Deeds(), fyne.KeyDown, false))
	wait(t, tab, h, "the rate before", func(m *helm.Moment) bool { return m.Rate == 10 })
}

func TestTimeLineGoesToATime(t *testing.T) {
	tab, h := table(t, 1366, 704)
	size := tab.strip.line.Size()
	test.TapAt(tab.strip.line, fyne.NewPos(size.Width/2, size.Height/2))
	wait(t, tab, h, "half of the flight", func(m *helm.Moment) bool { return m.View.Tick > 0 })
	assert.InDelta(t, float64(tab.survey.Ticks)/2, float64(tab.moment.View.Tick), float64(tab.survey.Ticks)/float64(size.Width))
}

func TestSettersHandOverOneAction(t *testing.T) {
	tab, h := table(t, 1366, 704)
	log := len(h.Moment().View.Log)
	for range 3 {
		tab.wind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	tab.wind.release()
	wait(t, tab, h, "30 kt", func(m *helm.Moment) bool { return m.View.WindSet.String() == "295/30" })
	assert.Len(t, tab.moment.View.Log, log+1, "three turns of the ring are one action")
	tab.variation.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	tab.variation.release()
	wait(t, tab, h, "a variation of the hand's", func(m *helm.Moment) bool { return !m.View.FollowsField })
	assert.InDelta(t, 23.0, tab.moment.View.VariationSet.Degrees(), 0.3)
}

func TestSpeedOfTheWindStaysLegal(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	tab.wind.addKnots(-1000)
	assert.Zero(t, tab.wind.value.Speed)
	tab.wind.addKnots(1000)
	assert.InDelta(t, 250, tab.wind.value.Speed.Knots(), 1e-9)
}

func TestWhySaysWhatTheCountersSay(t *testing.T) {
	tab, h := table(t, 1366, 704)
	h.GoTo(10 * 60 * sim.TicksPerSecond)
	wait(t, tab, h, "ten minutes", func(m *helm.Moment) bool { return m.View.Elapsed == 10*time.Minute })
	// 27 kt for ten minutes are 4.5 NM, towards 295 - 180 = 115.
	assert.Equal(t, "In 10 min the wind has carried the ground position 4.5 NM to 115T of the air position. Wind set now: 295/27.",
		why(&tab.moment.View))
}

func TestLayout(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 656}, {Width: 1280, Height: 736}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}, {Width: 3840, Height: 2016}} {
		p := planOf(size.Width, size.Height)
		all := append([]box{p.chart, p.position, p.airLog, p.heading, p.speed, p.wind, p.variation, p.strip}, p.small[:]...)
		for i, a := range all {
			assert.True(t, a.x >= 0 && a.y >= 0 && a.x+a.w <= size.Width && a.y+a.h <= size.Height, "%v: %d leaves the window", size, i)
			for j, b := range all[:i] {
				apart := a.x+a.w <= b.x || b.x+b.w <= a.x || a.y+a.h <= b.y || b.y+b.h <= a.y
				assert.True(t, apart, "%v: %d lies on %d", size, i, j)
			}
		}
		assert.GreaterOrEqual(t, p.chart.w, size.Width/2, "the chart is the greater part")
	}
}

func TestPressedThingsAreLargeEnough(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	for name, o := range tab.Named() {
		if k, ok := o.(*kit.Key); ok && name != "zoom-in" && name != "zoom-out" && name != "fit" && name != "follow" { // those the bar lays
			assert.GreaterOrEqual(t, k.Size().Height, float32(kit.Target), name)
			assert.GreaterOrEqual(t, k.Size().Width, float32(kit.Target), name)
		}
	}
}

func TestRates(t *testing.T) {
	assert.Equal(t, "x1/4", rateText(0.25))
	assert.Equal(t, "x240", rateText(240))
	assert.Contains(t, rateHint(240), "0.25 s")
	assert.Contains(t, rateHint(10), "6 s")
	assert.Equal(t, "1 h 05 min", spell(65*time.Minute))
}

func TestChartPansAndZooms(t *testing.T) {
	tab, h := table(t, 1366, 704)
	c := tab.chart
	c.generateOnce(t)
	before := c.view
	c.Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 30, DY: -20}})
	got, want := before.ToPixel(c.view.Centre), before.Box.Centre()
	assert.InDelta(t, want.X-30, got.X, 1e-6)
	assert.InDelta(t, want.Y+20, got.Y, 1e-6)
	c.zoom(2)
	assert.InDelta(t, before.Scale*2, c.view.Scale, 1e-9)
	c.toggleFollow()
	at := c.view.ToPixel(units.Position(h.Moment().View.Marker))
	assert.InDelta(t, c.view.Box.Centre().X, at.X, 1e-6)
	c.fit()
	c.generateOnce(t)
	assert.InDelta(t, before.Scale, c.view.Scale, 1e-9)
}
