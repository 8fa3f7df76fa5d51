package overlay

import (
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Believable is how far from where the crew believe to be a second place that fits
// the readings is still one to choose from (common practice has none; a day without
// a fix).
const Believable = 150 * units.NM

// Likely are the fixes to choose from: the nearest, and another if it lies within
// Believable of where the crew believe to be.
func Likely(near units.Position, fixes []airplot.Fix) []airplot.Fix {
	if len(fixes) < 2 {
		return fixes
	}
	if _, d := geodesy.RhumbInverse(near, fixes[1].Position); d > Believable {
		return fixes[:1]
	}
	return fixes
}
