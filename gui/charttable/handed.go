package charttable

import (
	"time"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/integrator/aboard"
)

// handed is what has been handed over to the mechanism and does not stand in
// the log yet. Until it does a setter goes on showing what the hand has set,
// lest it jump back for the frame in between.
type handed struct {
	actions []aboard.Kind // in the order of handing over
	log     int           // lines the log had when the first was handed over
}

// give hands an action over.
func (h *handed) give(t *Table, a aboard.Action) {
	if len(h.actions) == 0 {
		h.log = len(t.moment.View.Log)
	}
	h.actions = append(h.actions, a.Kind)
	t.helm.Do(a)
}

// waits says whether one of them is still on its way at a moment. A refusal, or
// a log gone back beyond its start, ends the waiting.
func (h *handed) waits(m *helm.Moment) bool {
	if len(h.actions) == 0 {
		return false
	}
	log := m.View.Log
	if m.Refusal != "" || len(log) < h.log {
		h.actions = nil
		return false
	}
	seen := 0
	for _, e := range log[h.log:] {
		if seen < len(h.actions) && e.Action.Kind == h.actions[seen] {
			seen++
		}
	}
	if seen == len(h.actions) {
		h.actions = nil
	}
	return len(h.actions) > 0
}

// resting acts once a hand has rested for a while.
type resting struct{ unwait func() }

// restTime is how long the hand must rest before what was turned by wheel or
// keys is handed over.
const restTime = 350 * time.Millisecond

// after acts when nothing has come for restTime.
func (r *resting) after(screen *kit.Screen, act func()) {
	r.stop()
	r.unwait = screen.After(restTime, act)
}

func (r *resting) stop() {
	if r.unwait != nil {
		r.unwait()
	}
}
