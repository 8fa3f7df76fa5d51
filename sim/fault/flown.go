package fault

import (
	"fmt"
	"slices"

	"stillair/integrator"
	"stillair/sim/sensor"
)

// Wrong is where active faults are written: the imperfections of the senses
// and of the mechanism, and the habits of the crew. Whoever has faults written
// has put the healthy ones there first.
type Wrong struct {
	Senses    *sensor.Imperfection
	Mechanism *integrator.Imperfections
	Habit     *Habit
}

// Habit is what is wrong with those who set and read, not with an instrument.
type Habit struct {
	SetterLeft bool // the variation setter is not brought up to the field
}

// Deed is what the crew do wrong once, at the onset; it stands when the fault is
// mended. They set all counters to a place that is North and East (NM) of the
// true one and Late seconds old; below 0: so much ahead.
type Deed struct {
	Done              bool // something is done
	North, East, Late float64
}

// Values are the parameters of an order as they are at one tick, in the order
// of the catalogue.
type Values [maxParams]float64

const maxParams = 5

// Flown is an order compiled, so that a tick looks nothing up.
type Flown struct {
	Order
	Deed   Deed
	write  func(v Values, since float64, w Wrong)
	varies bool            // what it writes depends on the time since the onset
	values Values          // whole
	ramps  [maxParams]bool // which of them a ramp brings on
	rest   Values          // healthy values
}

// Compile checks an order and makes it ready to fly.
func Compile(o Order) (Flown, error) {
	if err := o.Check(); err != nil {
		return Flown{}, err
	}
	e, _ := Lookup(o.ID)
	law, ok := laws[o.ID]
	if !ok {
		return Flown{}, fmt.Errorf("%s has no law", o.ID)
	}
	o.Params = slices.Clone(o.Params)
	f := Flown{Order: o, write: law.write, varies: law.varies}
	copy(f.values[:], o.Params)
	for i, p := range e.Params {
		f.rest[i], f.ramps[i] = p.Healthy, p.Ramps
	}
	if law.deed != nil {
		f.Deed = law.deed(f.values)
	}
	return f, nil
}

// Write writes what is wrong with this much of the fault, so many seconds after
// its onset.
func (f *Flown) Write(amount, since float64, w Wrong) {
	if f.write == nil {
		return
	}
	v := f.values
	if amount < 1 {
		for i := range v {
			if f.ramps[i] {
				v[i] = f.rest[i] + amount*(v[i]-f.rest[i])
			}
		}
	}
	f.write(v, since, w)
}

// Next is the next tick at which it has to be looked at again.
func (f *Flown) Next(tick int64) int64 {
	if f.varies {
		if _, acts := f.Amount(tick); acts {
			return tick + 1
		}
	}
	return f.Until(tick)
}
