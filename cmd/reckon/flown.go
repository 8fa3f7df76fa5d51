package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"time"

	"stillair/sim"
	"stillair/sim/record"
)

// flight is a flight that was flown as far as it goes.
type flight struct {
	engine *sim.Engine
	end    time.Duration
	told   string // what is to be said of it, "" for nothing
}

// recordBegins is how a record begins.
const recordBegins = `{"stillair_record"`

// flownToEnd flies a record as far as it is whole, or a flight to its end.
func flownToEnd(name string, s streams) (*flight, error) {
	is, in, err := looksLikeRecord(name, s.in)
	if err != nil {
		return nil, err
	}
	s.in = in
	if is {
		return flownRecord(name, s)
	}
	plan, _, err := open(name, s)
	if err != nil {
		return nil, err
	}
	e, err := sim.New(plan)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	e.Advance(1 << 62)
	return &flight{engine: e, end: sim.TimeOf(e.Tick())}, nil
}

// looksLikeRecord looks at the first bytes of a file or of standard input, and
// gives back standard input as if nobody had looked.
func looksLikeRecord(name string, in io.Reader) (bool, io.Reader, error) {
	if name == "-" {
		r := bufio.NewReader(in)
		head, _ := r.Peek(len(recordBegins)) // a shorter text is no record
		return bytes.Equal(head, []byte(recordBegins)), r, nil
	}
	f, err := os.Open(name)
	if os.IsNotExist(err) {
		return false, in, nil // perhaps a shipped flight
	}
	if err != nil {
		return false, in, err
	}
	defer f.Close()
	head := make([]byte, len(recordBegins))
	_, err = io.ReadFull(f, head)
	return err == nil && string(head) == recordBegins, in, nil
}

func flownRecord(name string, s streams) (*flight, error) {
	rec, e, err := replayCmd{name}.open(s)
	if err != nil {
		return nil, err
	}
	to := lastTick(rec)
	if err := rec.Fly(e, to); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	f := &flight{engine: e, end: sim.TimeOf(e.Tick())}
	switch {
	case rec.Damage != nil:
		f.told = fmt.Sprintf("%v; what stands before is whole, up to %v of flight", rec.Damage, f.end)
	case rec.End == nil:
		f.told = fmt.Sprintf("the record was cut short; it is whole up to %v of flight", f.end)
	}
	return f, nil
}

// lastTick is how far a record goes.
func lastTick(rec *record.Record) int64 {
	to := int64(0)
	if n := len(rec.Commands); n > 0 {
		to = rec.Commands[n-1].Tick + 1
	}
	if n := len(rec.Minutes); n > 0 {
		to = max(to, rec.Minutes[n-1].Tick)
	}
	if rec.End != nil {
		to = max(to, rec.End.Tick)
	}
	return to
}
