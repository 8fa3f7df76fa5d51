package scenarios

import (
	"bytes"
	"embed"
	"fmt"
	"path"
	"strings"

	"stillair/sim"
	"stillair/sim/fault"
)

// Default is the shipped flight that is flown when none is named.
const Default = "first-look"

//go:embed flights/*.toml
var flightFiles embed.FS

// shipped names the flights that come with the program, in the order they are
// offered. A test sees that each has its file and each file is here.
var shipped = []string{
	"first-look", "weather-triangle", "far-south",
	"pitot-ice", "old-variation", "warm-air", "slipping-drive", "stuck-repeater", "after-the-swing",
	"every-mile", "night-stars", "inside-the-lattice", "coast-in-sight", "over-cloud", "by-hand-alone",
	"lesson-air-position", "lesson-pitot-to-miles", "lesson-airspeed-and-height", "lesson-true-heading",
	"lesson-north-and-east", "lesson-wind", "lesson-fix-and-reset", "lesson-broken-link",
	"find-the-quiet-dial", "find-the-missing-miles", "find-the-still-card", "find-the-wrong-dial", "find-the-warm-bulb", "find-the-two",
}

// Info describes a shipped flight.
type Info struct {
	Name  string
	Title string
	Line  string // what it is, in a line: the first comment of the file
	// Summary is what it shows, in one plain sentence.
	Summary string
	// Steps is how many guided steps it has; 0 for a flight that is no lesson.
	Steps int
	// Level is how hard an exercise is, 1 to 9; 0 for a flight that is none.
	Level int
}

// Shipped lists the flights that come with the program, the default first.
func Shipped() []Info {
	infos := make([]Info, 0, len(shipped))
	for _, name := range shipped {
		text, err := flightFiles.ReadFile(fileOf(name))
		if err != nil {
			panic(err) // the list above and the embedded files disagree
		}
		plan, src, err := Load(name, bytes.NewReader(text))
		if err != nil {
			panic(err) // a shipped flight does not load
		}
		info := Info{Name: name, Title: plan.Title, Line: firstComment(text), Summary: src.Summary, Steps: len(plan.Lessons)}
		if plan.Exercise != nil {
			info.Level = plan.Exercise.Level
		}
		infos = append(infos, info)
	}
	return infos
}

// Open loads a shipped flight by name.
func Open(name string) (*sim.Plan, *Source, error) {
	for _, s := range shipped {
		if s != name {
			continue
		}
		text, err := flightFiles.ReadFile(fileOf(name))
		if err != nil {
			return nil, nil, err
		}
		return Load(name, bytes.NewReader(text))
	}
	hint := "; the shipped flights are " + strings.Join(shipped, ", ")
	if near := fault.NearestOf(name, shipped); len(near) > 0 {
		hint = "; did you mean " + orList(near) + "?"
	}
	return nil, nil, fmt.Errorf("no shipped flight %q%s", name, hint)
}

func fileOf(name string) string { return path.Join("flights", name+".toml") }

// firstComment is the first line of a file without its #.
func firstComment(text []byte) string {
	line, _, _ := strings.Cut(string(text), "\n")
	return strings.TrimSpace(strings.TrimLeft(line, "# "))
}
