package conduct

import (
	"math"
	"math/rand/v2"
	"time"

	"stillair/gui/exhibit/tongue"
	"stillair/gui/helm"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// Crew flies for the visitor.
type Crew interface {
	Begin(Flight)
	// Steer orders the helm, and sets the wind that the instrument believes in.
	Steer(o sim.HelmOrder, set units.Wind)
	Break(fault.Order)
	Mend()
	Stop() // the clock
}

// Flight is a flight to be begun.
type Flight struct {
	Order sim.HelmOrder
	Set   units.Wind // what the instrument believes in
	Rate  float64
}

// Counter counts the day.
type Counter interface {
	Visited(day time.Time)
	Broke(day time.Time)
	Landed(day time.Time, miles float64)
	// Best is the best landing of the day.
	Best(day time.Time) (miles float64, ok bool)
}

// Machine is the exhibit.
type Machine struct {
	x       *scenarios.Exhibit
	crew    Crew
	counter Counter
	chance  *rand.Rand

	now, touched, since time.Duration // since: the stage began
	wall                time.Time
	stage               Stage

	language int
	larger   bool
	inside   bool
	dial     [dials]float64
	real     units.Wind // in cloud: the wind that blows

	next   int // the fault that comes next
	broken int // index of the fault in force, -1: none
	erred  bool
	breaks int // in this flight

	say   said
	accel [dials]accel

	result   Outcome
	shown    *helm.Moment
	tested   [TestColumns * TestRows]bool
	leaving  bool
	sequence sequence
}

// New makes a machine at its attract loop. Problems says that the exhibit file was
// refused, so that the keeper is shown why at first.
func New(x *scenarios.Exhibit, crew Crew, counter Counter, seed uint64, problems bool) *Machine {
	m := &Machine{x: x, crew: crew, counter: counter, chance: rand.New(rand.NewPCG(seed, 0x5711)), broken: -1}
	m.sequence.keys = x.Keeper
	m.reset()
	if problems {
		m.stage = Trouble
	}
	return m
}

// reset is what a new visitor finds.
func (m *Machine) reset() {
	m.language, m.larger, m.inside = 0, m.x.Larger, false
	f := &m.x.Flight
	m.dial = [dials]float64{
		Heading: math.Round(units.Angle(f.Heading).Degrees()), Speed: f.TAS.Knots(),
		WindSpeed: f.Wind.Speed.Knots(), WindFrom: units.Wrap(f.Wind.From).Degrees(),
	}
}

// Exhibit is the file that it goes by.
func (m *Machine) Exhibit() *scenarios.Exhibit { return m.x }

// Stage is what it is at, Since for how long.
func (m *Machine) Stage() Stage { return m.stage }

// Since is how long it has been at its stage.
func (m *Machine) Since() time.Duration { return m.now - m.since }

// Language is the index of the language, Larger whether text is larger, Inside whether
// the mechanism is open, Dial where a dial stands.
func (m *Machine) Language() int { return m.language }

// Larger is whether text is larger.
func (m *Machine) Larger() bool { return m.larger }

// Inside is whether the mechanism is open.
func (m *Machine) Inside() bool { return m.inside }

// Dial is where a dial stands, degrees or knots.
func (m *Machine) Dial(d Dial) float64 { return m.dial[d] }

// Broken is the fault in force.
func (m *Machine) Broken() (id string, ok bool) {
	if m.broken < 0 {
		return "", false
	}
	return m.x.Faults[m.broken].ID, true
}

// Erred says whether something has been broken in this flight: what was lost stays.
func (m *Machine) Erred() bool { return m.erred }

// Leaving says that the keeper closes the program.
func (m *Machine) Leaving() bool { return m.leaving }

// InCloud says whether the ground is covered, or was until now.
func (m *Machine) InCloud() bool { return m.stage == Cloud || m.stage == Parting || m.stage == Result }

// Opened is how far the cloud has parted, of one.
func (m *Machine) Opened() float64 {
	switch m.stage {
	case Result:
		return 1
	case Parting:
		if m.x.ReducedMotion {
			return 1
		}
		return math.Min(1, m.Since().Seconds()/(partFor.Seconds()*2/3))
	}
	return 0
}

func (m *Machine) enter(s Stage) {
	m.stage, m.since = s, m.now
}

// awake goes from the attract loop into a visit.
func (m *Machine) awake() {
	m.counter.Visited(m.wall)
	m.begin()
	m.tell(tongue.SayStart)
}

// begin begins a visitor's own flight.
func (m *Machine) begin() {
	m.broken, m.erred, m.breaks, m.shown = -1, false, 0, nil
	m.enter(Playing)
	m.crew.Begin(Flight{Order: m.order(), Set: m.wind(), Rate: m.x.Rate})
}

// sleep goes back to the attract loop; the next visitor finds all as it was at first.
func (m *Machine) sleep() {
	m.crew.Stop()
	m.reset()
	m.broken, m.erred, m.shown = -1, false, nil
	m.enter(Attract)
}

func (m *Machine) wind() units.Wind {
	return units.Wind{From: units.Angle(m.dial[WindFrom]) * units.Degree, Speed: units.Speed(m.dial[WindSpeed]) * units.Knot}
}

// order is what the helm is to do: in cloud the wind that blows is not the one set.
func (m *Machine) order() sim.HelmOrder {
	o := sim.HelmOrder{
		Heading: units.TrueHeading(units.Angle(m.dial[Heading]) * units.Degree),
		TAS:     units.Speed(m.dial[Speed]) * units.Knot, Wind: m.wind(),
	}
	if m.stage == Cloud {
		o.Wind = m.real
	}
	return o
}

// Pass has time pass.
func (m *Machine) Pass(now time.Duration, wall time.Time) {
	m.now, m.wall = max(m.now, now), wall
	open := m.x.Hours.OpenAt(wall) || wall.Year() < plainly
	switch m.stage {
	case Attract:
		if !open {
			m.enter(Shut)
		}
	case Shut:
		if open {
			m.enter(Attract)
		}
	case Trouble:
		if m.Since() >= troubleFor {
			m.enter(Attract)
		}
	case Wiping:
		if m.Since() >= WipeFor {
			m.enter(Attract)
		}
	case Cloud:
		if m.Since() >= m.x.Landing.Time {
			m.part()
		}
	case Parting:
		if m.Since() >= partFor && m.judge() {
			m.enter(Result)
		}
	}
	if m.stage == Playing {
		m.goRound()
	}
	m.idle()
}

// idle goes back to the attract loop when nobody has touched it for long. A flight in
// cloud may be flown to its end without a touch.
func (m *Machine) idle() {
	switch m.stage {
	case Playing, Keeper, Test:
		if m.now-m.touched >= m.x.Idle {
			m.sleep()
		}
	case Result:
		if min(m.now-m.touched, m.Since()) >= m.x.Idle {
			m.sleep()
		}
	case Parting:
		if m.Since() >= m.x.Idle { // the moment never came: nobody is kept waiting
			m.sleep()
		}
	}
}

// farthest is how far a visitor may fly from where the flight began, miles.
const farthest = 320

// See takes the newest moment of the flight.
func (m *Machine) See(h *helm.Moment) {
	m.shown = h
	switch m.stage {
	case Playing:
		away := sim.OffsetOf(units.Position(h.View.Marker), m.x.Flight.From).NM()
		if t := h.Revealed; t != nil {
			away = max(away, sim.OffsetOf(t.Now.Truth.Position, m.x.Flight.From).NM())
		}
		if h.Over || away > farthest {
			m.begin()
			m.tell(tongue.SayBack)
		}
	case Cloud:
		if h.Over || sim.OffsetOf(units.Position(h.View.Marker), m.x.Landing.At).NM() < arrived {
			m.part()
		}
	}
}

// Shift is by how many pixels the picture is moved now: one at a time, to and fro.
func (m *Machine) Shift() (x, y int) {
	n := m.x.Shift
	if n == 0 {
		return 0, 0
	}
	step := int(m.now / m.x.ShiftEvery)
	wave := func(i int) int { // 0, 1 ... n, n-1 ... -n, ... 0
		period := 4 * n
		i = ((i % period) + period) % period
		switch {
		case i <= n:
			return i
		case i <= 3*n:
			return 2*n - i
		}
		return i - 4*n
	}
	return wave(step), wave(step / 3)
}

// Rest is how long a stage with an end still lasts.
func (m *Machine) Rest() time.Duration {
	whole := time.Duration(0)
	switch m.stage {
	case Cloud:
		whole = m.x.Landing.Time
	case Wiping:
		whole = WipeFor
	case Trouble:
		whole = troubleFor
	}
	return max(0, whole-m.Since())
}
