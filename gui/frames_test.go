package gui

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// run gives the ticks of a toolkit that ticks at sixty a second, but not while
// it paints, and paints after each pull for so long. It returns the pulls in
// the last second.
func run(f *frames, paint time.Duration, seconds int) (pulls int) {
	const tick = time.Second / 60
	now, end := time.Unix(1000, 0), time.Unix(1000, 0).Add(time.Duration(seconds)*time.Second)
	if !f.tick.IsZero() {
		now, end = f.tick.Add(tick), f.tick.Add(time.Duration(seconds)*time.Second)
	}
	for now.Before(end) {
		busy := time.Duration(0)
		if f.due(now) {
			busy = paint
			if end.Sub(now) <= time.Second {
				pulls++
			}
		}
		for next := now.Add(tick); ; next = next.Add(tick) { // ticks missed are not made up for
			if next.Sub(now) >= busy {
				now = next
				break
			}
		}
	}
	return pulls
}

func TestSixtyFramesWhereTheyArePainted(t *testing.T) {
	var f frames
	assert.InDelta(t, 60, run(&f, 10*time.Millisecond, 5), 1)
	assert.InDelta(t, 1000.0/60, f.percentile(99), 0.1)
}

func TestEvenThirtyWhereNot(t *testing.T) {
	var f frames
	assert.InDelta(t, 30, run(&f, 24*time.Millisecond, 15), 1)
	assert.InDelta(t, 1000.0/30, f.percentile(50), 0.1)
	assert.InDelta(t, 1000.0/30, f.percentile(99), 0.1, "no frame waits longer than its neighbours")
}

func TestSixtyIsTriedAgain(t *testing.T) {
	var f frames
	run(&f, 24*time.Millisecond, 5)
	assert.Positive(t, f.slow)
	assert.InDelta(t, 60, run(&f, 5*time.Millisecond, 60), 1)
}

func TestPercentileOfNothing(t *testing.T) {
	assert.Zero(t, new(frames).percentile(99))
}

// TestAStallIsNoticed: where the program could not run for a while, and there alone.
func TestAStallIsNoticed(t *testing.T) {
	var f frames
	now := time.Now()
	assert.False(t, f.stalled(now), "the first tick")
	for range 3 {
		f.due(now)
		now = now.Add(500 * time.Millisecond)
		assert.False(t, f.stalled(now))
	}
	f.due(now)
	now = now.Add(20 * time.Second)
	assert.True(t, f.stalled(now))
	f.due(now)
	assert.False(t, f.stalled(now.Add(time.Second/60)), "once")
}
