package airplot

import (
	"sort"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Traces reads the recorded plot between its marks. A setting of the counters is a
// break in it, which is no movement: what was flown in the seconds before it, since
// the mark before, is taken at the speed of then.
type Traces []aboard.Mark

// AirAt is the air position shown at a time, before the counters are set then, GroundAt
// the ground position.
func (t Traces) AirAt(when time.Duration) units.AirPosition {
	return units.AirPosition(t.at(when, airOf))
}

// GroundAt is the ground position shown at a time.
func (t Traces) GroundAt(when time.Duration) units.GroundPosition {
	return units.GroundPosition(t.at(when, groundOf))
}

// SetBefore is when the counters were last set before a time, SetBy before it or at it;
// 0 if never.
func (t Traces) SetBefore(when time.Duration) time.Duration {
	return t.lastSet(func(at time.Duration) bool { return at < when })
}

// SetBy is SetBefore with the time itself.
func (t Traces) SetBy(when time.Duration) time.Duration {
	return t.lastSet(func(at time.Duration) bool { return at <= when })
}

func (t Traces) lastSet(counts func(time.Duration) bool) (last time.Duration) {
	for _, m := range t {
		if m.Event == aboard.CountersSet && counts(m.Elapsed) {
			last = m.Elapsed
		}
	}
	return last
}

// AirRun is what the air plot ran between two times, GroundRun the ground track: over
// settings of the counters, which move nothing. Back in time it is the reverse.
func (t Traces) AirRun(from, to time.Duration) Run { return t.run(from, to, airOf) }

// GroundRun is what the ground position ran between two times.
func (t Traces) GroundRun(from, to time.Duration) Run { return t.run(from, to, groundOf) }

func airOf(m aboard.Mark) units.Position    { return units.Position(m.Air) }
func groundOf(m aboard.Mark) units.Position { return units.Position(m.Ground) }

// after is the first mark after a time; the counters are set after all else that is at
// the same time.
func (t Traces) after(when time.Duration) int {
	i := sort.Search(len(t), func(i int) bool { return t[i].Elapsed > when })
	for k := i - 1; k >= 0 && t[k].Elapsed == when; k-- {
		if t[k].Event == aboard.CountersSet {
			i = k
		}
	}
	return i
}

// at is a position at a time: between marks, or on from the last one.
func (t Traces) at(when time.Duration, of func(aboard.Mark) units.Position) units.Position {
	i := t.after(when)
	if i == 0 {
		if len(t) == 0 {
			return nowhere
		}
		return of(t[0])
	}
	step, last := t.speed(i, of), t[i-1]
	p, err := geodesy.RhumbDirect(of(last), step.direction(), units.Length(step.size()*(when-last.Elapsed).Seconds()))
	if err != nil {
		return of(last)
	}
	return p
}

// speed is that from mark i-1 on to mark i, metres a second; where there is a break,
// or no mark any more, that before.
func (t Traces) speed(i int, of func(aboard.Mark) units.Position) vector {
	for _, k := range []int{i, i - 1, i - 2} {
		if k < 1 || k >= len(t) || t[k].Event == aboard.CountersSet {
			continue
		}
		if dt := (t[k].Elapsed - t[k-1].Elapsed).Seconds(); dt > 0 {
			course, d := geodesy.RhumbInverse(of(t[k-1]), of(t[k]))
			return toward(course, d.Metres()/dt)
		}
	}
	return vector{}
}

// run adds up what was run from mark to mark.
func (t Traces) run(from, to time.Duration, of func(aboard.Mark) units.Position) Run {
	if to < from {
		r := t.run(to, from, of)
		r.Distance = -r.Distance
		return r
	}
	began := t.at(from, of)
	at := began
	for i := t.after(from); from < to; i++ {
		end := to
		if i < len(t) {
			end = min(to, t[i].Elapsed)
		}
		v := t.speed(i, of)
		if p, err := geodesy.RhumbDirect(at, v.direction(), units.Length(v.size()*(end-from).Seconds())); err == nil {
			at = p
		}
		from = end
	}
	course, d := geodesy.RhumbInverse(began, at)
	return Run{course, d}
}
