// Package ground adds the wind to the air position: wind setter, wind shafts,
// second latitude train and secant gear, ground counters, marker.
//
// Two designs. Running: wind shafts turned by a clock add (wind set) x dt to
// the northing and easting of the air shafts, and a second pair of trains turns
// the sum into ground latitude and longitude; a changed wind changes only what
// follows. Plotted: ground = air position + present wind x time since the
// reset, one rhumb line of the mechanism's sphere, as a navigator draws it; a
// changed wind is applied to the whole run.
package ground

import (
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// Imperfection is what is wrong with the ground side; the zero value is ideal.
// MarkerScale is the relative error of the marker drive, MarkerNorth and
// MarkerEast (NM) how far from its place the marker was put down, ClockRate the
// relative error of the wind clock.
type Imperfection struct {
	ClockRate               float64
	MarkerScale             float64
	MarkerNorth, MarkerEast float64
	Train                   train.Imperfection
}

// State is the ground side at one moment.
type State struct {
	Set         units.Wind
	north, east float64 // NM a second of the wind set
	// Clock is the wind clock, seconds since the counters were set; exact, for
	// a tick is a power of two of a second.
	Clock   float64
	Running train.State
	// The marker was put down at Origin when the ground counters stood at
	// Origin too; since then it is driven by their motion.
	Origin units.Position
}

// SetWind turns the wind setter.
func (s *State) SetWind(w units.Wind) {
	s.Set = w
	n, e := w.Velocity()
	s.north = units.Length(n).NM()
	s.east = units.Length(e).NM()
}

// Reset sets the ground counters, zeroes the wind clock and puts the marker
// down there.
func (s *State) Reset(p units.Position) {
	s.Running = train.At(p)
	s.Origin = p
	s.Clock = 0
}

// Turn runs a step of dt seconds in which the air shafts turned by north and
// east NM.
func (s *State) Turn(north, east, dt float64, w *Imperfection) {
	run := dt * (1 + w.ClockRate)
	s.Clock += run
	s.Running.Turn(north+float64(s.north*run), east+float64(s.east*run), &w.Train)
}

// Position is the ground position the design gives.
func (s *State) Position(d Design, air units.AirPosition) units.GroundPosition {
	if d == Running {
		return units.GroundPosition(s.Running.Position())
	}
	return units.GroundPosition(train.Rhumb(units.Position(air), s.north*s.Clock, s.east*s.Clock))
}

// Marker is where the marker stands over the chart when the ground counters
// stand at g. It is put down at its place and driven by their motion.
func (s *State) Marker(g units.GroundPosition, w *Imperfection) units.GroundPosition {
	if *w == (Imperfection{}) {
		return g
	}
	k := units.Angle(1 + w.MarkerScale)
	north := units.Angle(w.MarkerNorth) * units.ArcMinute
	p := units.Position{
		Lat: s.Origin.Lat + (g.Lat-s.Origin.Lat)*k + north,
		Lon: s.Origin.Lon + (g.Lon-s.Origin.Lon)*k,
	}
	return units.GroundPosition(train.Rhumb(p, 0, w.MarkerEast))
}
