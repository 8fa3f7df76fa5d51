package integrator

import (
	"fmt"
	"math"

	"stillair/integrator/train"
	"stillair/integrator/units"
)

// HandInput is an input of a link that a person can hold.
type HandInput uint8

// The inputs that can be held, and the value of Hand that each takes.
const (
	HandHeading  HandInput = iota // Heading, of the repeater at the resolver; the pilot's goes on
	HandLatitude                  // Latitude, of the first secant gear
	HandWind                      // Wind, of the wind shafts; the setter stays where it is
	HandSpeed                     // Speed, of the air log's shaft
	handInputs
)

// Hand is a hand put to an input, or taken off it. What is held moves there at
// once, which turns nothing; held, it stays, whatever the links before it do.
// They go on, and the input returns to them.
type Hand struct {
	Input    HandInput
	On       bool
	Heading  units.TrueHeading
	Latitude units.Angle
	Wind     units.Wind
	Speed    units.Speed
}

// How far a hand may take an input.
const (
	mostLatitude = 89.0  // deg
	mostSpeed    = 600.0 // kt
	mostWind     = 200.0 // kt
)

// Checked is the hand with its directions brought into a circle and nothing but
// the value of its input; an error if that makes no sense.
func (h Hand) Checked() (Hand, error) {
	only := Hand{Input: h.Input, On: h.On}
	if h.Input >= handInputs {
		return only, fmt.Errorf("there is no input number %d to hold", h.Input)
	}
	if !h.On {
		return only, nil
	}
	switch h.Input {
	case HandHeading:
		only.Heading = units.TrueHeading(units.Wrap(units.Angle(h.Heading)))
		return only, within("heading held, deg", only.Heading.Degrees(), 0, 360)
	case HandLatitude:
		only.Latitude = h.Latitude
		return only, within("latitude held, deg", h.Latitude.Degrees(), -mostLatitude, mostLatitude)
	case HandWind:
		only.Wind = units.Wind{From: units.Wrap(h.Wind.From), Speed: h.Wind.Speed}
		if err := within("direction of the wind held, deg", only.Wind.From.Degrees(), 0, 360); err != nil {
			return only, err
		}
		return only, within("speed of the wind held, kt", h.Wind.Speed.Knots(), 0, mostWind)
	default:
		only.Speed = h.Speed
		return only, within("speed held, kt", h.Speed.Knots(), 0, mostSpeed)
	}
}

// within refuses what is not from least to most, NaN too, but for rounding.
func within(what string, x, least, most float64) error {
	const rounding = 1e-9
	if math.IsNaN(x) || x < least-rounding || x > most+rounding {
		return fmt.Errorf("%s: %.6g: must be %g to %g", what, x, least, most)
	}
	return nil
}

// Hands are all inputs held now; the zero value is free. A value that is not
// held is zero. What hands have turned stays turned when they are taken off,
// until the counters are set; so long State.Unheld goes on beside it.
type Hands struct {
	Held     uint8 // set of 1 << HandInput
	Apart    bool  // a hand is on, or has been since the counters were set
	Heading  units.TrueHeading
	Latitude units.Angle
	Wind     units.Wind
	Speed    units.Speed
}

// Holds tells whether an input is held.
func (h *Hands) Holds(i HandInput) bool { return h.Held&(1<<i) != 0 }

// put puts a hand on or takes it off. A hand taken off has no value.
func (h *Hands) put(by Hand) {
	h.Held &^= 1 << by.Input
	if by.On {
		h.Held |= 1 << by.Input
	}
	switch by.Input {
	case HandHeading:
		h.Heading = by.Heading
	case HandLatitude:
		h.Latitude = by.Latitude
	case HandWind:
		h.Wind = by.Wind
	case HandSpeed:
		h.Speed = by.Speed
	}
}

// Hold puts a hand, which has been checked, to an input or takes it off.
func (s *State) Hold(h Hand) {
	if h.On && !s.Hands.Apart {
		s.Hands.Apart, s.Unheld = true, s.Trains
	}
	s.Hands.put(h)
	switch h.Input {
	case HandHeading:
		s.Repeater = s.repeater(s.Heading.Reads())
	case HandWind:
		s.Ground.Hold(h.On, h.Wind)
	}
	if s.Hands.Held == 0 && s.Unheld == s.Trains { // it was on for no time
		s.Hands.Apart, s.Unheld = false, Trains{}
	}
}

// together ends, while nothing is held, what hands have done to the trains, now
// that the counters are set.
func (s *State) together() {
	if s.Hands.Held != 0 {
		return
	}
	s.Trains = s.Unheld
	s.Hands.Apart, s.Unheld = false, Trains{}
}

// stepByHand is Step with a hand on an input: what comes to it turns nothing,
// but the links before it go on; or with one taken off.
func (s *State) stepByHand(in Inputs, dt float64) {
	reads := s.Heading.Reads()
	unheld, miles := s.wind(in, dt)
	s.Wound.Add(miles)
	before := s.Repeater
	chain := s.Heading.Step(in.Compass, s.VariationSet, dt, &s.Wrong.Heading)
	s.Repeater = s.repeater(chain)
	gear := s.gear()
	s.Trains.run(miles, before, s.Repeater, dt, &s.Wrong, &gear)
	s.Unheld.run(unheld, reads, chain, dt, &s.Wrong, &s.Wrong.Train)
}

// wind runs the air log and gives the miles behind the drive: those without a
// hand, and those that it turns.
func (s *State) wind(in Inputs, dt float64) (unheld, miles float64) {
	if s.Hands.Holds(HandSpeed) {
		unheld, miles = s.AirLog.WindAt(s.Hands.Speed, in.Air, dt, &s.Wrong.AirLog)
	} else {
		unheld = s.AirLog.Wind(in.Air, dt, &s.Wrong.AirLog)
		miles = unheld
	}
	return drive(unheld, &s.Wrong.Drive), drive(miles, &s.Wrong.Drive)
}

// KnownGround is where the ground counters would stand had no hand been put to
// anything: it is for a pilot whose aircraft is to fly on as if.
func (s *State) KnownGround(c *Config) units.GroundPosition {
	if s.Hands.Apart {
		return s.Unheld.GroundPosition(c)
	}
	return s.GroundPosition(c)
}

// repeater is where the repeater at the resolver stands when its chain says so.
func (s *State) repeater(chain units.TrueHeading) units.TrueHeading {
	if s.Hands.Holds(HandHeading) {
		return s.Hands.Heading
	}
	return chain
}

// gear is what is wrong with the air trains; a gear held by hand is no
// different from one that is stuck.
func (s *State) gear() train.Imperfection {
	w := s.Wrong.Train
	if s.Hands.Holds(HandLatitude) {
		w.SecantHeld, w.HeldLatitude = true, s.Hands.Latitude
	}
	return w
}
