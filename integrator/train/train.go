// Package train is a latitude train and a longitude train through the secant
// gear: northing and easting shafts in, a latitude and a longitude counter out.
// The air position and the ground position have one each.
//
// The earth of the mechanism is a sphere on which one minute of latitude is one
// nautical mile:
//
//	dphi = dN minutes    dlambda = dE sec(phi) minutes
//
// phi being the latitude counter itself, at the middle of the step. That is the
// closed form of a rhumb line on the sphere to 1e-11 of a step below 85 degrees.
package train

import (
	"math"

	"stillair/integrator/units"
)

// Imperfection is what is wrong with the trains; the zero value is ideal.
//
//	SecantHeld, HeldLatitude   the secant gear stands there
//	SecantLimit                greatest latitude of the gear; 0: none
//	Disengages                 beyond the limit the gear drops out and longitude
//	                           stops; else the follower rides the end of the cam
//	GearOffset                 the gear stands this far off the latitude counter
//	LatJammed, LonJammed       the counter stands; the motion is lost
//	LatReversed, LonReversed   the counter is set to count the wrong way
//	LatMisSet, LonMisSet       minutes by which the counter is set wrong: it is
//	                           turned by them once, when they appear
//	LatCarry, LonCarry         a drum that does not move at its next carries
type Imperfection struct {
	SecantHeld           bool
	HeldLatitude         units.Angle
	SecantLimit          units.Angle
	Disengages           bool
	GearOffset           units.Angle
	LatJammed, LonJammed bool
	LatReversed          bool
	LonReversed          bool
	LatMisSet, LonMisSet float64
	LatCarry, LonCarry   Carry
}

// State is one pair of counters, in minutes: latitude N +, longitude E +,
// unwrapped, and what they remember of what is wrong with them.
type State struct {
	Lat, Lon           units.Sum
	LatDrums, LonDrums Drums
}

// At puts the counters at a position.
func At(p units.Position) State {
	return State{Lat: units.SumOf(p.Lat.Minutes()), Lon: units.SumOf(p.Lon.Minutes())}
}

// Set puts the counters at a position. What is wrong with the drums stays as
// it is: a mis-setting that still stands in the book is not made twice.
func (s *State) Set(p units.Position) {
	s.Lat, s.Lon = units.SumOf(p.Lat.Minutes()), units.SumOf(p.Lon.Minutes())
}

// Position is what the counters stand at.
func (s *State) Position() units.Position {
	return units.Position{
		Lat: units.Angle(s.Lat.Total) * units.ArcMinute,
		Lon: units.Angle(s.Lon.Total) * units.ArcMinute,
	}
}

// pole is where the stops of the latitude counter are, in minutes.
const pole = 5400.0

// Turn drives the trains by a northing and an easting in NM.
func (s *State) Turn(north, east float64, w *Imperfection) {
	s.misSet(w)
	dlat := 0.0
	if !w.LatJammed {
		dlat = sense(north, w.LatReversed)
	}
	half := s.Lat.Total + 0.5*dlat // the gear follows the counter itself
	s.turnLat(dlat, w)
	if !w.LonJammed {
		s.turnLon(sense(east, w.LonReversed)*secant(units.Angle(half)*units.ArcMinute, w), w)
	}
}

func sense(x float64, reversed bool) float64 {
	if reversed {
		return -x
	}
	return x
}

// Knob turns the counters themselves by minutes of arc.
func (s *State) Knob(lat, lon float64) {
	s.Lat.Add(lat)
	s.stop()
	s.Lon.Add(lon)
}

func (s *State) turnLat(by float64, w *Imperfection) {
	before := s.Lat.Total
	s.Lat.Add(by)
	if short := s.LatDrums.miss(before, s.Lat.Total, w.LatCarry); short != 0 {
		s.Lat.Add(short)
	}
	s.stop()
}

func (s *State) turnLon(by float64, w *Imperfection) {
	before := s.Lon.Total
	s.Lon.Add(by)
	if short := s.LonDrums.miss(before, s.Lon.Total, w.LonCarry); short != 0 {
		s.Lon.Add(short)
	}
}

func (s *State) stop() {
	if math.Abs(s.Lat.Total) > pole {
		s.Lat = units.SumOf(math.Copysign(pole, s.Lat.Total))
	}
}

// smallestCosine keeps the ideal gear finite at the pole: it is reached within
// 7 m of it.
const smallestCosine = 1e-6

func secant(lat units.Angle, w *Imperfection) float64 {
	lat, out := gear(lat, w)
	if out {
		return 0
	}
	return Secant(lat)
}

// Secant is the ratio of a gear that is in order.
func Secant(lat units.Angle) float64 {
	return 1 / max(smallestCosine, math.Abs(math.Cos(float64(lat))))
}

// gear is where the secant gear stands when the latitude counter stands at
// lat, and whether it has dropped out.
func gear(lat units.Angle, w *Imperfection) (at units.Angle, out bool) {
	at = lat + w.GearOffset
	if w.SecantHeld {
		at = w.HeldLatitude
	}
	limit := w.SecantLimit
	if limit <= 0 || (at <= limit && at >= -limit) {
		return at, false
	}
	return max(-limit, min(limit, at)), w.Disengages
}

// Gear is where the secant gear of the train stands now, and whether it has
// dropped out beyond its limit.
func (s *State) Gear(w *Imperfection) (at units.Angle, out bool) {
	return gear(units.Angle(s.Lat.Total)*units.ArcMinute, w)
}

// Ratio is the ratio of the secant gear now: minutes of longitude for a mile of
// easting; 0 if the gear has dropped out.
func (s *State) Ratio(w *Imperfection) float64 {
	return secant(units.Angle(s.Lat.Total)*units.ArcMinute, w)
}

// Rates are those of the two counters while the shafts turn by north and east
// NM a second, in minutes a second. A counter that is jammed, or stands at its
// stop, has none.
func (s *State) Rates(north, east float64, w *Imperfection) (lat, lon float64) {
	lat, lon = sense(north, w.LatReversed), sense(east, w.LonReversed)*s.Ratio(w)
	if w.LatJammed || math.Abs(s.Lat.Total) >= pole && lat*s.Lat.Total > 0 {
		lat = 0
	}
	if w.LonJammed {
		lon = 0
	}
	return lat, lon
}

// Rhumb moves a position along a rhumb line of the mechanism's sphere by a
// northing and an easting in NM, in one go (closed form):
//
//	dlambda = (dE/dN) 2 atanh( sin(dphi/2) / cos(phi_m) )
//
// phi_m the mean latitude; dE sec(phi) on an E-W line.
func Rhumb(p units.Position, north, east float64) units.Position {
	dlat := float64(units.Angle(north) * units.ArcMinute)
	mean := float64(p.Lat) + 0.5*dlat
	cos := max(smallestCosine, math.Abs(math.Cos(mean)))
	var dlon float64
	if math.Abs(dlat) < 1e-9 {
		dlon = float64(units.Angle(east)*units.ArcMinute) / cos
	} else {
		// Beyond the pole there is no rhumb line: hold the argument inside.
		x := max(-1+1e-12, min(1-1e-12, math.Sin(0.5*dlat)/cos))
		dlon = east / north * 2 * math.Atanh(x)
	}
	return units.Position{Lat: p.Lat + units.Angle(dlat), Lon: p.Lon + units.Angle(dlon)}
}
