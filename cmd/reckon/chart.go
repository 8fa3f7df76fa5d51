package main

import (
	"io"
	"path/filepath"
	"strings"

	"stillair/gui/atlas"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// chartWriters draw the chart by the ending of the file's name.
var chartWriters = map[string]func(io.Writer, *sim.Engine) error{
	".png": sheetIn(paint.PNG), ".svg": sheetIn(paint.SVGFile), ".pdf": sheetIn(paint.PDFFile),
}

func writeChart(name string, e *sim.Engine) error {
	draw := chartWriters[strings.ToLower(filepath.Ext(name))]
	return toFile(name, func(w io.Writer) error { return draw(w, e) })
}

// sheetIn draws the chart sheet of a flight as flown so far.
func sheetIn(f paint.Format) func(io.Writer, *sim.Engine) error {
	return func(out io.Writer, e *sim.Engine) error {
		view := e.View()
		sheet, err := atlas.SheetOf(e.Plan(), &view, true)
		if err != nil {
			return err
		}
		w, h := picture.SheetSize(atlas.SheetPixels)
		return paint.Export(out, f, w, h, sheet.Title, func(s paint.Surface) { picture.ChartSheet(s, float64(w), float64(h), sheet) })
	}
}
