package conduct

import (
	"math"
	"time"

	"stillair/gui/exhibit/tongue"
)

// Touch is a finger that comes down, or the key that stands for it.
func (m *Machine) Touch(t Target) {
	if m.stage == Wiping || m.stage == Shut || m.stage == Parting {
		return
	}
	m.touched = m.now
	if t >= FirstLanguage && int(t-FirstLanguage) < len(m.x.Languages) {
		m.language = int(t - FirstLanguage)
		if m.stage == Attract {
			chosen := m.language
			m.awake()
			m.language = chosen
		}
		return
	}
	switch m.stage {
	case Attract:
		m.awake()
	case Trouble:
		m.enter(Attract)
	case Keeper:
		m.keeper(t)
	case Playing, Cloud, Result:
		m.play(t)
	}
}

// play is a touch in a visit.
func (m *Machine) play(t Target) {
	switch t {
	case SteerLess, SteerMore, SpeedLess, SpeedMore, WindLess, WindMore:
		m.nudge(t, 1)
	case BreakKey:
		m.breakOrMend()
	case InsideKey:
		m.lookInside()
	case LandKey:
		m.land()
	case LargerKey:
		m.larger = !m.larger
	case AgainKey:
		m.restart()
	}
}

// tooSoon is how young a flight is that a key held down does not end.
const tooSoon = 500 * time.Millisecond

func (m *Machine) restart() {
	if m.stage == Playing && m.Since() < tooSoon {
		return
	}
	language, larger := m.language, m.larger
	m.reset()
	m.language, m.larger = language, larger
	m.begin()
	m.tell(tongue.SayStart)
}

func (m *Machine) lookInside() {
	if m.stage != Playing {
		return
	}
	m.inside = !m.inside
	switch {
	case !m.inside:
		m.tell(tongue.SaySteer)
	case m.broken >= 0:
		m.tell(tongue.SayInsideBroken)
	default:
		m.tell(tongue.SayInside)
	}
}

// mostBreaks is how often something may break in one flight; the engine has a bound.
const mostBreaks = 30

func (m *Machine) breakOrMend() {
	if m.stage != Playing {
		return
	}
	if m.broken >= 0 {
		m.broken = -1
		m.crew.Mend()
		m.tell(tongue.SayMended)
		return
	}
	if m.breaks >= mostBreaks {
		m.begin()
	}
	m.broken = m.next % len(m.x.Faults)
	m.next, m.breaks, m.erred = m.broken+1, m.breaks+1, true
	m.counter.Broke(m.wall)
	m.crew.Break(m.x.Faults[m.broken])
	m.tellFault(m.broken)
}

// touchSteps is how far a touch of minus or plus goes.
var touchSteps = [dials]float64{Heading: 5, Speed: 10, WindSpeed: 5, WindFrom: 15}

// nudge is a touch of minus or plus, times so much when it repeats.
func (m *Machine) nudge(t Target, times float64) {
	d, sign := Heading, 1.0
	switch t {
	case SteerLess, SpeedLess, WindLess:
		sign = -1
	}
	switch t {
	case SpeedLess, SpeedMore:
		d = Speed
	case WindLess, WindMore:
		d = WindSpeed
	}
	m.set(d, m.dial[d]+sign*touchSteps[d]*times)
}

// Again is a finger that stays on a target; held is for how long it has.
func (m *Machine) Again(t Target, held time.Duration) {
	if !t.Repeats() || !m.flying() {
		return
	}
	m.touched = m.now
	times := 1.0
	if held > 2*time.Second {
		times = 2
	}
	m.nudge(t, times)
}

func (m *Machine) flying() bool { return m.stage == Playing || m.stage == Cloud }

// Drag is a finger that has a dial at a value.
func (m *Machine) Drag(d Dial, value float64) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return
	}
	m.touched = m.now
	if m.flying() {
		m.set(d, math.Round(value))
	}
}

// Turn is a knob that goes on by a click: -1 or 1. The faster the clicks come, the
// more each counts.
func (m *Machine) Turn(d Dial, click int) {
	if m.stage == Attract {
		m.Touch(Anywhere)
		return
	}
	if !m.flying() {
		return
	}
	m.touched = m.now
	m.set(d, m.dial[d]+float64(click*m.accel[d].step(m.now, click)))
}

// accel is how fast a knob is turned.
type accel struct {
	last  time.Duration
	click int
	any   bool
}

// step is how much a click counts that comes so soon after the last one the same way.
func (a *accel) step(now time.Duration, click int) int {
	gap := now - a.last
	first := !a.any || a.click != click
	a.last, a.click, a.any = now, click, true
	switch {
	case first || gap >= 200*time.Millisecond:
		return 1
	case gap >= 90*time.Millisecond:
		return 2
	case gap >= 40*time.Millisecond:
		return 5
	}
	return 10
}

// set brings a dial to a value within its bounds and tells the crew.
func (m *Machine) set(d Dial, v float64) {
	switch d {
	case Heading, WindFrom:
		v = math.Mod(math.Mod(v, 360)+360, 360)
	case Speed:
		v = math.Max(SlowestKt, math.Min(FastestKt, v))
	case WindSpeed:
		v = math.Max(0, math.Min(StrongestKt, v))
	}
	if m.dial[d] == v {
		return
	}
	m.dial[d] = v
	m.crew.Steer(m.order(), m.wind())
	if m.stage == Playing && m.broken < 0 && !m.inside {
		m.tell([dials]tongue.Word{Heading: tongue.SaySteer, Speed: tongue.SaySpeed, WindSpeed: tongue.SayWind, WindFrom: tongue.SayWind}[d])
	}
}
