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
type Imperfection struct {
	SecantHeld   bool        // the gear stands at HeldLatitude
	HeldLatitude units.Angle //
	SecantLimit  units.Angle // greatest latitude of the gear; 0: none
	LatJammed    bool
	LonJammed    bool
	LatReversed  bool
	LonReversed  bool
}

// State is one pair of counters, in minutes: latitude N +, longitude E +,
// unwrapped.
type State struct{ Lat, Lon units.Sum }

// At puts the counters at a position.
func At(p units.Position) State {
	return State{units.SumOf(p.Lat.Minutes()), units.SumOf(p.Lon.Minutes())}
}

// Position is what the counters stand at.
func (s *State) Position() units.Position {
	return units.Position{
		Lat: units.Angle(s.Lat.Total) * units.ArcMinute,
		Lon: units.Angle(s.Lon.Total) * units.ArcMinute,
	}
}

// Turn drives the trains by a northing and an easting in NM.
func (s *State) Turn(north, east float64, w *Imperfection) {
	dlat := north
	switch {
	case w.LatJammed:
		dlat = 0
	case w.LatReversed:
		dlat = -north
	}
	half := s.Lat.Total + 0.5*dlat // the gear follows the counter itself
	s.Lat.Add(dlat)
	if w.LonJammed {
		return
	}
	if w.LonReversed {
		east = -east
	}
	s.Lon.Add(east * secant(units.Angle(half)*units.ArcMinute, w))
}

// smallestCosine keeps the ideal gear finite at the pole: it is reached within
// 7 m of it.
const smallestCosine = 1e-6

func secant(lat units.Angle, w *Imperfection) float64 {
	if w.SecantHeld {
		lat = w.HeldLatitude
	}
	if w.SecantLimit > 0 {
		lat = max(-w.SecantLimit, min(w.SecantLimit, lat))
	}
	return 1 / max(smallestCosine, math.Abs(math.Cos(float64(lat))))
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
