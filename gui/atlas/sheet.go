package atlas

import (
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// SheetPixels is the width of a chart sheet in pixels: A4 at 150 to the inch.
const SheetPixels = 1754

// SheetOf is the chart of a flight as the crew has it at a moment, on a page of
// its own. Without its plan nothing is on it that is still to come.
func SheetOf(p *sim.Plan, v *aboard.View, planned bool) (picture.Sheet, error) {
	plot := picture.PlotOf(v)
	waters, err := Of(p, plot.Tracks()...)
	if err != nil {
		return picture.Sheet{}, err
	}
	facts := picture.FactsOf(&plot, v.WindSet, v.AirLog)
	if planned {
		plot.Required = Required(p)
		facts = append(facts, picture.TurningPoints(plot.Required)...)
	}
	return picture.Sheet{
		Title:  p.Title,
		Line:   units.DateText(p.Start) + ", " + units.TimeText(p.Start) + " to " + units.TimeText(v.Clock),
		Ground: picture.NewGround(waters), Plot: plot, Facts: facts,
	}, nil
}
