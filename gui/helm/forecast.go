package helm

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/sim"
	"stillair/sim/fault"
)

// Outlook is what the crew would see after a time without a fault and with it.
type Outlook struct{ Sound, Broken aboard.View }

// Forecast flies two forks of the flight on from now, one of them with the
// fault, and hands over what their crews would see then; on a goroutine of its
// own. A fault that waits for a place or a signal is taken to come at once. A
// fault that is refused has no outlook.
func (h *Helm) Forecast(o fault.Order, ahead time.Duration, tell func(Outlook)) {
	h.order(func(p *pilot) {
		sound, broken := p.engine.Fork(), p.engine.Fork()
		o.At, o.Trigger = sound.Tick(), fault.Trigger{}
		go func() {
			if broken.Break(o) != nil {
				return
			}
			n := sim.TicksOf(ahead)
			sound.Advance(n)
			broken.Advance(n)
			tell(Outlook{sound.View(), broken.View()})
		}()
	})
}
