package kit

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// bench puts a key under a slip for hints on a canvas without a display.
func bench(t *testing.T) (*Key, *Screen) {
	t.Helper()
	test.NewTempApp(t)
	screen := &Screen{Palette: look.Of(look.Paper), W: 600, H: 400}
	screen.Hints = NewHints(screen)
	k := NewKey(screen, "", PlusSign, Target, func() {})
	k.Hint = look.Text(look.ZoomIn)
	w := test.NewTempWindow(t, container.NewWithoutLayout(k, screen.Hints))
	w.SetPadded(false)
	w.Resize(fyne.NewSize(600, 400))
	k.Resize(k.MinSize())
	return k, screen
}

func TestHintComesWhenThePointerRests(t *testing.T) {
	k, screen := bench(t)
	clock := wind(t)
	k.MouseIn(nil)
	assert.False(t, screen.Hints.Visible(), "not while the pointer passes")
	assert.Equal(t, hintAfter, clock.after)
	clock.do()
	assert.True(t, screen.Hints.Visible())
	assert.Equal(t, []string{look.Text(look.ZoomIn)}, screen.Hints.lines)
	k.MouseOut()
	assert.False(t, screen.Hints.Visible())
	k.MouseIn(nil)
	clock.do()
	require.True(t, screen.Hints.Visible())
	assert.Equal(t, hintFor, clock.after)
	clock.do()
	assert.False(t, screen.Hints.Visible(), "it goes again when nobody asked for it")
}

func TestForbiddenKeySaysWhyAndDoesNothing(t *testing.T) {
	k, screen := bench(t)
	pressed := 0
	k.Press = func() { pressed++ }
	k.Forbid("the flight has ended")
	test.Tap(k)
	assert.Zero(t, pressed)
	require.True(t, screen.Hints.Visible())
	assert.Equal(t, []string{look.Text(look.ZoomIn) + ": the flight has ended"}, screen.Hints.lines)
	k.Forbid("")
	test.Tap(k)
	assert.Equal(t, 1, pressed)
	assert.False(t, screen.Hints.Visible())
}

func TestFocusedKeyPassesOnWhatItDoesNotUse(t *testing.T) {
	k, screen := bench(t)
	pressed, passed := 0, []fyne.KeyName(nil)
	k.Press = func() { pressed++ }
	screen.Keys = func(e *fyne.KeyEvent) { passed = append(passed, e.Name) }
	for _, name := range []fyne.KeyName{fyne.KeySpace, fyne.KeyRight, fyne.KeyReturn} {
		k.TypedKey(&fyne.KeyEvent{Name: name})
	}
	assert.Equal(t, 2, pressed)
	assert.Equal(t, []fyne.KeyName{fyne.KeyRight}, passed)
}

func TestHintStaysInTheWindow(t *testing.T) {
	k, screen := bench(t)
	for _, at := range []fyne.Position{{X: 0, Y: 0}, {X: 544, Y: 0}, {X: 0, Y: 344}, {X: 544, Y: 344}} {
		k.Move(at)
		screen.Hints.Tell(k, "a rather long hint that has to be broken into more than one line of the slip")
		p, s := screen.Hints.Position(), screen.Hints.Size()
		assert.True(t, p.X >= 0 && p.Y >= 0 && p.X+s.Width <= 600 && p.Y+s.Height <= 400, "%v %v", p, s)
		apart := p.Y >= at.Y+Target || p.Y+s.Height <= at.Y
		assert.True(t, apart, "the slip covers its key at %v", at)
	}
}

func TestPerformKnowsTheControlKey(t *testing.T) {
	var done []string
	deeds := []Deed{
		On(fyne.Key1, "1", look.Fit, func() { done = append(done, "plain") }).Also(fyne.Key2),
		{Keys: []fyne.KeyName{fyne.Key1}, Ctrl: true, Do: func(fyne.KeyName) { done = append(done, "ctrl") }},
	}
	assert.True(t, Perform(deeds, fyne.Key1, false))
	assert.True(t, Perform(deeds, fyne.Key1, true))
	assert.True(t, Perform(deeds, fyne.Key2, false))
	assert.False(t, Perform(deeds, fyne.Key3, false))
	assert.Equal(t, []string{"plain", "ctrl", "plain"}, done)
}

// What is wrong is told as one types, and no longer when it is put right; the card grows
// with it and nothing is taken before it is set.
func TestErrorsAreToldAsOneTypes(t *testing.T) {
	test.NewTempApp(t)
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(800, 600))
	taken := []string{}
	Question{
		Title: "Wind", Hint: "From / knots", Now: "270/20",
		Check: func(text string) error {
			if text == "270/999" {
				return errors.New("wind_kt = 999: must be 0 to 250 kt")
			}
			return nil
		},
		Take: func(text string) error { taken = append(taken, text); return nil },
	}.Ask(w.Canvas(), &Screen{Palette: look.Of(look.Paper), W: 800, H: 600})
	entry, ok := w.Canvas().Focused().(*typed)
	require.True(t, ok)
	wrong := func() bool {
		for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
			if l, ok := o.(*widget.Label); ok && strings.Contains(l.Text, "must be 0 to 250 kt") {
				return true
			}
		}
		return false
	}
	assert.False(t, wrong())
	entry.SetText("270/999")
	assert.True(t, wrong())
	entry.SetText("270/99")
	assert.False(t, wrong())
	assert.Empty(t, taken)
	entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, []string{"270/99"}, taken)
}
