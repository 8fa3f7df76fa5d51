// Package airlog is the unit that turns pitot and static pressure and air
// temperature into true airspeed, and winds it into air miles.
//
//	qc = pitot - static                 impact pressure, Pa; below 0 it counts as 0
//	M  = sqrt(5 ((qc/p + 1)^(2/7) - 1))  Mach number (NASA RP-1046)
//	V  = M a(T)                          true airspeed
//
// Its shaft turns in proportion to V. The air log counter is tapped from that
// shaft, before the drive, so that a slipping drive shows as a disagreement.
// Within a tick the shaft speed is taken as the mean of its two ends.
package airlog

import (
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Imperfection is what is wrong with the unit; the zero value is ideal.
// TemperatureError is what the temperature channel reads too high, kelvins;
// Scale the relative error of the shaft speed.
type Imperfection struct {
	TemperatureError float64
	Scale            float64
}

// Inputs are the pressures at the unit, after the lines, and the temperature
// of the air as its bulb gives it.
type Inputs struct {
	Pitot, Static units.Pressure
	Temperature   units.Temperature
}

// State is the unit at one moment.
type State struct {
	TAS   units.Speed // speed of the shaft
	Miles units.Sum   // NM on the air log counter
}

// Settle takes up the inputs as they stand, without winding: after a sudden
// change at a tick boundary, and at the start.
func (s *State) Settle(in Inputs, w *Imperfection) { s.TAS = speed(in, w) }

// Wind runs the unit for a step of dt seconds that ends with these inputs and
// returns the air miles (NM) that its shaft turned.
func (s *State) Wind(in Inputs, dt float64, w *Imperfection) float64 {
	v := speed(in, w)
	miles := units.Length(float64(0.5*(s.TAS+v)) * dt).NM()
	s.TAS = v
	s.Miles.Add(miles)
	return miles
}

func speed(in Inputs, w *Imperfection) units.Speed {
	m := isa.Mach(in.Pitot-in.Static, in.Static)
	v := isa.TAS(m, in.Temperature+units.Temperature(w.TemperatureError))
	return v * units.Speed(1+w.Scale)
}
