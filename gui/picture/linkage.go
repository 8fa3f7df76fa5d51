package picture

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// Linkage is what the picture of the mechanism shows: values in, a picture out.
// Who fills it in knows the laws and the words (package chain).
type Linkage struct {
	Links [LinkCount]LinkState
	Turns Turns
	Hands Hands
	Small LinkageChart

	// Fast is true from a time rate of x30 on: what turns too fast to be seen is
	// drawn steady.
	Fast bool
	// Run is how far the stripes have run outward from the broken link, of one.
	Run float64
	// Lit is the link that the walk stands at, or NoLink.
	Lit Link
	// Chosen is the link whose card is open, or NoLink.
	Chosen Link
}

// LinkState is what stands at one link.
type LinkState struct {
	Value, Unit string    // on its plate; Value "" where it has none
	Note        [2]string // caption under the plate or beside the link
	Stands      Standing
	Flag        string    // of a broken link, in plain words
	Wrong       [2]string // on its error plate; "" for none
	Held        bool      // its input is held by hand
}

// Turns are how far the shafts have turned, in turns (onward +). Only the part
// of a turn is seen.
type Turns struct {
	AirLog, Drive         float64
	North, East           float64
	Longitude             float64 // behind the secant gear
	Heading               float64 // of all shafts of the heading chain
	WindNorth, WindEast   float64
	GroundNorth           float64 // behind the adders
	GroundEast            float64
	GroundLongitude, Wind float64 // behind the second secant gear; from the clock to the wind setter
}

// Hands are where the parts stand that do not run on.
type Hands struct {
	Impact      float64 // of the capsules: 0 flat to 1 full
	Temperature units.Temperature
	Compass     units.MagneticHeading
	Deviation   [37]float64  // of the card, degrees E +, each 10 degrees of magnetic heading; what it says
	TrueCurve   *[37]float64 // what the compass does, once that may be seen
	Setter      units.Variation
	Sent        units.TrueHeading
	Heading     units.TrueHeading
	BallNorth   float64 // -1 to 1, north and east +
	BallEast    float64
	Gear        units.Angle // latitudes of the two secant gears
	GroundGear  units.Angle
	Clock       time.Time
	Wind        units.Wind

	AirLog                    counter.Reading
	AirCounters, GroundCounts aboard.Counters
}

// LinkageChart is the strip of chart under the marker.
type LinkageChart struct {
	Ground *Ground
	Plot   Plot
}
