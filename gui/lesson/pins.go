package lesson

import (
	"slices"

	"stillair/gui/helm"
	"stillair/integrator/units"
)

// Pin is where a group in the audience believes the aircraft to be, or that it
// will be.
type Pin struct {
	Letter string
	Name   string
	At     units.Position
}

// Off is a pin and how far it is from the true position.
type Off struct {
	Pin
	Miles units.Length
}

// Measured is what the pins were held against.
type Measured struct {
	Known    bool
	Tick     int64
	Position units.Position
	Ground   units.Length // how far off the ground position shown was
}

// Pins takes up the pins as they stand. Once the truth has been shown they stay
// as they were.
func (c *Course) Pins(all []Pin) {
	if !c.step.truth.Known {
		c.step.pins = slices.Clone(all)
	}
}

// Reveal shows the truth at the time for which pins were asked; what else the
// helm must do is nothing where the step asks for none.
func (c *Course) Reveal() (helm.Cue, bool) {
	p := c.Step().Predict
	if p == nil {
		return helm.Cue{}, false
	}
	shown := true
	return c.asked(helm.Cue{Back: p.At, Clock: helm.StopClock, Truth: &shown}), true
}

// measure holds the pins against the truth as soon as that may be seen; the pins
// were put for that moment.
func (c *Course) measure(m *helm.Moment) {
	s := &c.step
	if m.Revealed == nil || s.truth.Known {
		return
	}
	truth := m.Revealed.Now.Truth.Position
	s.truth = Measured{Known: true, Tick: m.View.Tick, Position: truth, Ground: milesBetween(truth, units.Position(m.View.Marker))}
	for _, p := range s.pins {
		s.answers = append(s.answers, Off{p, milesBetween(truth, p.At)})
	}
	slices.SortStableFunc(s.answers, func(a, b Off) int {
		switch {
		case a.Miles < b.Miles:
			return -1
		case a.Miles > b.Miles:
			return 1
		}
		return 0
	})
	s.done = true
}

// Answers are the pins by miles off, once the truth has been shown.
func (c *Course) Answers() []Off { return c.step.answers }

// Truth is what they were held against.
func (c *Course) Truth() Measured { return c.step.truth }
