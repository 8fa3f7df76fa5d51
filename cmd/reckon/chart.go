package main

import (
	"io"

	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// writeChart draws the chart sheet of a flight as flown so far.
func writeChart(name string, e *sim.Engine) error {
	return draw(name, func(out io.Writer, f paint.Format) error {
		view := e.View()
		sheet, err := atlas.SheetOf(e.Plan(), &view, true)
		if err != nil {
			return err
		}
		w, h := picture.SheetSize(atlas.SheetPixels)
		return paint.Export(out, f, w, h, sheet.Title, func(s paint.Surface) { picture.ChartSheet(s, float64(w), float64(h), sheet) })
	})
}

// writeWorks draws the mechanism of a flight at its last moment; revealed, with
// all that is wrong.
func writeWorks(name string, e *sim.Engine, revealed bool) error {
	return draw(name, func(out io.Writer, f paint.Format) error {
		view := e.View()
		story := chain.Story{View: &view, Now: e.Works(), Mechanism: e.Plan().Mechanism, Held: e.Held()}
		var truth *picture.Truth
		if revealed {
			right := e.TrueWorks()
			story.Truth, story.Faults = &right, e.Faults()
			truth = atlas.TruthOf(e.Snapshot(), e.TrueTrack())
		}
		return chain.WritePage(out, f, e.Plan(), &story, truth)
	})
}

// draw writes a picture in the format that the ending of its name says.
func draw(name string, write func(io.Writer, paint.Format) error) error {
	format, err := paint.FormatOf(name)
	if err != nil {
		return err
	}
	return toFile(name, func(w io.Writer) error { return write(w, format) })
}
