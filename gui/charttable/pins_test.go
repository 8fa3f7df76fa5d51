package charttable

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// pinned50 is a table fifty minutes into the flight, pin mode on, its handout in
// a folder of the test's own.
func pinned50(t *testing.T) (*Table, *helm.Helm, string) {
	dir := t.TempDir()
	t.Setenv("XDG_DATA_HOME", dir)
	tab, h := table(t, 1366, 704)
	tab.chart.working.Store(true) // the ground is not wanted
	tab.away = func(work func()) { work() }
	tab.chart.generateOnce(t)
	h.GoTo(50 * 60 * sim.TicksPerSecond)
	wait(t, tab, h, "fifty minutes", func(m *helm.Moment) bool { return m.View.Elapsed == 50*time.Minute })
	tab.PinMode(true)
	return tab, h, filepath.Join(dir, "stillair", "pins.csv")
}

func tap(c *chart, x, y float32) { c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)}) }

// putThree puts A, B and C far apart and gives where they stand.
func putThree(t *testing.T, tab *Table) []units.Position {
	t.Helper()
	var at []units.Position
	for _, p := range []fyne.Position{{X: 220, Y: 160}, {X: 420, Y: 330}, {X: 600, Y: 200}} {
		tap(tab.chart, p.X, p.Y)
		at = append(at, tab.chart.view.FromPixel(paint.Pt(float64(p.X), float64(p.Y))))
	}
	require.Len(t, tab.pins.all, 3)
	return at
}

func revealed(t *testing.T, tab *Table, h *helm.Helm) {
	t.Helper()
	test.Tap(tab.pins.card.reveal)
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
}

func TestATapPutsAPinOnlyInPinMode(t *testing.T) {
	tab, _, _ := pinned50(t)
	at := putThree(t, tab)
	for i, q := range tab.pins.all {
		assert.Equal(t, byte('A'+i), q.letter)
		assert.Equal(t, at[i], q.at)
	}
	tab.PinMode(false)
	tap(tab.chart, 300, 300)
	assert.Len(t, tab.pins.all, 3, "they stay, and no other comes")
}

func TestEightPinsAreAllThereAre(t *testing.T) {
	tab, _, _ := pinned50(t)
	for range maxPins {
		assert.Empty(t, tab.pins.card.another.Reason)
		test.Tap(tab.pins.card.another)
	}
	require.Len(t, tab.pins.all, maxPins)
	assert.NotEmpty(t, tab.pins.card.another.Reason)
	tap(tab.chart, 300, 60)
	assert.Len(t, tab.pins.all, maxPins)
	for i, q := range tab.pins.all {
		place := tab.chart.view.ToPixel(q.at)
		assert.True(t, tab.chart.view.Box.Contains(place), "%c can be seen", q.letter)
		for _, o := range tab.pins.all[:i] {
			assert.Greater(t, place.Dist(tab.chart.view.ToPixel(o.at)), 40.0, "none stands on another")
		}
	}
	tab.pins.remove('C')
	test.Tap(tab.pins.card.another)
	assert.Equal(t, byte('C'), tab.pins.held, "a letter that is free is given again")
	assert.Equal(t, byte('C'), tab.pins.all[2].letter)
}

func TestATapOnAPinChoosesIt(t *testing.T) {
	tab, _, _ := pinned50(t)
	putThree(t, tab)
	tap(tab.chart, 225, 158)
	assert.Len(t, tab.pins.all, 3)
	assert.Equal(t, byte('A'), tab.pins.held)
	head := picture.PinHead(paint.Pt(420, 330), picture.PinScale(tab.screen.Size(1)))
	tap(tab.chart, float32(head.X), float32(head.Y))
	assert.Len(t, tab.pins.all, 3)
	assert.Equal(t, byte('B'), tab.pins.held)
}

// A pin is a target for a finger: 56 units across, head and foot.
func TestPinsAreLargeEnoughForAFinger(t *testing.T) {
	tab, _, _ := pinned50(t)
	putThree(t, tab)
	head := picture.PinHead(paint.Pt(420, 330), picture.PinScale(tab.screen.Size(1)))
	for _, m := range []paint.Point{head, paint.Pt(420, 330)} {
		assert.True(t, tab.pins.Grab(m.Add(27, 0), tab.chart.view))
		assert.True(t, tab.pins.Grab(m.Add(-27, 0), tab.chart.view))
	}
	assert.False(t, tab.pins.Grab(head.Add(0, -29), tab.chart.view))
}

func TestAPinIsDraggedByItsHead(t *testing.T) {
	tab, _, _ := pinned50(t)
	at := putThree(t, tab)
	before := tab.chart.view
	head := picture.PinHead(before.ToPixel(at[1]), picture.PinScale(tab.screen.Size(1)))
	drag(tab.chart, float32(head.X), float32(head.Y), 30, -20)
	drag(tab.chart, float32(head.X)+30, float32(head.Y)-20, 10, 0)
	tab.chart.DragEnd()
	got := tab.chart.view.ToPixel(tab.pins.find('B').at)
	assert.InDelta(t, 460, got.X, 1e-3, "its foot keeps its place under the hand")
	assert.InDelta(t, 310, got.Y, 1e-3)
	assert.Equal(t, before, tab.chart.view, "the chart stays")
	assert.Equal(t, at[0], tab.pins.find('A').at)
}

// An arrow moves the chosen pin a mile of 1852 m along a rhumb line.
func TestArrowsMoveAPinByAMile(t *testing.T) {
	tab, _, _ := pinned50(t)
	putThree(t, tab)
	require.True(t, kit.Perform(tab.PinDeeds(), "A", false))
	for key, course := range map[fyne.KeyName]float64{fyne.KeyUp: 0, fyne.KeyRight: 90, fyne.KeyDown: 180, fyne.KeyLeft: 270} {
		from := tab.pins.find('A').at
		require.True(t, kit.Perform(tab.PinDeeds(), key, false))
		got, miles := geodesy.RhumbInverse(from, tab.pins.find('A').at)
		assert.InDelta(t, 1852, float64(miles), 1e-6)
		assert.InDelta(t, 0, units.WrapHalfDegrees(got.Degrees()-course), 1e-6)
	}
	from := tab.pins.find('A').at
	tab.pins.shift(0, stride(true))
	_, miles := geodesy.RhumbInverse(from, tab.pins.find('A').at)
	assert.InDelta(t, 18520, float64(miles), 1e-6)
	require.True(t, kit.Perform(tab.PinDeeds(), fyne.KeyDelete, false))
	assert.Nil(t, tab.pins.find('A'))
	assert.False(t, kit.Perform(tab.PinDeeds(), fyne.KeyUp, false), "none is chosen: the arrow is not ours")
	assert.False(t, kit.Perform(tab.PinDeeds(), "A", false))
	tab.PinMode(false)
	assert.Empty(t, tab.PinDeeds())
}

func TestPinModeStopsTheClock(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, h := table(t, 1366, 704)
	h.Play()
	wait(t, tab, h, "the clock running", func(m *helm.Moment) bool { return m.Playing })
	tab.PinMode(true)
	wait(t, tab, h, "the clock stopped", func(m *helm.Moment) bool { return !m.Playing })
}

// Before the reveal the list measures from the ground position shown alone.
func TestTheListMeasuresFromTheGroundPositionShown(t *testing.T) {
	tab, _, _ := pinned50(t)
	// A degree of latitude at 47 S is 111.17 km on WGS-84 (from memory), so that
	// 15' are 15.0 NM.
	ground := units.Position(tab.moment.View.Marker)
	ground.Lat -= 15 * units.ArcMinute
	require.True(t, tab.pins.put(ground))
	assert.Equal(t, "15 NM 180T", tab.pins.distance(&tab.pins.all[0]))
	assert.Nil(t, tab.moment.Revealed)
	assert.Nil(t, tab.pins.answer)
	assert.Nil(t, tab.pins.picture(false).To)
}

func TestRevealSortsByMilesOff(t *testing.T) {
	tab, h, _ := pinned50(t)
	putThree(t, tab)
	revealed(t, tab, h)
	truth := tab.moment.Revealed.Now.Truth.Position
	assert.Equal(t, truth, *tab.pins.picture(false).To)
	last := units.Length(0)
	for i := range tab.pins.all {
		q := &tab.pins.all[i]
		a, err := units.ParsePosition(truth.String())
		require.NoError(t, err)
		b, err := units.ParsePosition(q.at.String())
		require.NoError(t, err)
		_, want := geodesy.RhumbInverse(a, b)
		assert.InDelta(t, float64(want), float64(q.off.miles), 1e-6, "between the printed positions")
		assert.GreaterOrEqual(t, q.off.miles, last)
		last = q.off.miles
		assert.Equal(t, units.DistanceText(want)+" off", tab.pins.distance(q))
		assert.Equal(t, tab.pins.card.rows[i].key().share, float64(q.off.miles/tab.pins.all[2].off.miles))
	}
	assert.Contains(t, strings.Join(tab.pins.card.sentence(tab.screen.Size(1), 2000), " "), "1020Z")
	before := tab.pins.all[0].at
	assert.False(t, tab.pins.Grab(tab.chart.view.ToPixel(before), tab.chart.view), "a pin cannot be changed when the truth is known")
	tap(tab.chart, 300, 400)
	assert.Len(t, tab.pins.all, 3)
	test.Tap(tab.pins.card.reveal)
	wait(t, tab, h, "the truth hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
	assert.Nil(t, tab.pins.picture(false).To, "the lines go")
	for i, q := range tab.pins.all {
		assert.Equal(t, byte('A'+i), q.letter, "by letter again")
	}
}

// A whole cloud covers the truth; the card's Reveal breaks it.
func TestLinesDoNotShowTheTruthThroughACloud(t *testing.T) {
	tab, h, _ := pinned50(t)
	tab.screen.ReducedMotion = true
	putThree(t, tab)
	tab.LayCloud(true)
	h.Reveal(true) // not by the card
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	assert.Nil(t, tab.pins.picture(false).To)
	h.Reveal(false)
	wait(t, tab, h, "the truth hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
	revealed(t, tab, h)
	_, broken := tab.Cloud()
	assert.True(t, broken)
	assert.NotNil(t, tab.pins.picture(false).To)
}

// Pins and counters lie in one place: whichever comes shuts the other.
func TestPinsAndCountersAreNotOpenAtOnce(t *testing.T) {
	tab, _, _ := pinned50(t)
	tab.OpenCounters()
	assert.True(t, tab.counters.open && !tab.PinsOn())
	assert.False(t, tab.pins.card.paper.Visible())
	tab.PinMode(true)
	assert.True(t, tab.PinsOn() && !tab.counters.open)
	assert.True(t, tab.pins.card.paper.Visible() && !tab.position.Visible())
	tab.PinMode(false)
	assert.True(t, tab.position.Visible())
}

func TestLinesRunOrStandAtOnce(t *testing.T) {
	tab, h, _ := pinned50(t)
	tab.screen.ReducedMotion = true
	putThree(t, tab)
	revealed(t, tab, h)
	assert.InDelta(t, 1, tab.pins.drawn, 0)
}

func rowsIn(t *testing.T, file string) [][]string {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	require.NoError(t, err)
	return rows
}

func TestPinsAreKeptOnceForEachReveal(t *testing.T) {
	tab, h, file := pinned50(t)
	putThree(t, tab)
	tab.pins.name('B', `door side, "left"`)
	revealed(t, tab, h)
	rows := rowsIn(t, file)
	require.Len(t, rows, 4)
	assert.Equal(t, pinHeader, rows[0])
	for i := range tab.pins.all {
		q, r := &tab.pins.all[i], rows[i+1]
		assert.Equal(t, []string{tab.plan.Title, "7", "1957-08-14T10:20:00Z", string(q.letter), q.name}, r[:5])
		assert.Equal(t, tab.pins.distance(q), r[7]+" NM off")
	}
	for range 5 { // more moments with the truth in them
		tab.Apply(h.Moment())
	}
	h.Step(1)
	wait(t, tab, h, "a tick", func(m *helm.Moment) bool { return m.View.Tick == 50*60*sim.TicksPerSecond+1 })
	require.Len(t, rowsIn(t, file), 4, "not again while it is shown")
	test.Tap(tab.pins.card.reveal)
	wait(t, tab, h, "the truth hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
	revealed(t, tab, h)
	assert.Len(t, rowsIn(t, file), 7)
}

// A handout that cannot be written is told and costs nothing on the screen.
func TestPinsOutliveAFolderThatCannotBeWritten(t *testing.T) {
	tab, h, file := pinned50(t)
	require.NoError(t, os.WriteFile(filepath.Dir(file), []byte("a file where the folder should be"), 0o600))
	putThree(t, tab)
	revealed(t, tab, h)
	assert.True(t, tab.pins.card.failed)
	assert.Contains(t, tab.pins.card.note(), "Not kept")
	assert.Len(t, tab.pins.all, 3)
	assert.NotNil(t, tab.pins.answer)
}

func TestHandoutsAreGoneOnWith(t *testing.T) {
	row := [][]string{{"f", "1", "t", "A", "", "1", "2", "3.0", "004"}}
	for name, c := range map[string]struct {
		before, after string
		refused       bool
	}{
		"none":            {"", strings.Join(pinHeader, ",") + "\nf,1,t,A,,1,2,3.0,004\n", false},
		"whole":           {strings.Join(pinHeader, ",") + "\nx\n", strings.Join(pinHeader, ",") + "\nx\nf,1,t,A,,1,2,3.0,004\n", false},
		"header cut off":  {strings.Join(pinHeader, ","), strings.Join(pinHeader, ",") + "\nf,1,t,A,,1,2,3.0,004\n", false},
		"line cut off":    {strings.Join(pinHeader, ",") + "\nx,y", strings.Join(pinHeader, ",") + "\nx,y\nf,1,t,A,,1,2,3.0,004\n", false},
		"somebody else's": {"dear diary\n", "dear diary\n", true},
		"too short":       {"fli", "fli", true},
		"another header":  {strings.Join(pinHeader, ",") + "_x\n", strings.Join(pinHeader, ",") + "_x\n", true},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "pins.csv")
			if c.before != "" {
				require.NoError(t, os.WriteFile(file, []byte(c.before), 0o600))
			}
			err := appendRows(file, row)
			assert.Equal(t, c.refused, err != nil, "%v", err)
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Equal(t, c.after, string(text))
		})
	}
}

func TestPinCardFits(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	for _, size := range []fyne.Size{{Width: 1280, Height: 656}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}} {
		tab, _ := table(t, size.Width, size.Height)
		tab.chart.working.Store(true)
		tab.chart.generateOnce(t)
		tab.PinMode(true)
		for range maxPins {
			tab.pins.another()
		}
		c := tab.pins.card
		end := float32(0)
		for i, r := range c.rows {
			assert.GreaterOrEqual(t, r.Position().Y, end, "%v row %d", size, i)
			assert.GreaterOrEqual(t, r.Size().Height, float32(32), "%v row %d", size, i)
			end = r.Position().Y + r.Size().Height
		}
		keys := float32(math.Min(float64(c.another.Position().Y), float64(c.reveal.Position().Y)))
		assert.LessOrEqual(t, end, keys, "%v", size)
		for _, k := range []*kit.Key{c.another, c.clear, c.reveal} {
			assert.GreaterOrEqual(t, k.Size().Height, float32(kit.Target))
			assert.GreaterOrEqual(t, k.Size().Width, k.MinSize().Width, "%v %s", size, k.Word)
			assert.LessOrEqual(t, k.Position().Y+k.Size().Height, c.place.y+c.place.h)
		}
		assert.False(t, tab.position.Visible(), "the card lies on the instruments")
		tab.PinMode(false)
		assert.True(t, tab.position.Visible())
		assert.False(t, c.paper.Visible())
	}
}

// Pin mode, pins and tray outlive a change of the light.
func TestLectureStateOutlivesAChangeOfLight(t *testing.T) {
	tab, _, _ := pinned50(t)
	putThree(t, tab)
	tab.ToggleTray()
	tab.screen.Palette = look.Of(look.Night)
	tab.Recolour()
	assert.True(t, tab.PinsOn() && tab.TrayOpen())
	assert.True(t, tab.pins.card.paper.Visible() && tab.tray.paper.Visible())
	assert.Len(t, tab.pins.all, 3)
}
