package flights

import (
	"bytes"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// settle is how long a file must be left alone before it is read: editors
	// write in several steps.
	settle = 200 * time.Millisecond
	// glance is how often the file is looked at without being told: drives on a
	// network tell nobody, and a folder may go and come back.
	glance = 2 * time.Second
)

// Watcher follows a flight file while it is edited.
type Watcher struct {
	path    string
	changed func(*Flight, error)
	quit    chan struct{}
	done    chan struct{}
	stopped atomic.Bool

	notes  *fsnotify.Watcher // nil: the system tells nothing
	text   []byte            // as last read
	gone   bool              // it was not there
	stamp  stamp             // of the last glance
	timer  *time.Timer
	folder string
}

// stamp is what a glance tells of a file.
type stamp struct {
	size int64
	when time.Time
	ok   bool
}

// Watch calls changed each time the text of the file is another one, with the
// flight or with what is wrong (a *Refused), on a goroutine of its own. What
// the file holds now is not reported. A file that vanishes is reported once,
// and again when it is back. Call Stop at the end.
func Watch(path string, changed func(*Flight, error)) *Watcher {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	w := newWatcher(path, changed)
	text, err := read(path)
	w.text, w.gone = text, err != nil
	go w.run()
	return w
}

// Watch follows the flight's own file: what has changed in it since the flight
// was opened is reported too.
func (f *Flight) Watch(changed func(*Flight, error)) *Watcher {
	w := newWatcher(f.Path, changed)
	w.text = f.Source.Text
	w.timer.Reset(settle)
	go w.run()
	return w
}

func newWatcher(path string, changed func(*Flight, error)) *Watcher {
	w := &Watcher{path: path, folder: filepath.Dir(path), changed: changed, quit: make(chan struct{}), done: make(chan struct{})}
	w.notes, _ = fsnotify.NewWatcher() // nil where the system has none to give: glances will do
	w.listen()
	w.stamp = w.look()
	w.timer = time.NewTimer(settle)
	w.timer.Stop()
	return w
}

// Stop ends the watch. A call of changed that has begun may still end; none
// begins after it.
func (w *Watcher) Stop() {
	if !w.stopped.Swap(true) {
		close(w.quit)
	}
}

// listen watches the folder: an editor that puts a new file in the place of the
// old one would leave a watch on the file itself with the old one.
func (w *Watcher) listen() {
	if w.notes != nil && len(w.notes.WatchList()) == 0 {
		_ = w.notes.Add(w.folder) // a glance tries again
	}
}

func (w *Watcher) run() {
	defer close(w.done)
	ticker := time.NewTicker(glance)
	defer ticker.Stop()
	var events chan fsnotify.Event
	var errs chan error
	if w.notes != nil {
		defer w.notes.Close()
		events, errs = w.notes.Events, w.notes.Errors
	}
	for {
		select {
		case <-w.quit:
			return
		case e := <-events:
			if filepath.Clean(e.Name) == w.path {
				w.timer.Reset(settle)
			}
		case <-errs: // something was missed
			w.timer.Reset(settle)
		case <-ticker.C:
			w.glance()
		case <-w.timer.C:
			w.read()
		}
	}
}

// glance sees whether the file looks as it did.
func (w *Watcher) glance() {
	w.listen()
	if now := w.look(); now != w.stamp {
		w.stamp = now
		w.timer.Reset(settle)
	}
}

func (w *Watcher) look() stamp {
	info, err := os.Stat(w.path)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime(), true}
}

// read reports the file if it holds something new.
func (w *Watcher) read() {
	w.stamp = w.look()
	text, err := read(w.path)
	if err != nil {
		if !w.gone {
			w.gone, w.text = true, nil
			w.report(nil, &Refused{Name: filepath.Base(w.path), Path: w.path, Err: err})
		}
		return
	}
	if !w.gone && bytes.Equal(text, w.text) {
		return
	}
	w.gone, w.text = false, text
	w.report(open(w.path, text))
}

func (w *Watcher) report(f *Flight, err error) {
	if !w.stopped.Load() {
		w.changed(f, err)
	}
}
