package sim

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// What the pacer promises. It is given every time; nothing here waits.

func TestPacerDoesNotDrift(t *testing.T) {
	for _, rate := range []float64{0.25, 1, 2, 5, 10, 30, 60, 120, 240} {
		p := Pacer{Rate: rate}
		r := rand.New(rand.NewPCG(7, uint64(rate*4)))
		start := time.Date(2001, 2, 3, 4, 5, 6, 0, time.UTC)
		now, ticks := start, p.Ticks(start)
		for now.Sub(start) < time.Hour {
			now = now.Add(time.Duration(1e6 + r.Int64N(60e6))) // uneven frames, 1 to 61 ms
			ticks += p.Ticks(now)
		}
		due := now.Sub(start).Seconds() * rate * TicksPerSecond
		assert.InDelta(t, due, float64(ticks), 1.01, "x%v", rate)
	}
}

func TestPacerGivesNoBurstAfterAStall(t *testing.T) {
	p := Pacer{Rate: 10}
	now := time.Unix(0, 0)
	p.Ticks(now)
	now = now.Add(time.Minute) // the machine slept
	assert.LessOrEqual(t, p.Ticks(now), int64(10*TicksPerSecond/4), "a quarter of a second at most")
	now = now.Add(100 * time.Millisecond)
	assert.Equal(t, int64(16), p.Ticks(now), "and then goes on as if nothing had been")
}

func TestPacerPauses(t *testing.T) {
	p := Pacer{Rate: 1}
	now := time.Unix(0, 0)
	p.Ticks(now)
	p.Pause()
	now = now.Add(time.Second)
	assert.Zero(t, p.Ticks(now), "the time of the pause is not made up")
	assert.Equal(t, int64(2), p.Ticks(now.Add(125*time.Millisecond)))
	assert.Zero(t, p.Ticks(now), "a clock set back flies nothing")
}

func TestTicks(t *testing.T) {
	assert.Equal(t, int64(16), TicksOf(time.Second))
	assert.Equal(t, int64(1), TicksOf(time.Nanosecond), "times round up to a tick")
	assert.Equal(t, int64(17), TicksOf(time.Second+1))
	assert.Equal(t, 62500*time.Microsecond, TimeOf(1))
}
