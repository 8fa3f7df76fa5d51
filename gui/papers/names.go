package papers

import (
	"math"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// room is what has been taken of a chart: no two words may overlap.
type room struct {
	box   paint.Rect
	taken []paint.Rect
}

// free says whether a rectangle lies in the frame and on nothing else.
func (r *room) free(q paint.Rect) bool {
	return r.box.Covers(q) && !slices.ContainsFunc(r.taken, q.Overlaps)
}

func (r *room) take(q paint.Rect) { r.taken = append(r.taken, q) }

const nameSize = 2.8

// leastNamed is the diagonal, mm, below which an island without a place has no
// name on the paper.
const leastNamed = 6.0

// farthestRank is the last rank of place that has its name on a plotting sheet.
const farthestRank = 2

// names marks and names places, the greater ones first, and then the islands
// whose name has not been written. A name for which there is no room is left
// out; its mark stays.
func (d *draft) names(c chart, w *picture.Waters, rings [][]paint.Point, r *room) {
	places := slices.Clone(w.Places)
	slices.SortStableFunc(places, func(a, b picture.Place) int { return a.Rank - b.Rank })
	for _, p := range places {
		at := c.at(p.At)
		if !p.Mark || p.Rank > farthestRank || !c.box.Inset(1).Contains(at) {
			continue
		}
		d.brush.NamedMark(at, 0.7*symbolScale)
		r.take(paint.R(at.X-1, at.Y-1, 2, 2))
	}
	written := map[string]bool{}
	for _, p := range places {
		at := c.at(p.At)
		if p.Mark && p.Rank <= farthestRank && c.box.Inset(1).Contains(at) && !written[p.Name] {
			written[p.Name] = d.beside(at, p.Name, r)
		}
	}
	for i, ring := range rings {
		name := w.Coasts[i].Name
		if len(ring) > 2 && name != "" && !written[name] {
			written[name] = d.inside(ring, name, r)
		}
	}
}

// beside writes a name next to a mark, on the first free side.
func (d *draft) beside(at paint.Point, name string, r *room) bool {
	w := look.Semibold.Font().Width(name, nameSize)
	for _, o := range []paint.Point{{X: 1.8, Y: 1}, {X: -1.8 - w, Y: 1}, {X: -w / 2, Y: 4.2}, {X: -w / 2, Y: -2}} {
		q := paint.R(at.X+o.X-0.3, at.Y+o.Y-nameSize*0.8, w+0.6, nameSize*1.05)
		if r.free(q) {
			r.take(q)
			d.over(at.X+o.X, at.Y+o.Y, name, look.Semibold, nameSize, paint.Start, d.c.Ink)
			return true
		}
	}
	return false
}

// inside writes a name on an island that is large enough for it, else below it.
func (d *draft) inside(ring []paint.Point, name string, r *room) bool {
	lo, hi := paint.Pt(math.Inf(1), math.Inf(1)), paint.Pt(math.Inf(-1), math.Inf(-1))
	for _, p := range ring {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	if math.Hypot(hi.X-lo.X, hi.Y-lo.Y) < leastNamed {
		return false
	}
	w := look.Semibold.Font().Width(name, nameSize)
	x := (lo.X + hi.X) / 2
	for _, y := range []float64{(lo.Y+hi.Y)/2 + 1, (lo.Y+2*hi.Y)/3 + 1, (2*lo.Y+hi.Y)/3 + 1, hi.Y + 3.6, lo.Y - 1.4} {
		if within := y > lo.Y+nameSize && y < hi.Y; within && w > 0.8*(hi.X-lo.X) {
			continue
		}
		q := paint.R(x-w/2-0.3, y-nameSize*0.8, w+0.6, nameSize*1.05)
		if r.free(q) {
			r.take(q)
			d.over(x, y, name, look.Semibold, nameSize, paint.Middle, d.c.Ink)
			return true
		}
	}
	return false
}
