package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"stillair/gui/paint"
	"stillair/scenarios"
	"stillair/sim"
)

// flyCmd is `reckon fly`.
type flyCmd struct {
	Flight string         `arg:"" optional:"" name:"FLIGHT" help:"A shipped flight or a file; absent: the default flight; - is standard input."`
	Until  *time.Duration `help:"Fly so long, as 1h30m; absent: to the end." placeholder:"DURATION"`
	JSON   bool           `name:"json" help:"Print the last moment as one JSON object instead of the log."`
	CSV    string         `name:"csv" help:"Write a row for each minute." placeholder:"FILE"`
	Record string         `help:"Write the flight down, to be flown again by replay." placeholder:"FILE"`
	Chart  string         `help:"Draw the chart; the ending .png, .svg or .pdf says how." placeholder:"FILE"`
	Works  string         `help:"Draw the mechanism opened up, likewise." placeholder:"FILE"`
	Reveal bool           `help:"Show in the drawing of the mechanism what is wrong."`
}

// Help is shown by --help.
func (flyCmd) Help() string {
	return "For example: reckon fly first-look --until 40m --chart first-look.png"
}

// Run flies.
func (c flyCmd) Run(s streams) error {
	if err := c.check(); err != nil {
		return usageError{err}
	}
	if c.Flight == "" {
		c.Flight = scenarios.Default
	}
	plan, src, err := open(c.Flight, s)
	if err != nil {
		return err
	}
	engine, err := sim.New(plan)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Flight, err)
	}
	if err := c.fly(engine, src); err != nil {
		return err
	}
	if c.Chart != "" {
		if err := writeChart(c.Chart, engine); err != nil {
			return err
		}
	}
	if c.Works != "" {
		if err := writeWorks(c.Works, engine, c.Reveal); err != nil {
			return err
		}
	}
	if c.JSON {
		return writeJSON(s.out, engine)
	}
	return writeLog(s.out, engine)
}

func (c flyCmd) check() error {
	if c.Until != nil && *c.Until < 0 {
		return fmt.Errorf("--until = %v: must not be negative", *c.Until)
	}
	for _, f := range []struct{ flag, name string }{{"chart", c.Chart}, {"works", c.Works}} {
		if _, err := paint.FormatOf(f.name); f.name != "" && err != nil {
			return fmt.Errorf("--%s = %s: must end in .png, .svg or .pdf", f.flag, f.name)
		}
	}
	if c.Reveal && c.Works == "" {
		return errors.New("--reveal is of --works FILE, which is missing")
	}
	return nil
}

// fly goes to the end, writing the record or the CSV on the way if it is wanted.
func (c flyCmd) fly(e *sim.Engine, src *scenarios.Source) error {
	last := int64(1) << 62
	if c.Until != nil {
		last = sim.TicksOf(*c.Until)
	}
	if c.Record != "" {
		if err := toFile(c.Record, func(w io.Writer) error { return writeRecord(w, e, src, last) }); err != nil {
			return err
		}
	}
	if c.CSV == "" {
		e.Advance(last - e.Tick())
		return nil
	}
	e.GoTo(0)
	return toFile(c.CSV, func(w io.Writer) error { return writeMinutes(w, e, last) })
}

// toFile writes a file through a buffer and says whether all of it arrived.
func toFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(f)
	err = write(w)
	if flushed := w.Flush(); err == nil {
		err = flushed
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	return err
}
