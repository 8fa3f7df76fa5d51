package sim

import (
	"math"

	"stillair/integrator/units"
)

// Snapshot is truth, what the senses felt and what the mechanism shows, at one
// tick. Positions are wrapped to [-180, 180) degrees.
type Snapshot struct {
	Tick   int64
	Truth  Truth
	Sensed Sensed
	Shown  Shown
	Error  Errors
}

// Truth is the world.
type Truth struct {
	Position    units.Position
	Air         units.Position // the start moved without wind since the counters were set
	Heading     units.TrueHeading
	TAS         units.Speed
	Track       units.Angle
	Groundspeed units.Speed
	Wind        units.Wind
	Height      units.Length // pressure altitude
	Variation   units.Variation
}

// Sensed is what reaches the mechanism, and the compass.
type Sensed struct {
	Pitot, Static units.Pressure
	Temperature   units.Temperature
	Heading       units.MagneticHeading // the compass reading, deviation included
}

// Shown is what the mechanism shows.
type Shown struct {
	North, East units.Length // the two shafts since the counters were set
	Air         units.AirPosition
	Ground      units.GroundPosition
	Marker      units.GroundPosition
	AirMiles    units.Length
	Heading     units.TrueHeading
	TAS         units.Speed
	Wind        units.Wind
	Variation   units.Variation
}

// Errors are indicated minus true, in minutes called NM.
type Errors struct{ Air, Ground Offset }

// Offset is north and east in NM.
type Offset struct{ North, East float64 }

// NM is the length of the offset.
func (o Offset) NM() float64 { return math.Hypot(o.North, o.East) }

// OffsetOf is shown minus true: north = 60 x difference of latitude, east = 60
// x difference of longitude x cos(true latitude).
func OffsetOf(shown, truth units.Position) Offset {
	return Offset{
		North: (shown.Lat - truth.Lat).Minutes(),
		East:  units.WrapHalf(shown.Lon-truth.Lon).Minutes() * math.Cos(float64(truth.Lat)),
	}
}

// Snapshot is the present moment.
func (e *Engine) Snapshot() Snapshot { return e.course.snapshot(&e.state) }

func (c *course) snapshot(s *State) Snapshot {
	truth, shown := s.truth(), s.shown(c)
	return Snapshot{
		Tick:  s.Tick,
		Truth: truth,
		Sensed: Sensed{
			s.Sensed.Air.Pitot, s.Sensed.Air.Static, s.Sensed.Air.Temperature,
			units.MagneticHeading(s.Senses.Compass),
		},
		Shown: shown,
		Error: Errors{
			Air:    OffsetOf(units.Position(shown.Air), truth.Air),
			Ground: OffsetOf(units.Position(shown.Ground), truth.Position),
		},
	}
}

func (s *State) truth() Truth {
	w, a := &s.World, &s.World.Aircraft
	sin, cos := math.Sincos(float64(a.Heading))
	north, east := float64(a.TAS)*cos+w.North, float64(a.TAS)*sin+w.East
	return Truth{
		Position: wrapped(w.Ground.Position()), Air: wrapped(w.Air.Position()),
		Heading: a.Heading, TAS: a.TAS,
		Track: units.Wrap(units.Angle(math.Atan2(east, north))), Groundspeed: units.Speed(math.Hypot(north, east)),
		Wind:   units.WindOf(units.Speed(w.North), units.Speed(w.East)),
		Height: a.Height, Variation: w.Variation,
	}
}

func (s *State) shown(c *course) Shown {
	m, cfg := &s.Mechanism, &c.plan.Mechanism
	north, east := m.Shafts()
	return Shown{
		North: north, East: east,
		Air:      units.AirPosition(wrapped(units.Position(m.AirPosition()))),
		Ground:   units.GroundPosition(wrapped(units.Position(m.GroundPosition(cfg)))),
		Marker:   units.GroundPosition(wrapped(units.Position(m.Marker(cfg)))),
		AirMiles: m.AirMiles(),
		Heading:  m.Repeater, TAS: m.TAS(), Wind: m.Ground.Setting(), Variation: m.Setter(),
	}
}

func wrapped(p units.Position) units.Position {
	return units.Position{Lat: p.Lat, Lon: units.WrapHalf(p.Lon)}
}
