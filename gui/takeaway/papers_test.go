package takeaway

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/papers"
	"stillair/integrator/units"
	"stillair/scenarios"
)

// shop is the card of papers of a flight, and what waits to be done on the toolkit's
// goroutine.
type shop struct {
	*Papers
	come chan func()
	said []string
	dir  string
}

func shopOf(t *testing.T, flight string) *shop {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	app := test.NewTempApp(t)
	plan, _, err := scenarios.Open(flight)
	require.NoError(t, err)
	window := test.NewTempWindow(t, nil)
	window.Resize(fyne.NewSize(1366, 768))
	s := &shop{come: make(chan func(), 64), dir: t.TempDir()}
	app.Preferences().SetString(folderKept, s.dir)
	s.Papers = NewPapers(plan, &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}, window)
	s.onMain = func(do func()) { s.come <- do }
	s.Say = func(words string) { s.said = append(s.said, words) }
	return s
}

// made presses the key and waits.
func (s *shop) made(t *testing.T) {
	t.Helper()
	test.Tap(s.make)
	select {
	case do := <-s.come:
		do()
	case <-time.After(60 * time.Second):
		require.Fail(t, "no paper came")
	}
}

// Every kind that reckon prints is made by a press on its key and one on Make it, and
// is a PDF of the size asked for (its page box in points; ISO 216 and ANSI sizes).
func TestEveryPaperFromTheCard(t *testing.T) {
	s := shopOf(t, "first-look")
	s.Open()
	made := map[string]bool{}
	for i, k := range paperKinds {
		test.Tap(s.rows[kindRow].keys[i])
		test.Tap(s.rows[paperRow].keys[i%2])
		assert.True(t, s.rows[kindRow].keys[i].Chosen)
		for r := latitudeRow; r <= pupilsRow; r++ {
			assert.Equal(t, has(k.rows, r), s.rows[r].box.Visible(), "%s, row %d", k.name, r)
		}
		assert.LessOrEqual(t, s.card.MinSize().Height, float32(680), k.name)
		s.made(t)
		path := filepath.Join(s.dir, "first-look-port-aldous-to-skerrow-"+k.name+".pdf")
		pdf, err := os.ReadFile(path)
		require.NoError(t, err, s.told.Text)
		box := []string{"/MediaBox [0 0 841.89 595.28]", "/MediaBox [0 0 792.00 612.00]"}[i%2]
		assert.Contains(t, string(pdf), box, k.name)
		pages := bytes.Count(pdf, []byte("/Type /Page\n"))
		assert.Positive(t, pages)
		assert.Equal(t, look.Textf(look.PapersSaved, path, pages), s.told.Text)
		made[k.name] = true
	}
	for _, kind := range papers.Kinds() {
		assert.True(t, made[kind] || kind == "log-short", "%s is a row of the log", kind)
	}
	for _, r := range s.rows {
		for _, k := range r.keys {
			assert.LessOrEqual(t, k.Needs(), k.Size().Width, k.Word)
		}
	}
	assert.Empty(t, s.said, "the card is open")
	assert.True(t, s.Escape())
	assert.Nil(t, s.card)
	assert.False(t, s.Escape())
}

// What cannot be made says why, and leaves no file; with the card shut the window tells.
func TestPaperThatCannotBe(t *testing.T) {
	s := shopOf(t, "far-south")
	s.Open()
	test.Tap(s.rows[kindRow].keys[1])
	s.made(t)
	assert.Contains(t, s.told.Text, "No paper: stars: at 0100Z 19 Jan 1958 near 66 30.0 S 177 30.0 W it is day")
	files, err := os.ReadDir(s.dir)
	require.NoError(t, err)
	assert.Empty(t, files)
	s.into = filepath.Join(s.dir, "none")
	test.Tap(s.rows[kindRow].keys[0])
	test.Tap(s.make)
	test.Tap(s.make) // it is being made
	s.Shut()
	(<-s.come)()
	require.Len(t, s.said, 1)
	assert.Contains(t, s.said[0], "No paper: ")
	test.NewTempApp(t)
}

// A sheet may be true on the middle of the flight, in whole degrees: first-look flies
// between 46.1 and 47.6 S by its file.
func TestLatitudeOfTheFlight(t *testing.T) {
	s := shopOf(t, "first-look")
	assert.Equal(t, []units.Angle{56 * units.Degree, 47 * units.Degree}, s.latitudes())
	s = shopOf(t, "far-south")
	assert.Equal(t, 70*units.Degree, s.latitudes()[1], "no sheet is true beyond")
}
