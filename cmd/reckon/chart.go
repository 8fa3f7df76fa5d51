package main

import (
	"io"
	"path/filepath"
	"strings"

	"stillair/gui/atlas"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// chartPixels is the width of the chart sheet in pixels: A4 at 150 to the inch.
const chartPixels = 1754

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
		view, plan := e.View(), e.Plan()
		plot := picture.PlotOf(&view)
		plot.Required = atlas.Required(plan)
		waters, err := atlas.Of(plan, plot.Tracks()...)
		if err != nil {
			return err
		}
		sheet := picture.Sheet{
			Title:  plan.Title,
			Line:   units.DateText(plan.Start) + ", " + units.TimeText(plan.Start) + " to " + units.TimeText(view.Clock),
			Ground: picture.NewGround(waters), Plot: plot,
			Facts: append(picture.FactsOf(&plot, view.WindSet, view.AirLog), picture.TurningPoints(plot.Required)...),
		}
		w, h := picture.SheetSize(chartPixels)
		return paint.Export(out, f, w, h, plan.Title, func(s paint.Surface) { picture.ChartSheet(s, float64(w), float64(h), sheet) })
	}
}
