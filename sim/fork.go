package sim

import "slices"

// Fork is an engine of its own at the same tick and in the same state. It
// shares only what never changes (the plan, the field, the weather, and parts
// of the record already made): what is done to one leaves the other alone.
func (e *Engine) Fork() *Engine {
	f := *e // the state and the course hold nothing that is changed in place
	f.commands, f.own = slices.Clone(e.commands), slices.Clone(e.own)
	f.frames = slices.Clip(e.frames)
	f.course.faults = slices.Clone(e.course.faults)
	r := &f.recorder
	r.marks, r.truth, r.log = slices.Clip(r.marks), slices.Clip(r.truth), slices.Clip(r.log)
	return &f
}

// Retrace flies the flight again from its start to now, on a copy, and shows each
// state: as it begins, before anything is taken up; between two ticks, once commands, faults and a new leg are taken up
// (changed says whether anything came of that), and at the end of each tick. What
// is shown is not to be changed.
func (e *Engine) Retrace(begin func(s *State), between func(s *State, changed bool), after func(s *State)) {
	c, s := &e.course, e.frames[0]
	begin(&s)
	rest := e.commands
	for {
		n := 0
		for n < len(rest) && rest[n].Tick <= s.Tick && s.Commands+int64(n) < e.state.Commands {
			n++
		}
		senses, mechanism := s.Senses.Wrong, s.Mechanism.Wrong
		began := c.boundary(&s, rest[:n])
		rest = rest[n:]
		between(&s, n > 0 || began != 0 || senses != s.Senses.Wrong || mechanism != s.Mechanism.Wrong)
		if s.Tick >= e.state.Tick {
			return
		}
		c.fly(&s)
		after(&s)
	}
}
