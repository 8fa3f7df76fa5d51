package helm

import (
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// TwinMoment is what the instrument of the twin shows at the same tick. It
// holds no truth: the twin is not the truth and never shows it.
type TwinMoment struct {
	View  aboard.View
	Lacks sim.Twin
	Name  string // what it lacks, in the words of whoever chose it
	// Gap is how far the marker of the flight lies from the twin's, and in which
	// true direction, by the rhumb line between the two as they are printed.
	Gap     units.Length
	Bearing units.Angle
}

// twin is the engine that goes along.
type twin struct {
	engine *sim.Engine
	lacks  sim.Twin
	name   string
}

// Twin flies another beside the flight, from its start to now and on from
// there. It takes the place of the one before.
func (h *Helm) Twin(lacks sim.Twin, name string) {
	h.order(func(p *pilot) {
		e, err := p.engine.Twin(lacks)
		if err != nil {
			p.refusal = err.Error()
			return
		}
		p.twin = &twin{e, lacks, name}
	})
}

// NoTwin leaves the flight alone.
func (h *Helm) NoTwin() { h.order(func(p *pilot) { p.twin = nil }) }

// moment brings the twin up to the flight, whose marker stands there, and lays
// out what it shows.
func (t *twin) moment(flight *sim.Engine, marker units.GroundPosition) *TwinMoment {
	if t == nil {
		return nil
	}
	t.engine.Follow(flight)
	m := &TwinMoment{View: t.engine.View(), Lacks: t.lacks, Name: t.name}
	m.Gap, m.Bearing = gapOf(m.View.Marker, marker)
	return m
}

func gapOf(twin, flight units.GroundPosition) (units.Length, units.Angle) {
	bearing, gap := geodesy.RhumbInverse(units.Position(twin).Printed(), units.Position(flight).Printed())
	return gap, bearing
}
