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
	at, slewed := lastSet(v)
	course, gap := geodesy.RhumbInverse(units.Position(v.Air), units.Position(v.Ground))
	if gap.NM() < 0.05 {
		return look.Textf(look.WhyTogether, v.WindSet.String())
	}
	if slewed {
		return look.Textf(look.WhySlewed, units.Figure(gap.NM(), 1), units.TrueText(course), v.WindSet.String())
	}
	return look.Textf(look.WhyDrift, spell(v.Elapsed-at),
		units.Figure(gap.NM(), 1), units.TrueText(course), v.WindSet.String())
}

// lastSet is when the counters were last set, and whether they have been slewed
// or their sense turned since: the gap is then not the wind's alone.
func lastSet(v *aboard.View) (at time.Duration, slewed bool) {
	for i := len(v.Log) - 1; i >= 0; i-- {
		switch v.Log[i].Action.Kind {
		case aboard.SetCounters:
			return v.Log[i].Elapsed, slewed
		case aboard.SlewLatitude, aboard.SlewLongitude, aboard.SetLongitudeLever:
			slewed = true
		}
	}
	return 0, slewed
}

// spell writes a time in whole minutes, as "8 min" or "1 h 20 min".
func spell(d time.Duration) string {
	m := int(d / time.Minute)
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}
