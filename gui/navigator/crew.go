package navigator

import (
	"stillair/gui/helm"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// Crew is what the view can have done; a view that is given its deeds one by one holds no
// helm, and so nothing of the truth behind it.
type Crew struct {
	Do          func(aboard.Action)
	LookThrough func(aboard.Aim)
	WantOffers  func(bool)
	Undo        func()
	SetRate     func(float64)
	Steer       func(units.TrueHeading) // has the pilot steer until the next leg; nil: nobody listens
}

// CrewOf has a helm do it.
func CrewOf(h *helm.Helm) Crew {
	return Crew{Do: h.Do, LookThrough: h.LookThrough, WantOffers: h.WantOffers, Undo: h.Undo, SetRate: h.SetRate, Steer: func(to units.TrueHeading) {
		h.Steer(sim.HelmOrder{Heading: to, HeadingOnly: true})
	}}
}

// Seen is what the view shows of a moment. The truth is nil where it may not be seen.
type Seen struct {
	View        aboard.View
	Deeds       int
	Over        bool
	Rate        float64
	Stands      bool // the clock
	Scene       *aboard.Scene
	Offers      []aboard.Offer
	CanTakeBack bool
	Truth       plotting.Truth
}

// SeenOf takes from a moment what the view shows; the truth if it is revealed.
func SeenOf(m *helm.Moment) *Seen {
	return &Seen{
		View: m.View, Deeds: m.Deeds, Over: m.Over, Rate: m.Rate, Stands: !m.Playing, Scene: m.Scene, Offers: m.Offers,
		CanTakeBack: m.CanTakeBack, Truth: truthOf(m),
	}
}
