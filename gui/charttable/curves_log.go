package charttable

import (
	"time"

	"stillair/gui/overlay"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// logged is a reading of the log that the overlay can use.
type logged struct {
	reading *aboard.Reading
	at      time.Duration // for which it is good
	body    sky.Body
}

// fresh is how old a reading of the log may be: what was read longer ago is no
// longer brought on to a later one.
const fresh = time.Hour

// fromLog are the newest readings of two different sources, the older first; less
// than two if the log has no more.
func (c *curves) fromLog() (all []logged) {
	v := &c.table.moment.View
	for i := len(v.Log) - 1; i >= 0 && len(all) < 2; i-- {
		e := &v.Log[i]
		r := &e.Action.Reading
		if e.Action.Kind != aboard.TakeAid || r.Missing != aboard.Had {
			continue
		}
		l := logged{reading: r, at: e.Elapsed - r.Before}
		if v.Elapsed-l.at > fresh || !c.usable(&l) || len(all) == 1 && all[0].reading.Source == r.Source {
			continue
		}
		all = append([]logged{l}, all...)
	}
	return all
}

// usable says whether a reading belongs to the overlay that lies there.
func (c *curves) usable(l *logged) bool {
	switch {
	case c.kind == pulseLattice:
		return l.reading.Aid == aboard.PulseReceiver && (l.reading.Source == c.chain[1].Name || l.reading.Source == c.chain[2].Name)
	case l.reading.Aid != aboard.Sextant:
		return false
	}
	b, err := sky.Lookup(l.reading.Source)
	l.body = b
	return err == nil && b.IsStar()
}

// takeLog takes the newest readings of the log, both brought to the time of the
// later: by what they would have changed by meanwhile where the ground position
// shown was.
func (c *curves) takeLog() {
	all := c.fromLog()
	if len(all) == 0 {
		return
	}
	v := &c.table.moment.View
	to := all[len(all)-1].at
	start := v.Clock.Add(-v.Elapsed)
	if c.kind == pulseLattice {
		for i := range all {
			c.takeDelay(&all[i], to)
		}
		c.delaysAt = start.Add(to).Round(time.Second)
		c.again()
		return
	}
	c.held = start.Add(to).Round(time.Second)
	if len(all) == 2 {
		c.pair = [2]sky.Body{all[0].body, all[1].body}
	}
	for i := range all {
		c.takeAltitude(&all[i], start, to)
	}
	c.again()
}

func (c *curves) takeAltitude(l *logged, start time.Time, to time.Duration) {
	k := c.known()
	a := sight.Lifted(l.reading.Observed, k.Thin).Minutes() // with refraction, as the curves have it
	then, now := k, k
	then.Time, now.Time = start.Add(l.at), start.Add(to).Round(time.Second)
	if p, q, ok := c.ran(l.at, to); ok {
		a += now.Altitude(l.body, q) - then.Altitude(l.body, p)
	}
	c.altitudes[l.body] = overlay.ReadAt(tenthOf(a))
}

func (c *curves) takeDelay(l *logged, to time.Duration) {
	td := l.reading.Delay
	pair := airplot.ChainPair(l.reading.Master, l.reading.At)
	if p, q, ok := c.ran(l.at, to); ok {
		td += (pair.At(q) - pair.At(p)).Microseconds()
	}
	i := 0
	if l.reading.Source == c.chain[2].Name {
		i = 1
	}
	c.delays[i] = overlay.ReadAt(tenthOf(td))
}

// ran is where the ground position shown stood at two times; ok is false if the
// counters were set in between.
func (c *curves) ran(from, to time.Duration) (p, q units.Position, ok bool) {
	v := &c.table.moment.View
	a, known := plottedAt(v, from)
	b, also := plottedAt(v, to)
	same := from-a.since == to-b.since
	return units.Position(a.ground), units.Position(b.ground), known && also && same
}
