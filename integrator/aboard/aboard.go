// Package aboard holds all that the crew can see and all that they can do.
// A display built from a View cannot leak the truth, for the View does not
// contain it; what the crew does comes back as an Action.
package aboard

import (
	"time"

	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// Kind says what an Action does.
type Kind uint8

// The actions of the crew. Their values live in the fields of Action named
// beside them.
const (
	SetVariation      Kind = iota + 1 // Variation
	FollowField                       // the setter follows the field at the true place (a teaching aid)
	SetWind                           // Wind
	SetCounters                       // Position: air and ground counters, marker put down there
	SlewLatitude                      // Slew: the knob turns the air latitude counter by this much
	SlewLongitude                     // Slew
	SetLongitudeLever                 // East: sense lever of the lever design
	AlternateStatic                   // On
	TakeAid                           // Reading
	Resynchronise                     // the repeater is brought into step with the master
)

// Action is one thing the crew does, a value that can be recorded.
type Action struct {
	Kind      Kind
	Variation units.Variation
	Wind      units.Wind
	Position  units.Position
	Slew      units.Angle
	East, On  bool
	Reading   Reading
}

// Counters are the two readings of a position counter.
type Counters struct {
	Latitude, Longitude counter.Reading
}

// Mark is one point of the recorded plot: what the instrument showed then.
type Mark struct {
	Elapsed time.Duration
	Air     units.AirPosition
	Ground  units.GroundPosition
	Event   Event
}

// Event says why a Mark was kept.
type Event uint8

// Events of the plot.
const (
	Sample      Event = iota // every ten seconds
	LegBegun                 // a turn was begun
	TurnEnded                // the new heading was reached
	WindSet                  // the wind setter was moved
	VarSet                   // the variation setter was moved
	CountersSet              // the counters were set or slewed
	FlightEnded
	Acted    // another action of the crew, which moves no counter
	Observed // a reading was taken
)

// Entry is one line of the navigation log, as the crew would write it.
type Entry struct {
	Elapsed   time.Duration
	Event     Event
	Heading   units.TrueHeading
	Magnetic  units.MagneticHeading
	Compass   units.CompassHeading // what the standby compass read
	Variation units.Variation      // set
	TAS, IAS  units.Speed
	Height    units.Length // pressure altitude
	OAT       units.Temperature
	Wind      units.Wind // set
	AirMiles  units.Length
	Air       units.AirPosition
	Ground    units.GroundPosition
	Leg       int    // index of the leg being flown
	Action    Action // what the crew did, Kind 0 if nothing
}

// View is everything the crew can see at one moment.
type View struct {
	Tick    int64
	Elapsed time.Duration
	Clock   time.Time // UTC

	IAS, TAS         units.Speed
	PressureAltitude units.Length
	VerticalSpeed    units.Speed
	AirTemperature   units.Temperature
	Heading          units.TrueHeading    // the repeater that feeds the resolver
	Compass          units.CompassHeading // standby compass

	VariationSet units.Variation
	FollowsField bool
	WindSet      units.Wind

	Air            units.AirPosition
	Ground         units.GroundPosition
	Marker         units.GroundPosition // where the marker stands
	AirCounters    Counters
	GroundCounters Counters
	LeverEast      bool
	AirLog         units.Length // air miles, tapped before the drive
	AirLogCounter  counter.Reading

	Northing, Easting units.Length // the two shafts since the counters were set

	Marks []Mark  // oldest first; shared, never changed
	Log   []Entry // oldest first; shared, never changed
}
