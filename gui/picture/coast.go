package picture

import (
	"math"

	"stillair/gui/paint"
)

// Water lines follow the coast; at a small scale they come nearer to it.
var waterLines = [4]struct{ off, width, opacity float64 }{
	{31, 1, 0.45}, {21, 1.1, 0.65}, {12.5, 1.2, 0.85}, {5.5, 1.3, 1},
}

// waterScale is the factor of the distances of the water lines.
func (b *Brush) waterScale(v View) float64 {
	k := b.K.Symbol()
	return 0.94 * k * math.Max(0.25, math.Min(1, v.Scale/(180*k)))
}

// project gives the polygons of land near the box, cut to it with a margin
// that hides the cut.
func (b *Brush) project(v View, g *Ground) [][]paint.Point {
	margin := 40 * b.K.Symbol()
	box := v.Box.Inset(-margin)
	c := v.spot()
	var out [][]paint.Point
	for _, r := range g.rings {
		// The ring's middle is brought near the centre, all of it with it.
		turn := near((r.lo.lon+r.hi.lon)/2, c.lon) - (r.lo.lon+r.hi.lon)/2
		lo, hi := v.place(c, spot{r.lo.lon + turn, r.hi.psi}), v.place(c, spot{r.hi.lon + turn, r.lo.psi})
		if !box.Overlaps(paint.R(lo.X, lo.Y, hi.X-lo.X+0.1, hi.Y-lo.Y+0.1)) {
			continue
		}
		pts := make([]paint.Point, 0, len(r.spots))
		for _, s := range r.spots {
			s.lon += turn
			pts = append(pts, v.place(c, s))
		}
		pts = thin(pts, 0.6)
		if !box.Covers(paint.R(lo.X, lo.Y, hi.X-lo.X, hi.Y-lo.Y)) {
			pts = paint.ClipPolygon(pts, box)
		}
		if len(pts) > 2 {
			out = append(out, pts)
		}
	}
	return out
}

// thin leaves out points nearer than d to the last one kept.
func thin(pts []paint.Point, d float64) []paint.Point {
	if len(pts) < 3 {
		return pts
	}
	out := pts[:1:1]
	for i, p := range pts[1:] {
		if p.Dist(out[len(out)-1]) >= d || i == len(pts)-2 {
			out = append(out, p)
		}
	}
	return out
}

// straightened leaves out points that lie within tol of the line through those
// kept: a leg flown straight becomes one piece, however many points were
// recorded on it. From each point kept, the directions are followed in which all
// points since would still be passed within tol; the last point before one that
// leaves them, or that turns back, is the next one kept.
func straightened(pts []paint.Point, tol float64) []paint.Point {
	if len(pts) < 3 {
		return pts
	}
	cross := func(u, v paint.Point) float64 { return u.X*v.Y - u.Y*v.X }
	out := pts[:1:1]
	var lo, hi paint.Point
	far := 0.0 // the farthest since the last point kept; 0: no direction yet
	for i := 1; i < len(pts); i++ {
		a := out[len(out)-1]
		v := paint.Pt(pts[i].X-a.X, pts[i].Y-a.Y)
		d := math.Hypot(v.X, v.Y)
		if far > 0 && (cross(lo, v) < 0 || cross(v, hi) < 0 || d < far-tol) {
			out = append(out, pts[i-1])
			far = 0
			v = paint.Pt(pts[i].X-pts[i-1].X, pts[i].Y-pts[i-1].Y)
			d = math.Hypot(v.X, v.Y)
		}
		if d <= tol {
			continue
		}
		n := paint.Pt(-v.Y/d*tol, v.X/d*tol)
		l, h := v.Add(-n.X, -n.Y), v.Add(n.X, n.Y)
		if far == 0 || cross(lo, l) > 0 {
			lo = l
		}
		if far == 0 || cross(h, hi) > 0 {
			hi = h
		}
		far = math.Max(far, d)
	}
	return append(out, pts[len(pts)-1])
}

// waterLines draws each line as two wide strokes, the water's colour and then
// that of the sea inside it. Colours are opaque, so that the coast may be drawn
// in short pieces, which the rasterizer is quicker with.
func (b *Brush) waterLines(v View, land [][]paint.Point) {
	k, hair := b.waterScale(v), b.K.Hair()
	for _, w := range waterLines {
		off := w.off * k
		tone := paint.Mix(b.C.Sea, b.C.WaterLine, w.opacity)
		var pieces [][]paint.Point
		for _, ring := range land {
			pieces = append(pieces, cutUp(thin(ring, off/8))...)
		}
		for _, p := range pieces {
			b.roundLine(2*off+w.width*hair, tone, p...)
		}
		for _, p := range pieces {
			b.roundLine(2*off-w.width*hair, b.C.Sea, p...)
		}
	}
}

// pieceLength is the number of segments in a piece of coast.
const pieceLength = 16

// cutUp cuts a closed ring into open pieces that share their ends.
func cutUp(ring []paint.Point) [][]paint.Point {
	var out [][]paint.Point
	ring = append(ring[:len(ring):len(ring)], ring[0])
	for from := 0; from < len(ring)-1; from += pieceLength {
		out = append(out, ring[from:min(from+pieceLength+1, len(ring))])
	}
	return out
}

func (b *Brush) land(land [][]paint.Point) {
	var p paint.Path
	for _, ring := range land {
		p.Polygon(ring...)
	}
	b.Fill(&p, b.C.Land)
	b.Stroke(&p, paint.Pen{Width: 1.6 * b.K.Symbol()}, b.C.Ink)
}
