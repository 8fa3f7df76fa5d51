package helm

import (
	"sync"

	"stillair/integrator/aboard"
	"stillair/sim"
	"stillair/sim/debrief"
)

// Accounted is the account of the error of a flight to the furthest tick flown, and
// what has to be known beside it. It shares nothing that may change.
type Accounted struct {
	Report debrief.Report
	IfOnly []debrief.Line // of the ground position
	Tick   int64          // to which it goes
	Deeds  int            // of the moment at which it was asked for
	View   aboard.View
	Truth  []sim.TruePoint // one for each mark of the view
	Faults []sim.FaultStatus
}

// Account has the flight accounted for beside it and tells of it from another
// goroutine.
func (h *Helm) Account(tell func(*Accounted)) {
	h.aside(func(e *sim.Engine, deeds int) {
		a := &Accounted{Tick: e.Tick(), Deeds: deeds, View: e.View(), Truth: e.TrueTrack(), Faults: e.Faults()}
		var both sync.WaitGroup
		both.Go(func() { a.IfOnly, _ = debrief.IfOnly(e) })
		a.Report = debrief.Of(e)
		both.Wait()
		tell(a)
	})
}

// AccountIf has the flight accounted for as if links had been right; ids that can
// be none of these are told as an error.
func (h *Helm) AccountIf(right []string, tell func(debrief.Report, error)) {
	h.aside(func(e *sim.Engine, _ int) { tell(debrief.If(e, right...)) })
}

// aside does something with a copy of the engine at the furthest tick flown, on a
// goroutine of its own.
func (h *Helm) aside(do func(e *sim.Engine, deeds int)) {
	h.orders <- func(p *pilot) {
		e, deeds := p.engine.Fork(), p.deeds
		go func() {
			e.GoTo(e.Frontier())
			do(e, deeds)
		}()
	}
}
