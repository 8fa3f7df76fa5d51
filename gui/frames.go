package gui

import (
	"slices"
	"time"
)

// frames decides at which ticks of the toolkit a moment is pulled: at each one,
// sixty a second, where a frame is painted in time; else at an even thirty. It
// keeps how far apart the last pulls stood. It is told the time.
type frames struct {
	tick, last time.Time
	pulled     bool         // at the tick before
	late       int          // how often the tick after a pull came late, of late
	slow       int          // pulls left at thirty a second
	ring       [600]float64 // ms between pulls
	n          int
}

const (
	tooLate  = 22 * time.Millisecond // a tick after a frame that was not painted in time
	mostLate = 6                     // such ticks, less those in time, until the pace is halved
	slowFor  = 1200                  // pulls until sixty a second is tried again
	fullGap  = 12 * time.Millisecond
	halfGap  = 30 * time.Millisecond
)

// due says whether to pull at this tick.
func (f *frames) due(now time.Time) bool {
	if f.pulled && f.slow == 0 {
		f.judge(now.Sub(f.tick))
	}
	f.tick = now
	gap := fullGap
	if f.slow > 0 {
		gap = halfGap
	}
	f.pulled = f.last.IsZero() || now.Sub(f.last) >= gap
	if f.pulled {
		f.note(now)
	}
	return f.pulled
}

// stall is a time between ticks for which the program could not run.
const stall = 2 * time.Second

// stalled says whether the program could not run between the last tick and this one. The
// toolkit may then have forgotten on which canvas its objects stand, and would draw none
// of them again before the window is resized.
func (f *frames) stalled(now time.Time) bool { return !f.tick.IsZero() && now.Sub(f.tick) > stall }

func (f *frames) judge(gap time.Duration) {
	if gap > tooLate {
		f.late++
	} else {
		f.late = max(0, f.late-1)
	}
	if f.late >= mostLate {
		f.late, f.slow = 0, slowFor
	}
}

func (f *frames) note(now time.Time) {
	if !f.last.IsZero() {
		f.ring[f.n%len(f.ring)] = float64(now.Sub(f.last)) / float64(time.Millisecond)
		f.n++
	}
	f.slow = max(0, f.slow-1)
	f.last = now
}

// percentile is the interval that so many in a hundred do not exceed, ms; 0
// before there is any.
func (f *frames) percentile(p int) float64 {
	seen := slices.Clone(f.ring[:min(f.n, len(f.ring))])
	if len(seen) == 0 {
		return 0
	}
	slices.Sort(seen)
	return seen[min(len(seen)-1, len(seen)*p/100)]
}
