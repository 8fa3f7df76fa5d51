package charttable

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/atlas"
	"stillair/gui/kit"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// written are the texts on the sheet of the chart as it is.
func written(t *testing.T, tab *Table) []string {
	t.Helper()
	sheet, err := tab.sheetJob().sheet()
	require.NoError(t, err)
	var r paint.Record
	w, h := picture.SheetSize(atlas.SheetPixels)
	picture.ChartSheet(&r, float64(w), float64(h), sheet)
	var out []string
	for _, c := range r.Texts() {
		out = append(out, c.Text)
	}
	return out
}

func TestSavedChartHoldsPinsAndWhatIsRevealed(t *testing.T) {
	tab, h, _ := pinned50(t)
	without := written(t, tab)
	assert.NotContains(t, without, "A")
	putThree(t, tab)
	tab.pins.name('A', "window side")
	texts := written(t, tab)
	for _, want := range []string{"A", "B", "C", "window side", "Pins, from the ground position"} {
		assert.Contains(t, texts, want)
	}
	assert.NotContains(t, texts, "true position", "the truth is hidden")
	assert.Contains(t, texts, "A 0944Z", "the plan is on it")
	tab.HidePlan(true)
	assert.NotContains(t, written(t, tab), "A 0944Z")
	revealed(t, tab, h)
	texts = written(t, tab)
	assert.Contains(t, texts, "true position")
	q := &tab.pins.all[0]
	assert.Contains(t, texts, tab.pins.distance(q))
	assert.Contains(t, texts, "Pins, from the true position at 1020Z")
}

// Pins far off the flight are on the sheet, too.
func TestSavedChartReachesToEveryPin(t *testing.T) {
	tab, _, _ := pinned50(t)
	far := tab.chart.view.Centre
	far.Lat += 0.1
	require.True(t, tab.pins.put(far))
	assert.Contains(t, written(t, tab), "A")
}

func TestChartIsSavedInThreeFormats(t *testing.T) {
	tab, _, _ := pinned50(t)
	putThree(t, tab)
	job, dir := tab.sheetJob(), t.TempDir()
	for name, head := range map[string]string{"a.png": "\x89PNG\r\n\x1a\n", "a.svg": "<?xml", "a.pdf": "%PDF-"} {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, []byte("the old one"), 0o600))
		tab.save(job.draw, file)
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(text, []byte(head)), name)
		assert.Greater(t, len(text), 50_000, "coasts and tracks")
	}
	assert.Equal(t, dir, fyne.CurrentApp().Preferences().String(saveFolder), "the folder is remembered")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 3, "no half-written file stays")
}

func TestOtherEndingsAreRefused(t *testing.T) {
	tab, _, _ := pinned50(t)
	file := filepath.Join(t.TempDir(), "a.gif")
	require.NoError(t, os.WriteFile(file, nil, 0o600)) // as the dialog leaves it
	tab.save(tab.sheetJob().draw, file)
	assert.NoFileExists(t, file)
	require.NotNil(t, tab.canvas().Overlays().Top(), "it is told")
	test.Tap(tab.canvas().Focused().(*kit.Key))
	assert.Nil(t, tab.canvas().Overlays().Top())
}

func TestAFileIsReplacedWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.txt")
	require.NoError(t, os.WriteFile(file, []byte("old"), 0o600))
	err := replaceFile(file, func(w io.Writer) error {
		_, _ = w.Write([]byte("half"))
		return errors.New("no more")
	})
	require.Error(t, err)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "old", string(text))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
	err = replaceFile(filepath.Join(dir, "no", "a.txt"), func(io.Writer) error { return nil })
	assert.Equal(t, "there is no such folder", plainly(err))
}
