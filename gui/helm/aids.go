package helm

import (
	"stillair/integrator/aboard"
	"stillair/sim"
)

// navigating is what the crew look for and through.
type navigating struct {
	through aboard.Aim // NoAid: nothing
	wanted  bool       // what aids offer is asked for
	offers  []aboard.Offer
	tick    int64 // of the offers
	deeds   int
}

// offersEvery is how much flight passes before the aids are asked anew what they offer.
const offersEvery = 10 * sim.TicksPerSecond

// LookThrough has the moments hold what is to be seen through an aid; NoAid: nothing.
func (h *Helm) LookThrough(a aboard.Aim) { h.order(func(p *pilot) { p.navigating.through = a }) }

// WantOffers has the moments hold what the aids offer, or not.
func (h *Helm) WantOffers(on bool) {
	h.order(func(p *pilot) { p.navigating.wanted, p.navigating.offers = on, nil })
}

// Undo takes the crew's last deed back.
func (h *Helm) Undo() { h.try((*sim.Engine).Undo) }

// look fills in what is seen.
func (p *pilot) look(m *Moment) {
	n := &p.navigating
	if n.through.Aid != aboard.NoAid {
		s := p.engine.Scene(n.through)
		m.Scene = &s
	}
	if !n.wanted {
		return
	}
	past := m.View.Tick - n.tick
	if n.offers == nil || n.deeds != p.deeds || past < 0 || past >= offersEvery {
		n.offers, n.tick, n.deeds = p.engine.Offers(), m.View.Tick, p.deeds
	}
	m.Offers = n.offers
	if _, ok := p.engine.LastDeed(); ok {
		m.CanTakeBack = true
	}
}
