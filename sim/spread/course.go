package spread

import (
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// course is a plan made ready to be flown many times. The places to which its crew
// set the counters are taken out of it, for they are fixes of the flight without
// drawn errors: in another the aircraft is elsewhere, and the crew find it there.
type course struct {
	plan   *sim.Plan
	every  int64 // ticks
	resets []reset
}

// reset is something done at a tick.
type reset struct {
	tick int64
	do   func(e *sim.Engine) error
}

func setsCounters(c *sim.Command) bool {
	return c.Kind == sim.Act && c.Action.Kind == aboard.SetCounters
}

// newCourse takes the settings of the counters out of a plan.
func newCourse(p *sim.Plan, every int64) *course {
	bare := *p
	bare.Crew = nil
	for _, c := range p.Crew {
		if !setsCounters(&c) {
			bare.Crew = append(bare.Crew, c)
		}
	}
	return &course{plan: &bare, every: every}
}

// watched are looks at how far from the true place the crew set the counters in
// the flight without drawn errors; each becomes a reset of the course, by which
// they set them as far from the true place of another flight.
func (c *course) watched(p *sim.Plan) (looks []reset) {
	for _, cmd := range p.Crew {
		if !setsCounters(&cmd) {
			continue
		}
		tick, to := cmd.Tick, cmd.Action.Position
		looks = append(looks, reset{tick, func(e *sim.Engine) error {
			truth := e.Snapshot().Truth.Position
			off := units.Position{Lat: to.Lat - truth.Lat, Lon: units.WrapHalf(to.Lon - truth.Lon)}
			c.resets = append(c.resets, reset{tick, setOff(off)})
			return nil
		}})
	}
	return looks
}

// setOff has the crew set the counters so far from the true place.
func setOff(off units.Position) func(e *sim.Engine) error {
	return func(e *sim.Engine) error {
		at := e.Snapshot().Truth.Position
		at.Lat = max(-90*units.Degree, min(90*units.Degree, at.Lat+off.Lat))
		at.Lon += off.Lon
		return e.Do(aboard.Action{Kind: aboard.SetCounters, Position: at})
	}
}
