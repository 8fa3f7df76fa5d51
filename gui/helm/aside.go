package helm

import "stillair/sim"

// Aside does something with a copy of the engine at the furthest tick flown, on a
// goroutine of its own, unless the flight has been let go of; deeds are those of the moment at which it was copied.
func (h *Helm) Aside(do func(e *sim.Engine, deeds int)) {
	h.give(func(p *pilot) {
		e, deeds := p.engine.Fork(), p.deeds
		go func() {
			e.GoTo(e.Frontier())
			do(e, deeds)
		}()
	})
}
