package main

import (
	"errors"
	"fmt"
	"io"
	"time"

	"stillair/gui/export"
)

// exportCmd is `reckon export`.
type exportCmd struct {
	Flight  string        `arg:"" optional:"" name:"FLIGHT" help:"A record, a shipped flight or a flight file; - is standard input."`
	GeoJSON string        `name:"geojson" help:"Write tracks, marks, position lines and fixes as GeoJSON (RFC 7946)." placeholder:"FILE"`
	KML     string        `name:"kml" help:"Write them as KML (OGC 2.2)." placeholder:"FILE"`
	CSV     string        `name:"csv" help:"Write what the instruments showed, a row for each minute." placeholder:"FILE"`
	Every   time.Duration `help:"Flight time between two rows of the CSV." default:"1m" placeholder:"DURATION"`
	Reveal  bool          `help:"Write the truth too: true track, errors, true wind."`
	Columns bool          `help:"Print what the columns of the CSV mean, with their units and uncertainties."`
}

// Help is shown by --help.
func (exportCmd) Help() string {
	return `Without --reveal nothing comes from the world: it is what the crew could have written down. - as FILE is standard output.
Lines are cut at the 180th meridian. In the CSV a figure in the trade's unit stands beside the same in SI units, and beside it, as
u_..., the standard uncertainty of reading its display: 0.29 of the last figure shown.
For example: reckon export first-look --kml first-look.kml --csv first-look.csv`
}

// Run writes the files.
func (c exportCmd) Run(s streams) error {
	if err := c.check(); err != nil {
		return usageError{err}
	}
	if c.Columns {
		return export.WriteColumns(s.out)
	}
	flown, err := flownToEnd(c.Flight, s)
	if err != nil {
		return err
	}
	if flown.told != "" {
		fmt.Fprintf(s.err, "%s: %s\n", c.Flight, flown.told)
	}
	take := export.Gather(flown.engine, c.Reveal)
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{c.GeoJSON, func(w io.Writer) error { return export.WriteGeoJSON(w, take) }},
		{c.KML, func(w io.Writer) error { return export.WriteKML(w, take) }},
		{c.CSV, func(w io.Writer) error { return export.WriteCSV(w, flown.engine, c.Every, c.Reveal) }},
	} {
		if err := outTo(f.name, s, f.write); err != nil {
			return err
		}
	}
	return nil
}

// outTo writes a file, - being standard output; no name writes none.
func outTo(name string, s streams, write func(io.Writer) error) error {
	switch name {
	case "":
		return nil
	case "-":
		return write(s.out)
	}
	return toFile(name, write)
}

func (c exportCmd) check() error {
	const least = time.Second
	out := 0
	for _, name := range []string{c.GeoJSON, c.KML, c.CSV} {
		if name == "-" {
			out++
		}
	}
	switch {
	case c.Columns:
		return nil
	case c.Flight == "":
		return errors.New("FLIGHT is wanted: a record, a shipped flight or a flight file")
	case c.GeoJSON == "" && c.KML == "" && c.CSV == "":
		return errors.New("nothing to write: one of --geojson FILE, --kml FILE and --csv FILE is wanted")
	case out > 1:
		return errors.New("only one file can go to standard output")
	case c.Every < least:
		return fmt.Errorf("--every = %v: must be %v or more", c.Every, least)
	}
	return nil
}
