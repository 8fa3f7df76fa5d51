package gui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/scenarios"
)

// window opens the default flight without a display.
func window(t *testing.T) *Window {
	t.Helper()
	return opened(t, scenarios.Default, false)
}

func (w *Window) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		ours.run()
		w.typedKey(&fyne.KeyEvent{Name: k})
	}
}

// until waits for a moment; the bound is on a hang.
func until(t *testing.T, w *Window, what string, ok func(*helm.Moment) bool) {
	t.Helper()
	eventually(t, what, func() bool { return ok(w.helm.Moment()) })
}

func TestNoKeyDoesTwoThings(t *testing.T) {
	w := window(t)
	seen := map[fyne.KeyName]look.Key{}
	for _, d := range w.deeds {
		assert.NotEmpty(t, d.Label, "%s", d.Does)
		for _, k := range d.Keys {
			assert.NotContains(t, seen, k, "%s and %s share a key", d.Does, seen[k])
			seen[k] = d.Does
		}
	}
	assert.Greater(t, len(seen), 30)
}

// TestDebriefStandsAtTheEnd: its switch comes when the flight has ended, and R opens
// it before; another flight is not begun with it.
func TestDebriefStandsAtTheEnd(t *testing.T) {
	w := window(t)
	assert.False(t, w.bar.debrief.Visible())
	w.press(fyne.KeyR)
	assert.True(t, w.bar.debrief.Visible(), "asked for")
	assert.True(t, w.debrief.Content().Visible())
	assert.False(t, w.linkage.Content().Visible())
	w.press(fyne.KeyY)
	assert.True(t, w.linkage.Content().Visible())
	assert.False(t, w.debrief.Content().Visible())
	w.press(fyne.KeyY)
	assert.False(t, w.bar.debrief.Visible())
	w.helm.GoTo(1 << 40)
	until(t, w, "the end", func(m *helm.Moment) bool { return m.Over })
	w.pull()
	assert.True(t, w.bar.debrief.Visible(), "the flight has ended")
	w.press(fyne.KeyR)
	f, err := flights.OpenShipped("pitot-ice")
	require.NoError(t, err)
	w.fly(f)
	assert.Equal(t, tableStand, w.stands)
	assert.False(t, w.debrief.Content().Visible())
}

func TestHelpTellsAllKeysAndTheClockWaits(t *testing.T) {
	w := window(t)
	until(t, w, "the clock runs", func(m *helm.Moment) bool { return m.Playing })
	w.press(fyne.KeyF1)
	assert.True(t, w.help.content.Visible())
	assert.False(t, w.table.Content().Visible())
	assert.Len(t, w.help.deeds, len(w.deeds)+len(w.table.PinKeys()))
	until(t, w, "the clock stops", func(m *helm.Moment) bool { return !m.Playing })
	w.press(fyne.KeySpace) // the clock's keys rest
	assert.False(t, w.helm.Moment().Playing)
	w.press(fyne.KeyEscape)
	assert.True(t, w.table.Content().Visible())
	until(t, w, "the clock goes on", func(m *helm.Moment) bool { return m.Playing })
}

func TestBlankComesBackWithAnyKey(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyPeriod)
	assert.True(t, w.blank.Visible())
	w.press(fyne.KeyV)
	assert.False(t, w.blank.Visible())
	assert.Nil(t, w.helm.Moment().Revealed, "the key that brings the window back does nothing else")
	w.press(fyne.KeyB, fyne.KeyB)
	assert.False(t, w.blank.Visible())
}

func TestSpotlightLeavesTheRestDark(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyT)
	require.True(t, w.spotlight.Visible())
	w.spotlight.Resize(fyne.NewSize(1366, 768))
	w.spotlight.at = fyne.NewPos(400, 300)
	w.spotlight.lay()
	r := w.spotlight.radius()
	assert.Equal(t, fyne.NewPos(400-r, 300-r), w.spotlight.hole.Position())
	area := float32(0)
	for _, s := range w.spotlight.sides {
		area += s.Size().Width * s.Size().Height
	}
	assert.InDelta(t, 1366*768-4*r*r, area, 1, "dark sides and hole make up the window")
	w.press(fyne.KeyEscape)
	assert.False(t, w.spotlight.Visible())
}

func TestLightAndChoicesAreKept(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyN)
	assert.Equal(t, look.Night, w.screen.Palette.Variant)
	w.choose(func(s *kit.Screen) { s.LargerText, s.ReducedMotion = true, true })
	w.screen = kit.Screen{OnMain: ours.add}
	w.recallChoices()
	assert.Equal(t, look.Night, w.screen.Palette.Variant)
	assert.True(t, w.screen.LargerText)
	assert.True(t, w.screen.ReducedMotion)
}

func TestAnotherFlightTakesOver(t *testing.T) {
	w := window(t)
	old := w.show
	f, err := flights.OpenShipped("far-south")
	require.NoError(t, err)
	w.press(fyne.KeyO)
	assert.True(t, w.chooser.Content().Visible())
	w.fly(f)
	assert.NotSame(t, old, w.show)
	assert.Equal(t, "far-south", w.flight.Name)
	assert.Equal(t, f.Plan.Title, w.bar.flight.Word)
	assert.True(t, w.table.Content().Visible())
	until(t, w, "it flies", func(m *helm.Moment) bool { return m.View.Tick > 0 })
}

func TestEditedFileGoesOnAtItsTime(t *testing.T) {
	w := window(t)
	_, src, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "mine.toml")
	require.NoError(t, os.WriteFile(file, src.Text, 0o600))
	f, err := flights.OpenFile(file)
	require.NoError(t, err)
	w.fly(f)
	w.helm.GoTo(4800)
	until(t, w, "five minutes", func(m *helm.Moment) bool { return m.View.Tick == 4800 && !m.Playing })
	edited, err := flights.OpenFile(file)
	require.NoError(t, err)
	before := w.show
	w.reload(before, edited, nil)
	assert.NotSame(t, before, w.show)
	until(t, w, "five minutes again", func(m *helm.Moment) bool { return m.View.Tick == 4800 })

	kept := w.show
	w.reload(kept, nil, assert.AnError)
	assert.Same(t, kept, w.show, "a bad edit leaves the flight alone")
	w.reload(before, edited, nil)
	assert.Same(t, kept, w.show, "what a flight let go of says is not heard")
}

func TestEscShutsTheTools(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyL)
	require.True(t, w.table.TrayOpen())
	w.press(fyne.KeyEscape)
	assert.False(t, w.table.TrayOpen())
}

// A card that lies over the navigator's view is shut before what it covers.
func TestEscShutsTheUpperOfTwo(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyF2)
	more, ok := w.navigator.Named()["more"].(*kit.Key)
	require.True(t, ok)
	test.Tap(more)
	require.False(t, more.Visible(), "a page stands in its place")
	w.table.PinMode(true)
	w.press(fyne.KeyEscape)
	assert.False(t, w.table.PinsOn())
	assert.False(t, more.Visible())
	w.press(fyne.KeyEscape)
	assert.True(t, more.Visible())
}

// TestCalculatorStands: F3 opens it and goes back; it takes what the dials show, changes
// nothing of the flight, and stays as it is when another flight is taken up.
func TestCalculatorStands(t *testing.T) {
	w := window(t)
	w.helm.Pause()
	until(t, w, "the clock stands", func(m *helm.Moment) bool { return !m.Playing })
	before := w.helm.Moment()
	w.press(fyne.KeyF3)
	assert.True(t, w.calculator.Content().Visible())
	assert.False(t, w.linkage.Content().Visible())
	parts := w.calculator.Named()
	test.Tap(parts["calculator-take"].(fyne.Tappable))
	test.Tap(parts["calculator-free"].(fyne.Tappable))
	assert.Equal(t, before.Deeds, w.helm.Moment().Deeds)
	assert.Equal(t, before.Hash, w.helm.Moment().Hash)
	f, err := flights.OpenShipped("pitot-ice")
	require.NoError(t, err)
	stood := w.calculator
	w.fly(f)
	assert.Same(t, stood, w.calculator)
	assert.True(t, w.calculator.Content().Visible(), "it stays over another flight")
	w.helm.Pause()
	until(t, w, "the clock stands", func(m *helm.Moment) bool { return !m.Playing })
	assert.Same(t, &w.helm.Moment().View, w.dials(), "and takes the dials of that one")
	w.press(fyne.KeyF3)
	assert.False(t, w.calculator.Content().Visible())
	w.press(fyne.KeyF3, fyne.KeyR)
	assert.False(t, w.calculator.Content().Visible())
	assert.True(t, w.debrief.Content().Visible())
}
