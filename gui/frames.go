package gui

import (
	"slices"
	"time"
)

// frames keeps how far apart the last pulls of a moment stood.
type frames struct {
	last time.Time
	ring [600]float64 // ms; 20 s
	n    int
}

func (f *frames) note(now time.Time) {
	if !f.last.IsZero() {
		f.ring[f.n%len(f.ring)] = float64(now.Sub(f.last)) / float64(time.Millisecond)
		f.n++
	}
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
