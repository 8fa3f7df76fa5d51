package helm

import "sync/atomic"

// seek is an order to go to a tick that may be aimed anew until it is reached:
// a hand that drags along the time line gives many, and only the newest counts.
type seek struct{ tick atomic.Int64 }

// reached is what the tick becomes when the order has been carried out.
const reached = -1

// aim gives the order a new tick, unless it has been carried out.
func (s *seek) aim(tick int64) bool {
	for {
		old := s.tick.Load()
		if old == reached {
			return false
		}
		if s.tick.CompareAndSwap(old, tick) {
			return true
		}
	}
}

// seekChunk is how far is flown before the order is looked at again: an hour
// of flight, about 20 ms.
const seekChunk = 60 * 60 * 16

// GoTo stops the clock and goes to a tick, at once if it has been flown; else
// the flight is flown on to there. The newest call wins: it takes the place of
// one before it that is not yet carried out, unless another order came between.
func (h *Helm) GoTo(tick int64) {
	tick = max(0, tick)
	if s := h.seek.Load(); s != nil && s.aim(tick) {
		return
	}
	s := &seek{}
	s.tick.Store(tick)
	h.order(func(p *pilot) { h.carryOut(s, p) })
	h.seek.Store(s)
}

// carryOut flies until the order's tick, as it then stands, is reached; what is
// seen on the way is laid out too.
func (h *Helm) carryOut(s *seek, p *pilot) {
	p.pause()
	for {
		tick := s.tick.Load()
		p.engine.GoTo(min(tick, max(p.engine.Tick(), p.engine.Frontier())+seekChunk))
		h.latest.Store(p.moment())
		there := p.engine.Tick() == tick || p.engine.Over() && p.engine.Tick() < tick
		if there && s.tick.CompareAndSwap(tick, reached) {
			return
		}
	}
}

// Aim is the tick that the flight is going to, or where it is.
func (h *Helm) Aim() int64 {
	if s := h.seek.Load(); s != nil {
		if tick := s.tick.Load(); tick != reached {
			return tick
		}
	}
	return h.Moment().View.Tick
}
