package charttable

import (
	"time"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// markKind is what happened at a mark of the time line.
type markKind uint8

const (
	countersMark markKind = iota
	windMark
	variationMark
	leverMark
	slewMark
	otherMark
	brokenMark
	mendedMark
)

// mark is a thing done, or to be done, at a tick.
type mark struct {
	tick  int64
	kind  markKind
	words string
	value string // what was set, where the words have no room and the symbol says the rest
	ahead bool   // not yet, as the clock stands
}

// act is an action at its tick.
type act struct {
	tick   int64
	action aboard.Action
}

// past remembers the log up to the furthest time flown, for what lies between
// now and there when the flight has been taken back.
type past struct {
	log      []aboard.Entry
	tick     int64
	frontier int64
}

// note takes a moment in: the log grows with the clock and is cut where the
// crew has acted after going back.
func (p *past) note(m *helm.Moment) {
	if m.View.Tick >= p.tick || m.Frontier < p.frontier {
		p.log, p.tick = m.View.Log, m.View.Tick
	}
	p.frontier = m.Frontier
}

// marksOf are the marks of a flight by time: what the crew has done, what they
// did later before the flight was taken back, what the plan still has in store,
// and, for those who may know, what broke. hide leaves out all that is ahead.
func marksOf(p *past, m *helm.Moment, plan *sim.Plan, hide bool) []mark {
	all := []mark{{kind: countersMark, words: look.Text(look.MarkCounters)}}
	done := map[act]bool{}
	for _, e := range p.log {
		if e.Action.Kind != 0 {
			tick := sim.TicksOf(e.Elapsed)
			done[act{tick, e.Action}] = true
			all = append(all, markOf(tick, &e.Action, tick > m.View.Tick))
		}
	}
	for i := range plan.Crew {
		c := &plan.Crew[i]
		if len(plan.Lessons) > 0 { // in a lesson that would be the answer
			break
		}
		if c.Action.Kind != 0 && c.Tick >= p.tick && !done[act{c.Tick, c.Action}] {
			all = append(all, markOf(c.Tick, &c.Action, true))
		}
	}
	all = append(all, breaksOf(m)...)
	kept := all[:0]
	for _, k := range all {
		if !k.ahead || !hide {
			kept = append(kept, k)
		}
	}
	return byTime(kept)
}

// breaksOf are the faults, which nobody sees who has not asked for the truth.
func breaksOf(m *helm.Moment) (all []mark) {
	if m.Revealed == nil {
		return nil
	}
	for _, b := range m.Revealed.Breaks {
		kind := brokenMark
		if b.Mended {
			kind = mendedMark
		}
		all = append(all, mark{tick: b.Tick, kind: kind, words: b.Words, ahead: b.Tick > m.View.Tick})
	}
	return all
}

// markOf is the mark of an action, with its words.
func markOf(tick int64, a *aboard.Action, ahead bool) mark {
	m := mark{tick: tick, kind: otherMark, ahead: ahead}
	switch a.Kind {
	case aboard.SetCounters:
		m.kind, m.words = countersMark, look.Text(look.MarkCounters)
	case aboard.SetWind:
		m.kind, m.value = windMark, a.Wind.String()
		m.words = look.Textf(look.MarkWind, m.value)
	case aboard.SetVariation:
		m.kind, m.value = variationMark, a.Variation.Tenths()
		m.words = look.Textf(look.MarkVariation, m.value)
	case aboard.FollowField:
		m.kind, m.words = variationMark, look.Text(look.MarkField)
	case aboard.SetLongitudeLever:
		side := look.West
		if a.East {
			side = look.East
		}
		m.kind, m.words = leverMark, look.Textf(look.MarkLever, look.Text(side))
	case aboard.SlewLatitude:
		m.kind, m.words = slewMark, look.Text(look.MarkSlewLatitude)
	case aboard.SlewLongitude:
		m.kind, m.words = slewMark, look.Text(look.MarkSlewLongitude)
	case aboard.AlternateStatic:
		m.words = look.Text(look.MarkStaticNormal)
		if a.On {
			m.words = look.Text(look.MarkStaticAlternate)
		}
	case aboard.TakeAid:
		m.words = a.Reading.Aim.String()
	default:
		m.words = look.Text(look.MarkOther)
	}
	return m
}

// told is what a mark says when it is pointed at.
func (m *mark) told(start time.Time) string {
	when := units.TimeText(start.Add(sim.TimeOf(m.tick)))
	if m.ahead {
		return look.Textf(look.MarkAhead, when, m.words)
	}
	return look.Textf(look.MarkTold, when, m.words)
}
