package helm

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// A cue takes back what was done from its tick on, and is seen whole or not at all.
func TestCueIsOneMoment(t *testing.T) {
	h := New(engine(t))
	defer h.Stop()
	const minute = 60 * sim.TicksPerSecond
	h.GoTo(20 * minute)
	wind := units.Wind{From: 90 * units.Degree, Speed: 50 * units.Knot}
	h.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind})
	before := until(t, h, "the wind", func(m *Moment) bool { return m.View.WindSet.Speed == wind.Speed })
	assert.Zero(t, before.Cues)
	on := true
	h.Cue(Cue{Back: 5 * minute, Rate: 60, Clock: StopClock, Truth: &on})
	m := until(t, h, "the cue", func(m *Moment) bool { return m.Cues == 1 })
	assert.Equal(t, int64(5*minute), m.View.Tick)
	assert.Equal(t, int64(5*minute), m.Frontier, "what came after is dropped")
	assert.False(t, m.Playing)
	assert.Equal(t, 60.0, m.Rate)
	assert.NotNil(t, m.Revealed)
	h.Cue(Cue{Back: -1, Clock: StartClock})
	m = until(t, h, "it runs", func(m *Moment) bool { return m.Cues == 2 })
	assert.True(t, m.Playing)
	h.Hold(sim.Hand{Input: sim.HandHeading, On: true, Heading: 1})
	until(t, h, "a hand", func(m *Moment) bool { return m.Held.Holds(sim.HandHeading) })
	h.Cue(Cue{Back: -1, LetGo: true})
	m = until(t, h, "no hand", func(m *Moment) bool { return !m.Held.Holds(sim.HandHeading) })
	assert.Equal(t, 3, m.Cues)
	h.Cue(Cue{Back: 0})
	m = until(t, h, "back", func(m *Moment) bool { return m.Cues == 4 })
	assert.True(t, m.Playing, "the clock does what it did")
	assert.NotNil(t, m.Revealed)
}
