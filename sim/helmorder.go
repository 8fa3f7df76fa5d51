package sim

import (
	"fmt"
	"math"

	"stillair/integrator/units"
	"stillair/sim/weather"
)

// HelmOrder is what somebody at the helm wants, from now on and until the next leg:
// the heading to hold on the repeater, the true airspeed, and the wind that really
// blows (from the next tick on), at every height. It is for flights that are made up as they are flown.
//
// A leg to a place ends, once it is ordered, only where the place is passed near.
//
// HeadingOnly: the heading alone is ordered; airspeed and wind stay as they are, and TAS and
// Wind are not looked at. It is what a navigator asks of a pilot.
type HelmOrder struct {
	Heading     units.TrueHeading
	TAS         units.Speed
	Wind        units.Wind
	HeadingOnly bool
}

// What may be ordered: the ends of what a flight may have.
const (
	slowestHelm, fastestHelm = 40 * units.Knot, 450 * units.Knot
	strongestWind            = 250 * units.Knot
)

// check refuses an order that no flight could have.
func (o *HelmOrder) check() error {
	switch {
	case o.HeadingOnly && aNumber(float64(o.Heading)):
		return nil
	case o.HeadingOnly:
		return fmt.Errorf("at the helm: a heading must be a number")
	case !(o.TAS >= slowestHelm && o.TAS <= fastestHelm): // false for NaN
		return fmt.Errorf("at the helm: speed %v kt: must be %v to %v kt", o.TAS.Knots(), slowestHelm.Knots(), fastestHelm.Knots())
	case !(o.Wind.Speed >= 0 && o.Wind.Speed <= strongestWind):
		return fmt.Errorf("at the helm: wind %v kt: must be 0 to %v kt", o.Wind.Speed.Knots(), strongestWind.Knots())
	case !aNumber(float64(o.Heading)) || !aNumber(float64(o.Wind.From)):
		return fmt.Errorf("at the helm: a direction must be a number")
	}
	return nil
}

func aNumber(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Steer gives an order of the helm now, or a tick later if a leg begins now. Of orders given again and again at one tick
// the last remains.
func (e *Engine) Steer(o HelmOrder) error {
	if e.state.Over {
		return errOver
	}
	if err := o.check(); err != nil {
		return err
	}
	if e.state.Leg.Began == e.state.Tick { // the leg begins first
		if e.Advance(1); e.state.Over {
			return errOver
		}
	}
	if i := e.state.Commands - 1; i >= 0 && e.own[i] && e.commands[i].Kind == AtHelm && e.commands[i].Tick == e.state.Tick {
		if before := e.commands[i].Helm; o.HeadingOnly && !before.HeadingOnly { // of which the rest stays
			before.Heading, o = o.Heading, before
		}
		e.forgetAfter(e.state.Tick) // it makes the list anew: what was handed out stays
		e.commands[i].Helm = o
		e.given++
		e.compileWinds()
		e.course.steer(&e.state, &o)
		e.course.settle(&e.state)
		return nil
	}
	return e.give(Command{Kind: AtHelm, Helm: o})
}

// steer has the pilot hold what is ordered.
func (c *course) steer(s *State, o *HelmOrder) {
	a := &s.World.Aircraft
	s.Leg.Frame = HeadingTrue
	a.Orders.Heading = units.Wrap(units.Angle(o.Heading))
	if !o.HeadingOnly {
		a.SetSpeed(o.TAS, false, c.air.Temperature(a.Height))
	}
	a.Turning = true // until the first step finds it on its heading
}

// compileWinds makes the wind of the plan and of all orders of the helm ready. A wind
// that is ordered at a tick blows from the next one on: what was felt at the end of
// the tick before is then the same when the flight is flown again.
func (e *Engine) compileWinds() {
	var changes []weather.Change
	for i := range e.commands {
		if c := &e.commands[i]; c.Kind == AtHelm && !c.Helm.HeadingOnly {
			changes = append(changes, weather.Change{From: c.Tick + 1, Wind: c.Helm.Wind})
		}
	}
	e.course.air = e.planned
	if len(changes) > 0 {
		e.course.air = e.planned.Changed(changes)
	}
}
