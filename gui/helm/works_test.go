package helm

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// A moment always has what the links pass on; what they would pass on in order
// is truth.
func TestWorksOfAMoment(t *testing.T) {
	e := still(t)
	require.NoError(t, e.Break(fault.Order{ID: "drive-slip", Params: []float64{0.05}}))
	h := New(e)
	defer h.Stop()
	h.GoTo(hour / 2)
	m := until(t, h, "half an hour", func(m *Moment) bool { return m.View.Tick == hour/2 })
	assert.Nil(t, m.Revealed)
	assert.InDelta(t, 180, m.Works.TAS.Knots(), 1e-9)
	assert.InDelta(t, 171, m.Works.Drive.Knots(), 1e-9)
	assert.Equal(t, m.View.Air, m.Works.Air)
	h.Reveal(true)
	m = until(t, h, "the truth", func(m *Moment) bool { return m.Revealed != nil })
	assert.InDelta(t, 180, m.Revealed.Works.Drive.Knots(), 1e-9)
	assert.Equal(t, m.Revealed.Now.Truth.Air, units.Position(m.Revealed.Works.Air))
}

// A hand put on shows at once, goes with history and is refused in words.
func TestHoldAtTheHelm(t *testing.T) {
	h := New(still(t))
	defer h.Stop()
	assert.Zero(t, h.Moment().Held)
	h.GoTo(960)
	h.Hold(sim.Hand{Input: sim.HandHeading, On: true, Heading: units.TrueHeading(90 * units.Degree)})
	m := until(t, h, "the hand", func(m *Moment) bool { return m.Held.Holds(sim.HandHeading) })
	assert.InDelta(t, 180, m.Works.EastRate.Knots(), 1e-9)
	assert.InDelta(t, 90, m.View.Heading.Degrees(), 1e-9)
	h.Step(-1)
	until(t, h, "it off", func(m *Moment) bool { return m.View.Tick == 959 && m.Held == sim.Hands{} })
	h.Step(10)
	until(t, h, "it on", func(m *Moment) bool { return m.View.Tick == 969 && m.Held.Holds(sim.HandHeading) })
	h.Hold(sim.Hand{Input: sim.HandHeading})
	m = until(t, h, "it off again", func(m *Moment) bool { return m.Held.Held == 0 })
	assert.True(t, m.Held.Apart, "what it turned stays until the counters are set")
	assert.InDelta(t, 180, m.Works.NorthRate.Knots(), 1e-9)
	h.Hold(sim.Hand{Input: sim.HandSpeed, On: true, Speed: -1})
	until(t, h, "a refusal", func(m *Moment) bool { return strings.Contains(m.Refusal, "must be 0 to 600") })
}

// The forecast and the twin have the hand too: its twin shows what it shows.
func TestTwinHasTheHand(t *testing.T) {
	h := New(still(t))
	defer h.Stop()
	h.Twin(sim.Twin{}, "nothing")
	h.GoTo(960)
	twinAt(t, h, 960)
	h.Hold(sim.Hand{Input: sim.HandSpeed, On: true, Speed: 100 * units.Knot})
	h.Step(960)
	m := twinAt(t, h, 1920)
	assert.Equal(t, m.View, m.Twin.View)
	assert.Zero(t, m.Twin.Gap)
	got := make(chan Outlook, 1)
	h.Forecast(slip(0.5), time.Minute, func(o Outlook) { got <- o })
	o := <-got
	assert.InDelta(t, 100.0/60, (o.Sound.AirLog - m.View.AirLog).NM(), 1e-9)
}
