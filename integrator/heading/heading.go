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

import (
	"math"

	"stillair/integrator/lag"
	"stillair/integrator/units"
)

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
	Begun bool
	Sent  units.Angle // what arrived last, in steps, wrapped
	Hand  units.Angle // where the follow-up stands, wrapped; Lost comes on top
	Lost  units.Angle // stands until Resynchronise
}

// Resynchronise brings the repeater into step again.
func (s *State) Resynchronise() { s.Lost = 0 }

// Reads is what the repeater at the resolver reads now.
func (s *State) Reads() units.TrueHeading { return units.TrueHeading(units.Wrap(s.Hand + s.Lost)) }

// Setter is where the variation setter stands when so much is set.
func (w *Imperfection) Setter(set units.Variation) units.Variation {
	if w.WrongSign {
		set = -set
	}
	return set + units.Variation(w.MisSet)
}

// Settle takes up a compass heading and a setting as they stand, without time
// going by: at the start, and after a sudden change at a tick boundary.
func (s *State) Settle(c units.CompassHeading, set units.Variation, w *Imperfection) units.TrueHeading {
	return s.Step(c, set, 0, w)
}

// Step runs the chain for dt seconds that end with this compass heading and
// setting, and gives what the repeater at the resolver reads then.
func (s *State) Step(c units.CompassHeading, set units.Variation, dt float64, w *Imperfection) units.TrueHeading {
	magnetic := c.Magnetic(0) // the deviation card is applied by the crew, not by the chain
	if *w == (Imperfection{}) && s.Lost == 0 {
		h := magnetic.True(set)
		*s = State{Begun: true, Sent: units.Angle(h), Hand: units.Angle(h)}
		return h
	}
	sent := units.Wrap(units.Angle(magnetic.True(w.Setter(set))) + w.Repeater)
	if w.Step > 0 {
		sent = units.Wrap(units.Angle(math.Round(float64(sent/w.Step))) * w.Step)
	}
	s.follow(sent, dt, w)
	if w.Lost != 0 {
		s.Lost = w.Lost
	}
	return s.Reads()
}

// follow moves the hand after what is sent. A step is sent at the beginning of
// the tick in which it falls due; else what is sent moves uniformly.
func (s *State) follow(sent units.Angle, dt float64, w *Imperfection) {
	moved := float64(units.WrapHalf(sent - s.Sent))
	behind := float64(units.WrapHalf(s.Sent - s.Hand))
	if w.Step > 0 {
		behind, moved = behind+moved, 0
	}
	switch {
	case !s.Begun || w.Lag <= 0 && !w.Stuck:
		s.Hand = sent
	case !w.Stuck:
		s.Hand = units.Wrap(sent - units.Angle(lag.Behind(behind, moved, dt, w.Lag)))
	}
	s.Sent, s.Begun = sent, true
}
