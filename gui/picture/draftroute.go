package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// DraftPoint is a turning point of a route that is being drawn.
type DraftPoint struct {
	At    units.Position
	Label string // "A 1018Z"
	Words string // of the leg that leads here, "045T 62.3 NM 20 min"; "" for the start
}

// DraftRoute is a route that is being drawn: the start and the ends of the legs.
type DraftRoute struct {
	Points []DraftPoint
	Chosen int    // leg from 1; 0: none
	Held   int    // the point in the hand; -1: none
	Reach  string // the place that it would be let go on; "" for none
}

// Sizes of what is taken hold of, pixels at scale 1.
const (
	gripRadius = 10.0
	plusRadius = 9.0
	// plusRoom is how long a leg must be on the chart to have a plus in its middle.
	plusRoom = 70.0
)

// GripReach is how near to a turning point, or to the plus of a leg, it can be taken
// hold of, device pixels.
func GripReach(k look.Size) float64 { return 22 * k.Device }

// Middles are the places of the pluses: of each leg the middle on the chart, ok where the
// leg is long enough for one.
func (r *DraftRoute) Middles(v View, k look.Size) (at []paint.Point, ok []bool) {
	pts := v.ToPixels(r.line())
	for i := 1; i < len(pts); i++ {
		a, z := pts[i-1], pts[i]
		at = append(at, a.Add((z.X-a.X)/2, (z.Y-a.Y)/2))
		ok = append(ok, a.Dist(z) >= plusRoom*k.Symbol())
	}
	return at, ok
}

func (r *DraftRoute) line() []units.Position {
	out := make([]units.Position, len(r.Points))
	for i, p := range r.Points {
		out[i] = p.At
	}
	return out
}

// DrawDraftRoute draws the route with what is taken hold of; room is that of the ground,
// nil if nothing is to be kept clear of.
func DrawDraftRoute(b *Brush, v View, r *DraftRoute, room *Room) {
	if room == nil {
		room = NewRoom(v.Box)
	}
	room = room.Clone()
	k := b.K.Symbol()
	pts := v.ToPixels(r.line())
	s := b.strokeOf(look.RequiredTrack, 1)
	s.width = 2 * k
	for i := 1; i < len(pts); i++ {
		one := s
		if i == r.Chosen {
			one.width = 4 * k
		}
		b.vector(pts[i-1], pts[i], one, 0.72)
		room.TakeLine(pts[i-1 : i+1])
	}
	middles, ok := r.Middles(v, b.K)
	for i, m := range middles {
		if ok[i] {
			b.plus(m, k)
			room.Take(paint.R(m.X-plusRadius*k, m.Y-plusRadius*k, 2*plusRadius*k, 2*plusRadius*k))
		}
	}
	for i := range pts {
		b.grip(pts[i], k, i == r.Held, i == 0)
		room.Take(paint.R(pts[i].X-gripRadius*k, pts[i].Y-gripRadius*k, 2*gripRadius*k, 2*gripRadius*k))
	}
	size := b.K.Text(look.TextSmall)
	for i, p := range r.Points {
		lines := []words{{p.Label, look.Semibold, size, b.C.Ink}}
		if i == r.Held && r.Reach != "" {
			lines = append(lines, words{r.Reach, look.Bold, size, b.C.BrassText})
		}
		b.label(room, label{at: pts[i], clear: gripRadius * k, first: aboveRight, far: true, must: true, lines: lines}, b.C.Sea)
	}
	for i, m := range middles {
		held := r.Held == i || r.Held == i+1
		b.label(room, label{at: m, clear: plusRadius * k, first: belowRight, far: true, must: held, keen: r.Chosen == i+1,
			lines: []words{{r.Points[i+1].Words, look.Regular, size, b.C.Ink}}}, b.C.Sea)
	}
}

// grip is a turning point that can be taken hold of; the start has a dot.
func (b *Brush) grip(p paint.Point, k float64, held, start bool) {
	fill := b.C.Card
	if held {
		fill = b.C.BrassHi
	}
	b.disc(p.X, p.Y, gripRadius*k, fill, b.C.Ink, 2.4*k)
	if start {
		b.disc(p.X, p.Y, 4*k, b.C.Ink, none, 0)
	}
}

// plus is where a leg is parted.
func (b *Brush) plus(p paint.Point, k float64) {
	b.disc(p.X, p.Y, plusRadius*k, b.C.Card, b.C.Ink2, 1.4*k)
	arm := 0.55 * plusRadius * k
	b.line(p.Add(-arm, 0), p.Add(arm, 0), 1.8*k, b.C.Ink)
	b.line(p.Add(0, -arm), p.Add(0, arm), 1.8*k, b.C.Ink)
}
