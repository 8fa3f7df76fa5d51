package charttable

import (
	"sort"
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

// isPut says whether the fix of what was worked is kept on the chart.
func (c *curves) isPut(d *curvesDone) bool {
	if len(d.crossings) != 1 {
		return false
	}
	for _, p := range c.puts {
		if p.at == d.crossings[0].At && p.time.Unix() == d.time {
			return true
		}
	}
	return false
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
	then, known := plottedAt(v, elapsed)
	if known {
		p.air, p.since = then.air, then.since
		if w, err := airplot.WindFound(p.air, units.GroundPosition(at), p.since); err == nil && p.since >= leastPlot {
			p.wind = &w
		}
	}
	if c.isPut(c.job.done) {
		return
	}
	c.puts = append(c.puts, p)
	c.table.Offer(c.runOn(p, then.ground, known && !then.closed))
	c.card.apply()
	c.table.chart.Repaint()
}

// leastPlot is the time after which an air plot gives a wind: before, the errors of
// a fix are more than the wind's way (common practice, no source).
const leastPlot = 5 * time.Minute

// runOn is a fix as a place to set the counters to: moved on by what the ground
// position shown has run since; as it is if that is not known, for the counters were
// set in between.
func (c *curves) runOn(p put, ground units.GroundPosition, known bool) Place {
	if !known {
		return Fixed(look.Textf(look.FixAt, units.TimeText(p.time)), p.at)
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

// plotted is where air and ground position stood at a time of the flight.
type plotted struct {
	air    units.AirPosition
	ground units.GroundPosition
	since  time.Duration // how long the air plot had run
	closed bool          // the counters have been set since
}

// plottedAt is what the plot shows of a time; ok is false before it began and in the
// time to come.
func plottedAt(v *aboard.View, at time.Duration) (p plotted, ok bool) {
	if at < 0 || at > v.Elapsed || len(v.Marks) == 0 {
		return p, false
	}
	begun, end := 0, len(v.Marks)
	for i := range v.Marks {
		if m := &v.Marks[i]; m.Event == aboard.CountersSet && m.Elapsed > 0 {
			if m.Elapsed > at {
				end, p.closed = i, true
				break
			}
			begun = i
		}
	}
	all := v.Marks[begun:end:end]
	if !p.closed {
		all = append(all, aboard.Mark{Elapsed: v.Elapsed, Air: v.Air, Ground: v.Ground})
	}
	p.since = at - all[0].Elapsed
	p.air, p.ground = along(all, at)
	return p, true
}

// along is where the positions stood between two marks, or, after the last one, where
// they were going.
func along(all []aboard.Mark, at time.Duration) (units.AirPosition, units.GroundPosition) {
	j := sort.Search(len(all), func(i int) bool { return all[i].Elapsed >= at })
	j = min(max(j, 1), len(all)-1)
	if j < 1 || all[j].Elapsed == all[j-1].Elapsed {
		return all[j].Air, all[j].Ground
	}
	a, b := &all[j-1], &all[j]
	k := float64(at-a.Elapsed) / float64(b.Elapsed-a.Elapsed)
	return units.AirPosition(between2(units.Position(a.Air), units.Position(b.Air), k)),
		units.GroundPosition(between2(units.Position(a.Ground), units.Position(b.Ground), k))
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
