package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// isogonals are dotted, each with its value and year once.
func (b *Brush) isogonals(v View, g *Ground, room *Room) {
	k := b.K.Symbol()
	if v.Scale < leastIsogonal*k {
		return
	}
	var lines [][]paint.Point
	for _, iso := range g.waters.Isogonals {
		if d := iso.Value.Degrees(); math.Abs(math.Remainder(d, isogonalStep(v.Scale/k))) > 0.01 {
			continue
		}
		pts := v.ToPixels(iso.Points)
		label := b.isogonalLabel(v, iso, pts, g.waters.Year, room)
		var p paint.Path
		paint.Dashed(pts, []float64{0.01, 11 * k}, func(q []paint.Point) {
			if v.Box.Contains(q[0]) && !label.Contains(q[0]) {
				p.Circle(q[0].X, q[0].Y, 1.3*k)
			}
		})
		b.Fill(&p, paint.Alpha(b.C.BrassText, 0.75))
		lines = append(lines, pts)
	}
	for _, pts := range lines { // only now: they do not keep off each other's labels
		room.takeLine(pts, dotsHurt)
	}
}

// leastIsogonal is the scale from which isogonals are drawn, pixels to a
// degree.
const leastIsogonal = 10

// isogonalStep is the interval of the lines shown at a scale, degrees.
func isogonalStep(scale float64) float64 {
	switch {
	case scale >= 120:
		return 0.5
	case scale >= 40:
		return 1
	}
	return 5
}

// isogonalLabel writes value and year where there is room, and says where.
func (b *Brush) isogonalLabel(v View, iso Isogonal, pts []paint.Point, year int, room *Room) paint.Rect {
	text := iso.Value.Tenths()
	if whole := iso.Value.String(); math.Abs(iso.Value.Degrees()-math.Round(iso.Value.Degrees())) < 0.01 {
		text = whole
	}
	if year > 0 {
		text += "  " + units.Figure(float64(year), 0)
	}
	size := b.K.Text(14.5)
	w := look.Regular.Font().Width(text, size)
	inside := v.Box.Inset(16 * b.K.Symbol())
	seen := cutToBox(pts, v.Box)
	for _, share := range []float64{0.43, 0.3, 0.56, 0.2, 0.7, 0.85} {
		at, _ := alongLine(seen, lineLength(seen)*share)
		box := paint.R(at.X-w/2, at.Y-size/2, w, size)
		if inside.Covers(box) && room.Free(box) && room.ashore(box) == 0 {
			b.haloed(at.X, at.Y+size*0.33, text, look.Regular, size, paint.Middle, b.C.BrassText, b.C.Sea)
			room.Take(box)
			return box.Inset(-4 * b.K.Symbol())
		}
	}
	return paint.Rect{X: math.Inf(-1)}
}

// cutToBox is the line from where it first enters the box to where it last
// leaves it; the whole line if it never enters.
func cutToBox(pts []paint.Point, box paint.Rect) []paint.Point {
	var out []paint.Point
	for i := 1; i < len(pts); i++ {
		if p, q, ok := paint.ClipSegment(pts[i-1], pts[i], box); ok {
			out = append(out, p, q)
		}
	}
	if len(out) == 0 {
		return pts
	}
	return out
}
