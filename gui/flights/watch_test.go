package flights

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// report is one call of a watch.
type report struct {
	flight *Flight
	err    error
}

// watched follows a file until the test ends.
func watched(t *testing.T, start func(func(*Flight, error)) *Watcher) chan report {
	t.Helper()
	calls := make(chan report, 16)
	w := start(func(f *Flight, err error) { calls <- report{f, err} })
	t.Cleanup(func() {
		w.Stop()
		w.Stop() // twice does no harm
		<-w.done
	})
	return calls
}

// next is the next report; the bound is on a hang, nothing is measured.
func next(t *testing.T, calls chan report, what string) report {
	t.Helper()
	select {
	case r := <-calls:
		return r
	case <-time.After(15 * time.Second):
		require.Fail(t, "never heard of: "+what)
		return report{}
	}
}

func write(t *testing.T, path, title string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(plainFlight, `"Plain"`, title, 1)), 0o644))
}

func TestEditsAreReported(t *testing.T) {
	path := file(t, plainFlight)
	calls := watched(t, func(do func(*Flight, error)) *Watcher { return Watch(path, do) })

	write(t, path, `"Written over"`)
	assert.Equal(t, "Written over", next(t, calls, "the write").flight.Plan.Title)

	other := path + "~"
	write(t, other, `"Put in its place"`)
	require.NoError(t, os.Rename(other, path))
	assert.Equal(t, "Put in its place", next(t, calls, "the replacement").flight.Plan.Title)

	write(t, path, "7")
	r := next(t, calls, "the mistake")
	assert.Nil(t, r.flight)
	list, _ := Explain(r.err)
	assert.Equal(t, []Wrong{{2, "title = 7", "Title: a whole number will not do.", "Legal: text in quotes."}}, list)

	write(t, path, `"Mended"`)
	assert.Equal(t, "Mended", next(t, calls, "the mending").flight.Plan.Title)

	require.NoError(t, os.Remove(path))
	assert.ErrorIs(t, next(t, calls, "the file gone").err, os.ErrNotExist)
	write(t, path, `"Mended"`)
	assert.Equal(t, "Mended", next(t, calls, "the file back").flight.Plan.Title)
	assert.Empty(t, calls, "each change is reported once")
}

// An editor's steps are one edit; a file that says the same is none.
func TestOneEditIsOneReport(t *testing.T) {
	path := file(t, plainFlight)
	calls := watched(t, func(do func(*Flight, error)) *Watcher { return Watch(path, do) })
	require.NoError(t, os.WriteFile(path, nil, 0o644))
	write(t, path, `"Half"`)
	write(t, path, `"Whole"`)
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(path), "another.toml"), []byte("x"), 0o644))
	assert.Equal(t, "Whole", next(t, calls, "the edit").flight.Plan.Title)
	write(t, path, `"Whole"`)
	require.NoError(t, os.Chtimes(path, time.Now(), time.Now().Add(time.Hour)))
	select {
	case r := <-calls:
		assert.Fail(t, "a report without a change", "%v", r)
	case <-time.After(3*settle + glance):
	}
}

func TestAFlightSeesWhatChangedSinceItWasOpened(t *testing.T) {
	path := file(t, plainFlight)
	f, err := OpenFile(path)
	require.NoError(t, err)
	write(t, path, `"In between"`)
	calls := watched(t, f.Watch)
	assert.Equal(t, "In between", next(t, calls, "the edit before the watch").flight.Plan.Title)
}

// Without a word from the system (a drive on a network, a folder that went and
// came back) a glance sees it.
func TestAFolderThatGoesAndComesBack(t *testing.T) {
	path := file(t, plainFlight)
	folder := filepath.Dir(path)
	calls := watched(t, func(do func(*Flight, error)) *Watcher { return Watch(path, do) })
	require.NoError(t, os.Rename(folder, folder+"-away"))
	assert.ErrorIs(t, next(t, calls, "the folder gone").err, os.ErrNotExist)
	require.NoError(t, os.Mkdir(folder, 0o755))
	write(t, path, `"Back"`)
	assert.Equal(t, "Back", next(t, calls, "the folder back").flight.Plan.Title)
}

func TestStopEndsIt(t *testing.T) {
	path := file(t, plainFlight)
	calls := make(chan report, 1)
	w := Watch(path, func(f *Flight, err error) { calls <- report{f, err} })
	w.Stop()
	<-w.done
	write(t, path, `"Later"`)
	time.Sleep(2 * settle)
	assert.Empty(t, calls)
}
