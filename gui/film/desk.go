package film

import (
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
	"stillair/sim"
)

// desk is the navigator's: it works each reading as it comes into the log.
type desk struct {
	book plotting.Book
	now  plotting.Marks
	tick int64
	done bool
}

// work brings the desk up to a moment; where the film goes back it begins anew.
func (d *desk) work(m *Moment) plotting.Marks {
	if m.Tick < d.tick {
		*d = desk{}
	}
	d.tick = m.Tick
	if d.book.Take(&m.View, 0, nil) || !d.done {
		d.now, d.done = d.book.Chart(&m.View), true
	}
	return d.now
}

// keyOf are the rows of the key of a flight flown to its end: they explain whatever
// comes onto the chart on the way.
func keyOf(e *sim.Engine, end *picture.Plot) []picture.KeyRow {
	all := *end
	tick := e.Tick()
	defer e.GoTo(tick)
	var d desk
	for _, entry := range e.View().Log {
		if entry.Event != aboard.Observed {
			continue
		}
		e.GoTo(sim.TicksOf(entry.Elapsed))
		marks := d.work(&Moment{Shot: Shot{Tick: e.Tick()}, View: e.View()})
		all.Lines, all.Fixes = append(all.Lines, marks.Lines...), append(all.Fixes, marks.Fixes...)
	}
	return all.Rows()
}
