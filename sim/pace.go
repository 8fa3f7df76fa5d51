package sim

import "time"

// Pacer turns the time that has passed on the wall into ticks to fly. It is
// given the time; it never asks for it. It does not drift: the ticks handed out
// are rate x time passed, whole, with what is left over carried on. When the
// caller comes late it catches up by at most maxCatchUp of wall time, so that a
// slow machine gives slow motion and no spiral.
type Pacer struct {
	Rate  float64 // flight seconds per wall second
	last  time.Time
	going bool
	carry float64 // of a tick
}

// maxCatchUp is the longest stretch of wall time made up at once.
const maxCatchUp = 250 * time.Millisecond

// Pause stops the clock; the next Ticks starts it anew and returns 0.
func (p *Pacer) Pause() { p.going, p.carry = false, 0 }

// Ticks says how many ticks to fly now.
func (p *Pacer) Ticks(now time.Time) int64 {
	if !p.going {
		p.last, p.going = now, true
		return 0
	}
	passed := now.Sub(p.last)
	p.last = now
	if passed < 0 {
		passed = 0
	}
	due := p.carry + min(passed, maxCatchUp).Seconds()*p.Rate*TicksPerSecond
	n := int64(due)
	p.carry = due - float64(n)
	return n
}
