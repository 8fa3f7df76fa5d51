package takeaway

import (
	"bytes"
	"context"
	"image/gif"
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

	"stillair/gui/film"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// desk is the card of a flight of which some minutes have been flown, and what waits
// to be done on the toolkit's goroutine.
type desk struct {
	*Film
	come chan func()
	done int // of what has come
	said []string
	dir  string
}

func deskOf(t *testing.T, flown time.Duration) *desk {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	app := test.NewTempApp(t)
	plan, _, err := scenarios.Open("first-look")
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(flown))
	h := helm.New(e)
	t.Cleanup(h.Stop)
	window := test.NewTempWindow(t, nil)
	window.Resize(fyne.NewSize(1366, 768))
	d := &desk{come: make(chan func(), 4096), dir: t.TempDir()}
	app.Preferences().SetString(folderKept, d.dir)
	d.Film = New(h, plan, &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}, window)
	d.onMain = func(do func()) { d.come <- do }
	d.encoder = func() string { return "it is not here" }
	d.Say = func(words string) { d.said = append(d.said, words) }
	d.order.length = 0
	return d
}

// until does what has come until something is so.
func (d *desk) until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	end := time.After(120 * time.Second)
	for !ok() {
		select {
		case do := <-d.come:
			do()
			d.done++
		case <-end:
			require.Fail(t, "never: "+what)
		}
	}
}

// pick presses the key of a row.
func (d *desk) pick(row, key int) { test.Tap(d.rows[row].keys[key]) }

// small makes the smallest films for a test.
func small(t *testing.T) {
	was := sizes[3].size
	sizes[3].size = film.Size{W: 320, H: 240}
	t.Cleanup(func() { sizes[3].size = was })
}

// TestAGIFIsMade: what was chosen is made, told, and named anew the next time.
func TestAGIFIsMade(t *testing.T) {
	small(t)
	d := deskOf(t, 2*time.Minute)
	d.Open()
	require.NotNil(t, d.window.Canvas().Overlays().Top())
	d.pick(0, 3) // the counters
	assert.True(t, d.rows[0].keys[3].Chosen)
	assert.False(t, d.rows[0].keys[0].Chosen)
	assert.Equal(t, d.dir, d.folder.Text)
	for _, name := range []string{"first-look-port-aldous-to-skerrow-counters.gif", "first-look-port-aldous-to-skerrow-counters-2.gif"} {
		test.Tap(d.make)
		assert.Equal(t, look.Text(look.FilmStop), d.make.Word)
		d.until(t, "progress", func() bool { return d.bar.share > 0 })
		d.until(t, "the end", func() bool { return d.cancel == nil })
		path := filepath.Join(d.dir, name)
		assert.Equal(t, look.Textf(look.Saved, path), d.told.Text)
		f, err := os.Open(path)
		require.NoError(t, err)
		g, err := gif.DecodeAll(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		assert.Equal(t, [2]int{320, 240}, [2]int{g.Config.Width, g.Config.Height})
		sum := 0
		for _, d := range g.Delay {
			sum += d
		}
		assert.Equal(t, 10*100+4, sum, "10 s, and the last frame")
	}
	assert.Empty(t, d.said, "the card is open")
}

// TestPicturesOfTheWholeFlight: flown on out of sight; with the card shut the window
// tells.
func TestPicturesOfTheWholeFlight(t *testing.T) {
	small(t)
	d := deskOf(t, time.Minute)
	d.Open()
	d.pick(0, 3)
	d.pick(partRow, 1)
	d.pick(formatRow, 1)
	assert.True(t, d.order.whole)
	test.Tap(d.make)
	d.Shut()
	assert.Nil(t, d.window.Canvas().Overlays().Top())
	d.until(t, "the end", func() bool { return d.cancel == nil })
	dir := filepath.Join(d.dir, "first-look-port-aldous-to-skerrow-counters-frames")
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, files, 10*25+1)
	assert.Equal(t, []string{look.Textf(look.Saved, dir)}, d.said)
	assert.Equal(t, sim.TicksOf(time.Minute), d.helm.Moment().View.Tick, "the flight in the window stands where it stood")
	d.Open()
	assert.True(t, d.order.whole, "the choices stay")
}

// TestStoppedLeavesNothing: neither half a film nor a goroutine (see TestMain).
func TestStoppedLeavesNothing(t *testing.T) {
	d := deskOf(t, 30*time.Minute)
	d.Open()
	d.pick(1, 0) // large
	for format := range 2 {
		d.pick(formatRow, format)
		test.Tap(d.make)
		d.until(t, "begun", func() bool { return d.bar.share > 0 })
		test.Tap(d.make)
		d.until(t, "stopped", func() bool { return d.cancel == nil })
		assert.Equal(t, look.Text(look.FilmStopped), d.told.Text)
		files, err := os.ReadDir(d.dir)
		require.NoError(t, err)
		assert.Empty(t, files)
	}
	test.Tap(d.make)
	d.Stop()
	assert.Nil(t, d.card)
	words, n := d.told.Text, d.done
	d.until(t, "what comes late", func() bool { return d.done > n && len(d.come) == 0 })
	assert.Equal(t, words, d.told.Text, "it changes nothing")
}

// TestWhatCannotBeMade: says why.
func TestWhatCannotBeMade(t *testing.T) {
	d := deskOf(t, 0)
	d.Open()
	d.pick(formatRow, 2)
	assert.Equal(t, int(asGIF), d.order.format, "no MP4 without its program")
	assert.Equal(t, "it is not here", d.rows[formatRow].keys[2].Reason)
	test.Tap(d.make)
	d.until(t, "told", func() bool { return d.cancel == nil })
	assert.Equal(t, "No film: nothing has been flown yet", d.told.Text)
	require.NoError(t, os.RemoveAll(d.dir))
	d.order.whole = true
	test.Tap(d.make)
	d.until(t, "told", func() bool { return d.cancel == nil })
	assert.Contains(t, d.told.Text, "No film: ")
}

// TestNight: by the light of the window, under the lamp by night.
func TestNight(t *testing.T) {
	d := deskOf(t, time.Minute)
	d.screen.Palette = look.Of(look.Lamp)
	d.Open()
	d.into = filepath.Join(d.dir, "none")
	test.Tap(d.make)
	assert.Equal(t, look.Paper, d.order.light, "the order of the card stays")
	d.until(t, "told", func() bool { return d.cancel == nil })
}

func TestFolderIsRemembered(t *testing.T) {
	d := deskOf(t, 0)
	d.Open()
	other := t.TempDir()
	d.chooseFolder(other)
	assert.Equal(t, other, d.folder.Text)
	d.Shut()
	d.Open()
	assert.Equal(t, other, d.into)
	require.NoError(t, os.RemoveAll(other))
	assert.NotEqual(t, other, keptFolder(), "one that is gone is not offered")
}

func TestNames(t *testing.T) {
	assert.Equal(t, "over-and-back-2", fileName("Over & and/back: 2!"))
	assert.Equal(t, "flight", fileName("Ünö"[:0]))
	name := filepath.Join(t.TempDir(), "a.gif")
	assert.Equal(t, name, free(name))
	require.NoError(t, os.WriteFile(name, nil, 0o600))
	assert.Equal(t, name[:len(name)-4]+"-2.gif", free(name))
}

// TestFitsTheSmallestWindow: the card, whole.
func TestFitsTheSmallestWindow(t *testing.T) {
	d := deskOf(t, 0)
	d.Open()
	s := d.card.MinSize()
	assert.LessOrEqual(t, s.Height, float32(680))
	assert.LessOrEqual(t, s.Width, float32(1024))
	for _, r := range d.rows {
		for _, k := range r.keys {
			assert.LessOrEqual(t, k.Needs(), k.Size().Width, k.Word)
		}
	}
}

// TestMP4NeedsItsProgram.
func TestMP4NeedsItsProgram(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	assert.Contains(t, encoder(), "ffmpeg")
	_, _, err := order{format: int(asMP4)}.sink(context.Background(), "a.mp4", film.Look{}, 1)
	assert.ErrorIs(t, err, film.ErrNoEncoder)
}

// cueFile writes a cue file.
func cueFile(t *testing.T, text string) string {
	name := filepath.Join(t.TempDir(), "cues.toml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	return name
}

// TestCuesAreTimed: a cue file says how long the film is, and what is wrong with one is
// told as its loader has it, with file and line, when it is chosen and when it is used.
func TestCuesAreTimed(t *testing.T) {
	small(t)
	d := deskOf(t, 2*time.Minute)
	d.Open()
	d.pick(viewRow, 3)
	d.pick(formatRow, 1)
	d.chooseCues(cueFile(t, "length = \"2s\"\n[[cue]]\nat = \"0s\"\nflight = \"1m\"\nspeed = 10\ncaption = \"Out.\"\n"))
	assert.Equal(t, "cues.toml: read, with 1 cues.", d.told.Text)
	assert.Equal(t, "cues.toml", d.cues.Text)
	assert.Equal(t, look.Text(look.FilmByCues), d.rows[lengthRow].keys[0].Reason)
	test.Tap(d.make)
	d.until(t, "the end", func() bool { return d.cancel == nil })
	files, err := os.ReadDir(filepath.Join(d.dir, "first-look-port-aldous-to-skerrow-counters-frames"))
	require.NoError(t, err)
	assert.Len(t, files, 2*25+1)

	bad := cueFile(t, "[[cue]]\nat = \"0s\"\nview = \"cellar\"\nspeed = -1\n")
	d.chooseCues(bad)
	assert.Contains(t, d.told.Text, `cues.toml:3: cue[1].view = "cellar": must be`)
	assert.Contains(t, d.told.Text, `cues.toml:4: cue[1].speed = -1: must be`)
	test.Tap(d.make)
	d.until(t, "the end", func() bool { return d.cancel == nil })
	assert.Contains(t, d.told.Text, `No film: cues.toml:3: cue[1].view = "cellar": must be`)

	d.chooseCues(cueFile(t, "[[cue]]\nat = \"0s\"\nflight = \"5m\"\n"))
	test.Tap(d.make)
	d.until(t, "the end", func() bool { return d.cancel == nil })
	assert.Contains(t, d.told.Text, "cues.toml:1: cue[1]: the flight is at 5m0s here and ends at 2m0s")

	d.chooseCues(filepath.Join(t.TempDir(), "none.toml"))
	assert.Contains(t, d.told.Text, "none.toml")
	d.chooseCues("")
	assert.Empty(t, d.rows[lengthRow].keys[0].Reason)
	assert.LessOrEqual(t, d.card.MinSize().Height, float32(680))
}

// TestManyErrorsAreCut: the card stays in the window.
func TestManyErrorsAreCut(t *testing.T) {
	d := deskOf(t, 0)
	d.Open()
	d.chooseCues(cueFile(t, strings.Repeat("[[cue]]\nat = 5\nspeed = \"fast\"\nview = 7\n", 30)))
	assert.Contains(t, d.told.Text, "... and ")
	assert.LessOrEqual(t, d.card.MinSize().Height, float32(720))
}

// TestTakeTwo: the same order gives the same frames, byte for byte, at another rate too.
func TestTakeTwo(t *testing.T) {
	small(t)
	d := deskOf(t, 2*time.Minute)
	d.Open()
	d.pick(viewRow, 2)
	d.pick(rateRow, 2) // 30 a second
	d.pick(formatRow, 1)
	d.chooseCues(cueFile(t, "length = \"1s\"\n[[cue]]\nat = \"0s\"\n"))
	for range 2 {
		test.Tap(d.make)
		d.until(t, "the end", func() bool { return d.cancel == nil })
	}
	name := filepath.Join(d.dir, "first-look-port-aldous-to-skerrow-both-frames")
	first, err := os.ReadDir(name)
	require.NoError(t, err)
	require.Len(t, first, 31)
	for _, f := range first {
		a, err := os.ReadFile(filepath.Join(name, f.Name()))
		require.NoError(t, err)
		b, err := os.ReadFile(filepath.Join(name+"-2", f.Name()))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(a, b), f.Name())
	}
}
