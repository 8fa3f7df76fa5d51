package lesson

import (
	"math"

	"stillair/gui/helm"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// far is how far off a goal is that has no measure, and is not reached: where it
// is reached it is 0.
const far = 2

// there is how far off counts as there: 1, and what rounding adds to it.
const there = 1 + 1e-9

// judge sees how far the step is from being done.
func (c *Course) judge(m *helm.Moment) {
	s := &c.step
	if s.fresh {
		s.logged = len(m.View.Log)
	}
	s.now, s.reading = c.off(m)
	if s.fresh {
		s.first, s.fresh = s.now, false
	}
	if c.Step().Until.Kind != sim.NoGoal && s.now <= there {
		s.done = true
	}
	if c.Step().Predict != nil {
		c.measure(m)
	}
}

// off is how far the goal is off, in what is near enough: 1 or less is there. With
// it the reading as it stands, "" where there is none.
func (c *Course) off(m *helm.Moment) (off float64, reading string) {
	g, v := &c.Step().Until, &m.View
	switch g.Kind {
	case sim.VariationGoal:
		return apart(units.Angle(v.VariationSet), units.Angle(g.Variation)) / g.WithinDegrees, v.VariationSet.String()
	case sim.WindGoal:
		return windOff(v.WindSet, g), v.WindSet.String()
	case sim.CountersGoal:
		return c.countersOff(v)
	case sim.TimeGoal:
		// Seconds to go, from 1 on.
		return 1 + sim.TimeOf(max(0, g.Tick-v.Tick)).Seconds(), units.TimeText(v.Clock)
	case sim.HandHeadingGoal, sim.HandLatitudeGoal, sim.HandSpeedGoal:
		return handOff(m, g)
	default:
		if c.happened(m) {
			return 0, ""
		}
		return far, ""
	}
}

// happened says whether what the goal waits for has come about.
func (c *Course) happened(m *helm.Moment) bool {
	switch g := &c.Step().Until; g.Kind {
	case sim.RevealGoal:
		return m.Revealed != nil
	case sim.MendGoal:
		return mended(m, g.Word)
	case sim.ReadingGoal:
		return c.logged(&m.View, func(e *aboard.Entry) bool { return reads(&e.Action, g.Aim) })
	case sim.StaticGoal:
		return c.logged(&m.View, func(e *aboard.Entry) bool { return e.Action.Kind == aboard.AlternateStatic && e.Action.On })
	}
	return c.step.done // by the learner's hand in the panel
}

// logged says whether the log has such a line since the step began.
func (c *Course) logged(v *aboard.View, such func(*aboard.Entry) bool) bool {
	for i := min(c.step.logged, len(v.Log)); i < len(v.Log); i++ {
		if such(&v.Log[i]) {
			return true
		}
	}
	return false
}

// reads says whether an action is a reading that the aim asks for, and that could
// be taken.
func reads(a *aboard.Action, aim aboard.Aim) bool {
	return a.Kind == aboard.TakeAid && a.Reading.Missing == aboard.Had && a.Reading.Aid == aim.Aid &&
		(aim.Source == "" || a.Reading.Source == aim.Source)
}

// mended looks among the faults that may be seen: those given at this helm, and,
// once the truth is shown, all.
func mended(m *helm.Moment, id string) bool {
	all := m.Ordered
	if m.Revealed != nil {
		all = m.Revealed.Faults
	}
	for i := range all {
		if all[i].Order.ID == id && all[i].Stands == sim.FaultMended {
			return true
		}
	}
	return false
}

// apart is the angle between two directions, degrees.
func apart(a, b units.Angle) float64 { return math.Abs(units.WrapHalf(a - b).Degrees()) }

// windOff is the worse of direction and speed.
func windOff(w units.Wind, g *sim.Goal) float64 {
	return max(apart(w.From, g.Wind.From)/g.WithinDegrees, math.Abs((w.Speed-g.Wind.Speed).Knots())/g.WithinKnots)
}

// countersOff looks for the last time that the counters were set in this step.
// Where they came by flying does not count.
func (c *Course) countersOff(v *aboard.View) (off float64, reading string) {
	g := &c.Step().Until
	off = far
	for i := min(c.step.logged, len(v.Log)); i < len(v.Log); i++ {
		if e := &v.Log[i]; e.Event == aboard.CountersSet {
			off = milesBetween(units.Position(e.Air), g.Position).NM() / g.WithinNM
		}
	}
	return off, v.Air.String()
}

// milesBetween is the length of the rhumb line between two positions as printed.
func milesBetween(a, b units.Position) units.Length {
	_, d := geodesy.RhumbInverse(a.Printed(), b.Printed())
	return d
}

// handOff is how far an input held by hand is from where it shall be held; one
// that is not held is far.
func handOff(m *helm.Moment, g *sim.Goal) (off float64, reading string) {
	h := &m.Held
	switch g.Kind {
	case sim.HandHeadingGoal:
		now := units.Angle(m.Works.Heading)
		off, reading = apart(now, g.Angle)/g.WithinDegrees, units.TrueText(now)
		return unlessHeld(h.Holds(sim.HandHeading), off), reading
	case sim.HandLatitudeGoal:
		now := m.Works.Gear
		off = math.Abs(math.Abs(now.Degrees())-math.Abs(g.Angle.Degrees())) / g.WithinDegrees // the secant has no sign
		return unlessHeld(h.Holds(sim.HandLatitude), off), units.LatitudeText(now)
	}
	now := m.Works.TAS
	off = math.Abs((now - g.Speed).Knots()) / g.WithinKnots
	return unlessHeld(h.Holds(sim.HandSpeed), off), units.SpeedText(now)
}

func unlessHeld(held bool, off float64) float64 {
	if held {
		return off
	}
	return max(off, far)
}
