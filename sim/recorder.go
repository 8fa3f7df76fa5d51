package sim

import (
	"sort"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Tracks are kept each ten seconds and at each turn, set and fix; a line of the
// navigation log at each leg, each action and each half hour of the clock.
const (
	markTicks = 10 * TicksPerSecond
	logEvery  = 30 * time.Minute
)

// TruePoint is one point of the true track and of the true air track.
type TruePoint struct {
	Tick        int64
	Ground, Air units.Position
}

// recorder keeps what was shown and what was true along the way. Its lists only
// grow, or are made anew, so that a part handed out never changes.
type recorder struct {
	to    int64 // ticks recorded
	acts  int64 // commands recorded
	deeds int64 // settings of the counters that a fault had the crew make
	marks []aboard.Mark
	truth []TruePoint
	log   []aboard.Entry
}

func (r *recorder) begin(e *Engine) {
	r.mark(e, aboard.Sample)
}

// boundary records a leg begun and what the crew did between two ticks; an
// action done and recorded before the flight was taken back is not told twice.
func (r *recorder) boundary(e *Engine, h Happened, due []Command) {
	if told := r.acts - (e.state.Commands - int64(len(due))); told > 0 {
		due = due[min(told, int64(len(due))):]
	}
	r.acts = max(r.acts, e.state.Commands)
	if h&BeganLeg != 0 {
		r.mark(e, aboard.LegBegun)
		r.enter(e, aboard.LegBegun, nil)
	}
	for i := range due {
		if due[i].Kind != Act { // the crew's log knows nothing of it
			continue
		}
		event := eventOf(&due[i].Action)
		r.mark(e, event)
		r.enter(e, event, &due[i].Action)
	}
	for ; r.deeds < e.state.Faults.Deeds; r.deeds++ { // the crew think nothing of it and log it as any other
		r.mark(e, aboard.CountersSet)
		r.enter(e, aboard.CountersSet, &aboard.Action{Kind: aboard.SetCounters, Position: wrapped(units.Position(e.state.Mechanism.AirPosition()))})
	}
}

// flown records what a tick brought about.
func (r *recorder) flown(e *Engine, h Happened) {
	tick := e.state.Tick
	r.to = tick
	switch {
	case h&EndedFlight != 0:
		r.mark(e, aboard.FlightEnded)
		r.enter(e, aboard.FlightEnded, nil)
		return
	case h&EndedTurn != 0:
		r.mark(e, aboard.TurnEnded)
	case tick%markTicks == 0:
		r.mark(e, aboard.Sample)
	}
	if now := e.clock(tick); tick%TicksPerSecond == 0 && now.Truncate(logEvery).Equal(now) {
		r.enter(e, aboard.Sample, nil)
	}
}

func eventOf(a *aboard.Action) aboard.Event {
	switch a.Kind {
	case aboard.SetWind:
		return aboard.WindSet
	case aboard.SetVariation, aboard.FollowField:
		return aboard.VarSet
	case aboard.AlternateStatic, aboard.Resynchronise:
		return aboard.Acted
	case aboard.TakeAid:
		return aboard.Observed
	default:
		return aboard.CountersSet
	}
}

func (e *Engine) clock(tick int64) time.Time { return e.course.plan.Start.Add(TimeOf(tick)) }

func (r *recorder) mark(e *Engine, event aboard.Event) {
	s := &e.state
	m := &s.Mechanism
	r.marks = append(r.marks, aboard.Mark{
		Elapsed: TimeOf(s.Tick),
		Air:     m.AirPosition(),
		Ground:  m.GroundPosition(&e.course.plan.Mechanism),
		Event:   event,
	})
	r.truth = append(r.truth, TruePoint{s.Tick, s.World.Ground.Position(), s.World.Air.Position()})
}

// enter writes a line of the log. At a leg the heading is the one ordered.
func (r *recorder) enter(e *Engine, event aboard.Event, a *aboard.Action) {
	s := &e.state
	m := &s.Mechanism
	in := s.Sensed.Air
	heading := m.Repeater
	if event == aboard.LegBegun {
		heading = s.orderedHeading()
	}
	entry := aboard.Entry{
		Elapsed: TimeOf(s.Tick), Event: event,
		Heading: heading, Magnetic: heading.Magnetic(m.Setter()), Compass: s.Senses.Compass, Variation: m.Setter(),
		TAS: m.TAS(), IAS: isa.CAS(in.Pitot - in.Static),
		Height: isa.PressureAltitude(in.Static), OAT: in.Temperature,
		Wind: m.Ground.Setting(), AirMiles: m.AirMiles(),
		Air: m.AirPosition(), Ground: m.GroundPosition(&e.course.plan.Mechanism),
		Leg: int(s.Leg.Index),
	}
	if a != nil {
		entry.Action = *a
		if a.Kind == aboard.TakeAid {
			entry.Action.Reading = e.entered(a.Reading)
		}
	}
	r.log = append(r.log, entry)
}

// orderedHeading is the order as the repeater will show it.
func (s *State) orderedHeading() units.TrueHeading {
	order := s.World.Aircraft.Orders.Heading
	if s.Leg.Frame == HeadingMagnetic || s.Leg.Frame == HeadingCompass {
		order += units.Angle(s.Mechanism.Setter())
	}
	return units.TrueHeading(units.Wrap(order))
}

// forgetAfter drops what was recorded beyond the present moment of the engine.
// Of its own tick stay what the last tick brought about and the actions applied
// already; a leg begins, and other actions are done, when it flies on from here.
func (r *recorder) forgetAfter(e *Engine) {
	t, applied := TimeOf(e.state.Tick), e.appliedNow()
	r.to, r.acts, r.deeds = e.state.Tick, e.state.Commands, e.state.Faults.Deeds
	marks, log := len(r.marks), len(r.log)
	for marks > 0 && r.marks[marks-1].Elapsed > t {
		marks--
	}
	for log > 0 && r.log[log-1].Elapsed > t {
		log--
	}
	n := kept(marks, applied, func(i int) (bool, aboard.Event) { return r.marks[i].Elapsed == t, r.marks[i].Event })
	r.marks, r.truth = cut(r.marks, n), cut(r.truth, n)
	r.log = cut(r.log, kept(log, applied, func(i int) (bool, aboard.Event) { return r.log[i].Elapsed == t, r.log[i].Event }))
}

// kept is how many of the first n records stay: those of earlier ticks, and of
// this one those up to its first leg begun or action not applied.
func kept(n, applied int, record func(i int) (now bool, event aboard.Event)) int {
	first := n
	for first > 0 {
		if now, _ := record(first - 1); !now {
			break
		}
		first--
	}
	for i := first; i < n; i++ {
		switch _, event := record(i); event {
		case aboard.LegBegun:
			return i
		case aboard.WindSet, aboard.VarSet, aboard.CountersSet, aboard.Acted, aboard.Observed:
			if applied == 0 {
				return i
			}
			applied--
		}
	}
	return n
}

// cut is the first n of a list, made anew if it was longer.
func cut[T any](list []T, n int) []T {
	if n == len(list) {
		return list
	}
	return append([]T(nil), list[:n]...)
}

func (r *recorder) logTo(t time.Duration) []aboard.Entry {
	n := sort.Search(len(r.log), func(i int) bool { return r.log[i].Elapsed > t })
	return r.log[:n:n]
}
