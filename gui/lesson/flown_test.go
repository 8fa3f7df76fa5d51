package lesson

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// flown is an engine with what a helm adds to it, without a goroutine: cues are
// carried out at once, and the clock runs when the test says so.
type flown struct {
	*testing.T
	engine   *sim.Engine
	cues     int
	playing  bool
	rate     float64
	revealed bool
	now      time.Time
}

func fly(t *testing.T, p *sim.Plan) *flown {
	t.Helper()
	e, err := sim.New(p)
	require.NoError(t, err)
	return &flown{T: t, engine: e, playing: true, rate: helm.DefaultRate, now: time.Unix(0, 0)}
}

func (f *flown) moment() *helm.Moment {
	m := &helm.Moment{
		View: f.engine.View(), Works: f.engine.Works(), Held: f.engine.Held(), Playing: f.playing && !f.engine.Over(), Rate: f.rate,
		Over: f.engine.Over(), Ordered: f.engine.LiveFaults(), Cues: f.cues,
	}
	if f.revealed {
		m.Revealed = &helm.Revealed{Now: f.engine.Snapshot(), Faults: f.engine.Faults()}
	}
	return m
}

func (f *flown) carry(c helm.Cue) {
	f.cues++
	if c.Back >= 0 {
		require.NoError(f, f.engine.TakeBack(c.Back))
	}
	for i := sim.HandHeading; c.LetGo && i <= sim.HandSpeed; i++ {
		if held := f.engine.Held(); held.Holds(i) {
			require.NoError(f, f.engine.Hold(sim.Hand{Input: i}))
		}
	}
	if c.Rate > 0 {
		f.rate = c.Rate
	}
	if c.Truth != nil {
		f.revealed = *c.Truth
	}
	switch c.Clock {
	case helm.StartClock:
		f.playing = true
	case helm.StopClock:
		f.playing = false
	}
}

// begin has a course begin a step, and shows it the first moment.
func (f *flown) begin(c *Course, i int) {
	f.carry(c.Begin(i, f.moment(), f.now))
	f.observe(c)
}

// observe shows the moment to the course and carries out what it asks for.
func (f *flown) observe(c *Course) {
	if cue, has := c.Observe(f.moment()); has {
		f.carry(cue)
		c.Observe(f.moment())
	}
}

// run flies on while the clock runs, a second of flight at a time, and shows each.
func (f *flown) run(c *Course, to time.Duration) {
	for f.playing && f.engine.Tick() < sim.TicksOf(to) && !f.engine.Over() {
		f.engine.Advance(sim.TicksPerSecond)
		f.observe(c)
	}
}

func (f *flown) do(a aboard.Action) { require.NoError(f, f.engine.Do(a)) }

// minutes is an angle of so many minutes of arc.
func (f *flown) minutes(x float64) units.Angle { return units.Angle(x) * units.ArcMinute }

func trueHeading(deg float64) units.TrueHeading {
	return units.TrueHeading(units.Angle(deg) * units.Degree)
}

func counters(at units.Position) aboard.Action {
	return aboard.Action{Kind: aboard.SetCounters, Position: at}
}
