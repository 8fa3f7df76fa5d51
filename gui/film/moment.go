package film

import (
	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
	"stillair/sim"
)

// Moment is all that one frame is drawn from. It shares nothing that may change.
type Moment struct {
	Shot
	View  aboard.View
	Works sim.Works
	Held  sim.Hands

	// Right, Faults and Truth are nil while the truth is hidden.
	Right  *sim.Works
	Faults []sim.FaultStatus
	Truth  *picture.Truth

	worked plotting.Marks // what the navigator has worked of the readings in the log
	labels picture.Held   // where the labels of the chart stood before
}

// take copies from an engine what a shot shows; the engine goes where the shot is.
func take(e *sim.Engine, s Shot, reveal bool) *Moment {
	e.GoTo(s.Tick)
	m := &Moment{Shot: s, View: e.View(), Works: e.Works(), Held: e.Held()}
	if reveal {
		right := e.TrueWorks()
		m.Right, m.Faults = &right, e.Faults()
		m.Truth = atlas.TruthOf(e.Snapshot(), e.TrueTrack())
	}
	return m
}

// linkage is what the picture of the mechanism shows of the moment.
func (m *Moment) linkage(p *sim.Plan, ground *picture.Ground, l *picture.Linkage) {
	story := chain.Story{View: &m.View, Now: m.Works, Truth: m.Right, Faults: m.Faults, Mechanism: p.Mechanism, Held: m.Held, Fast: m.Fast}
	story.Picture(l)
	story.Strip(l, ground, m.Truth)
	l.Run, l.Lit, l.Chosen = 1, m.Link, picture.NoLink
}

// plot is what the chart shows of the moment.
func (m *Moment) plot(required []picture.Waypoint) picture.Plot {
	p := picture.PlotOf(&m.View)
	p.Required, p.Truth = required, m.Truth
	p.Lines, p.Fixes, p.Hat, p.Ellipse = m.worked.Lines, m.worked.Fixes, m.worked.Hat, m.worked.Ellipse
	return p
}
