package sim

// Given are the commands given in flight so far, and not dropped since, by tick
// and arrival. The slice is the caller's.
func (e *Engine) Given() (given []Command) {
	for i, c := range e.commands {
		if e.own[i] {
			given = append(given, c)
		}
	}
	return given
}

// MinuteTicks is how far apart the moments are that the engine keeps.
const MinuteTicks = keyframeTicks

// Kept is the moment that the engine kept of a minute of the flight, from 0, with
// the hash of its state; false if it has not been flown, or was dropped.
func (e *Engine) Kept(minute int64) (s Snapshot, hash uint64, ok bool) {
	if minute < 0 || minute >= int64(len(e.frames)) {
		return s, 0, false
	}
	kept := &e.frames[minute]
	return e.course.snapshot(kept), kept.Hash(), true
}

// Give gives a command that was given before, at its tick, which is now: for a
// record that is flown again.
func (e *Engine) Give(c Command) error {
	switch c.Kind {
	case Act:
		return e.Do(c.Action)
	case Break:
		return e.Break(c.Order)
	case Mend:
		return e.Mend(c.Fault)
	case Signal:
		return e.Signal(c.Signal)
	case AtHelm:
		return e.Steer(c.Helm)
	default:
		return e.Hold(c.Hand)
	}
}
