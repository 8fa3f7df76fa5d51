package charttable

import (
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// Drafted is a flight that is being written. While one is on the chart, the chart shows
// it alone: its waters, and what Draw draws; drags and taps are its own.
type Drafted struct {
	Plan  *sim.Plan // whose waters, year and field the ground shows
	Draw  func(b *picture.Brush, v picture.View, room *picture.Room)
	Hand  hand
	Tap   func(at units.Position) bool
	Shown []units.Position // what a fitted chart shows
}

// drafting is the draft on the chart; the zero value is none.
type drafting struct {
	*Drafted
	key    draftGround
	flown  *picture.Ground // that of the flight in hand
	ground *picture.Ground
}

// draftGround is what the ground of a draft depends on.
type draftGround struct {
	waters string
	year   int
	field  units.Variation
	own    bool
}

func groundOf(p *sim.Plan) draftGround {
	k := draftGround{waters: p.Waters, year: p.Start.In(time.UTC).Year()}
	if p.Field != nil {
		k.field, k.own = *p.Field, true
	}
	return k
}

// Draft puts a draft on the chart, or another state of it; nil brings the flight in hand
// back. Fitted says that the view is fitted to it anew.
func (t *Table) Draft(d *Drafted, fitted bool) error {
	c := t.chart
	s := &c.draft
	if d == nil {
		if s.Drafted != nil {
			c.ground = s.flown
			*s = drafting{}
			c.fit()
		}
		return nil
	}
	if key := groundOf(d.Plan); s.Drafted == nil || key != s.key {
		waters, err := atlas.Of(d.Plan)
		if err != nil {
			return err
		}
		if s.Drafted == nil {
			s.flown = c.ground
		}
		s.key, s.ground = key, picture.NewGround(waters)
		c.ground = s.ground
	}
	s.Drafted = d
	c.following = false
	if fitted {
		c.fit()
	}
	c.Repaint()
	return nil
}

// Drafts says whether a draft is on the chart.
func (t *Table) Drafts() bool { return t.chart.draft.Drafted != nil }

// without is a request for the ground of a draft: nothing of the flight in hand is on it.
func (r request) without(s *drafting) request {
	if s.Drafted != nil {
		r.planned, r.truth, r.clouded = true, false, false
	}
	return r
}

// paintDraft draws the draft over its ground.
func (c *chart) paintDraft(d *paint.Raster, s *sheet, z look.Size) {
	d.PushClip(c.view.Box)
	c.draft.Draw(picture.NewBrush(d, s.palette, z), c.view, c.base.room)
	d.PopClip()
}
