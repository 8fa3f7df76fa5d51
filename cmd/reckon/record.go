package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/record"
)

// writeRecord flies to a tick and writes down what is flown, minute by minute.
func writeRecord(w io.Writer, e *sim.Engine, src *scenarios.Source, last int64) error {
	out, err := record.NewWriter(w, record.Header{
		Program: record.Program(), Platform: record.Platform(), Name: src.Name, Seed: e.Plan().Seed, Flight: string(src.Text),
	})
	if err != nil {
		return err
	}
	for !e.Over() && e.Tick() < last {
		e.Advance(min(last-e.Tick(), sim.MinuteTicks))
		if err := out.Note(e); err != nil {
			return err
		}
	}
	return out.Close(e)
}

// replayCmd is `reckon replay`.
type replayCmd struct {
	Record string `arg:"" name:"RECORD" help:"A record that fly --record or the window has written; - is standard input."`
}

// Help is shown by --help.
func (replayCmd) Help() string {
	return "Flies a record again and holds each minute against what it says.\nFor example: reckon replay my-flight.record"
}

// Run replays; a record that is damaged or does not come out alike is a failure.
func (c replayCmd) Run(s streams) error {
	rec, e, err := c.open(s)
	if err != nil {
		return err
	}
	report, err := rec.Replay(e, record.Platform())
	if err != nil {
		return fmt.Errorf("%s: %w", c.Record, err)
	}
	return c.tell(s, rec, &report)
}

// open reads the record and makes its flight ready.
func (c replayCmd) open(s streams) (*record.Record, *sim.Engine, error) {
	rec, err := c.read(s)
	if err != nil {
		return nil, nil, err
	}
	plan, _, err := scenarios.Load(c.Record+", its flight "+rec.Name, strings.NewReader(rec.Flight))
	if err != nil {
		return nil, nil, err
	}
	e, err := sim.New(plan)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", c.Record, err)
	}
	return rec, e, nil
}

func (c replayCmd) read(s streams) (*record.Record, error) {
	in := s.in
	if c.Record != "-" {
		f, err := os.Open(c.Record)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in = f
	}
	rec, err := record.Read(in)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Record, err)
	}
	return rec, nil
}

// tell prints what came of it.
func (c replayCmd) tell(s streams, rec *record.Record, r *record.Report) error {
	by := "hashes"
	if !r.ByHash {
		by = fmt.Sprintf("positions, for it was flown on another platform (%s; this is %s)", rec.Platform, record.Platform())
	}
	fmt.Fprintf(s.out, "%s: %d commands, %d minutes compared by %s\n", rec.Name, len(rec.Commands), r.Minutes, by)
	if rec.End == nil {
		fmt.Fprintln(s.out, "there is no closing line: the record was cut short")
	}
	switch d := r.Different; {
	case d != nil && d.NM > 0:
		return fmt.Errorf("%s: minute %d is the first that differs: %s by %.3g NM", c.Record, d.Minute, d.What, d.NM)
	case d != nil:
		return fmt.Errorf("%s: minute %d is the first that differs: %s", c.Record, d.Minute, d.What)
	case rec.Damage != nil:
		return fmt.Errorf("%s: %w; what stands before was read, and flies alike", c.Record, rec.Damage)
	}
	fmt.Fprintln(s.out, "all are alike")
	return nil
}
