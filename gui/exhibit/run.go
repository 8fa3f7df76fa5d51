package exhibit

import (
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/exhibit/keep"
	"stillair/gui/flights"
)

// Shipped is the exhibit file that runs when no other ever was in order.
//
//go:embed exhibit.toml
var Shipped string

// Folder is where counts, reports and the last good file are kept.
func Folder() string { return filepath.Join(flights.DataFolder(), "stillair", "exhibit") }

// Open opens the exhibit of a file over the whole screen. What is wrong with the file
// is told on standard error, and on the screen for a while.
func Open(a fyne.App, file string) error {
	start := time.Now()
	folder := Folder()
	last, err := keep.Watch(folder, start)
	if err != nil {
		fmt.Fprintln(os.Stderr, "stillair: no report could be written should it crash:", err)
	}
	f := keep.Open(file, folder, Shipped)
	for _, line := range keep.Problems(f.Wrong) {
		fmt.Fprintln(os.Stderr, line)
	}
	w := a.NewWindow("stillair")
	v, err := NewView(f, keep.OpenCounts(folder), last, uint64(start.UnixNano()), a.Quit)
	if err != nil {
		return err
	}
	w.SetPadded(false)
	w.SetContent(v)
	w.Resize(fyne.NewSize(1280, 720))
	w.SetFullScreen(true)
	w.SetCloseIntercept(func() {}) // only the keeper closes it
	v.repaint = w.Canvas().Refresh
	listen(w.Canvas(), v)
	anim := fyne.NewAnimation(time.Hour, func(float32) {
		now := time.Now()
		v.Step(now.Sub(start), now) // the difference is that of the clock that only goes on
	})
	anim.Curve, anim.RepeatCount = fyne.AnimationLinear, fyne.AnimationRepeatForever
	anim.Start()
	a.Lifecycle().SetOnStopped(func() {
		anim.Stop()
		v.crew.drop()
	})
	if file := os.Getenv("STILLAIR_PROBE"); file != "" {
		v.Probe(file)
	}
	w.Show()
	return nil
}

func listen(c fyne.Canvas, v *View) {
	c.SetOnTypedKey(v.typed)
	if d, ok := c.(desktop.Canvas); ok {
		d.SetOnKeyDown(func(e *fyne.KeyEvent) { v.held(e.Name, true) })
		d.SetOnKeyUp(func(e *fyne.KeyEvent) { v.held(e.Name, false) })
	}
}

// Check reads an exhibit file and gives the lines of what is wrong with it.
func Check(file string) []string {
	folder, err := os.MkdirTemp("", "stillair-check")
	if err != nil {
		return []string{err.Error()}
	}
	defer os.RemoveAll(folder)
	return keep.Problems(keep.Open(file, folder, Shipped).Wrong)
}
