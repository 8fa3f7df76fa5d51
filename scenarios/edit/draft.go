package edit

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"stillair/scenarios"
	"stillair/sim"
)

// mostKept is how many steps can be taken back.
const mostKept = 500

// Draft is a flight's file while it is changed, with what was done to it.
type Draft struct {
	name  string
	steps []step
	at    int // the one that counts
	saved int // number of the step that is on disk
	made  int // steps ever made, for the numbers
}

// step is the file after a change.
type step struct {
	number int
	index  *index
	plan   *sim.Plan // nil: it cannot be flown
	source *scenarios.Source
	wrong  error // *scenarios.Errors
}

// New takes up a file. The name stands in errors. A file that cannot be flown is
// taken up too, to be mended; one that is no TOML is refused in the loader's words.
func New(name string, text []byte) (*Draft, error) {
	d := &Draft{name: name}
	s, err := d.step(slices.Clone(text))
	if err != nil {
		return nil, err
	}
	d.steps = []step{s}
	return d, nil
}

// step reads and checks a text. The error is that of a text that is no TOML.
func (d *Draft) step(text []byte) (step, error) {
	s := step{number: d.made}
	s.plan, s.source, s.wrong = scenarios.Load(d.name, bytes.NewReader(text))
	var err error
	if s.index, err = read(text); err != nil {
		return s, errors.Join(s.wrong) // the loader has found it too
	}
	return s, nil
}

func (d *Draft) now() *step { return &d.steps[d.at] }

// Name is what errors call the file.
func (d *Draft) Name() string { return d.name }

// Rename gives it another name.
func (d *Draft) Rename(name string) { d.name = name }

// Text is the file as it is now. Read it, do not change it.
func (d *Draft) Text() []byte { return d.now().index.text }

// Plan is the flight, nil while the file cannot be flown.
func (d *Draft) Plan() *sim.Plan { return d.now().plan }

// Source is what the plan was compiled from, nil with it.
func (d *Draft) Source() *scenarios.Source { return d.now().source }

// Wrong is what the loader says of the file as it is, nil if it can be flown.
func (d *Draft) Wrong() error { return d.now().wrong }

// Version is another number after each change.
func (d *Draft) Version() int { return d.now().number }

// Do makes some changes at once, as one step: all of them, or none.
func (d *Draft) Do(changes ...Change) error {
	s, err := d.after(changes)
	if err != nil || bytes.Equal(s.index.text, d.Text()) {
		return err
	}
	d.made++
	s.number = d.made
	d.steps = append(d.steps[:d.at+1:d.at+1], s)
	if len(d.steps) > mostKept {
		d.steps = d.steps[1:]
	}
	d.at = len(d.steps) - 1
	return nil
}

// Try gives the flight as some changes would make it.
func (d *Draft) Try(changes ...Change) (*sim.Plan, error) {
	s, err := d.after(changes)
	return s.plan, err
}

// after makes the changes on a copy.
func (d *Draft) after(changes []Change) (step, error) {
	x := d.now().index
	for _, c := range changes {
		text, err := c(x)
		if err != nil {
			return step{}, err
		}
		if x, err = read(text); err != nil {
			s, _ := d.step(text)
			return step{}, s.wrong
		}
	}
	s, err := d.step(x.text)
	if err == nil && d.Wrong() == nil {
		err = s.wrong
	}
	return s, err
}

// CanUndo says whether something can be taken back.
func (d *Draft) CanUndo() bool { return d.at > 0 }

// CanRedo says whether something taken back can be done again.
func (d *Draft) CanRedo() bool { return d.at < len(d.steps)-1 }

// Undo takes the last change back.
func (d *Draft) Undo() {
	if d.CanUndo() {
		d.at--
	}
}

// Redo does again what was taken back last.
func (d *Draft) Redo() {
	if d.CanRedo() {
		d.at++
	}
}

// Saved says that the file is on disk as it is now.
func (d *Draft) Saved() { d.saved = d.Version() }

// Changed says whether there is something to save.
func (d *Draft) Changed() bool { return d.saved != d.Version() }

// Get is the value under a path as it is written.
func (d *Draft) Get(path string) (Value, bool) {
	x := d.now().index
	f, ok := x.field(path)
	if !ok {
		return Value{}, false
	}
	return Value{string(x.text[f.value.from:f.value.to])}, true
}

// Has says whether there is a key or table under a path.
func (d *Draft) Has(path string) bool {
	x := d.now().index
	_, ok := x.field(path)
	return ok || x.section(path) > 0
}

// Count is how many [[list]] there are.
func (d *Draft) Count(list string) int { return d.now().index.counts[list] }

// Line is the line of a key or table, from 1; 0 if there is none.
func (d *Draft) Line(path string) int {
	x := d.now().index
	at := -1
	if f, ok := x.field(path); ok {
		at = f.whole.from
	} else if i := x.section(path); i > 0 {
		at = x.sections[i].head
	}
	if at < 0 {
		return 0
	}
	return bytes.Count(x.text[:at], []byte("\n")) + 1
}

// Copy is a draft of its own with the same text and the same steps.
func (d *Draft) Copy() *Draft {
	c := *d
	c.steps = slices.Clone(d.steps)
	return &c
}

// Range says what the loader wants under a path that takes a number, in its own words:
// "0 to 250 kt". It is asked with a number that no flight has, so there is no second
// table of ranges; "" if it does not mind.
func (d *Draft) Range(path string) string {
	s, err := d.after([]Change{Set(path, Number(1e300))})
	if s.wrong != nil {
		err = s.wrong
	}
	var errs *scenarios.Errors
	if !errors.As(err, &errs) {
		return ""
	}
	for _, p := range errs.Problems {
		if p.Key == path {
			return strings.TrimPrefix(p.Msg, "must be ")
		}
	}
	return ""
}
