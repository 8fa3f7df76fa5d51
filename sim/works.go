package sim

import "stillair/integrator/units"

// Works is what every link of the mechanism passes on at one tick, from the
// pressures at the capsules to the marker. It is for those who open the
// instrument. Engine.Works gives what it passes on, Engine.TrueWorks what it
// would pass on if every link were in order and every setting right.
//
// Lengths and positions are sums since the start of the flight (AirMiles, Wound)
// or since the counters were set; speeds are those of this moment.
type Works struct {
	Pitot, Static units.Pressure    // at the capsules
	Temperature   units.Temperature // at the density cam
	TAS           units.Speed       // at which the shaft of the air log turns
	AirMiles      units.Length      // on the air log counter, before the drive
	Drive         units.Speed       // at which the shaft behind the drive turns
	Wound         units.Length      // that it has turned

	Compass units.MagneticHeading // from the master compass to the setter
	Setter  units.Variation       // where the variation setter stands
	Sent    units.TrueHeading     // on the transmission
	Heading units.TrueHeading     // of the repeater at the resolver

	BallNorth, BallEast float64      // from the middle of the two discs, of full output
	NorthRate, EastRate units.Speed  // of the two shafts
	North, East         units.Length // that they have turned

	Gear      units.Angle // latitude at which the secant gear stands
	Secant    float64     // its ratio; 0: dropped out
	Longitude float64     // rate of the longitude shaft, rad/s, east +
	Latitude  float64     // rate of the latitude shaft, rad/s, north +
	Air       units.AirPosition

	Clock                   float64    // seconds that the wind clock counts a second
	WindRun                 float64    // seconds it has counted
	Wind                    units.Wind // that turns the wind shafts
	WindNorth, WindEast     units.Length
	GroundNorth, GroundEast units.Speed  // behind the adders
	NorthSum, EastSum       units.Length // that they have turned
	GroundGear              units.Angle
	GroundSecant            float64
	Ground                  units.GroundPosition
	Marker                  units.GroundPosition
}
