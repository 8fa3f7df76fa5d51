package charttable

import (
	"fmt"
	"time"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// why says in a sentence why the two positions have parted, from what the crew
// can see alone.
func why(v *aboard.View) string {
	if v.WindSet.Speed == 0 && units.Position(v.Air) == units.Position(v.Ground) {
		return look.Text(look.WhyStill)
	}
	course, gap := geodesy.RhumbInverse(units.Position(v.Air), units.Position(v.Ground))
	return look.Textf(look.WhyDrift, spell(v.Elapsed-sinceSet(v)),
		units.Figure(gap.NM(), 1), units.TrueText(course), v.WindSet.String())
}

// sinceSet is when the counters were last set.
func sinceSet(v *aboard.View) time.Duration {
	for i := len(v.Log) - 1; i >= 0; i-- {
		if v.Log[i].Event == aboard.CountersSet {
			return v.Log[i].Elapsed
		}
	}
	return 0
}

// spell writes a time in whole minutes, as "8 min" or "1 h 20 min".
func spell(d time.Duration) string {
	m := int(d / time.Minute)
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}
