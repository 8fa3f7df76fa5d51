package sim

import (
	"fmt"
	"reflect"
	"slices"

	"stillair/integrator/units"
	"stillair/sim/fault"
)

// Twin says in what one thing the twin of a flight differs from it: the same
// plan, the same seed, the same commands at the same ticks, and one fault left
// out from the start, or one setting put right. The zero value differs in
// nothing.
//
// What the twin shows is its instrument, not the truth. Its aircraft is flown
// by its own dials, so that it may be elsewhere than that of the flight, and
// its instrument has whatever else is wrong.
type Twin struct {
	Kind  TwinKind
	Fault int // WithoutFault: number in Engine.Faults
}

// TwinKind says what a twin lacks.
type TwinKind uint8

// The kinds of twin.
const (
	Same           TwinKind = iota
	WithoutFault            // Fault
	WithoutFaults           // all of them, planned or given in flight
	RightWind               // the wind setter follows the wind at the aircraft
	FieldVariation          // the variation setter follows the field
)

// Twin is the twin of the flight, flown from tick 0 to now. The wind of a
// RightWind twin follows what blows at its own aircraft, at each tick; where the
// ground position is plotted, that wind is laid off for all the time since the
// reset, as the design does with any wind set.
func (e *Engine) Twin(lacks Twin) (*Engine, error) {
	if n := int(e.state.Faults.N); lacks.Kind == WithoutFault && (lacks.Fault < 0 || lacks.Fault >= n) {
		return nil, fmt.Errorf("there is no fault number %d", lacks.Fault)
	}
	t := &Engine{course: e.course, given: e.given}
	t.course.twin = lacks
	t.learn(e)
	t.state = t.course.start()
	t.course.settle(&t.state)
	t.frames = append(t.frames, t.state)
	t.recorder.begin(t)
	t.Follow(e)
	return t, nil
}

// Follow brings a twin to the tick of its flight, with whatever has been done
// there. A twin whose legs have all ended stays where it is.
func (e *Engine) Follow(flight *Engine) {
	if e.given != flight.given {
		e.given = flight.given
		e.rewind(flight)
		e.forgetAfter(e.state.Tick)
		e.learn(flight)
	}
	if e.state.Tick == flight.state.Tick && e.state.Commands > flight.state.Commands {
		// the flight was taken back and flown on to here: what is done here is due
		e.state = e.frames[min(e.state.Tick/keyframeTicks, int64(len(e.frames)-1))]
	}
	e.GoTo(flight.state.Tick)
	if e.state.Tick == flight.state.Tick && e.state.Commands < flight.state.Commands && !e.state.Over {
		due := e.due() // done between two ticks
		e.course.act(&e.state, due)
		e.recorder.boundary(e, 0, due)
	}
}

// rewind goes back to before the first command that differs from the flight's.
func (e *Engine) rewind(flight *Engine) {
	n := 0
	for n < min(len(e.commands), len(flight.commands)) && reflect.DeepEqual(e.commands[n], flight.commands[n]) {
		n++
	}
	at := fault.Never
	for _, list := range [][]Command{e.commands, flight.commands} {
		if n < len(list) {
			at = min(at, list[n].Tick)
		}
	}
	if at < e.state.Tick || int64(n) < e.state.Commands {
		e.state = e.frames[min(at/keyframeTicks, int64(len(e.frames)-1))]
	}
}

// learn takes over the commands and the faults of the flight, but for the fault
// that the twin lacks: it keeps its number and does nothing.
func (e *Engine) learn(flight *Engine) {
	e.commands, e.own = slices.Clone(flight.commands), slices.Clone(flight.own)
	e.course.faults, e.course.air, e.planned = slices.Clone(flight.course.faults), flight.course.air, flight.planned
	for i := range e.course.faults {
		if e.course.twin.lacks(i) {
			e.course.faults[i] = fault.Flown{Order: e.course.faults[i].Order}
		}
	}
}

func (t Twin) lacks(fault int) bool {
	return t.Kind == WithoutFaults || t.Kind == WithoutFault && t.Fault == fault
}

// putRight has the setters follow what they are to follow.
func (c *course) putRight(s *State) {
	s.followField()
	switch c.twin.Kind {
	case FieldVariation:
		s.Mechanism.VariationSet = s.World.Variation
	case RightWind:
		s.Mechanism.SetWind(units.WindOf(units.Speed(s.World.North), units.Speed(s.World.East)))
	}
}
