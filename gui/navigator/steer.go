package navigator

import (
	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/sim"
)

// alterStep is how far a press turns the aircraft, to the right +.
const alterStep = 5 * units.Degree

// steered is the heading that was ordered last, and when.
type steered struct {
	to   units.TrueHeading
	tick int64
	on   bool
}

// turnTicks is how long an order stands against the heading that the repeater shows: as long
// as a turn takes at most, so that presses in a turn add up.
const turnTicks = 20 * sim.TicksPerSecond

// byNeedle says whether the loop is looked through and flown by, with a pilot who listens.
func (v *View) byNeedle() bool { return v.hand != nil && v.hand.Homing() && v.crew.Steer != nil }

// alter has the pilot alter heading, from the heading ordered if the aircraft may still be
// turning to it, else from the one that the repeater shows.
func (v *View) alter(by units.Angle) {
	if !v.byNeedle() || v.moment.Over {
		return
	}
	now := &v.moment.View
	from := now.Heading
	if past := now.Tick - v.steered.tick; v.steered.on && past >= 0 && past < turnTicks {
		from = v.steered.to
	}
	v.steered = steered{units.TrueHeading(units.Wrap(units.Angle(from) + by)), now.Tick, true}
	v.crew.Steer(v.steered.to)
	v.made++
	v.See(v.moment)
}

// told is what is to be done at the open aid; of a loop that is flown by also the heading.
func (v *View) told() string {
	if !v.byNeedle() {
		return v.hand.Told()
	}
	return look.Textf(look.HomingHeading, v.hand.Told(), units.TrueText(units.Angle(v.moment.View.Heading)))
}
