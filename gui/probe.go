package gui

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
)

// probe is what a test from outside reads: the moment, and where the named
// parts stand in the window, in its pixels.
type probe struct {
	Tick    int64               `json:"tick"`
	Hash    string              `json:"hash"` // as reckon prints it, while the clock stands
	Playing bool                `json:"playing"`
	Rate    float64             `json:"rate"`
	AirLat  string              `json:"air_lat"`
	AirLon  string              `json:"air_lon"`
	Wind    string              `json:"wind"`
	Flight  string              `json:"flight"`
	Frames  [2]float64          `json:"frame_ms"` // half of the last intervals, and 99 in a hundred, are no longer
	Widgets map[string]position `json:"widgets"`
}

type position struct {
	X float32 `json:"x"`
	Y float32 `json:"y"`
	W float32 `json:"w"`
	H float32 `json:"h"`
}

// Probe writes a probe to a file twice a second until the window is closed.
func (w *Window) Probe(file string) {
	go func() {
		for range time.Tick(time.Second / 2) {
			w.screen.Later(func() { writeProbe(file, w.probe(w.helm.Moment())) })
		}
	}()
}

func (w *Window) probe(m *helm.Moment) probe {
	parts := w.table.Named()
	maps.Copy(parts, w.linkage.Named())
	maps.Copy(parts, w.navigator.Named())
	maps.Copy(parts, w.navlog.Named())
	maps.Copy(parts, w.debrief.Named())
	maps.Copy(parts, w.spread.Named())
	maps.Copy(parts, w.calculator.Named())
	maps.Copy(parts, w.editor.Named())
	if w.trainer != nil {
		maps.Copy(parts, w.trainer.Named())
	}
	if w.school.here() && w.front == traineeFront {
		maps.Copy(parts, w.school.trainee.Named())
	}
	maps.Copy(parts, w.chooser.Named())
	if w.lesson != nil {
		maps.Copy(parts, w.lesson.Named())
	}
	parts["to-table"], parts["to-linkage"], parts["to-both"], parts["to-debrief"] = w.bar.table, w.bar.linkage, w.bar.beside, w.bar.debrief
	parts["to-plot"] = w.bar.plot
	parts["to-seat"] = w.bar.seat
	parts["tools"], parts["larger"], parts["still"] = w.bar.tools, w.help.larger, w.help.still
	parts["reveal"], parts["light"], parts["help"], parts["flight"] = w.bar.reveal, w.bar.light, w.bar.help, w.bar.flight
	scale := w.window.Canvas().Scale()
	p := probe{
		Tick: m.View.Tick, Hash: fmt.Sprintf("%016x", m.Hash), Playing: m.Playing, Rate: m.Rate,
		AirLat: m.View.AirCounters.Latitude.Arc(), AirLon: m.View.AirCounters.Longitude.Arc(),
		Wind: m.View.WindSet.String(), Flight: w.flight.Name,
		Frames: [2]float64{w.frames.percentile(50), w.frames.percentile(99)}, Widgets: map[string]position{},
	}
	for name, o := range parts {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		p.Widgets[name] = position{at.X * scale, at.Y * scale, o.Size().Width * scale, o.Size().Height * scale}
	}
	return p
}

// writeProbe replaces the file in one go, so that a reader never sees half.
func writeProbe(file string, p probe) {
	text, err := json.Marshal(p)
	if err != nil {
		return // floats of a layout are never NaN
	}
	part := filepath.Join(filepath.Dir(file), "."+filepath.Base(file)+".part")
	if os.WriteFile(part, text, 0o644) == nil {
		_ = os.Rename(part, file) // the reader sees that nothing comes
	}
}
