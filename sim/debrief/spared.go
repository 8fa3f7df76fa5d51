package debrief

import "stillair/sim"

// spare flies along what the flight would have been if only one link had been right,
// for each of them.
type spare struct {
	chain
	out [stages]*variant // nil: as whole, for there was nothing wrong in it
}

// IfOnly is, for each link in which something was wrong, the error that would have
// been left if this one alone had been right, of the ground and of the air position.
// What the crew's resets and hands added stays as it was; without these it is the
// error of all else.
func IfOnly(e *sim.Engine) (ground, air []Line) {
	s := &spare{chain: chain{plan: e.Plan()}}
	e.Retrace(s.begin, func(now *sim.State, changed bool) {
		s.between(now, changed)
		if now.Tick >= e.Tick() {
			ground, air = s.lines(now, groundOf), s.lines(now, airOf)
		}
	}, func(now *sim.State) {
		s.all(func(v *variant) { v.step(now, 1.0/sim.TicksPerSecond) })
	})
	return ground, air
}

func (s *spare) all(do func(*variant)) {
	do(s.whole)
	for _, v := range s.out {
		if v != nil {
			do(v)
		}
	}
}

func (s *spare) between(now *sim.State, changed bool) {
	if s.whole == nil {
		s.whole = begin(upTo(clock), &s.first, s.plan)
	}
	if since := now.World.Run.Since; since != s.since {
		s.since = since
		s.all(func(v *variant) { v.mech.SetCounters(now.World.Ground.Position()) })
	}
	for x := static; x < crew; x++ {
		if without := upTo(clock) &^ (1 << x); s.out[x] == nil && differs(without, upTo(clock), now, s.plan) {
			s.out[x] = s.clone(without, s.whole, now)
		}
	}
	s.all(func(v *variant) { v.bring(now, changed) })
}

func (s *spare) lines(now *sim.State, of func(sim.Errors) sim.Offset) (all []Line) {
	whole, flown := of(s.whole.errors(now)), of(flightErrors(now, s.plan))
	added := minus(flown, whole)
	for x := static; x < crew; x++ {
		if v := s.out[x]; v != nil {
			all = append(all, Line{ids[x], names[x], plus(of(v.errors(now)), added)})
		}
	}
	if added != (sim.Offset{}) {
		all = append(all, Line{ids[crew], names[crew], whole})
	}
	return all
}
