package integrator

import "stillair/integrator/units"

// What the links pass on at this moment, for those who open the instrument.

// TAS is the speed that the air log shows.
func (s *State) TAS() units.Speed {
	if s.Hands.Holds(HandSpeed) {
		return s.Hands.Speed
	}
	return s.AirLog.TAS
}

// AirShaft is the speed at which the shaft of the air log turns.
func (s *State) AirShaft() units.Speed {
	if s.Hands.Holds(HandSpeed) {
		return s.Hands.Speed
	}
	return s.AirLog.Turns(&s.Wrong.AirLog)
}

// DriveShaft is the speed at which the shaft behind the drive turns.
func (s *State) DriveShaft() units.Speed {
	return units.Speed(drive(float64(s.AirShaft()), &s.Wrong.Drive))
}

// Balls is where the balls on the two discs stand; see ResolverImperfection.
func (s *State) Balls() (north, east float64) { return s.Wrong.Resolver.Balls(s.Repeater) }

// ShaftRates are the speeds of the northing and of the easting shaft; one that
// takes up its play stands.
func (s *State) ShaftRates() (north, east units.Speed) {
	n, e := s.Wrong.Resolver.Discs(s.Repeater)
	run, play := float64(s.DriveShaft()), s.Wrong.Drive.Play
	n, e = run*n, run*e
	if !s.Play.North.Drives(n, play) {
		n = 0
	}
	if !s.Play.East.Drives(e, play) {
		e = 0
	}
	return units.Speed(n), units.Speed(e)
}

// Gear is the latitude that the first secant gear stands at and its ratio, 0 if
// it has dropped out.
func (s *State) Gear() (at units.Angle, ratio float64) {
	w := s.gear()
	at, _ = s.Air.Gear(&w)
	return at, s.Air.Ratio(&w)
}

// CounterRates are those of the air counters, rad/s.
func (s *State) CounterRates() (lat, lon float64) {
	w := s.gear()
	north, east := s.ShaftRates()
	lat, lon = s.Air.Rates(units.Length(north).NM(), units.Length(east).NM(), &w)
	return lat * float64(units.ArcMinute), lon * float64(units.ArcMinute)
}
