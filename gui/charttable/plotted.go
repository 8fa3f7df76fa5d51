package charttable

import (
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// Plotted is what the navigator has plotted on the chart: position lines and what they
// give.
type Plotted struct {
	Lines   []picture.Line
	Fixes   []picture.Fix
	Hat     []units.Position
	Ellipse *picture.Ellipse
	Version int // another one for other contents
}

// Plot lays on the chart what the navigator has plotted.
func (t *Table) Plot(p Plotted) { t.plotted = p }
