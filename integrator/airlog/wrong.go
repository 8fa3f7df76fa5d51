package airlog

import "stillair/integrator/units"

// Source says where the unit takes the temperature of the air from.
type Source uint8

// The three sources: its bulb, the standard atmosphere at the height of its
// static capsule, and a knob that the crew sets by the thermometer.
const (
	Bulb Source = iota
	Standard
	HandSet
)

// Imperfection is how the unit departs from the ideal one; the zero value is
// ideal.
//
//	Source            of the temperature. Standard: V_s = V sqrt(T_isa(p)/T)
//	TemperatureError  K, what bulb or hand-set knob reads too high:
//	                  V_s = V sqrt((T+e)/T); the standard source has none
//	Incompressible    the capsule law neglects compressibility:
//	                  V_s = V sqrt(qc/q), about V (1 + M^2/8)
//	Scale             relative error of the shaft speed
//	Threshold         below it the shaft stands; it stops again this much
//	Hysteresis        below the threshold
//	Ripple            the follow-up motor hunts
//	Frozen            the follow-up motor goes on at the speed it has
type Imperfection struct {
	Source                Source
	TemperatureError      float64
	Incompressible        bool
	Scale                 float64
	Threshold, Hysteresis units.Speed
	Ripple                Ripple
	Frozen                bool
}

// Ripple is the contact regulation of the motor: for a part Duty of each
// Period (seconds) the shaft turns faster by Amount of its speed, for the rest
// slower by as much. An Amount of 0 is none.
type Ripple struct{ Amount, Period, Duty float64 }
