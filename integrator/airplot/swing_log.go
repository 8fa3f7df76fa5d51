package airplot

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// HeadingCheck is a heading check in the log as a reading of a swing: what the compass
// read, and the deviation that the check found with the variation set.
type HeadingCheck struct {
	At        time.Duration
	Source    string
	True      units.TrueHeading
	Variation units.Variation
	Compass   units.CompassHeading
	Deviation units.Deviation
}

// HeadingChecks are those of a log, oldest first; without those that failed.
func HeadingChecks(log []aboard.Entry) (all []HeadingCheck) {
	for i := range log {
		e := &log[i]
		r := &e.Action.Reading
		if e.Event != aboard.Observed || r.Aid != aboard.HeadingCheck || r.Missing != aboard.Had {
			continue
		}
		heading := units.TrueHeading(r.Angle)
		all = append(all, HeadingCheck{
			e.Elapsed, r.Source, heading, e.Variation, e.Compass, DeviationFound(heading, e.Variation, e.Compass),
		})
	}
	return all
}

// SwingReadings are heading checks as Swing takes them.
func SwingReadings(checks []HeadingCheck) []Reading {
	all := make([]Reading, len(checks))
	for i, c := range checks {
		all[i] = Reading{units.Angle(c.Compass), units.Angle(c.Deviation)}
	}
	return all
}

// Headings counts the headings that readings were taken on, taken for one where they lie
// within so much of one another.
func Headings(readings []Reading, within units.Angle) (n int) {
	var heads []units.Angle
next:
	for _, r := range readings {
		for _, h := range heads {
			if d := units.WrapHalf(r.On - h); d < within && d > -within {
				continue next
			}
		}
		heads = append(heads, r.On)
	}
	return len(heads)
}
