// Package pictures makes every picture of the manual, with the code that draws the
// window, the papers and the films. The same source gives the same pictures; none
// needs a display.
//
// make, below it, is the command that writes them into a folder.
package pictures

import (
	"bytes"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"time"

	"stillair/gui/paint"
	"stillair/scenarios"
	"stillair/sim"
)

// Wide is the greatest width of a picture, and Together the most bytes that all may
// have, so that a clone of the project stays small.
const (
	Wide     = 1400
	Together = 4 << 20
)

// Picture is one picture of the manual.
type Picture struct {
	Name string // of the file, which ends in .png
	Make func(io.Writer) error
}

// All are the pictures, in the order in which the manual has them.
func All() []Picture {
	return []Picture{
		{"chart.png", chart},
		{"linkage.png", func(w io.Writer) error { return linkage(w, "first-look", 40*time.Minute, false) }},
		{"linkage-slipping.png", func(w io.Writer) error { return linkage(w, "slipping-drive", 45*time.Minute, true) }},
		{"debrief.png", debriefPage},
		{"spread.png", spreadPage},
		{"star-curves.png", starCurves},
		{"eyepieces.png", eyepieces},
		{"calculator.png", calculator},
		{"plotting-sheet.png", plottingSheet},
		{"log-form.png", logForm},
		{"film-frame.png", filmFrame},
	}
}

// WriteAll writes all pictures into a folder, which is made if there is none.
func WriteAll(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, p := range All() {
		var out bytes.Buffer
		if err := p.Make(&out); err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
		if err := os.WriteFile(filepath.Join(dir, p.Name), out.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// drawn draws a picture of w by h pixels.
func drawn(out io.Writer, w, h int, draw func(paint.Surface)) error {
	s := paint.NewImage(w, h)
	draw(s)
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	return encoder.Encode(out, s.Pixels())
}

// flown flies a shipped flight for so long; to its end if that is less than nothing.
func flown(name string, until time.Duration) (*sim.Engine, error) {
	plan, _, err := scenarios.Open(name)
	if err != nil {
		return nil, err
	}
	e, err := sim.New(plan)
	if err != nil {
		return nil, err
	}
	ticks := sim.TicksOf(until)
	if until < 0 {
		ticks = 1 << 62
	}
	e.Advance(ticks)
	return e, nil
}

// toEnd flies a flight to its end.
const toEnd = -time.Second
