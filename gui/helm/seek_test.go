package helm

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
	"stillair/sim"
)

// long is a flight of ten hours with four turns.
func long(t testing.TB) *sim.Engine {
	t.Helper()
	text := `schema = 1
title = "ten hours"
start = 1957-08-14T09:30:00Z
seed = 7
[aircraft]
position = [-47, 178]
heading_true_deg = 90
pressure_altitude_ft = 10000
tas_kt = 180
[setting]
wind_from_deg_true = 270
wind_kt = 30
` + strings.Repeat("[[leg]]\nheading_true_deg = 90\nduration = \"2h30m\"\n[[leg]]\nheading_true_deg = 270\nduration = \"2h30m\"\n", 2)
	plan, _, err := scenarios.Load("ten-hours", strings.NewReader(text))
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	return e
}

const hour = 60 * 60 * sim.TicksPerSecond

// A hand that drags gives thousands of ticks; the queue neither fills nor is
// worked through: only the last counts, and few are flown to.
func TestNewestGoToWins(t *testing.T) {
	h := New(long(t))
	defer h.Stop()
	for i := range int64(5000) {
		h.GoTo(i % (9 * hour))
	}
	h.GoTo(7 * hour)
	assert.Equal(t, int64(7*hour), h.Aim())
	m := until(t, h, "seven hours", func(m *Moment) bool { return m.View.Tick == 7*hour })
	assert.False(t, m.Playing)
	h.GoTo(3)
	m = until(t, h, "tick 3", func(m *Moment) bool { return m.View.Tick == 3 })
	assert.Equal(t, int64(7*hour), m.Frontier, "going back forgets nothing")
	assert.Equal(t, int64(3), h.Aim())
}

// What is ordered between two of them is done between them.
func TestGoToKeepsItsPlaceAmongOrders(t *testing.T) {
	h := New(long(t))
	defer h.Stop()
	h.GoTo(2 * hour)
	h.Step(5)
	until(t, h, "the step after it", func(m *Moment) bool { return m.View.Tick == 2*hour+5 })
	h.GoTo(100)
	h.Step(-3)
	h.GoTo(40)
	h.Step(2)
	until(t, h, "both", func(m *Moment) bool { return m.View.Tick == 42 })
	h.GoTo(-10)
	until(t, h, "the start", func(m *Moment) bool { return m.View.Tick == 0 })
	h.GoTo(100 * hour)
	m := until(t, h, "the end", func(m *Moment) bool { return m.Over })
	assert.Equal(t, int64(10*hour), m.View.Tick)
	assert.Equal(t, m.View.Tick, aimOnceDone(h))
}

// aimOnceDone reads the aim after everything ordered has been done.
func aimOnceDone(h *Helm) int64 {
	for range 2000 {
		if h.Aim() == h.Moment().View.Tick {
			break
		}
		time.Sleep(time.Millisecond)
	}
	return h.Aim()
}

// Back and forward again is the same state to the last bit: over a keyframe,
// over a turn, and on a tick of none of them.
func TestStepBackIsExact(t *testing.T) {
	for _, tick := range []int64{960, 963, 14*960 + 5, 40*960 + 481, 80000} {
		e := engine(t)
		e.Advance(tick)
		want := e.Hash()
		h := New(e)
		h.Step(-sim.TicksPerSecond)
		back := until(t, h, "a second back", func(m *Moment) bool { return m.View.Tick == tick-sim.TicksPerSecond })
		plain := engine(t)
		plain.Advance(tick - sim.TicksPerSecond)
		assert.Equal(t, plain.Hash(), back.Hash, "tick %d: back", tick)
		for range sim.TicksPerSecond {
			h.Step(1)
		}
		forward := until(t, h, "forward again", func(m *Moment) bool { return m.View.Tick == tick })
		assert.Equal(t, want, forward.Hash, "tick %d: forward", tick)
		assert.NotEqual(t, want, back.Hash)
		h.Stop()
	}
}

// BenchmarkGoTo jumps to any time of a ten-hour flight that has been flown, and
// lays out what the window shows there.
func BenchmarkGoTo(b *testing.B) {
	p := &pilot{engine: long(b)}
	p.engine.Advance(10 * hour)
	draw := rand.New(rand.NewPCG(1, 2))
	var worst time.Duration
	b.ResetTimer()
	for b.Loop() {
		began := time.Now()
		p.engine.GoTo(draw.Int64N(10 * hour))
		p.moment()
		worst = max(worst, time.Since(began))
	}
	b.ReportMetric(float64(worst.Microseconds()), "worst-µs")
}

// BenchmarkFlyOn flies a ten-hour flight to its end, as a tap at the end of the
// time line does.
func BenchmarkFlyOn(b *testing.B) {
	for b.Loop() {
		b.StopTimer()
		h, p, s := &Helm{}, &pilot{engine: long(b)}, &seek{}
		s.tick.Store(10 * hour)
		b.StartTimer()
		h.carryOut(s, p)
	}
}
