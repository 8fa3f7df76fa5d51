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

// State is the ground side at one moment.
type State struct {
	Set         units.Wind // on the dial
	hand        units.Wind // of a hand on the wind shafts
	held        bool
	wrong       WindError // what was wrong with it in the last step
	north, east float64   // NM a second of the wind in force
	// Clock is the wind clock, seconds since the counters were set; exact, for
	// a tick is a power of two of a second. It has stood for Stood seconds
	// before it started, and Old of its seconds are of the run before.
	Clock, Stood, Old float64
	Running           train.State
	North, East       units.Sum // NM that the wind shafts have turned since then
	// Off is how far its drive has taken the marker from where the counters
	// stand; without an error of the drive, nothing.
	Off units.Position
}

// SetWind turns the wind setter.
func (s *State) SetWind(w units.Wind) {
	s.Set = w
	s.shafts()
}

// Setting is the wind that the setter stands at: what is set, and what is wrong
// with it.
func (s *State) Setting() units.Wind { return s.wrong.of(s.Set) }

// InForce is the wind that turns the shafts: that of the setter, or of a hand.
func (s *State) InForce() units.Wind {
	if s.held {
		return s.hand
	}
	return s.Setting()
}

// Hold puts a hand on the wind shafts, or takes it off. The setter stays.
func (s *State) Hold(on bool, w units.Wind) {
	s.held, s.hand = on, w
	s.shafts()
}

func (s *State) shafts() {
	n, e := s.InForce().Velocity()
	s.north = units.Length(n).NM()
	s.east = units.Length(e).NM()
}

// Settle takes up what is wrong with the setting of the wind as it stands.
func (s *State) Settle(w *Imperfection) {
	if s.wrong != w.Wind {
		s.wrong = w.Wind
		s.shafts()
	}
}

// Reset sets the ground counters, zeroes the wind clock, lifts the marker and
// puts it down there.
func (s *State) Reset(p units.Position) {
	s.Running.Set(p)
	s.North, s.East = units.Sum{}, units.Sum{}
	s.Off = units.Position{}
	s.Clock, s.Stood, s.Old = 0, 0, 0
}

// Turn runs a step of dt seconds in which the air shafts turned by north and
// east NM.
func (s *State) Turn(north, east, dt float64, w *Imperfection) {
	s.Settle(w)
	run := s.clock(dt, w)
	windNorth, windEast := float64(s.north*run), float64(s.east*run)
	s.North.Add(windNorth)
	s.East.Add(windEast)
	s.Running.Turn(north+windNorth, east+windEast, &w.Train)
	if !w.Marker.Driven() {
		s.Off = units.Position{} // mended: lifted and put down at its place
	}
}

// clock runs the wind clock for dt seconds and gives what it counts.
func (s *State) clock(dt float64, w *Imperfection) float64 {
	if s.Old != w.ClockOld {
		if w.ClockOld != 0 { // once; taken back, it stays on the clock
			s.Clock += w.ClockOld - s.Old
		}
		s.Old = w.ClockOld
	}
	if w.ClockLate == 0 {
		s.Stood = 0
	} else if left := w.ClockLate - s.Stood; left > 0 {
		stands := min(left, dt)
		s.Stood += stands
		dt -= stands
	}
	run := dt * (1 + w.ClockRate)
	s.Clock += run
	return run
}

// Counting is how many seconds the wind clock counts in a second now.
func (s *State) Counting(w *Imperfection) float64 {
	if w.ClockLate > s.Stood {
		return 0
	}
	return 1 + w.ClockRate
}

// Wind is the way of the wind since the counters were set, NM: what its shafts
// have turned, or, plotted, the line laid off for the present wind.
func (s *State) Wind(d Design) (north, east float64) {
	if d == Running {
		return s.North.Total, s.East.Total
	}
	return s.north * s.Clock, s.east * s.Clock
}

// Gear is the latitude of the second secant gear and its ratio. Plotted, there
// is none: the middle latitude of the line of the wind, and its secant.
func (s *State) Gear(d Design, air units.AirPosition, w *Imperfection) (at units.Angle, ratio float64) {
	if d == Running {
		at, _ = s.Running.Gear(&w.Train)
		return at, s.Running.Ratio(&w.Train)
	}
	at = 0.5 * (air.Lat + s.Position(d, air).Lat)
	return at, train.Secant(at)
}

// Position is the ground position the design gives; a plot ends at the poles.
func (s *State) Position(d Design, air units.AirPosition) units.GroundPosition {
	if d == Running {
		return units.GroundPosition(s.Running.Position())
	}
	return onChart(train.Rhumb(units.Position(air), s.north*s.Clock, s.east*s.Clock))
}
