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
