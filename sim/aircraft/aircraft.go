// Package aircraft is how the aircraft answers its orders: it turns, changes
// speed and climbs at given rates. It does not know where it is.
package aircraft

import (
	"math"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Orders is what the pilot holds.
type Orders struct {
	Heading  units.Angle // in the frame the pilot reads
	TurnRate float64     // rad/s; 0: at once
	HoldCAS  bool        // Speed is calibrated, otherwise true airspeed
	Speed    units.Speed
	AtOnce   bool // changes of speed too
	Height   units.Length
	Climb    units.Speed // rate, above 0
}

// State is the aircraft at one moment. Held is the speed held now, calibrated
// or true by Orders.HoldCAS; TAS follows from it.
type State struct {
	Orders  Orders
	Heading units.TrueHeading
	Held    units.Speed
	TAS     units.Speed
	Height  units.Length // pressure altitude
	Turning bool
}

// acceleration is the change of held speed: 1 kt a second (design choice).
const acceleration = units.Knot

// Dials is how far the pilot's references stand from the truth, dial minus
// true: Heading to add to a true heading to get the reading steered by.
type Dials struct {
	Heading units.Angle
	Speed   units.Speed
	Height  units.Length
}

// SetSpeed gives a new order of speed; the speed held now is taken over into
// its terms, t being the temperature of the air.
func (s *State) SetSpeed(hold units.Speed, cas bool, t units.Temperature) {
	if cas && !s.Orders.HoldCAS {
		s.Held = isa.CASFromTAS(s.TAS, s.Height, t)
	} else if !cas {
		s.Held = s.TAS
	}
	s.Orders.Speed, s.Orders.HoldCAS = hold, cas
}

// What the aircraft can be brought to, however long a stuck dial is chased: the
// ends of what a flight may order.
const (
	slowest, fastest = 40 * units.Knot, 450 * units.Knot // of the speed held
	lowest, highest  = -1000 * units.Foot, 40000 * units.Foot
)

// Fly advances by dt seconds; t is the temperature at the height it has after.
func (s *State) Fly(dt float64, d Dials) {
	s.turn(dt, d.Heading)
	if s.Orders.AtOnce {
		s.Held = s.Orders.Speed
	} else {
		to := s.Held + units.Speed(limit(float64(s.Orders.Speed-d.Speed-s.Held), float64(acceleration)*dt))
		s.Held = max(min(to, max(s.Held, fastest)), min(s.Held, slowest))
	}
	to := s.Height + units.Length(limit(float64(s.Orders.Height-d.Height-s.Height), float64(s.Orders.Climb)*dt))
	s.Height = max(min(to, max(s.Height, highest)), min(s.Height, lowest))
}

// Snap does at once what is ordered at once, at a tick boundary.
func (s *State) Snap(d Dials) {
	if s.Orders.TurnRate == 0 {
		s.turn(0, d.Heading)
	}
	if s.Orders.AtOnce {
		s.Held = s.Orders.Speed
	}
}

// Gear brings the true airspeed up to the held speed, t being the temperature.
func (s *State) Gear(t units.Temperature) {
	s.TAS = s.Held
	if s.Orders.HoldCAS {
		s.TAS = isa.TASFromCAS(s.Held, s.Height, t)
	}
}

// VerticalSpeed is that of the climb or descent in hand.
func (s *State) VerticalSpeed() units.Speed {
	switch {
	case s.Height < s.Orders.Height:
		return s.Orders.Climb
	case s.Height > s.Orders.Height:
		return -s.Orders.Climb
	}
	return 0
}

// turn goes the short way to the ordered reading, half a circle to the right.
func (s *State) turn(dt float64, reading units.Angle) {
	wanted := units.Wrap(s.Orders.Heading - reading)
	off := float64(units.WrapHalf(wanted - units.Angle(s.Heading)))
	if off < -math.Pi+1e-9 {
		off += 2 * math.Pi
	}
	most := s.Orders.TurnRate * dt
	if s.Orders.TurnRate == 0 || math.Abs(off) <= most*(1+1e-9) {
		s.Heading, s.Turning = units.TrueHeading(wanted), false
		return
	}
	s.Heading = units.TrueHeading(units.Wrap(units.Angle(s.Heading) + units.Angle(math.Copysign(most, off))))
	s.Turning = true
}

func limit(x, most float64) float64 { return max(-most, min(most, x)) }
