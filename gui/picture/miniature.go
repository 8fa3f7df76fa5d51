package picture

import (
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// DrawMiniature draws a small chart without words, to tell flights apart by:
// coasts, graticule and the required track from an open circle to the marker,
// fitted with pad pixels round it.
func DrawMiniature(b *Brush, box paint.Rect, g *Ground, track []Waypoint, pad float64) {
	line := make([]units.Position, len(track))
	for i, w := range track {
		line[i] = w.At
	}
	v := Fit(box, pad, line...)
	b.PushClip(box)
	defer b.PopClip()
	b.rect(box, 0, b.C.Sea, none, 0)
	land := b.project(v, g)
	b.waterLines(v, land)
	b.land(land)
	b.graticule(v)
	if len(line) < 2 {
		return
	}
	pts, k := v.ToPixels(line), 0.7*b.K.Symbol()
	end := pts[len(pts)-1]
	b.pool(end, k)
	b.roundLine(2.6*b.K.Symbol(), b.C.Ink, pts...)
	b.disc(pts[0].X, pts[0].Y, 6*k, b.C.Sea, b.C.Ink, 2*k)
	b.disc(end.X, end.Y, 7.5*k, b.C.Brass, b.C.Ink, 2*k)
	b.disc(end.X, end.Y, 2.4*k, b.C.Ink, none, 0)
}

// DrawRequired draws the required track with its turning points over a ground;
// room is what DrawGround gave.
func DrawRequired(b *Brush, v View, track []Waypoint, room *Room) {
	l := &layer{Brush: b, v: v, p: &Plot{Required: track}, room: room.Clone(), k: b.K.Symbol()}
	b.PushClip(v.Box)
	defer b.PopClip()
	l.required()
	if len(track) > 0 {
		l.TurningPoint(v.ToPixel(track[0].At), l.k)
	}
	for _, t := range l.tags {
		l.label(l.room, t, l.C.Sea)
	}
}
