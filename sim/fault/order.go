package fault

import "stillair/integrator/units"

// Shape is how a fault comes on.
type Shape uint8

// The three shapes.
const (
	Step Shape = iota
	Ramp
	Intermittent
)

// Order is one fault of a flight: an entry of the catalogue, a window of time
// and its parameters. It acts while At <= tick < At + For.
type Order struct {
	ID        string
	At, For   int64 // ticks; For 0: to the end
	Shape     Shape
	RampTicks int64 // Ramp
	On, Off   int64 // Intermittent
	// Params holds a value for every parameter of the catalogue entry, in its
	// order; choices and booleans as the index of the choice (false 0, true 1).
	Params []float64
	// Trigger says what else has to happen before it comes on; the zero value
	// waits for nothing but At.
	Trigger Trigger
}

// TriggerKind says what a fault waits for.
type TriggerKind uint8

// The three triggers. From At on a fault waits for a place or for a signal; it
// comes on at the tick when that is so, and its For counts from there.
const (
	ByTime TriggerKind = iota
	ByPlace
	BySignal
)

// Trigger is what a fault waits for.
type Trigger struct {
	Kind   TriggerKind
	Place  units.Position // ByPlace: of which the true place comes
	Within units.Length   // so near, 0 to 600 NM
	Signal int            // BySignal: 0 to 9
}

// Amount is how much of the fault there is at a tick, 0 to 1 of what its
// parameters say, and whether it acts at all. A ramp begins with 0 and is whole
// RampTicks later; an intermittent fault is on for On and off for Off ticks by
// turns, on first. All phases count from the onset, At.
func (o *Order) Amount(tick int64) (amount float64, acts bool) {
	since := tick - o.At
	if since < 0 || o.For > 0 && since >= o.For {
		return 0, false
	}
	switch o.Shape {
	case Ramp:
		if since < o.RampTicks {
			return float64(since) / float64(o.RampTicks), true
		}
	case Intermittent:
		if cycle := o.On + o.Off; cycle > 0 && since%cycle >= o.On {
			return 0, false
		}
	}
	return 1, true
}

// Until is the next tick after this one at which Amount may give something
// else: it does not change before. Never if there is none.
func (o *Order) Until(tick int64) int64 {
	since := tick - o.At
	if since < 0 {
		return o.At
	}
	end := Never
	if o.For > 0 {
		end = o.At + o.For
	}
	if tick >= end {
		return Never
	}
	switch o.Shape {
	case Ramp:
		if since < o.RampTicks {
			return min(end, tick+1)
		}
	case Intermittent:
		if cycle := o.On + o.Off; o.On > 0 && o.Off > 0 {
			in := since % cycle
			if in < o.On {
				cycle = o.On
			}
			return min(end, tick-in+cycle)
		}
	}
	return end
}

// Never is a tick that no flight reaches.
const Never = int64(1) << 62
