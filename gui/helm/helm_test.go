package helm

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func engine(t *testing.T) *sim.Engine {
	t.Helper()
	plan, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	return e
}

// until waits for a moment; the time is a bound on a hang, nothing is measured.
func until(t *testing.T, h *Helm, what string, ok func(*Moment) bool) *Moment {
	t.Helper()
	for range 2000 {
		if m := h.Moment(); ok(m) {
			return m
		}
		time.Sleep(5 * time.Millisecond)
	}
	require.Fail(t, "never saw: "+what)
	return nil
}

// A flight without a window is the measure: same tick, same hash, whatever the
// rate, by single steps, and on one processor.
func TestSameHashAtEveryPace(t *testing.T) {
	const last = 60 * sim.TicksPerSecond
	plain := engine(t)
	plain.Advance(last)
	want := plain.Hash()

	paces := map[string]func(*Helm){
		"x240": func(h *Helm) { h.SetRate(240); h.Play() },
		"x30":  func(h *Helm) { h.SetRate(30); h.Play() },
		"single steps": func(h *Helm) {
			for range last {
				h.Step(1)
			}
		},
	}
	for name, start := range paces {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, want, hashAt(t, last, start))
		})
	}
	t.Run("one processor", func(t *testing.T) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
		assert.Equal(t, want, hashAt(t, last, paces["x240"]))
	})
}

// hashAt flies under a helm until past a tick, goes back to it and hashes.
func hashAt(t *testing.T, tick int64, start func(*Helm)) uint64 {
	t.Helper()
	e := engine(t)
	h := New(e)
	start(h)
	until(t, h, "the tick", func(m *Moment) bool { return m.View.Tick >= tick })
	h.GoTo(tick)
	until(t, h, "the tick again", func(m *Moment) bool { return m.View.Tick == tick && !m.Playing })
	h.Stop()
	return e.Hash()
}

func TestX1RunsInRealTimeTicks(t *testing.T) {
	const last = 16
	e := engine(t)
	h := New(e)
	h.SetRate(1)
	h.Play()
	until(t, h, "one second", func(m *Moment) bool { return m.View.Tick >= last })
	h.GoTo(last)
	until(t, h, "tick 16", func(m *Moment) bool { return m.View.Tick == last })
	h.Stop()
	plain := engine(t)
	plain.Advance(last)
	assert.Equal(t, plain.Hash(), e.Hash())
}

func TestPausedActionShowsAtOnce(t *testing.T) {
	h := New(engine(t))
	defer h.Stop()
	h.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 1, Speed: 10}})
	m := until(t, h, "the wind", func(m *Moment) bool { return m.View.WindSet.Speed == 10 })
	assert.Zero(t, m.View.Tick)
	assert.False(t, m.Playing)
}

func TestRatesStayOnTheirList(t *testing.T) {
	h := New(engine(t))
	defer h.Stop()
	for range 3 { // three presses at once are three rates
		h.ChangeRate(1)
	}
	until(t, h, "three rates up", func(m *Moment) bool { return m.Rate == 120 })
	h.ChangeRate(100)
	until(t, h, "the fastest", func(m *Moment) bool { return m.Rate == 240 })
	h.ChangeRate(-100)
	until(t, h, "the slowest", func(m *Moment) bool { return m.Rate == 0.25 })
}

func TestTruthOnlyWhenRevealed(t *testing.T) {
	h := New(engine(t))
	defer h.Stop()
	assert.Nil(t, h.Moment().Revealed)
	h.Reveal(true)
	until(t, h, "the truth", func(m *Moment) bool { return m.Revealed != nil })
	h.Reveal(false)
	until(t, h, "it hidden", func(m *Moment) bool { return m.Revealed == nil })
}

func TestEndStopsTheClock(t *testing.T) {
	e := engine(t)
	h := New(e)
	h.SetRate(240)
	h.Step(1 << 40)
	m := until(t, h, "the end", func(m *Moment) bool { return m.Over })
	assert.False(t, m.Playing)
	h.Play()
	h.Do(aboard.Action{Kind: aboard.SetWind})
	m = until(t, h, "a refusal", func(m *Moment) bool { return m.Refusal != "" })
	assert.False(t, m.Playing)
	h.Stop()
}

// What was ordered before the end is done; what is ordered after it goes nowhere and
// harms nobody: an account that comes late asks a helm that has been stopped.
func TestOrdersAfterTheEnd(t *testing.T) {
	h := New(engine(t))
	h.GoTo(100)
	h.Stop()
	assert.Equal(t, int64(100), h.Engine().Tick())
	for range 200 { // more than the channel holds
		h.Play()
		h.Aside(func(*sim.Engine, int) { t.Error("nobody flies it any more") })
	}
	assert.False(t, h.Moment().Playing)
}
