package picture

import (
	"math"
	"slices"

	"stillair/gui/paint"
)

// Room remembers, in cells of a few pixels, where something is drawn, so that
// labels keep off lines, coasts and one another.
type Room struct {
	box  paint.Rect
	w, h int
	used []uint8 // how much it would hurt to write there
	land []bool  // where land is: a name may stand there, furniture may not
	side float64 // x at which the latitudes are written
	// marks are the points that have labels: no label may seem to belong to
	// another point than its own.
	marks []paint.Point
	// coming are cells through which the flight will go: names of the ground
	// keep off them, labels of the plot need not. nil: none.
	coming    []bool
	names     []name
	furniture []placed
}

// name is a name of the ground where it stands.
type name struct {
	label  label
	box    paint.Rect
	anchor paint.Anchor
}

// What a label does least harm to cross: the dots of an isogonal, then a coast;
// a line or a text only if it must be written, and a text last of all.
const (
	dotsHurt   = 1
	coastHurts = 2
	lineHurts  = 8
	textHurts  = 40
)

// roomCell is the side of a cell in pixels.
const roomCell = 4.0

// NewRoom is an empty room over the box.
func NewRoom(box paint.Rect) *Room {
	w, h := int(math.Ceil(box.W/roomCell)), int(math.Ceil(box.H/roomCell))
	w, h = max(w, 1), max(h, 1)
	return &Room{box: box, w: w, h: h, used: make([]uint8, w*h), land: make([]bool, w*h)}
}

// Clone is a copy to go on with; land is shared.
func (r *Room) Clone() *Room {
	c := *r
	c.used, c.marks = slices.Clone(r.used), slices.Clone(r.marks)
	return &c
}

func (r *Room) cells(q paint.Rect) (x0, y0, x1, y1 int) {
	at := func(v float64, n int) int { return max(0, min(n, int(math.Floor(v/roomCell)))) }
	return at(q.X-r.box.X, r.w), at(q.Y-r.box.Y, r.h), at(q.Right()-r.box.X, r.w-1) + 1, at(q.Bottom()-r.box.Y, r.h-1) + 1
}

// Take marks a rectangle as used.
func (r *Room) Take(q paint.Rect) { r.take(q, lineHurts) }

func (r *Room) take(q paint.Rect, hurts uint8) {
	q = q.Intersect(r.box)
	if q.W <= 0 || q.H <= 0 {
		return
	}
	x0, y0, x1, y1 := r.cells(q)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			r.used[y*r.w+x] = max(r.used[y*r.w+x], hurts)
		}
	}
}

// TakeText marks a rectangle in which something is written.
func (r *Room) TakeText(q paint.Rect) { r.take(q, textHurts) }

// TakeLine marks the cells along a line.
func (r *Room) TakeLine(pts []paint.Point) { r.takeLine(pts, lineHurts) }

func (r *Room) takeLine(pts []paint.Point, hurts uint8) {
	r.alongCells(pts, func(at int) { r.used[at] = max(r.used[at], hurts) })
}

// comeAlong marks the cells of a line that will be drawn.
func (r *Room) comeAlong(pts []paint.Point) {
	if r.coming == nil {
		r.coming = make([]bool, len(r.used))
	}
	r.alongCells(pts, func(at int) { r.coming[at] = true })
}

func (r *Room) alongCells(pts []paint.Point, do func(at int)) {
	for i := 1; i < len(pts); i++ {
		a, b, ok := paint.ClipSegment(pts[i-1], pts[i], r.box)
		if !ok {
			continue
		}
		n := math.Ceil(a.Dist(b) / (roomCell * 0.7))
		for k := 0.0; k <= n; k++ {
			t := k / math.Max(1, n)
			x := int((a.X + (b.X-a.X)*t - r.box.X) / roomCell)
			y := int((a.Y + (b.Y-a.Y)*t - r.box.Y) / roomCell)
			do(min(y, r.h-1)*r.w + min(x, r.w-1))
		}
	}
}

// takeLand marks the cells whose middle lies in the polygon.
func (r *Room) takeLand(ring []paint.Point) {
	cuts := make([][]float64, r.h)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if a.Y > b.Y {
			a, b = b, a
		}
		row := func(y float64) int { return int(math.Ceil((y-r.box.Y)/roomCell - 0.5)) }
		for y := max(0, row(a.Y)); y < min(r.h, row(b.Y)); y++ {
			mid := r.box.Y + (float64(y)+0.5)*roomCell
			cuts[y] = append(cuts[y], a.X+(b.X-a.X)*(mid-a.Y)/(b.Y-a.Y))
		}
	}
	for y, xs := range cuts {
		slices.Sort(xs)
		for i := 1; i < len(xs); i += 2 {
			col := func(x float64) int { return max(0, min(r.w, int(math.Ceil((x-r.box.X)/roomCell-0.5)))) }
			for x := col(xs[i-1]); x < col(xs[i]); x++ {
				r.land[y*r.w+x] = true
			}
		}
	}
}

// ashore is the part of the rectangle that is land.
func (r *Room) ashore(q paint.Rect) float64 {
	x0, y0, x1, y1 := r.cells(q)
	n := 0
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			n += b2i(r.land[y*r.w+x])
		}
	}
	return float64(n) / math.Max(1, float64((x1-x0)*(y1-y0)))
}

// Free says whether the rectangle lies inside the room with nothing in it.
func (r *Room) Free(q paint.Rect) bool {
	_, worst := r.harm(q)
	return worst == 0 && r.box.Covers(q)
}

// harm is what writing over the rectangle would cover, for each of its cells,
// and the worst of them.
func (r *Room) harm(q paint.Rect) (mean float64, worst uint8) {
	x0, y0, x1, y1 := r.cells(q)
	n := 0
	for y := y0; y < y1; y++ {
		for i := y*r.w + x0; i < y*r.w+x1; i++ {
			u := r.used[i]
			if r.coming != nil && r.coming[i] {
				u = lineHurts
			}
			n += int(u)
			worst = max(worst, u)
		}
	}
	return float64(n) / math.Max(1, float64((x1-x0)*(y1-y0))), worst
}

// burden is the mean harm alone.
func (r *Room) burden(q paint.Rect) float64 {
	mean, _ := r.harm(q)
	return mean
}

// sums count the cells above and left of each corner of a cell in which land,
// a coast, a line or a text is.
func (r *Room) sums() []int32 {
	s := make([]int32, (r.w+1)*(r.h+1))
	for y := range r.h {
		row := int32(0)
		for x := range r.w {
			row += int32(b2i(r.land[y*r.w+x] || r.used[y*r.w+x] > dotsHurt || r.coming != nil && r.coming[y*r.w+x]))
			s[(y+1)*(r.w+1)+x+1] = s[y*(r.w+1)+x+1] + row
		}
	}
	return s
}

// none says whether no cell of the rectangle is used or land, by the sums.
func (r *Room) none(s []int32, q paint.Rect) bool {
	x0, y0, x1, y1 := r.cells(q)
	n := r.w + 1
	return s[y1*n+x1]-s[y0*n+x1]-s[y1*n+x0]+s[y0*n+x0] == 0
}
