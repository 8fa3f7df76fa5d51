package integrator

import (
	"math"

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
	Play         playOf            // of the two shafts
	Wound        units.Sum         // NM that the shaft behind the drive has turned
	North, East  units.Sum         // NM on the two shafts since the counters were set
	Air          train.State
	Ground       ground.State
	LeverEast    bool // sense lever of the lever design
	Hands        Hands
	Wrong        Imperfections
}

// Start sets the mechanism up: setters, counters, shafts, marker.
func (s *State) Start(in Inputs, v units.Variation, w units.Wind, counters units.Position, wrong Imperfections) {
	*s = State{Wrong: wrong, VariationSet: v, LeverEast: units.WrapHalf(counters.Lon) >= 0}
	s.Ground.SetWind(w)
	s.SetCounters(counters)
	s.Settle(in)
}

// SetCounters sets air and ground counters, zeroes the shafts' counts and puts
// the marker down. The air log counter is not touched.
func (s *State) SetCounters(p units.Position) {
	s.North, s.East, s.Play = units.Sum{}, units.Sum{}, playOf{}
	s.Air.Set(p)
	s.Ground.Reset(p)
}

// SlewLatitude turns the knob of the air latitude counter. Within the play of
// the shaft the counter turns freely, so that the shaft may have to make it up.
func (s *State) SlewLatitude(by units.Angle) {
	s.Air.Knob(by.Minutes(), 0)
	s.Play.North.Turn(by.Minutes(), s.Wrong.Drive.Play)
}

// SlewLongitude turns the knob of the air longitude counter.
func (s *State) SlewLongitude(by units.Angle) {
	s.Air.Knob(0, by.Minutes())
	miles := by.Minutes() * math.Cos(float64(s.AirPosition().Lat))
	s.Play.East.Turn(miles, s.Wrong.Drive.Play)
}

// ThrowLever sets the sense lever of the longitude counter. The drums stand
// where they stood and count the other way from there, so that the longitude
// they mean is mirrored.
func (s *State) ThrowLever(east bool) {
	if east == s.LeverEast {
		return
	}
	s.LeverEast = east
	lon := &s.Air.Lon
	lon.Total, lon.Lost = -lon.Total, -lon.Lost
}

// Settle takes up the inputs as they stand, without motion: at the start, and
// after a sudden change at a tick boundary.
func (s *State) Settle(in Inputs) {
	s.AirLog.Settle(in.Air, &s.Wrong.AirLog)
	s.Ground.Settle(&s.Wrong.Ground)
	s.Repeater = s.repeater(s.Heading.Settle(in.Compass, s.VariationSet, &s.Wrong.Heading))
}

// Step runs the mechanism for dt seconds that end with these inputs.
func (s *State) Step(in Inputs, dt float64) {
	if s.Hands.Held != 0 {
		s.stepByHand(in, dt)
		return
	}
	miles := s.AirLog.Wind(in.Air, dt, &s.Wrong.AirLog)
	before := s.Repeater
	s.Repeater = s.Heading.Step(in.Compass, s.VariationSet, dt, &s.Wrong.Heading)
	s.run(miles, before, dt, &s.Wrong.Train)
}

// run runs what lies behind the air log and the repeater, which moved there in
// the step.
func (s *State) run(miles float64, before units.TrueHeading, dt float64, gear *train.Imperfection) {
	miles = drive(miles, &s.Wrong.Drive)
	s.Wound.Add(miles)
	north, east := resolve(miles, before, s.Repeater, &s.Wrong.Resolver)
	north, east = s.Play.follow(north, east, &s.Wrong.Drive)
	s.North.Add(north)
	s.East.Add(east)
	s.turn(north, east, dt, gear)
}

// turn turns the two pairs of trains, and the marker if its drive is wrong.
func (s *State) turn(north, east, dt float64, gear *train.Imperfection) {
	w := &s.Wrong.Ground
	driven := w.Marker.Driven()
	var from units.GroundPosition
	if driven {
		from = s.Ground.Position(w.Design, s.AirPosition())
	}
	s.Air.Turn(north, east, gear)
	s.Ground.Turn(north, east, dt, w)
	if driven {
		s.Ground.Drive(from, s.Ground.Position(w.Design, s.AirPosition()), &w.Marker)
	}
}

// Setter is where the variation setter stands, right or wrong.
func (s *State) Setter() units.Variation { return s.Wrong.Heading.Setter(s.VariationSet) }

// AirMiles is what the air log counter has counted.
func (s *State) AirMiles() units.Length { return units.Length(s.AirLog.Miles.Total) * units.NM }

// Shafts are the northing and easting since the counters were set.
func (s *State) Shafts() (north, east units.Length) {
	return units.Length(s.North.Total) * units.NM, units.Length(s.East.Total) * units.NM
}

// AirPosition is what the air counters stand at, unwrapped.
func (s *State) AirPosition() units.AirPosition { return units.AirPosition(s.Air.Position()) }

// GroundPosition is what the ground counters stand at.
func (s *State) GroundPosition(c *Config) units.GroundPosition {
	return s.Ground.Position(c.Ground, s.AirPosition())
}

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
