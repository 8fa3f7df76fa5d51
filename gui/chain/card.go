package chain

import (
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/ground"
	"stillair/sim/fault"
)

// Card tells all of one link.
func (s *Story) Card(of picture.Link) Card {
	if of >= picture.LinkCount {
		return Card{}
	}
	c := Card{Title: title(of), What: look.Text(linkWords[of].what), Law: s.law(of), Faults: s.mayBreak(of)}
	if of == picture.LinkAdders && s.Mechanism.Ground == ground.Plotted { // it has none
		c.What = look.Text(look.WhatPlotted)
	}
	if s.Truth == nil {
		return c
	}
	v := s.Judge()[of]
	if words := s.followed(of, &v); words != "" {
		c.Error = words
	} else if v.Wrong[0] != "" { // it turns right again
		c.Error = look.Textf(look.FollowCarries, title(of), look.Textf(look.FollowSum, v.Wrong[0]))
	}
	return c
}

func title(of picture.Link) string { return look.Text(linkWords[of].title) }

// mayBreak are the ids of what the catalogue knows to go wrong at a link, in its
// order, and can be given to this make of instrument.
func (s *Story) mayBreak(of picture.Link) (ids []string) {
	for _, e := range fault.Catalogue() {
		p := places[e.ID]
		if e.Refusal() != "" || e.NeedsPlotted() && s.Mechanism.Ground != ground.Plotted {
			continue
		}
		if p.at == of || p.east == of && of != 0 || p.low == of && of != 0 {
			ids = append(ids, e.ID)
		}
	}
	return ids
}
