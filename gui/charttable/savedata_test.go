package charttable

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/kit"
)

// Data is written beside the window, by the ending of its name; of the truth only
// while it is shown.
func TestDataIsSaved(t *testing.T) {
	tab, h, _ := pinned50(t)
	dir := t.TempDir()
	read := func(name string) string {
		file := filepath.Join(dir, name)
		tab.saveData(file)
		var text []byte
		require.Eventually(t, func() bool {
			text, _ = os.ReadFile(file) // not there yet, or whole
			return len(text) > 0
		}, 20*time.Second, 5*time.Millisecond)
		return string(text)
	}
	csv := read("a.csv")
	assert.Contains(t, csv, "elapsed_s,utc,")
	assert.NotContains(t, csv, "true_track")
	assert.Contains(t, read("a.geojson"), `"kind":"ground_track"`)
	assert.Contains(t, read("a.kml"), "http://www.opengis.net/kml/2.2")
	revealed(t, tab, h)
	assert.Contains(t, read("b.csv"), "true_track")
	assert.Contains(t, read("b.geojson"), `"kind":"true_track"`)
}

func TestOtherEndingsOfDataAreRefused(t *testing.T) {
	tab, _, _ := pinned50(t)
	file := filepath.Join(t.TempDir(), "a.txt")
	require.NoError(t, os.WriteFile(file, nil, 0o600)) // as the dialog leaves it
	tab.saveData(file)
	assert.NoFileExists(t, file)
	test.Tap(tab.canvas().Focused().(*kit.Key))
	assert.Nil(t, tab.canvas().Overlays().Top())
}
