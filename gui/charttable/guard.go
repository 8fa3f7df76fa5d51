package charttable

import (
	"math"
	"time"
)

// guard is the cover over the key that sets the counters. One touch lifts the
// cover, and only that; another that lasts holdTime is needed to set. It is
// given the time and asks no clock.
type guard struct {
	lifted  time.Time // zero: the cover is down
	pressed time.Time // zero: nothing presses the key
}

const (
	coverFalls = 8 * time.Second        // then the cover falls shut by itself
	holdTime   = 600 * time.Millisecond // for so long the key must be held
)

// open says whether the cover is up.
func (g *guard) open() bool { return !g.lifted.IsZero() }

// touch is a hand or a key of the keyboard coming down: it lifts the cover, or
// begins to press what lies under it.
func (g *guard) touch(now time.Time) {
	switch {
	case !g.open():
		g.lifted = now
	case g.pressed.IsZero():
		g.pressed = now
	}
}

// letGo is the hand going up: what was not held long enough is nothing.
func (g *guard) letGo() { g.pressed = time.Time{} }

// shut lets the cover fall.
func (g *guard) shut() { *g = guard{} }

// at brings the guard up to a time and says whether the key has now been held
// long enough; the cover falls then, and when its time is over, but not on a
// hand that presses.
func (g *guard) at(now time.Time) (set bool) {
	switch {
	case !g.open():
		return false
	case g.held(now) >= 1:
		g.shut()
		return true
	case g.pressed.IsZero() && now.Sub(g.lifted) >= coverFalls:
		g.shut()
	}
	return false
}

// held is how much of the time to hold has gone, 0 to 1.
func (g *guard) held(now time.Time) float64 {
	if g.pressed.IsZero() {
		return 0
	}
	return math.Max(0, math.Min(1, float64(now.Sub(g.pressed))/float64(holdTime)))
}

// left is how much of its time the cover has still to stand up, 1 to 0.
func (g *guard) left(now time.Time) float64 {
	if !g.open() {
		return 0
	}
	return math.Max(0, 1-float64(now.Sub(g.lifted))/float64(coverFalls))
}
