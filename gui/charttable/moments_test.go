package charttable

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/sim"
)

func names(all []namedMoment) (s []string) {
	for _, m := range all {
		s = append(s, m.Name)
	}
	return s
}

// The moments of the first flight stand in its file: at 8 min, 13 min 55 s,
// 39 min 50 s, 40 min 30 s and 1 h 22 min 30 s.
func TestDigitsGoToMoments(t *testing.T) {
	tab, h := table(t, 1366, 704)
	require.Len(t, tab.strip.moments, 5)
	h.Play()
	wait(t, tab, h, "the clock running", func(m *helm.Moment) bool { return m.Playing })
	tab.GoToMoment(3)
	wait(t, tab, h, "moment 3", func(m *helm.Moment) bool { return m.View.Tick == (39*60+50)*16 })
	assert.False(t, tab.moment.Playing, "it stops there")
	tab.GoToMoment(1)
	wait(t, tab, h, "moment 1", func(m *helm.Moment) bool { return m.View.Tick == 8*60*16 })
	for _, n := range []int{0, 6, 9, -1} {
		tab.GoToMoment(n)
	}
	assert.Equal(t, int64(8*60*16), h.Aim(), "no such moment: nothing happens")
}

func TestClickerGoesFromMomentToMoment(t *testing.T) {
	tab, h := table(t, 1366, 704)
	for range 3 { // faster than the flight
		tab.NextMoment()
	}
	wait(t, tab, h, "the third", func(m *helm.Moment) bool { return m.View.Tick == (39*60+50)*16 })
	tab.PreviousMoment()
	wait(t, tab, h, "the second", func(m *helm.Moment) bool { return m.View.Tick == (13*60+55)*16 })
	for range 3 {
		tab.PreviousMoment()
	}
	wait(t, tab, h, "the start", func(m *helm.Moment) bool { return m.View.Tick == 0 })
	for range 9 {
		tab.NextMoment()
	}
	wait(t, tab, h, "the last", func(m *helm.Moment) bool { return m.View.Tick == (82*60+30)*16 })
	// Without moments: the beginnings of the legs, at 14 and at 46 minutes.
	tab.strip.moments = nil
	at(t, tab, h, 20*minute)
	tab.NextMoment()
	wait(t, tab, h, "the third leg", func(m *helm.Moment) bool { return m.View.Tick == 46*minute })
	tab.PreviousMoment()
	wait(t, tab, h, "the second leg", func(m *helm.Moment) bool { return m.View.Tick == 14*minute })
}

func TestMomentsNamedWhileShowing(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	s := tab.strip
	require.NoError(t, s.nameMoment(20*minute, "  Look at the drums "))
	assert.Equal(t, "Look at the drums", s.moments[2].Name, "by time, after the second")
	require.NoError(t, s.nameMoment(20*minute, "Look at the longitude"))
	assert.Len(t, s.moments, 6)
	require.NoError(t, s.nameMoment(8*minute, "Apart"))
	assert.Equal(t, "Apart", s.moments[0].Name, "a name of one's own counts")
	assert.Equal(t, s.moments, merged(tab.plan.Moments, s.store.read()), "kept for the next time")

	require.NoError(t, s.nameMoment((13*60+55)*16, "Just before the first turn"))
	assert.False(t, s.moments[1].own, "the file's own words are not kept a second time")

	for i := range int64(3) {
		require.NoError(t, s.nameMoment((21+i)*minute, "more"))
	}
	assert.EqualError(t, s.nameMoment(30*minute, "a tenth"), "there are 9 already, one for each digit")
	assert.NoError(t, s.nameMoment(23*minute, "renamed all the same"))
	assert.EqualError(t, s.nameMoment(23*minute, strings.Repeat("x", 61)), "must be one line of at most 60 characters")
	assert.Error(t, s.nameMoment(23*minute, "two\nlines"))

	for _, m := range ownOf(s.moments) {
		require.NoError(t, s.nameMoment(m.At, ""))
	}
	assert.Equal(t, "The two positions have parted", s.moments[0].Name, "the file's own name is back")
	assert.Len(t, s.moments, 5)
	assert.NoFileExists(t, s.store.file)
	assert.NoError(t, s.nameMoment(30*minute, ""), "nothing to take away is no mistake")
}

func TestMomentsOutliveTheWindow(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	require.NoError(t, tab.strip.nameMoment(77*minute+5, "Here"))
	again := newStrip(tab)
	assert.Contains(t, again.moments, namedMoment{sim.Moment{At: 77*minute + 5, Name: "Here"}, true}, "to the very tick")
	assert.Equal(t, "first-look-port-aldous-to-skerrow.json", filepath.Base(again.store.file))
}

// A file that is damaged, too large, not to be read or not to be written is no
// error; what is legal in it is kept.
func TestMomentStoreForgives(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	store := storeOf("A flight")
	assert.Empty(t, store.read(), "nothing there")
	require.NoError(t, os.MkdirAll(filepath.Dir(store.file), 0o755))
	for _, text := range []string{"", "{", "null", `{"at": "1m"}`, `[1]`, `[{"at": 60}]`, strings.Repeat("[", 70000)} {
		require.NoError(t, os.WriteFile(store.file, []byte(text), 0o644))
		assert.Empty(t, store.read(), "%.20q", text)
	}
	require.NoError(t, os.WriteFile(store.file, []byte(`[{"at":"1m","name":"one"},{"at":"x","name":"bad"},{"at":"-1s","name":"bad"},
		{"at":"49h","name":"bad"},{"at":"2m","name":""},{"at":"3m","name":"two\nlines"},{"at":"1m0s","name":"twice"},{"at":"0s","name":"start"}]`), 0o644))
	assert.Equal(t, []sim.Moment{{At: minute, Name: "one"}, {At: 0, Name: "start"}}, store.read())
	require.NoError(t, os.Remove(store.file))
	require.NoError(t, os.Mkdir(store.file, 0o755)) // a folder stands in the way
	store.write([]sim.Moment{{At: 1, Name: "x"}})
	assert.Empty(t, store.read())
	momentStore{}.write([]sim.Moment{{At: 1, Name: "x"}})
	assert.Empty(t, momentStore{}.read())
}

func TestFileNames(t *testing.T) {
	assert.Equal(t, "a-b-c", fileName("../A/b:  C?"))
	assert.Equal(t, "flight", fileName("..."))
	assert.Equal(t, "flight", fileName("Ääß"[:2]))
	assert.Len(t, fileName(strings.Repeat("long ", 100)), 80)
}

// Nine at most, by time; those named here first when there are more.
func TestMerged(t *testing.T) {
	var file []sim.Moment
	for i := range int64(9) {
		file = append(file, sim.Moment{At: 10 * i, Name: "file"})
	}
	all := merged(file, []sim.Moment{{At: 5, Name: "own"}})
	assert.Len(t, all, 9)
	assert.Equal(t, []string{"file", "own"}, names(all)[:2])
}

// The card that asks shows the time and the name so far; Enter keeps what is
// typed, for the time at which it was asked.
func TestAskingForAName(t *testing.T) {
	tab, h := table(t, 1366, 704)
	at(t, tab, h, 20*minute)
	tab.NameMoment()
	canvas := tab.canvas()
	require.NotNil(t, canvas.Overlays().Top())
	test.Type(canvas.Focused(), "The longitude drums")
	at(t, tab, h, 25*minute)
	canvas.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Contains(t, tab.strip.moments, namedMoment{sim.Moment{At: 20 * minute, Name: "The longitude drums"}, true})
}
