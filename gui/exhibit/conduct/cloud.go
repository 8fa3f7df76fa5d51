package conduct

import (
	"math"

	"stillair/gui/exhibit/tongue"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// Outcome is how a landing in cloud ended.
type Outcome struct {
	Miles   float64 // from the true position to the place
	True    units.Position
	Reached bool // the instrument said that the place was reached
	Best    float64
	First   bool // nobody landed before today
	NewBest bool
	Real    units.Wind
	Set     units.Wind
}

// Outcome is the last one.
func (m *Machine) Outcome() Outcome { return m.result }

const (
	// arrived is how near the marker must come to the place for the cloud to part
	// before its time, miles.
	arrived = 1.2
	// reached is how near it must stand for a miss to be the wind's alone.
	reached = 2.5
	// share of the time that the straight way takes in still air.
	wayShare = 0.75
)

// The wind that blows in cloud, knots, and the speed at which one begins.
const (
	leastReal, mostReal = 12, 44
	landKt              = 180
)

// land begins the flight in cloud: from where flights begin, towards the place, with
// no wind set and one blowing that only the ship knows.
func (m *Machine) land() {
	if m.x.Landing == nil || m.stage == Cloud {
		return
	}
	m.broken, m.erred, m.breaks, m.inside, m.shown = -1, false, 0, false, nil
	m.real = units.Wind{
		From:  units.Angle(m.chance.IntN(360)) * units.Degree,
		Speed: units.Speed(leastReal+m.chance.IntN(mostReal-leastReal+1)) * units.Knot,
	}
	course, way := geodesy.RhumbInverse(m.x.Flight.From, m.x.Landing.At)
	m.dial[Heading], m.dial[Speed], m.dial[WindSpeed] = math.Mod(math.Round(course.Degrees()), 360), landKt, 0
	m.enter(Cloud)
	m.say = said{word: tongue.CloudStart, at: m.now}
	rate := way.NM() / landKt * 3600 / (wayShare * m.x.Landing.Time.Seconds())
	m.crew.Begin(Flight{Order: m.order(), Set: m.wind(), Rate: rate})
}

// part stops the flight and has the cloud part.
func (m *Machine) part() {
	m.crew.Stop()
	m.enter(Parting)
}

// judge works out by how much the place was missed, once the truth is there.
func (m *Machine) judge() bool {
	if m.shown == nil || m.shown.Revealed == nil {
		return false
	}
	at := m.x.Landing.At
	r := Outcome{
		True: m.shown.Revealed.Now.Truth.Position, Real: m.real, Set: m.wind(),
		Reached: sim.OffsetOf(units.Position(m.shown.View.Marker), at).NM() < reached,
	}
	r.Miles = sim.OffsetOf(r.True, at).NM()
	best, any := m.counter.Best(m.wall)
	r.First, r.NewBest = !any, any && r.Miles < best
	r.Best = r.Miles
	if any {
		r.Best = math.Min(best, r.Miles)
	}
	m.counter.Landed(m.wall, r.Miles)
	m.result = r
	return true
}
