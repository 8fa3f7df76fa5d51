package chain

import (
	"math"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// trueCurve is what the compass really does, degrees E +, at each 10 degrees of
// compass heading, once that may be seen: that of the fault compass-deviation in
// force. Without one it is nil: what is left of a sound swing lies within the
// thickness of the card's line and is no error.
func (s *Story) trueCurve() *[37]float64 {
	if s.Truth == nil || s.View == nil {
		return nil
	}
	var curve *[37]float64
	for i := range s.Faults {
		f := &s.Faults[i]
		if f.Order.ID != "compass-deviation" || f.Stands != sim.FaultInForce {
			continue
		}
		o := f.Order
		o.At = f.Onset
		if amount, acts := o.Amount(s.View.Tick); acts {
			curve = deviations(&o, amount) // of several the last is in force
		}
	}
	return curve
}

// deviations is the curve of the five coefficients, so much of it as there is of
// the fault: A + B sin h + C cos h + D sin 2h + E cos 2h, h the compass heading
// (the handbook form; test). Where the needle is held weakly, near a magnetic
// pole, B and C are greater than they are drawn.
func deviations(o *fault.Order, amount float64) *[37]float64 {
	var all [37]float64
	for i := range all {
		sin, cos := math.Sincos(float64(units.Angle(10*i) * units.Degree))
		all[i] = amount * (valueOf(o, "a_deg") + valueOf(o, "b_deg")*sin + valueOf(o, "c_deg")*cos +
			valueOf(o, "d_deg")*2*sin*cos + valueOf(o, "e_deg")*(cos*cos-sin*sin))
	}
	return &all
}
