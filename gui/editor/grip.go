package editor

import (
	"stillair/gui/charttable"
	"stillair/gui/drafting"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios/edit"
	"stillair/sim"
)

// grip is a turning point in the hand, or the plus of a leg that becomes one.
type grip struct {
	view  *View
	point int // the turning point: 0 the start, else the end of that leg; -1: none
	split bool
	dx    float64 // of the point from the pointer, device pixels
	dy    float64
	to    units.Position
	plan  *sim.Plan // as it would be, nil: as it is
	err   error
}

// route is the route as it is drawn now.
func (v *View) route() picture.DraftRoute {
	p := v.draft.Plan()
	if v.hand.point >= 0 && v.hand.plan != nil {
		p = v.hand.plan
	}
	r := drafting.Drawn(p)
	r.Chosen = v.leg()
	if v.hand.point >= 0 && v.hand.plan != nil {
		r.Held = v.hand.point
		if place, ok := drafting.Reach(p, v.hand.to, v.hand.reach()); ok {
			r.Reach = place.Name
		}
	}
	return r
}

// chart puts the draft on the chart, or draws it anew.
func (v *View) chart(fitted bool) {
	if !v.stands || v.draft == nil {
		return
	}
	p := v.draft.Plan()
	if p == nil {
		_ = v.Chart(nil, false)
		return
	}
	route := v.route()
	err := v.Chart(&charttable.Drafted{
		Plan: p,
		Draw: func(b *picture.Brush, c picture.View, room *picture.Room) {
			v.sheet = c
			picture.DrawDraftRoute(b, c, &route, room)
		},
		Hand:  &v.hand,
		Tap:   v.tapped,
		Shown: drafting.Shown(p),
	}, fitted)
	if err != nil {
		v.tell(err)
	}
}

// mostReach is the farthest from which a turning point falls on a place.
const mostReach = 6 * units.NM

// reach is how near to a place the hand lets go on it.
func (g *grip) reach() units.Length {
	miles := g.view.sheet.MilesPerPixel(g.to.Lat) * picture.GripReach(g.view.screen.Size(1)) / 2
	return min(mostReach, units.Length(miles)*units.NM)
}

// Grab takes hold of a turning point, or of the plus of a leg.
func (g *grip) Grab(p paint.Point, c picture.View) bool {
	v := g.view
	g.point, g.plan, g.err = -1, nil, nil
	if v.draft == nil || v.draft.Plan() == nil {
		return false
	}
	r := v.route()
	near := picture.GripReach(v.screen.Size(1))
	take := func(at paint.Point, point int, split bool) {
		if d := at.Dist(p); d <= near {
			near = d
			g.point, g.split, g.dx, g.dy = point, split, at.X-p.X, at.Y-p.Y
		}
	}
	for i, q := range r.Points {
		take(c.ToPixel(q.At), i, false)
	}
	if g.point < 0 {
		middles, ok := r.Middles(c, v.screen.Size(1))
		for i, m := range middles {
			if ok[i] {
				take(m, i+1, true)
			}
		}
	}
	v.sheet = c
	return g.point >= 0
}

// changes are those by which the point comes to where the hand is.
func (g *grip) changes() ([]edit.Change, error) {
	d := g.view.draft
	switch {
	case g.point == 0:
		return drafting.MoveStart(d, g.to, g.reach())
	case g.split:
		return drafting.Split(d, g.point, g.to, g.reach())
	}
	return drafting.MoveEnd(d, g.point, g.to, g.reach())
}

// Drag moves the point under the pointer; the legs are drawn as they would be.
func (g *grip) Drag(to units.Position) {
	if g.point < 0 {
		return
	}
	at := g.view.sheet.ToPixel(to)
	g.to = g.view.sheet.FromPixel(at.Add(g.dx, g.dy))
	changes, err := g.changes()
	if err == nil {
		var plan *sim.Plan
		if plan, err = g.view.draft.Try(changes...); err == nil {
			g.plan = plan
		}
	}
	g.err = err
	v := g.view
	v.tell(drafting.Told(err))
	v.chart(false)
	v.made++
	v.paint()
}

// Drop lets go: the draft is changed.
func (g *grip) Drop() {
	v, point := g.view, g.point
	if point < 0 {
		return
	}
	moved, err := g.plan != nil, g.err
	g.point, g.plan = -1, nil
	if moved && err == nil {
		g.point = point
		changes, err := g.changes()
		g.point = -1
		if point > 0 && v.tab == drafting.RouteTab {
			v.open = legItem(point)
		}
		v.do(changes, err)
		v.reveal(v.open)
		v.apply()
		return
	}
	v.changed()
}

func legItem(n int) string { return "leg[" + itoa(n) + "]" }

// tapped adds a leg, or opens the leg whose end was tapped.
func (v *View) tapped(at units.Position) bool {
	if v.draft == nil || v.draft.Plan() == nil {
		return false
	}
	if v.adding {
		v.hand.to = at
		v.do(drafting.Append(v.draft, at, v.hand.reach()))
		if !v.bad {
			v.choose(legItem(v.draft.Count("leg")))
		}
		return true
	}
	r, c := v.route(), v.sheet
	for i, p := range r.Points {
		if i > 0 && c.ToPixel(p.At).Dist(c.ToPixel(at)) <= picture.GripReach(v.screen.Size(1)) {
			if v.tab != drafting.RouteTab {
				v.turn(drafting.RouteTab)
			}
			v.choose(legItem(i))
			return true
		}
	}
	return false
}
