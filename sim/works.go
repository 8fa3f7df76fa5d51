package sim

import (
	"math"

	"stillair/integrator"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/sim/sensor"
)

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

// Works is what the links pass on now. Positions are wrapped as in Snapshot.
//
// NorthRate and EastRate are those behind the play of the shafts: 0 while it is
// taken up. Longitude and Latitude are those of the counters themselves: 0 of
// one that is jammed. The ripple of the regulator is in the sums; in the speeds
// it is evened out.
//
// Where the ground position is plotted there are neither wind shafts nor adders
// nor a second gear. There WindNorth and WindEast are the line of the wind as
// it is laid off now, for all the time since the reset; NorthSum and EastSum
// with it the whole way from where the counters were set; GroundNorth and
// GroundEast what these grow by while the wind set stays; GroundGear the middle
// latitude of the line and GroundSecant its secant.
func (e *Engine) Works() Works { return e.course.works(&e.state) }

func (c *course) works(s *State) Works {
	m := &s.Mechanism
	w := Works{
		Pitot: s.Sensed.Air.Pitot, Static: s.Sensed.Air.Static,
		Temperature: m.AirLog.Cam(s.Sensed.Air, &m.Wrong.AirLog),
		TAS:         m.AirShaft(), AirMiles: m.AirMiles(),
		Drive: m.DriveShaft(), Wound: units.Length(m.Wound.Total) * units.NM,
		Compass: units.MagneticHeading(s.Sensed.Compass), Setter: m.Setter(),
		Sent: units.TrueHeading(m.Heading.Sent), Heading: m.Repeater,
	}
	w.BallNorth, w.BallEast = m.Balls()
	w.NorthRate, w.EastRate = m.ShaftRates()
	w.North, w.East = m.Shafts()
	w.Gear, w.Secant = m.Gear()
	w.Latitude, w.Longitude = m.CounterRates()
	shown := s.shown(c)
	w.Air, w.Ground, w.Marker = shown.Air, shown.Ground, shown.Marker
	c.groundWorks(m, &w)
	return w
}

func (c *course) groundWorks(m *integrator.State, w *Works) {
	g, wrong, design := &m.Ground, &m.Wrong.Ground, c.plan.Mechanism.Ground
	w.Clock, w.WindRun, w.Wind = g.Counting(wrong), g.Clock, g.InForce()
	north, east := g.Wind(design)
	w.WindNorth, w.WindEast = units.Length(north)*units.NM, units.Length(east)*units.NM
	w.GroundGear, w.GroundSecant = g.Gear(design, m.AirPosition(), wrong)
	w.add()
}

// add is what the two adders make of air and wind.
func (w *Works) add() {
	north, east := w.Wind.Velocity()
	clock := units.Speed(w.Clock)
	w.GroundNorth, w.GroundEast = w.NorthRate+clock*north, w.EastRate+clock*east
	w.NorthSum, w.EastSum = w.North+w.WindNorth, w.East+w.WindEast
}

// TrueWorks is what the links would pass on if each were in order and each
// setting right, from the world itself: pressures at the head and in the free
// air, lengths truly flown, places truly reached. Gears, and rates of the
// counters, are those of the mechanism's sphere at the true place.
func (e *Engine) TrueWorks() Works { return e.course.trueWorks(&e.state) }

func (c *course) trueWorks(s *State) Works {
	truth, run := s.truth(), &s.World.Run
	felt := c.feelable(&s.World)
	in := sensor.Feel(&felt)
	sin, cos := math.Sincos(float64(truth.Heading))
	flown := units.Length(run.Flown.Total)
	w := Works{
		Pitot: in.Air.Pitot, Static: in.Air.Static, Temperature: in.Air.Temperature,
		TAS: truth.TAS, AirMiles: flown, Drive: truth.TAS, Wound: flown,
		Compass: truth.Heading.Magnetic(truth.Variation), Setter: truth.Variation,
		Sent: truth.Heading, Heading: truth.Heading,
		BallNorth: cos, BallEast: sin,
		NorthRate: truth.TAS * units.Speed(cos), EastRate: truth.TAS * units.Speed(sin),
		North: units.Length(run.North.Total), East: units.Length(run.East.Total),
		Gear: truth.Air.Lat, Secant: train.Secant(truth.Air.Lat),
		Air:   units.AirPosition(truth.Air),
		Clock: 1, WindRun: float64(s.Tick-run.Since) * dt, Wind: truth.Wind,
		WindNorth: units.Length(run.WindNorth.Total), WindEast: units.Length(run.WindEast.Total),
		GroundGear: truth.Position.Lat, GroundSecant: train.Secant(truth.Position.Lat),
		Ground: units.GroundPosition(truth.Position), Marker: units.GroundPosition(truth.Position),
	}
	w.Latitude = units.Length(w.NorthRate).NM() * float64(units.ArcMinute)
	w.Longitude = units.Length(w.EastRate).NM() * w.Secant * float64(units.ArcMinute)
	w.add()
	return w
}
