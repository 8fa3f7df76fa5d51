package chooser

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/scenarios"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// stage is a chooser on a canvas without a display. What goroutines hand over
// is run by the test itself.
type stage struct {
	*Chooser
	t      *testing.T
	queue  chan func()
	flown  []*flights.Flight
	window fyne.Window
}

// sizes are the windows that must serve; the bar takes 64 or 72 of the height.
var sizes = []fyne.Size{{Width: 1280, Height: 720}, {Width: 1366, Height: 768}, {Width: 1920, Height: 1080}}

func bar(w fyne.Size) float32 { return max(64, look.TopBar*min(w.Width/1920, w.Height/1080)) }

func newStage(t *testing.T, size fyne.Size, recent ...string) *stage {
	t.Helper()
	test.NewTempApp(t)
	s := &stage{t: t, queue: make(chan func(), 256)}
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: size.Width, H: size.Height}
	list := flights.OpenRecent(filepath.Join(t.TempDir(), "recent.json"))
	for _, path := range recent {
		list.Add(path)
	}
	canvas := func() fyne.Canvas { return s.window.Canvas() }
	s.Chooser = build(screen, canvas, nil, func(f *flights.Flight) { s.flown = append(s.flown, f) }, list,
		func(do func()) { s.queue <- do })
	s.window = test.NewTempWindow(t, s.Content())
	s.Chooser.window = s.window
	s.window.SetPadded(false)
	s.window.Resize(fyne.NewSize(size.Width, size.Height-bar(size)))
	s.Show(nil)
	s.until("the flights opened", func() bool {
		for _, e := range s.entries() {
			if e.flight == nil && e.err == nil {
				return false
			}
		}
		return true
	})
	t.Cleanup(func() { s.until("no chart being drawn", func() bool { return !s.charts.working }) })
	return s
}

// resize makes the window another size.
func (s *stage) resize(size fyne.Size) {
	s.screen.W, s.screen.H = size.Width, size.Height
	s.window.Resize(fyne.NewSize(size.Width, size.Height-bar(size)))
	s.Repaint()
}

// until runs what is handed over until something is so; the bound is on a hang.
func (s *stage) until(what string, ok func() bool) {
	s.t.Helper()
	end := time.After(2 * time.Minute)
	for !ok() {
		select {
		case do := <-s.queue:
			do()
		case <-end:
			require.Fail(s.t, "never saw: "+what)
		}
	}
}

func (s *stage) press(names ...fyne.KeyName) {
	for _, n := range names {
		assert.True(s.t, s.TypedKey(&fyne.KeyEvent{Name: n}), "%s does nothing", n)
	}
}

// write writes a flight of ten minutes, with edits, as a file of some name.
func write(t *testing.T, name string, edits ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	rewrite(t, path, edits...)
	return path
}

func rewrite(t *testing.T, path string, edits ...string) {
	t.Helper()
	text := strings.NewReplacer(edits...).Replace(`schema = 1
title = "Plain"
start = 1957-08-14T09:30:00Z
seed = 1
waters = "tern-islands"
[aircraft]
position = "47 10.0 S 178 30.0 E"
heading_true_deg = 90
pressure_altitude_ft = 8000
tas_kt = 180
[[leg]]
heading_true_deg = 90
duration = "10m"
`)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// keep lists so many records.
func (s *stage) keep(n int) {
	var paths []string
	for i := range n {
		path := write(s.t, fmt.Sprintf("2026-11-%02d 210532 first-look.record", i+1), "Plain", fmt.Sprint("Kept ", i))
		paths = append(paths, path)
	}
	s.records = func() []string { return paths }
	s.Show(nil)
	s.until("the records opened", func() bool { return len(s.kept) == n && s.kept[n-1].flight != nil })
}

// TestRecordsStandOnTheShelf: below the files, walked to by keys, and flown without
// being listed a second time.
func TestRecordsStandOnTheShelf(t *testing.T) {
	s := newStage(t, sizes[1], write(t, "a.toml", "Plain", "Flight a"))
	assert.False(t, s.shelf.heads[2].Visible())
	s.keep(3)
	assert.True(t, s.shelf.heads[2].Visible())
	s.press(fyne.KeyEnd)
	s.press(fyne.KeyUp)
	assert.Equal(t, "a.toml", s.chosen.called(), "the last of a shorter row")
	s.press(fyne.KeyDown)
	assert.Equal(t, s.kept[0], s.chosen)
	s.press(fyne.KeyReturn)
	s.until("it is flown", func() bool { return len(s.flown) == 1 })
	assert.Equal(t, "Kept 0", s.flown[0].Plan.Title)
	assert.Len(t, s.files, 1)
	assert.Equal(t, "1 Nov 2026 21:05", flights.FlownWhen(s.kept[0].path))
	assert.Empty(t, flights.FlownWhen("a.toml"))
}

func TestArrowsWalkAndEnterFlies(t *testing.T) {
	a, b := write(t, "a.toml", "Plain", "Flight a"), write(t, "b.toml", "Plain", "Flight b")
	s := newStage(t, sizes[2], a, b)
	name := func() string { return s.chosen.called() }
	assert.Equal(t, "first-look", s.chosen.name)
	s.press(fyne.KeyRight)
	assert.Equal(t, "weather-triangle", s.chosen.name)
	assert.Equal(t, fyne.Focusable(s.chosen.card), s.window.Canvas().Focused())
	s.press(fyne.KeyDown) // four in a row, whatever their number
	assert.Equal(t, "warm-air", s.chosen.name, "the one below")
	s.press(fyne.KeyLeft)
	for row := 1; row <= (len(s.shipped)-1)/4; row++ {
		assert.Equal(t, s.shipped[4*row], s.chosen, "the first of row %d", row)
		s.press(fyne.KeyDown)
	}
	assert.Equal(t, "b.toml", name(), "the newest file stands first")
	s.press(fyne.KeyRight)
	assert.Equal(t, "a.toml", name())
	s.press(fyne.KeyDown)
	assert.Equal(t, "a.toml", name(), "there is nothing below")
	s.press(fyne.KeyLeft)
	assert.Equal(t, "b.toml", name())
	for range (len(s.shipped)-1)/4 + 1 {
		s.press(fyne.KeyUp)
	}
	assert.Equal(t, "first-look", s.chosen.name)
	s.press(fyne.KeyUp, fyne.KeyLeft)
	assert.Equal(t, "first-look", s.chosen.name, "nor above or before")
	s.press(fyne.KeyEnd)
	assert.Equal(t, "a.toml", name())
	s.press(fyne.KeyReturn)
	s.until("it flown", func() bool { return len(s.flown) == 1 })
	assert.Equal(t, "Flight a", s.flown[0].Plan.Title)
	s.press(fyne.KeyHome, fyne.KeyEnter)
	require.Len(t, s.flown, 2)
	assert.Equal(t, "first-look", s.flown[1].Name)
	assert.False(t, s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}), "Esc is the window's while no list of errors shows")
	assert.False(t, s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyN}))
}

func TestATapChoosesAndASecondTapFlies(t *testing.T) {
	s := newStage(t, sizes[1])
	second := s.shipped[1]
	test.Tap(second.card)
	assert.Equal(t, second, s.chosen)
	assert.Empty(t, s.flown)
	test.Tap(second.card)
	require.Len(t, s.flown, 1)
	assert.Equal(t, second.name, s.flown[0].Name)
	test.Tap(s.told.fly)
	assert.Len(t, s.flown, 2)
}

func TestTheFlightInTheWindowIsChosenFirst(t *testing.T) {
	path := write(t, "mine.toml")
	s := newStage(t, sizes[1], path)
	f, err := flights.OpenFile(path)
	require.NoError(t, err)
	s.Show(f)
	assert.Equal(t, path, s.chosen.path)
	g, err := flights.OpenShipped("far-south")
	require.NoError(t, err)
	s.Show(g)
	assert.Equal(t, "far-south", s.chosen.name)
}

func TestEveryErrorIsShownWithLineAndText(t *testing.T) {
	bad := write(t, "bad.toml", "tas_kt = 180", "  tas_kt = 950 # fast", "heading_true_deg = 90\nduration", "to = \"Skerow\"\nduration")
	s := newStage(t, sizes[1])
	s.OpenPath(bad)
	s.until("the errors", func() bool { return s.refusal.content.Visible() })
	assert.Empty(t, s.flown, "the old flight is kept")
	assert.Equal(t, "bad.toml", s.refusal.name)
	require.Equal(t, 3, s.refusal.count)
	require.Len(t, s.refusal.rows, 3)
	for i, want := range []flights.Wrong{
		{Line: 10, Text: "tas_kt = 950 # fast", What: "Aircraft, true airspeed: 950 is too much.", Legal: "Legal: 40 to 450 kt."},
		{Line: 12, Text: `to = "Skerow"`, What: "Leg 1, place to fly to: no such place in tern-islands.", Legal: "Did you mean Skerrow?"},
		{Line: 13, Text: `duration = "10m"`, What: "Leg 1, duration: not with to.", Legal: "That leg ends at the place."},
	} {
		row := s.refusal.rows[i]
		assert.Equal(t, want, row.wrong)
		assert.Equal(t, want.What, strings.Join(row.what, " "), "no word is left out")
		assert.Equal(t, want.Legal, strings.Join(row.legal, " "))
		assert.Greater(t, row.Size().Height, float32(60))
	}
	assert.Equal(t, bad, s.chosen.path, "a file with errors is remembered")
	assert.NotEmpty(t, s.told.fly.Reason)

	test.Tap(s.refusal.copy)
	assert.Equal(t, s.refusal.text+"\n", fyne.CurrentApp().Clipboard().Content())
	assert.Contains(t, s.refusal.text, "bad.toml:10: aircraft.tas_kt = 950: must be 40 to 450 kt")

	rewrite(t, bad, "tas_kt = 180", "tas_kt = 951")
	assert.Equal(t, "bad.toml", s.chosen.title)
	test.Tap(s.refusal.check)
	s.until("one error left", func() bool { return s.refusal.count == 1 })
	rewrite(t, bad)
	test.Tap(s.refusal.check)
	s.until("it in order", func() bool { return !s.refusal.content.Visible() })
	assert.Empty(t, s.flown, "checking is not flying")
	assert.Empty(t, s.told.fly.Reason)
	s.press(fyne.KeyReturn)
	s.until("it flown", func() bool { return len(s.flown) == 1 })
}

func TestAFlightOfAnotherKindIsRefusedToo(t *testing.T) {
	s := newStage(t, sizes[1])
	_, _, err := scenarios.Open("first-lok")
	s.Refuse("first-lok", err)
	assert.True(t, s.refusal.content.Visible())
	assert.False(t, s.refusal.check.Visible(), "there is no file to read again")
	require.Len(t, s.refusal.rows, 1)
	assert.False(t, s.refusal.rows[0].written())
	s.press(fyne.KeyEscape)
	assert.False(t, s.refusal.content.Visible())

	s.OpenPath(filepath.Join(t.TempDir(), "none.toml"))
	s.until("the refusal", func() bool { return s.refusal.content.Visible() })
	assert.Empty(t, s.files, "what is no flight file is not remembered")
	s.Refuse("plain", &scenarios.Errors{Problems: []scenarios.Problem{{File: "x", Line: 3, Key: "title", Value: "7", Msg: "must be a string, not a whole number"}}})
	assert.Equal(t, "title = 7", s.refusal.rows[0].wrong.Text, "without the file's text, what the loader says")
}

func TestOfTwoFilesTheLastOneIsFlown(t *testing.T) {
	s := newStage(t, sizes[1])
	s.OpenPath(write(t, "a.toml", "Plain", "Flight a"))
	s.OpenPath(write(t, "b.toml", "Plain", "Flight b"))
	s.until("one flown", func() bool { return len(s.flown) == 1 })
	assert.Equal(t, "Flight b", s.flown[0].Plan.Title)
	assert.Len(t, s.files, 1)
}

func TestAListedFileThatIsGoneSaysSo(t *testing.T) {
	path := write(t, "gone.toml")
	require.NoError(t, os.Remove(path))
	s := newStage(t, sizes[1], path)
	require.Len(t, s.files, 1)
	test.Tap(s.files[0].card)
	assert.True(t, s.refusal.content.Visible())
	assert.Equal(t, look.Text(look.FileMissing), s.refusal.rows[0].wrong.What)
	test.Tap(s.shipped[0].card)
	assert.False(t, s.refusal.content.Visible(), "another flight, another matter")
}

func TestTheFileDialogHasTheKeysToItself(t *testing.T) {
	path := write(t, "mine.toml")
	s := newStage(t, sizes[1], path)
	test.Tap(s.told.open)
	overlays := s.window.Canvas().Overlays()
	require.NotNil(t, overlays.Top())
	s.press(fyne.KeyRight, fyne.KeyO, fyne.KeyReturn)
	assert.Equal(t, "first-look", s.chosen.name)
	s.press(fyne.KeyEscape)
	assert.Nil(t, overlays.Top())
	assert.Nil(t, s.asking)
	s.press(fyne.KeyRight)
	assert.Equal(t, "weather-triangle", s.chosen.name)
	assert.Empty(t, s.flown)
}

// Whoever is putting errors right goes away and comes back.
func TestErrorsStayUntilTheyArePutRight(t *testing.T) {
	bad := write(t, "bad.toml", "tas_kt = 180", "tas_kt = 950")
	s := newStage(t, sizes[1])
	fronts := 0
	s.Refused = func() { fronts++; s.Show(s.shipped[1].flight) } // as a window does
	s.OpenPath(bad)
	s.until("the errors", func() bool { return s.refusal.content.Visible() })
	assert.Equal(t, 1, fronts)
	assert.Equal(t, bad, s.chosen.path)
	s.until("it read again", func() bool { return len(s.queue) == 0 })
	s.Show(s.shipped[1].flight)
	assert.True(t, s.refusal.content.Visible())
	rewrite(t, bad)
	s.Show(s.shipped[1].flight)
	s.until("it in order", func() bool { return !s.refusal.content.Visible() })
	assert.Empty(t, s.told.fly.Reason)
	assert.Empty(t, s.flown)
}

// Truth and faults stay hidden: what the card tells is what the crew knows.
func TestFactsHideTheTruth(t *testing.T) {
	f, err := flights.OpenShipped("first-look")
	require.NoError(t, err)
	// 96413 ticks of 1/16 s, as the command line prints: 1 h 40 min 26 s.
	assert.Equal(t, "14 Aug 1957, 0930Z to 1110Z; seed 7", when(f))
	assert.Equal(t, []fact{
		{"aircraft", "178 kt true, 8000 ft"}, {"wind set, true wind", "295/27, hidden"}, {"variation set", "follows the field"},
		{"instrument", "ideal"}, {"legs", "5"}, {"faults", "none planned"},
	}, facts(f))
	assert.Equal(t, "one planned", faultsText(1))
	assert.Equal(t, "3 planned", faultsText(3))
}
