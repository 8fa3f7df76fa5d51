package paint

import "math"

// A stroke is drawn as a union of convex pieces, all of one sense: a bar for
// each segment, a wedge on the outer side of each corner, half discs at round
// ends. Under non-zero winding no piece can cut a hole into another, whatever
// the width and however short the segments.

type stroker struct {
	half float64
	tol  float64
	cap  Cap
	edge func(a, b Point)
	pts  []Point // the contour being gathered
}

// stroke calls edge for the outline of the pen run along the path,
// and tol how far it may lie from the true one.
func (k *stroker) stroke(p *Path, pen Pen, tol float64, edge func(a, b Point)) {
	k.half, k.tol, k.cap, k.edge = pen.Width/2, tol, pen.Cap, edge
	if k.half <= 0 {
		return
	}
	p.flatten(tol, false,
		func(q Point) { k.pts = append(k.pts[:0], q) },
		func(_, b Point) {
			if b != k.pts[len(k.pts)-1] {
				k.pts = append(k.pts, b)
			}
		},
		func(closed bool) {
			if len(pen.Dash) > 0 {
				k.dashes(closed, pen.Dash)
				return
			}
			k.contour(k.pts, closed)
		})
}

func (k *stroker) contour(pts []Point, closed bool) {
	if closed && len(pts) > 2 && pts[0] == pts[len(pts)-1] {
		pts = pts[:len(pts)-1]
	}
	n := len(pts)
	if n == 1 {
		k.dot(pts[0])
		return
	}
	for i := 1; i < n; i++ {
		k.bar(pts[i-1], pts[i])
		if i > 1 {
			k.corner(pts[i-2], pts[i-1], pts[i])
		}
	}
	if closed && n > 2 {
		k.bar(pts[n-1], pts[0])
		k.corner(pts[n-2], pts[n-1], pts[0])
		k.corner(pts[n-1], pts[0], pts[1])
		return
	}
	if k.cap == Round {
		k.halfDisc(pts[1], pts[0])
		k.halfDisc(pts[n-2], pts[n-1])
	}
}

// normal is the vector from the line to its left edge.
func (k *stroker) normal(a, b Point) Point {
	d := k.half / a.Dist(b)
	return Point{(b.Y - a.Y) * d, (a.X - b.X) * d}
}

func (k *stroker) bar(a, b Point) {
	n := k.normal(a, b)
	k.ring(a.Add(n.X, n.Y), b.Add(n.X, n.Y), b.Add(-n.X, -n.Y), a.Add(-n.X, -n.Y))
}

// ring emits a closed polygon.
func (k *stroker) ring(pts ...Point) {
	for i, p := range pts {
		k.edge(p, pts[(i+1)%len(pts)])
	}
}

// corner fills the wedge on the outer side at b.
func (k *stroker) corner(a, b, c Point) {
	n, m := k.normal(a, b), k.normal(b, c)
	cross := n.X*m.Y - n.Y*m.X
	dot := n.X*m.X + n.Y*m.Y
	if cross == 0 && dot > 0 {
		return
	}
	turn := math.Atan2(cross, dot)
	if turn > 0 { // turning right: the outer side is the left edge
		k.wedge(b, n, turn)
		return
	}
	// The other edge, walked backwards so that the sense stays the same.
	k.wedge(b, Point{-m.X, -m.Y}, -turn)
}

// wedge fills the sector at c from the vector v, turned clockwise by ang.
func (k *stroker) wedge(c, v Point, ang float64) {
	step := 2 * math.Acos(math.Max(0.5, 1-k.tol/k.half))
	n := math.Max(1, math.Ceil(ang/step))
	from := c.Add(v.X, v.Y)
	k.edge(c, from)
	for i := 1.0; i <= n; i++ {
		s, co := math.Sincos(ang * i / n)
		q := c.Add(v.X*co-v.Y*s, v.X*s+v.Y*co)
		k.edge(from, q)
		from = q
	}
	k.edge(from, c)
}

// halfDisc rounds the end at b of a line that comes from a.
func (k *stroker) halfDisc(a, b Point) { k.wedge(b, k.normal(a, b), math.Pi) }

func (k *stroker) dot(p Point) {
	if k.cap == Round {
		k.wedge(p, Point{k.half, 0}, 2*math.Pi)
	}
}

// dashes cuts the gathered contour into marks.
func (k *stroker) dashes(closed bool, dash []float64) {
	pts := append([]Point(nil), k.pts...)
	if closed && pts[0] != pts[len(pts)-1] {
		pts = append(pts, pts[0])
	}
	Dashed(pts, dash, func(piece []Point) { k.contour(piece, false) })
}

// hardlyApart is the distance of two points, pixels, below which they are one:
// a piece between them would have no direction.
const hardlyApart = 1e-6

// Dashed cuts the line into marks and hands each over; the slice is only
// valid during the call.
func Dashed(pts []Point, dash []float64, mark func([]Point)) {
	total := 0.0
	for _, d := range dash {
		total += d
	}
	if total <= 0 || len(pts) < 2 {
		return
	}
	i, left, on := 0, dash[0], true
	piece := []Point{pts[0]}
	for j := 1; j < len(pts); j++ {
		a, b := pts[j-1], pts[j]
		length := a.Dist(b)
		for done := 0.0; done < length; {
			step := math.Min(left, length-done)
			done += step
			left -= step
			t := done / length
			q := Point{a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t}
			if on && piece[len(piece)-1].Dist(q) > hardlyApart {
				piece = append(piece, q)
			}
			if left > 0 {
				continue
			}
			if on && len(piece) > 1 {
				mark(piece)
			}
			i, on = (i+1)%len(dash), !on
			left = dash[i]
			piece = append(piece[:0], q)
		}
	}
	if on && len(piece) > 1 {
		mark(piece)
	}
}
