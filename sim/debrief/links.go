package debrief

import (
	"stillair/integrator"
	"stillair/sim"
	"stillair/sim/fault"
	"stillair/sim/sensor"
)

// IDs are the links of an account, in chain order.
func IDs() []string { return ids[:] }

// LinkOf is the id of the first link in which a fault is at work, "" if there is no
// such fault.
func LinkOf(o fault.Order) string {
	f, err := fault.Compile(o)
	if err != nil {
		return ""
	}
	var s sim.State
	var habit fault.Habit
	f.Write(1, 1, fault.Wrong{Senses: &s.Senses.Wrong, Mechanism: &s.Mechanism.Wrong, Habit: &habit})
	for x := method; x < crew; x++ {
		senses, mech := set(1 << x).wrongs(&s)
		if senses != (sensor.Imperfection{}) || mech != (integrator.Imperfections{}) {
			return ids[x]
		}
	}
	if habit.SetterLeft {
		return ids[variation]
	}
	return ids[crew]
}
