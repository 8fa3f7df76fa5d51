package aircraft

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

const dt = 1.0 / 16

func at(heading, order, rate float64) State {
	return State{
		Heading: units.TrueHeading(units.Angle(heading) * units.Degree),
		Orders:  Orders{Heading: units.Angle(order) * units.Degree, TurnRate: rate * float64(units.Degree)},
	}
}

// The short way, half a circle to the right, at the rate, without overshoot.
func TestTurns(t *testing.T) {
	for _, c := range []struct{ from, to, rate, after1s, seconds float64 }{
		{350, 10, 3, 353, 20.0 / 3}, {10, 350, 3, 7, 20.0 / 3}, {0, 180, 3, 3, 60}, {90, 270, 2, 92, 90}, {90, 90, 3, 90, 0},
		{5, 185.5, 3, 2, 179.5 / 3},
	} {
		s := at(c.from, c.to, c.rate)
		ticks := 0
		for s.Fly(dt, Dials{}); s.Turning; s.Fly(dt, Dials{}) {
			if ticks++; ticks == 16 {
				assert.InDelta(t, c.after1s, s.Heading.Degrees(), 1e-9)
			}
		}
		assert.InDelta(t, c.to, s.Heading.Degrees(), 1e-9)
		assert.InDelta(t, c.seconds, float64(ticks+1)*dt, dt+1e-9, "%v to %v", c.from, c.to)
	}
	s := at(10, 200, 0)
	s.Fly(dt, Dials{})
	assert.InDelta(t, 200, s.Heading.Degrees(), 1e-9, "rate 0 is at once")
}

// A reading that is 5 too large is held by flying 5 too little.
func TestHeadingIsHeldByTheReading(t *testing.T) {
	s := at(100, 100, 3)
	for range 100 {
		s.Fly(dt, Dials{Heading: 5 * units.Degree})
	}
	assert.InDelta(t, 95, s.Heading.Degrees(), 1e-9)
}

func TestSpeedAndHeight(t *testing.T) {
	s := State{Held: 150 * units.Knot, Orders: Orders{Speed: 160 * units.Knot, Height: 1000 * units.Foot, Climb: 600 * units.Speed(units.Foot) / 60}}
	for range 16 * 5 {
		s.Fly(dt, Dials{})
	}
	assert.InDelta(t, 155, s.Held.Knots(), 1e-9, "1 kt a second")
	assert.InDelta(t, 50, s.Height.Feet(), 1e-9)
	assert.Positive(t, s.VerticalSpeed())
	for range 16 * 200 {
		s.Fly(dt, Dials{})
	}
	assert.InDelta(t, 160, s.Held.Knots(), 1e-9)
	assert.InDelta(t, 1000, s.Height.Feet(), 1e-9)
	assert.Zero(t, s.VerticalSpeed())
	s.Orders.AtOnce, s.Orders.Speed = true, 200*units.Knot
	s.Snap(Dials{})
	assert.InDelta(t, 200, s.Held.Knots(), 1e-9)
}

// A calibrated airspeed is held; 250 kt at 10 000 ft and -6.72 C are 287.7 kt
// true (Aviation Formulary V1.46, worked example, 0.1 kt).
func TestCASHeld(t *testing.T) {
	s := State{Orders: Orders{Speed: 250 * units.Knot, HoldCAS: true}, Held: 250 * units.Knot, Height: 10000 * units.Foot}
	cold := units.Celsius(-6.72)
	s.Gear(cold)
	assert.InDelta(t, 287.7, s.TAS.Knots(), 0.1)
	s.SetSpeed(s.TAS, false, cold)
	assert.Equal(t, s.TAS, s.Held, "the speed held is taken over")
	s.SetSpeed(250*units.Knot, true, cold)
	assert.InDelta(t, 250, s.Held.Knots(), 1e-6)
}
