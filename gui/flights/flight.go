// Package flights opens flights for the window: the shipped ones and files. It
// keeps the list of files used lately, follows a file while it is edited, and
// says in plain words what is wrong with one. It knows no toolkit.
package flights

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/record"
)

// Flight is a flight that can be flown.
type Flight struct {
	Name    string // of a shipped flight; else the file's, without its folder
	Path    string // of the file, absolute; "" for a shipped flight
	Plan    *sim.Plan
	Survey  helm.Survey
	Summary string // what it shows, in a sentence; may be ""
	Source  *scenarios.Source
	Record  *record.Record // of a flight that was written down; nil: it is a plan
	// Trainer: the flight is an exercise that the window sets, and the trainee has a window
	// of its own.
	Trainer bool
}

// Length is how long the flight lasts if nobody touches it.
func (f *Flight) Length() time.Duration { return sim.TimeOf(f.Survey.Ticks) }

// End is the time of the clock at its end.
func (f *Flight) End() time.Time { return f.Plan.Start.Add(f.Length()) }

// Refused is the error of a flight that cannot be flown.
type Refused struct {
	Name  string
	Path  string   // "" for what is not a file
	Lines []string // of the file as it was read; nil if it was not
	Err   error    // a *scenarios.Errors if the text is at fault
}

// Error says all that is wrong, a line for each problem.
func (r *Refused) Error() string { return r.Err.Error() }

// Unwrap is the reason.
func (r *Refused) Unwrap() error { return r.Err }

// Suffix ends the name of a flight file.
const Suffix = ".toml"

// Open opens a flight by the name of a shipped one or by its file; a file that
// exists goes first. Opening flies the flight once, out of sight: 0.2 s for ten
// hours. The error is a *Refused.
func Open(name string) (*Flight, error) {
	_, err := os.Stat(name)
	if err == nil || strings.ContainsAny(name, `/\`) || strings.HasSuffix(name, Suffix) || strings.HasSuffix(name, RecordSuffix) {
		return OpenFile(name)
	}
	return OpenShipped(name)
}

// OpenShipped opens a flight that comes with the program.
func OpenShipped(name string) (*Flight, error) {
	plan, src, err := scenarios.Open(name)
	if err != nil {
		return nil, &Refused{Name: name, Err: err}
	}
	return ready(&Flight{Name: name, Plan: plan, Source: src, Summary: src.Summary})
}

// OpenFile opens a flight file.
func OpenFile(path string) (*Flight, error) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	text, err := read(path)
	if err != nil {
		return nil, &Refused{Name: filepath.Base(path), Path: path, Err: err}
	}
	return open(path, text)
}

// open opens the text of a file.
func open(path string, text []byte) (*Flight, error) {
	if isRecord(text) {
		return openRecord(path, text)
	}
	name := filepath.Base(path)
	plan, src, err := scenarios.Load(name, bytes.NewReader(text))
	if err != nil {
		return nil, &Refused{Name: name, Path: path, Lines: linesOf(text), Err: err}
	}
	return ready(&Flight{Name: name, Path: path, Plan: plan, Source: src, Summary: src.Summary})
}

// ready flies the flight once.
func ready(f *Flight) (*Flight, error) {
	var err error
	flown := *f.Plan
	if flown.Exercise != nil { // a chart of the way must not tell what will break
		flown.Faults = nil
	}
	if f.Survey, err = helm.SurveyOf(&flown); err != nil {
		return nil, &Refused{Name: f.Name, Path: f.Path, Lines: linesOf(f.Source.Text), Err: err}
	}
	return f, nil
}

// mostRead is a byte more than the loader takes: it is the loader who says that
// a file is too large.
const mostRead = 4<<20 + 1

// read reads a file. Only regular files are opened: a pipe would keep its
// reader waiting.
func read(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, plainly(err)
	}
	if info.IsDir() {
		return nil, errors.New(look.Text(look.FileIsFolder))
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New(look.Text(look.FileIsOdd))
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, plainly(err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostRead))
	if err != nil {
		return nil, plainly(err)
	}
	return text, nil
}

// plainly says what the system says in plain words.
func plainly(err error) error {
	words := look.FileUnreadable
	switch {
	case errors.Is(err, fs.ErrNotExist):
		words = look.FileMissing
	case errors.Is(err, fs.ErrPermission):
		words = look.FileForbidden
	}
	return &plain{look.Text(words), err}
}

// plain is an error in words of its own.
type plain struct {
	words string
	err   error
}

func (p *plain) Error() string { return p.words }
func (p *plain) Unwrap() error { return p.err }

// linesOf are the lines of a text.
func linesOf(text []byte) []string { return strings.Split(string(text), "\n") }

// LengthText writes how long a flight lasts: 40 min, 2 h, 1 h 30 min.
func LengthText(d time.Duration) string {
	m := int(d.Round(time.Minute) / time.Minute)
	h := m / 60
	m %= 60
	switch {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, m)
}
