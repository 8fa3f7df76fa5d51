package charttable

import (
	"time"

	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// put is a fix kept on the chart, with the wind found if there was an air plot.
type put struct {
	at    units.Position
	time  time.Time
	air   units.AirPosition
	since time.Duration // from the setting of the counters
	wind  *units.Wind
}

// fix is where the two readings cross; ok is false if they do not, or at two places.
func (c *curves) fix() (at units.Position, when time.Time, ok bool) {
	d := c.job.done
	if d == nil || d.kind != c.kind || d.read != c.reads() {
		return at, when, false
	}
	var all []airplot.Fix
	if d.stars != nil {
		all = overlay.Likely(d.near, d.stars.Fixes)
	} else {
		all = overlay.Likely(d.near, d.lattice.Fixes)
	}
	if len(all) == 0 {
		return at, when, false
	}
	return all[0].Position, time.Unix(d.time, 0).UTC(), true
}

// putFix keeps the fix on the chart, finds the wind and offers the place where the
// counters are set.
func (c *curves) putFix() {
	at, when, ok := c.fix()
	if !ok {
		return
	}
	v := &c.table.moment.View
	elapsed := v.Elapsed - v.Clock.Sub(when)
	p := put{at: at, time: when}
	air, ground, since, known := plottedAt(v, elapsed)
	if known {
		p.air, p.since = air, since
		if w, err := airplot.WindFound(air, units.GroundPosition(at), since); err == nil && since >= leastPlot {
			p.wind = &w
		}
	}
	c.puts = append(c.puts, p)
	c.table.Offer(c.runOn(p, ground, known))
	c.card.apply()
	c.table.chart.Repaint()
}

// leastPlot is the time after which an air plot gives a wind: before, the errors of
// a fix are more than the wind's way (common practice, no source).
const leastPlot = 5 * time.Minute

// runOn is a fix as a place to set the counters to: moved on by what the ground
// position shown has run since.
func (c *curves) runOn(p put, ground units.GroundPosition, known bool) Place {
	name := look.Textf(look.FixAt, units.TimeText(p.time))
	if !known {
		return Fixed(name, p.at)
	}
	return Place{look.Textf(look.FixRunOn, units.TimeText(p.time)), func() units.Position {
		course, run := geodesy.RhumbInverse(units.Position(ground), units.Position(c.table.moment.View.Ground))
		at, err := geodesy.RhumbDirect(p.at, course, run)
		if err != nil { // over a pole
			return p.at
		}
		return at
	}}
}

// plottedAt is where air and ground position stood at a time of the flight, and how
// long the air plot had run; known is false before the plot began, after a later
// setting of the counters, and in the time to come.
func plottedAt(v *aboard.View, at time.Duration) (air units.AirPosition, ground units.GroundPosition, since time.Duration, known bool) {
	if at < 0 || at > v.Elapsed {
		return air, ground, 0, false
	}
	begun := time.Duration(0)
	air, ground = v.Air, v.Ground
	from := v.Elapsed
	for i := len(v.Marks) - 1; i >= 0; i-- {
		m := &v.Marks[i]
		if m.Event == aboard.CountersSet && m.Elapsed > 0 {
			if m.Elapsed > at {
				return air, ground, 0, false
			}
			begun = m.Elapsed
			break
		}
		if m.Elapsed >= at {
			air, ground, from = m.Air, m.Ground, m.Elapsed
			continue
		}
		if from > at { // between two marks
			k := float64(at-m.Elapsed) / float64(from-m.Elapsed)
			air = units.AirPosition(between2(units.Position(m.Air), units.Position(air), k))
			ground = units.GroundPosition(between2(units.Position(m.Ground), units.Position(ground), k))
			from = at
		}
	}
	return air, ground, at - begun, true
}

// between2 is the place a part of the way from one to another, near each other.
func between2(a, b units.Position, k float64) units.Position {
	return units.Position{
		Lat: a.Lat + units.Angle(k)*(b.Lat-a.Lat),
		Lon: units.WrapHalf(a.Lon + units.Angle(k)*units.WrapHalf(b.Lon-a.Lon)),
	}
}

// fixes are the fixes kept, as the plot has them: none that is still to come.
func (c *curves) fixes() (all []picture.Fix) {
	for _, p := range c.puts {
		if p.time.After(c.table.moment.View.Clock) {
			continue
		}
		all = append(all, picture.Fix{At: p.at, Time: p.time, From: p.air, Found: p.wind})
	}
	return all
}
