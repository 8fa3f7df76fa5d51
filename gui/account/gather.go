package account

import (
	"sync"

	"stillair/integrator/aboard"
	"stillair/sim"
	"stillair/sim/debrief"
)

// Material is what an account is told from. It shares nothing that may change.
type Material struct {
	Report debrief.Report
	// IfOnly is what would have been left of the error of the ground position if one
	// link alone had been right; AirIfOnly the same of the air position.
	IfOnly, AirIfOnly []debrief.Line
	Tick              int64 // to which it goes
	View              aboard.View
	Truth             []sim.TruePoint // one for each mark of the view
	Faults            []sim.FaultStatus
}

// Gather accounts for a flight as flown so far; nobody may fly the engine
// meanwhile.
func Gather(e *sim.Engine) *Material {
	m := &Material{Tick: e.Tick(), View: e.View(), Truth: e.TrueTrack(), Faults: e.Faults()}
	var both sync.WaitGroup
	both.Go(func() { m.IfOnly, m.AirIfOnly = debrief.IfOnly(e) })
	m.Report = debrief.Of(e)
	both.Wait()
	return m
}
