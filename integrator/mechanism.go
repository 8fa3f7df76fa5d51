package integrator

import (
	"stillair/integrator/airlog"
	"stillair/integrator/counter"
	"stillair/integrator/ground"
	"stillair/integrator/heading"
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// Inputs is what the senses hand to the mechanism at the end of a tick.
type Inputs struct {
	Air     airlog.Inputs
	Compass units.CompassHeading
}

// Imperfections are those of every link; the zero value is the ideal class.
type Imperfections struct {
	AirLog   airlog.Imperfection
	Drive    DriveImperfection
	Heading  HeadingImperfection
	Resolver ResolverImperfection
	Train    train.Imperfection
	Ground   ground.Imperfection
}

// HeadingImperfection is what is wrong between compass and resolver.
type HeadingImperfection = heading.Imperfection

// State is the mechanism at one moment. It holds no pointer, map, slice or
// function, so that copying it is keeping it.
type State struct {
	AirLog       airlog.State
	VariationSet units.Variation
	Heading      heading.State
	Repeater     units.TrueHeading // feeds the resolver
	LeverEast    bool              // sense lever of the lever design
	Wound        units.Sum         // NM that the shaft behind the drive has turned
	Trains
	Hands  Hands
	Unheld Trains // while Hands.Apart: had no hand been put to anything
	Wrong  Imperfections
}

// Start sets the mechanism up: setters, counters, shafts, marker.
func (s *State) Start(in Inputs, v units.Variation, w units.Wind, counters units.Position, wrong Imperfections) {
	*s = State{Wrong: wrong, VariationSet: v, LeverEast: units.WrapHalf(counters.Lon) >= 0}
	s.SetWind(w)
	s.SetCounters(counters)
	s.Settle(in)
}

// SetCounters sets air and ground counters, zeroes the shafts' counts and puts
// the marker down. The air log counter is not touched.
func (s *State) SetCounters(p units.Position) {
	s.Trains.set(p)
	if s.Hands.Apart {
		s.Unheld.set(p)
		s.together()
	}
}

// SlewLatitude turns the knob of the air latitude counter. Within the play of
// the shaft the counter turns freely, so that the shaft may have to make it up.
func (s *State) SlewLatitude(by units.Angle) {
	s.Trains.slewLatitude(by, s.Wrong.Drive.Play)
	if s.Hands.Apart {
		s.Unheld.slewLatitude(by, s.Wrong.Drive.Play)
	}
}

// SlewLongitude turns the knob of the air longitude counter.
func (s *State) SlewLongitude(by units.Angle) {
	s.Trains.slewLongitude(by, s.Wrong.Drive.Play)
	if s.Hands.Apart {
		s.Unheld.slewLongitude(by, s.Wrong.Drive.Play)
	}
}

// SetWind turns the wind setter.
func (s *State) SetWind(w units.Wind) {
	s.Ground.SetWind(w)
	if s.Hands.Apart {
		s.Unheld.Ground.SetWind(w)
	}
}

// ThrowLever sets the sense lever of the longitude counter. The drums stand
// where they stood and count the other way from there, so that the longitude
// they mean is mirrored.
func (s *State) ThrowLever(east bool) {
	if east == s.LeverEast {
		return
	}
	s.LeverEast = east
	s.Trains.mirror()
	if s.Hands.Apart {
		s.Unheld.mirror()
	}
}

// Settle takes up the inputs as they stand, without motion: at the start, and
// after a sudden change at a tick boundary.
func (s *State) Settle(in Inputs) {
	s.AirLog.Settle(in.Air, &s.Wrong.AirLog)
	s.Ground.Settle(&s.Wrong.Ground)
	if s.Hands.Apart {
		s.Unheld.Ground.Settle(&s.Wrong.Ground)
	}
	s.Repeater = s.repeater(s.Heading.Settle(in.Compass, s.VariationSet, &s.Wrong.Heading))
}

// Step runs the mechanism for dt seconds that end with these inputs.
func (s *State) Step(in Inputs, dt float64) {
	if s.Hands.Apart {
		s.stepByHand(in, dt)
		return
	}
	miles := s.AirLog.Wind(in.Air, dt, &s.Wrong.AirLog)
	before := s.Repeater
	s.Repeater = s.Heading.Step(in.Compass, s.VariationSet, dt, &s.Wrong.Heading)
	miles = drive(miles, &s.Wrong.Drive)
	s.Wound.Add(miles)
	s.Trains.run(miles, before, s.Repeater, dt, &s.Wrong, &s.Wrong.Train)
}

// Setter is where the variation setter stands, right or wrong.
func (s *State) Setter() units.Variation { return s.Wrong.Heading.Setter(s.VariationSet) }

// AirMiles is what the air log counter has counted.
func (s *State) AirMiles() units.Length { return units.Length(s.AirLog.Miles.Total) * units.NM }

// Marker is where the marker stands.
func (s *State) Marker(c *Config) units.GroundPosition {
	return s.Ground.Marker(s.GroundPosition(c), &s.Wrong.Ground)
}

// LongitudeCounter reads a longitude in minutes on the drums of the design.
func (s *State) LongitudeCounter(c *Config, minutes float64) counter.Reading {
	switch c.Longitude {
	case East360:
		return counter.East360(minutes)
	case HemisphereLever:
		return counter.Lever(minutes, s.LeverEast)
	default:
		return counter.Hemisphere(minutes)
	}
}
