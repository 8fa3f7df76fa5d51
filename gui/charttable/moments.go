package charttable

import (
	"errors"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/sim"
)

// namedMoment is a moment of the flight file, or one named while showing it.
type namedMoment struct {
	sim.Moment
	own bool // named here
}

// As in a flight file: a digit for each, and a name that fits on a line.
const (
	maxMoments = 9
	maxName    = 60 // characters
)

// merged are the moments of the file and those named here, by time and nine at
// most; where both name one tick, the name given here counts.
func merged(file, own []sim.Moment) []namedMoment {
	var all []namedMoment
	for _, m := range own {
		all = append(all, namedMoment{m, true})
	}
	for _, m := range file {
		if !slices.ContainsFunc(own, func(o sim.Moment) bool { return o.At == m.At }) {
			all = append(all, namedMoment{m, false})
		}
	}
	slices.SortStableFunc(all, func(a, b namedMoment) int { return int(max(-1, min(1, a.At-b.At))) })
	return all[:min(len(all), maxMoments)]
}

func ownOf(all []namedMoment) (own []sim.Moment) {
	for _, m := range all {
		if m.own {
			own = append(own, m.Moment)
		}
	}
	return own
}

// GoToMoment goes to the n-th named moment, from 1, and stops there; one not
// yet flown is flown to.
func (t *Table) GoToMoment(n int) {
	if n >= 1 && n <= len(t.strip.moments) {
		t.helm.GoTo(t.strip.moments[n-1].At)
	}
}

// stops are where a clicker stops: the moments, or if there are none the
// beginnings of the legs.
func (s *strip) stops() (ticks []int64) {
	for _, m := range s.moments {
		ticks = append(ticks, m.At)
	}
	if len(ticks) == 0 {
		for _, leg := range s.legs() {
			ticks = append(ticks, leg.From)
		}
	}
	return ticks
}

// NextMoment goes on to the next named moment, or the next leg's begin if there
// are no moments, and stops there. Pressed twice it goes two on, however long
// the flight there takes.
func (t *Table) NextMoment() {
	now := t.helm.Aim()
	for _, at := range t.strip.stops() {
		if at > now {
			t.helm.GoTo(at)
			return
		}
	}
}

// PreviousMoment goes back to the moment before, or to the start.
func (t *Table) PreviousMoment() {
	now, to := t.helm.Aim(), int64(0)
	for _, at := range t.strip.stops() {
		if at < now {
			to = at
		}
	}
	t.helm.GoTo(to)
}

// NameMoment asks for a name for the present time. The name of a moment given
// here before may be changed, or taken away by leaving nothing.
func (t *Table) NameMoment() {
	tick, now := t.helm.Aim(), ""
	for _, m := range t.strip.moments {
		if m.At == tick {
			now = m.Name
		}
	}
	when := units.TimeText(t.plan.Start.Add(sim.TimeOf(tick)))
	kit.Ask(t.canvas(), t.screen, look.Textf(look.MomentAsk, when), look.Text(look.MomentAskHint), now,
		func(name string) error { return t.strip.nameMoment(tick, name) })
}

// nameMoment keeps a moment under a name; an empty one takes away what was
// named here at that tick.
func (s *strip) nameMoment(tick int64, name string) error {
	name = strings.TrimSpace(name)
	if utf8.RuneCountInString(name) > maxName || strings.ContainsFunc(name, unicode.IsControl) {
		return errors.New(look.Textf(look.MomentTooLong, maxName))
	}
	own := slices.DeleteFunc(ownOf(s.moments), func(m sim.Moment) bool { return m.At == tick })
	if name != "" && !slices.Contains(s.table.plan.Moments, sim.Moment{At: tick, Name: name}) {
		if !slices.ContainsFunc(s.moments, func(m namedMoment) bool { return m.At == tick }) && len(s.moments) == maxMoments {
			return errors.New(look.Textf(look.MomentsFull, maxMoments))
		}
		own = append(own, sim.Moment{At: tick, Name: name})
	}
	s.moments = merged(s.table.plan.Moments, own)
	s.store.write(ownOf(s.moments))
	s.line.apply()
	return nil
}

// Moments are the named moments, by time.
func (t *Table) Moments() (all []sim.Moment) {
	for _, m := range t.strip.moments {
		all = append(all, m.Moment)
	}
	return all
}
