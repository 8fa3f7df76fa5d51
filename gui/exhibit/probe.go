package exhibit

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/exhibit/conduct"
)

// probe is what a test from outside reads: what the exhibit is at, and where it can be
// touched, in pixels of the screen, by number of the target.
type probe struct {
	Stage    string            `json:"stage"`
	Language int               `json:"language"`
	Heading  float64           `json:"heading_deg"`
	Speed    float64           `json:"speed_kt"`
	Tick     int64             `json:"tick"`
	Targets  map[string][4]int `json:"targets"`  // x, y, width, height
	Frame    float64           `json:"frame_ms"` // the last drawing
}

// Probe writes a probe to a file twice a second.
func (v *View) Probe(file string) {
	go func() {
		for range time.Tick(time.Second / 2) {
			fyne.Do(func() { writeProbe(file, v.probe()) })
		}
	}()
}

func (v *View) probe() probe {
	m := v.machine
	p := probe{
		Stage: m.Stage().String(), Language: m.Language(), Heading: m.Dial(conduct.Heading), Speed: m.Dial(conduct.Speed),
		Targets: map[string][4]int{}, Frame: float64(v.took) / float64(time.Millisecond),
	}
	if now := v.crew.moment(); now != nil {
		p.Tick = now.View.Tick
	}
	dx, dy := m.Shift()
	for _, z := range v.places().Zones {
		p.Targets[strconv.Itoa(int(z.Target))] = [4]int{int(z.Box.X) + dx, int(z.Box.Y) + dy, int(z.Box.W), int(z.Box.H)}
	}
	return p
}

// writeProbe replaces the file in one go, so that a reader never sees half.
func writeProbe(file string, p probe) {
	text, err := json.Marshal(p)
	if err != nil {
		return // numbers of a layout are never NaN
	}
	part := filepath.Join(filepath.Dir(file), "."+filepath.Base(file)+".part")
	if os.WriteFile(part, text, 0o644) == nil {
		os.Rename(part, file)
	}
}
