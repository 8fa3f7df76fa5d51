package ground

import (
	"math"

	"stillair/integrator/train"
	"stillair/integrator/units"
)

// Drive moves the marker by a drive that is wrong, while the ground counters
// ran from one position to another.
//
//	m      latitude of the marker, psi its isometric latitude; k factor of the drive
//	scale  d(marker) = k d(counters), in latitude and in longitude
//	fixed  d(psi) = k dphi sec(phi_s)    d(lambda) = k dE sec(phi_s)
//
// phi_s being the latitude whose scale the drive has, dE the easting.
func (s *State) Drive(from, to units.GroundPosition, w *MarkerError) {
	k := units.Angle(1 + w.Scale)
	dlat, dlon := to.Lat-from.Lat, to.Lon-from.Lon
	moved := units.Position{Lat: k * dlat, Lon: k * dlon}
	if w.Fixed {
		k /= units.Angle(math.Cos(float64(w.ScaleLatitude)))
		m := from.Lat + s.Off.Lat
		half := m + 0.5*k*dlat*cos(m)
		moved = units.Position{Lat: k * dlat * cos(half), Lon: k * dlon * cos(0.5*(from.Lat+to.Lat))}
	}
	s.Off.Lat += moved.Lat - dlat
	s.Off.Lon += moved.Lon - dlon
}

func cos(a units.Angle) units.Angle { return units.Angle(math.Cos(float64(a))) }

// Marker is where the marker stands over the chart when the ground counters
// stand at g. The chart ends at the poles.
func (s *State) Marker(g units.GroundPosition, w *Imperfection) units.GroundPosition {
	m := &w.Marker
	if *m == (MarkerError{}) {
		return g
	}
	p := units.Position(g)
	if m.Driven() {
		p.Lat, p.Lon = p.Lat+s.Off.Lat, p.Lon+s.Off.Lon
	}
	p.Lat += units.Angle(m.North) * units.ArcMinute
	return onChart(train.Rhumb(p, 0, m.East))
}

// onChart holds a place between the poles.
func onChart(p units.Position) units.GroundPosition {
	p.Lat = max(-90*units.Degree, min(90*units.Degree, p.Lat))
	return units.GroundPosition(p)
}
