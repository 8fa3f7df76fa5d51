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
)

// key is a control that the probe finds by a name.
func (w *Window) key(t *testing.T, name string) *kit.Key {
	t.Helper()
	all := w.editor.Named()
	for n, o := range w.chooser.Named() {
		all[n] = o
	}
	k, ok := all[name].(*kit.Key)
	require.True(t, ok, name)
	return k
}

// A draft stays while another flight is looked at, is flown, and comes back.
func TestADraftIsWrittenAndFlown(t *testing.T) {
	w := window(t)
	until(t, w, "the clock running", func(m *helm.Moment) bool { return m.View.Tick > 0 })
	w.chooser.Begin() // what its key does, without the goroutine that opens all cards
	assert.Equal(t, tableFront, w.front)
	assert.Equal(t, editorStand, w.stands)
	assert.True(t, w.table.Drafts())
	assert.True(t, w.editor.Content().Visible())
	until(t, w, "the clock of the flight in hand standing", func(m *helm.Moment) bool { return !m.Playing })
	w.press(fyne.KeyF12)
	assert.Equal(t, tableStand, w.stands)
	assert.False(t, w.table.Drafts(), "the chart is the flight's again")
	w.press(fyne.KeyF12)
	assert.True(t, w.table.Drafts())
	back := make(chan func(), 1)
	w.editor.Later = func(f func()) { back <- f }
	test.Tap(w.key(t, "draft-fly"))
	(<-back)()
	assert.Equal(t, tableStand, w.stands)
	assert.False(t, w.table.Drafts())
	assert.Empty(t, w.flight.Path, "it has not been saved")
	w.press(fyne.KeyF12)
	assert.True(t, w.table.Drafts(), "the draft is still there, on the chart of the new flight")
}

// A copy in the chooser begins as the file; what is saved is among the files used lately.
func TestACopyOfAShippedFlight(t *testing.T) {
	w := window(t)
	require.ErrorContains(t, w.chooser.Copy("bad", []byte("a = = 1")), "not TOML")
	assert.Equal(t, tableStand, w.stands)
	require.NoError(t, w.chooser.Copy(w.flight.Name, w.flight.Source.Text))
	assert.Equal(t, editorStand, w.stands)
	path := filepath.Join(t.TempDir(), "kept.toml")
	require.NoError(t, os.WriteFile(path, w.flight.Source.Text, 0o644))
	w.editor.Kept(path)
	assert.Contains(t, w.chooser.Named(), "file-kept.toml")
}

// The editor opens a file of one's own that is in hand, unless something else is being
// written.
func TestTheFileInHandIsEdited(t *testing.T) {
	w := window(t)
	path := filepath.Join(t.TempDir(), "mine.toml")
	require.NoError(t, os.WriteFile(path, w.flight.Source.Text, 0o644))
	f, err := flights.OpenFile(path)
	require.NoError(t, err)
	w.fly(f)
	w.press(fyne.KeyF12)
	assert.Equal(t, editorStand, w.stands)
	assert.False(t, w.editor.Free(path), "it is this file")
	assert.True(t, w.editor.Free("other.toml"))
	w.press(fyne.KeyF12)
	w.chooser.Begin()
	w.press(fyne.KeyF12)
	w.press(fyne.KeyF12)
	assert.False(t, w.editor.Free(path), "an untouched new flight gives way to the file")
	require.NoError(t, w.chooser.Edit(path))
	require.Error(t, w.chooser.Edit(filepath.Join(t.TempDir(), "none.toml")))
	assert.False(t, w.editor.Free(path), "it stays open")
}

// Papers and films are ordered from the tools of a lecture, and Esc closes their cards
// before anything else.
func TestCardsAreClosedFirst(t *testing.T) {
	w := window(t)
	w.press(fyne.KeyL)
	require.True(t, w.table.TrayOpen())
	for _, open := range []func(){w.papers.Open, w.film.Open} {
		open()
		require.NotNil(t, w.window.Canvas().Overlays().Top())
		w.press(fyne.KeyEscape)
		assert.Nil(t, w.window.Canvas().Overlays().Top())
		assert.True(t, w.table.TrayOpen())
	}
	w.press(fyne.KeyEscape)
	assert.False(t, w.table.TrayOpen())
}
