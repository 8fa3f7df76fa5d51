package gui

import (
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/flights"
)

// errands are what other goroutines want done on the toolkit's. The test driver has none
// of its own and would do them where they come from; here they wait until the test, which
// stands in for the toolkit, runs them.
type errands struct {
	lock sync.Mutex
	all  []func()
}

func (e *errands) add(do func()) {
	e.lock.Lock()
	defer e.lock.Unlock()
	e.all = append(e.all, do)
}

// run does all that has come, and what comes of it.
func (e *errands) run() {
	for {
		e.lock.Lock()
		all := e.all
		e.all = nil
		e.lock.Unlock()
		if len(all) == 0 {
			return
		}
		for _, do := range all {
			do()
		}
	}
}

// ours are the errands of the window that was opened last: no test opens two at a time.
var ours *errands

// opened opens a flight without a display, in folders of its own.
func opened(t *testing.T, name string, trainer bool) *Window {
	t.Helper()
	return openedIn(t, test.NewTempApp(t), name, trainer)
}

func openedIn(t *testing.T, app fyne.App, name string, trainer bool) *Window {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	f, err := flights.OpenShipped(name)
	require.NoError(t, err)
	f.Trainer = trainer
	ours = &errands{}
	w, err := open(app, f, ours.add)
	require.NoError(t, err)
	t.Cleanup(w.stop)
	return w
}

// eventually waits for something that may hang on errands.
func eventually(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for begin := time.Now(); ; time.Sleep(5 * time.Millisecond) {
		ours.run()
		if ok() {
			return
		}
		require.Less(t, time.Since(begin), time.Minute, what)
	}
}

// TestWhatOtherGoroutinesWantWaitsForTheTests: were it done at once, the race detector
// would have nothing to find.
func TestWhatOtherGoroutinesWantWaitsForTheTests(t *testing.T) {
	w := opened(t, "first-look", false)
	done, asked := 0, make(chan bool)
	go func() {
		w.screen.Later(func() { done++ })
		close(asked)
	}()
	<-asked
	assert.Zero(t, done)
	ours.run()
	assert.Equal(t, 1, done)
}
