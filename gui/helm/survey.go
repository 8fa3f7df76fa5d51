package helm

import (
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// Survey is how a flight will run if nobody touches it: its length and its
// legs, for the time strip.
type Survey struct {
	Ticks int64
	Legs  []LegSpan
	Marks []aboard.Mark // of the plot
}

// Tracks are how air position and ground position will run.
func (s *Survey) Tracks() [][]units.Position {
	var air, ground []units.Position
	for _, m := range s.Marks {
		air, ground = append(air, units.Position(m.Air)), append(ground, units.Position(m.Ground))
	}
	return [][]units.Position{air, ground}
}

// LegSpan is one leg: the tick at which it begins and the heading ordered.
type LegSpan struct {
	From    int64
	Heading units.TrueHeading
}

// SurveyOf flies a plan to its end, out of sight. It takes 0.2 s for ten hours.
func SurveyOf(p *sim.Plan) (Survey, error) {
	e, err := sim.New(p)
	if err != nil {
		return Survey{}, err
	}
	for e.Advance(1<<20) > 0 {
	}
	v := e.View()
	s := Survey{Ticks: e.Tick(), Marks: v.Marks}
	for _, n := range v.Log {
		if n.Event == aboard.LegBegun {
			s.Legs = append(s.Legs, LegSpan{sim.TicksOf(n.Elapsed), n.Heading})
		}
	}
	return s, nil
}
