package sim

import "stillair/integrator"

// Hand is a hand put to an input of a link, or taken off; Hands are all that are
// on; HandInput is the input.
type (
	Hand      = integrator.Hand
	Hands     = integrator.Hands
	HandInput = integrator.HandInput
)

// The inputs that can be held.
const (
	HandHeading  = integrator.HandHeading
	HandLatitude = integrator.HandLatitude
	HandWind     = integrator.HandWind
	HandSpeed    = integrator.HandSpeed
)

// Held are the inputs held by hand now.
func (e *Engine) Held() Hands { return e.state.Mechanism.Hands }

// Hold puts a hand to an input of a link, or takes it off, now: to see what the
// link does alone. The aircraft flies on as if nobody had touched anything, also
// on legs that the pilot flies by the ground position shown. It is a command like
// any other; of one input held again and again at one tick the last remains.
func (e *Engine) Hold(h Hand) error {
	if e.state.Over {
		return errOver
	}
	h, err := h.Checked()
	if err != nil {
		return err
	}
	if !e.holding(h.Input) {
		return e.give(Command{Kind: ByHand, Hand: h})
	}
	e.forgetAfter(e.state.Tick) // it makes the list anew: what was handed out stays
	e.commands[e.state.Commands-1].Hand = h
	e.given++
	e.state.Mechanism.Hold(h)
	return nil
}

// holding tells whether the last thing done, at this tick and in flight, was to
// put a hand to this input or to take it off.
func (e *Engine) holding(i HandInput) bool {
	last := e.state.Commands - 1
	if last < 0 || !e.own[last] {
		return false
	}
	c := &e.commands[last]
	return c.Kind == ByHand && c.Tick == e.state.Tick && c.Hand.Input == i
}
