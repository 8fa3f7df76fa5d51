package sim

import (
	"time"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim/fault"
	"stillair/sim/weather"
)

// TicksPerSecond is the clock of the engine: a tick is 1/16 s exactly.
const TicksPerSecond = 16

// TicksOf rounds a time up to whole ticks.
func TicksOf(d time.Duration) int64 {
	const tick = time.Second / TicksPerSecond // 62.5 ms, a whole number of ns
	return int64((d + tick - 1) / tick)
}

// TimeOf is the exact time of a tick.
func TimeOf(tick int64) time.Duration {
	return time.Duration(tick) * (time.Second / TicksPerSecond)
}

// Plan is a compiled flight: everything the engine needs, nothing it has to
// look up. It does not change while it is flown.
type Plan struct {
	Title  string
	Start  time.Time // UTC
	Seed   uint64
	Waters string // name of the invented geography, or ""
	Pilot  Pilot

	Aircraft  Aircraft
	Legs      []Leg
	Field     *units.Variation // one uniform variation; nil: IGRF-14
	Air       Air
	Mechanism integrator.Config
	Making    Making
	Setting   Setting
	Crew      []Command
	Faults    []fault.Order
	Lessons   []Lesson
	Moments   []Moment  // by time
	Stations  []Station // that aids can be pointed at
	Aids      Aids      // what is wrong with them
	Undercast []Span    // when a closed layer of cloud hides what is below
	Exercise  *Exercise // nil: it is none
}

// Aids is what is wrong with the navigator's aids: which have failed, and what is added
// to what the others show.
type Aids struct {
	OutOfOrder                    []aboard.Aid
	Drift, Sextant, Loop, Heading units.Angle
	Pulse                         float64 // us
	Timing                        float64 // of the drift sight's timing wires, of one: the sea seems to run so much faster
}

// Span is a stretch of flight time, ticks; To 0: to the end.
type Span struct{ From, To int64 }

// Holds says whether a tick lies in it.
func (s Span) Holds(tick int64) bool { return tick >= s.From && (s.To == 0 || tick < s.To) }

// Pilot says what is held.
type Pilot uint8

// The three pilots (design section 5).
const (
	Steady        Pilot = iota // indicated heading; planned true airspeed and height
	ByInstruments              // heading, speed and height by the dials
	AsPlanned                  // heading, speed and height exactly
)

// SpeedKind says what a SpeedOrder holds.
type SpeedKind uint8

// The two kinds of speed order.
const (
	HoldTAS SpeedKind = iota
	HoldCAS
)

// SpeedOrder is a speed to hold.
type SpeedOrder struct {
	Kind  SpeedKind
	Speed units.Speed
}

// Aircraft is its state at the start.
type Aircraft struct {
	Position         units.Position
	Heading          units.TrueHeading
	PressureAltitude units.Length
	Speed            SpeedOrder
}

// Steer says what a leg's direction means.
type Steer uint8

// The five ways to order a leg.
const (
	HeadingTrue Steer = iota
	HeadingMagnetic
	HeadingCompass
	TrackTrue
	ToPlace
)

// Leg is one leg: a turn onto it, then straight.
type Leg struct {
	Steer     Steer
	Direction units.Angle    // of the heading or track
	Place     string         // name, for ToPlace
	Target    units.Position // of the place

	Ticks    int64        // duration; 0: the leg ends by distance or at the place
	Distance units.Length // true air distance; 0: not by distance

	Speed    *SpeedOrder   // nil: unchanged
	Altitude *units.Length // pressure altitude; nil: unchanged
	Climb    units.Speed   // rate of climb or descent, above 0
	TurnRate float64       // degrees a second; 0: at once
}

// Air is the weather of the flight.
type Air struct {
	ISADeviation float64 // kelvins
	QNH          units.Pressure
	Winds        []WindEntry
	Departure    weather.Departure // of the wind met from Winds
}

// Making is by how much this one instrument and its sources depart from their
// class, beside whatever is broken; the zero value departs in nothing. A fault
// that writes the same figure takes its place.
type Making struct {
	PositionError float64     // of the static vents, part of the impact pressure
	Thermometer   float64     // K too high
	AirLogScale   float64     // relative, of the shaft speed
	GearError     float64     // of the drive: ratio - 1
	Deviation     units.Angle // E +, the same on all headings
	Variation     units.Angle // the setter stands so much east of what is set
	Repeater      units.Angle // error of the heading transmission
	Resolver      units.Angle // its crank, on its shaft
}

// WindEntry is one [[air.wind]] of a flight.
type WindEntry = weather.Entry

// Setting is what the crew has set at the start.
type Setting struct {
	Variation *units.Variation // nil: the setter follows the field
	Wind      units.Wind
	Counters  *units.Position // nil: as the start
}

// Command is something done at a tick boundary: an action of the crew, or,
// with another Kind, something done to a fault or to a link. Commands of one tick are done
// in the order of their arrival.
type Command struct {
	Tick   int64
	Action aboard.Action // of the crew
	Kind   CommandKind
	Order  fault.Order // Break
	Fault  int         // Mend: number of the fault in Engine.Faults
	Signal int         // Signal: 0 to 9
	Hand   Hand        // ByHand
	Helm   HelmOrder   // AtHelm
}

// CommandKind says what a command does.
type CommandKind uint8

// The kinds of command.
const (
	Act    CommandKind = iota // Action
	Break                     // Order: it begins when its trigger says, at the earliest now
	Mend                      // Fault: it is over, whether it had begun or not
	Signal                    // Signal: faults that wait for it begin
	ByHand                    // Hand: it is put to an input of a link, or taken off
	AtHelm                    // Helm: somebody steers, and has another wind blow
)
