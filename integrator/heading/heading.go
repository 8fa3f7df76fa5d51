// Package heading is the chain from the master compass to the resolver: the
// variation setter turns a compass heading into a true one, a transmission
// carries it, and the repeater at the resolver follows.
//
//	H_set = Hc + variation as the setter stands    what is sent
//	H_sent = H_set + Repeater                      what arrives: the pilot reads it too
//	H      = H_sent in whole steps, late by Lag, + Lost; or where it stuck
//
// The pilot has a repeater of his own on the same transmission: what is wrong
// with the setter or the transmission misleads him, what is wrong with the
// repeater at the resolver does not.
//
// Laws (first-order lag, steps, errors): mechanism note of this project,
// section 5; sizes are engineering choices.
package heading

import "stillair/integrator/units"

// Imperfection is what is wrong with the chain; the zero value is ideal.
type Imperfection struct {
	// MisSet is how much the setter stands east of what is set, WrongSign that
	// it stands W for E: both act on top of what is set, the sign first.
	MisSet    units.Angle
	WrongSign bool
	// Repeater is an error of the transmission, which all repeaters show.
	Repeater units.Angle

	// The repeater at the resolver:
	Step  units.Angle // it moves in steps of this size; 0: smoothly
	Lag   float64     // seconds that its follow-up is late; 0: at once
	Lost  units.Angle // steps lost: it reads too much, until re-synchronised
	Stuck bool        // it stays where it is
}

// Set gives a healthy imperfection by its name in the table of the service
// class and says whether the name is one of the heading chain.
func (w *Imperfection) Set(name string, x float64) bool {
	switch name {
	case "repeater_step_deg":
		w.Step = units.Angle(x) * units.Degree
	case "repeater_lag_s":
		w.Lag = x
	default:
		return false
	}
	return true
}

// State is what the chain remembers. It holds no pointer.
type State struct {
	Sent units.Angle // what arrived last, in steps, wrapped
	Hand units.Angle // where the follow-up stands, wrapped; Lost comes on top
	Lost units.Angle // stands until Resynchronise
}
