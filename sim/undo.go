package sim

import (
	"errors"

	"stillair/integrator/aboard"
)

// ErrNothingToTakeBack is the refusal of Undo.
var ErrNothingToTakeBack = errors.New("there is nothing to take back: another line stands in the log after it")

// LastDeed is what the crew did last, as long as it can be taken back: until the next
// line of the log.
func (e *Engine) LastDeed() (a aboard.Action, ok bool) {
	i, ok := e.lastDeed()
	if !ok {
		return a, false
	}
	return e.commands[i].Action, true
}

// lastDeed is the place of the command of the log's last line, if that was given in
// flight.
func (e *Engine) lastDeed() (int, bool) {
	log := e.recorder.logTo(TimeOf(e.state.Tick))
	if len(log) == 0 || log[len(log)-1].Action.Kind == 0 {
		return 0, false
	}
	for i := int(e.state.Commands) - 1; i >= 0; i-- {
		if c := &e.commands[i]; c.Kind == Act {
			return i, e.own[i] && TimeOf(c.Tick) == log[len(log)-1].Elapsed
		}
	}
	return 0, false
}

// Undo takes the crew's last deed back, as if it had never been done: the flight
// since then is flown again without it, up to now.
func (e *Engine) Undo() error {
	i, ok := e.lastDeed()
	if !ok {
		return ErrNothingToTakeBack
	}
	now, at, applied := e.state.Tick, e.commands[i].Tick, int(e.state.Commands)
	commands, own := e.commands, e.own
	if err := e.TakeBack(at); err != nil {
		return err
	}
	for k := int(e.state.Commands); k < applied; k++ {
		if k == i || !own[k] {
			continue
		}
		e.Advance(commands[k].Tick - e.state.Tick)
		if err := e.Give(commands[k]); err != nil {
			return err
		}
	}
	e.Advance(now - e.state.Tick)
	return nil
}
