package picture

import (
	"math"
	"slices"

	"stillair/gui/look"
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

// words is one line of a label.
type words struct {
	text   string
	face   look.Face
	size   float64
	colour colour
}

// label is text that belongs to a point.
type label struct {
	at    paint.Point
	clear float64 // radius of what is drawn at the point
	lines []words
	first place // the place to try first
	far   bool  // may stand farther off than others
	keen  bool  // may also cover a little where nothing is free
	must  bool  // drawn whatever it covers, where that is least
	key   string
	held  *Held // where labels stood before, nil if that does not matter
}

// Held remembers where the labels of a plot stand, so that from frame to frame
// they stay there as long as that is nearly the best place. The zero value is
// ready.
type Held struct{ at map[string]int }

// stood says whether the label stood at this candidate.
func (h *Held) stood(key string, id int) bool {
	if h == nil {
		return false
	}
	at, ok := h.at[key]
	return ok && at == id
}

func (h *Held) keep(key string, id int) {
	if h == nil {
		return
	}
	if h.at == nil {
		h.at = map[string]int{}
	}
	h.at[key] = id
}

// place is one of the eight places round a point.
type place uint8

// The places, in the order in which they are tried after the first.
const (
	rightOf place = iota
	aboveRight
	belowRight
	below
	above
	leftOf
	aboveLeft
	belowLeft
	placeCount
)

// leading is the distance of two lines in sizes of the second.
const leading = 1.2

func (l *label) extent() (w, h float64) {
	for i, s := range l.lines {
		w = math.Max(w, s.face.Font().Width(s.text, s.size))
		if i == 0 {
			h = s.size
		} else {
			h += s.size * leading
		}
	}
	return w, h
}

// box is where the label stands at a place, gap pixels off its point.
func (l *label) box(p place, gap float64) (paint.Rect, paint.Anchor) {
	w, h := l.extent()
	d := l.clear + gap
	diag := d * 0.75
	switch p {
	case rightOf:
		return paint.R(l.at.X+d, l.at.Y-h/2, w, h), paint.Start
	case leftOf:
		return paint.R(l.at.X-d-w, l.at.Y-h/2, w, h), paint.End
	case above:
		return paint.R(l.at.X-w/2, l.at.Y-d-h, w, h), paint.Middle
	case below:
		return paint.R(l.at.X-w/2, l.at.Y+d, w, h), paint.Middle
	case aboveRight:
		return paint.R(l.at.X+diag, l.at.Y-diag-h, w, h), paint.Start
	case belowRight:
		return paint.R(l.at.X+diag, l.at.Y+diag, w, h), paint.Start
	case aboveLeft:
		return paint.R(l.at.X-diag-w, l.at.Y-diag-h, w, h), paint.End
	}
	return paint.R(l.at.X-diag-w, l.at.Y+diag, w, h), paint.End
}

// candidate is a box in which a label may stand, gap from its point.
type candidate struct {
	box    paint.Rect
	anchor paint.Anchor
	gap    float64
	id     int // its number among those of the label
}

// withRoom is the box with what must be free round it: more at its far ends than
// above, for two labels in a row read as one.
func (c candidate) withRoom(k float64) paint.Rect {
	q := c.box.Inset(-2 * k)
	const end = 6
	if c.anchor != paint.Start {
		q.X, q.W = q.X-end*k, q.W+end*k
	}
	if c.anchor != paint.End {
		q.W += end * k
	}
	return q
}

// gaps are the distances of a label from what is drawn at its point, tried one
// after the other, pixels at scale 1; the last two for what may stand far off.
// A label rather stands across an isogonal than dotsCost farther off.
var gaps = []float64{5, 14, 26, 40, 60}

const (
	dotsCost     = 15
	mistakenCost = 300
	coverCost    = 1000 // if all of it lay on the worst
	freeCost     = 60   // all above lies on something or by another's point
	keenCost     = 250
	stayBonus    = 40 // for where it stood before
)

// mistakenCost is what it costs to stand by another's point: little for what
// must be written, which says by its words whose it is.
func (l *label) mistakenCost() float64 {
	if l.must {
		return mistakenCost / 5
	}
	return mistakenCost
}

// farCost is what a pixel of distance costs: what must be written rather lies
// across a coast than far from its point.
func (l *label) farCost() float64 {
	if l.must {
		return 3
	}
	return 1
}

// limit is the cost from which the label is left out.
func (l *label) limit() float64 {
	switch {
	case l.must:
		return math.Inf(1)
	case l.keen:
		return keenCost
	}
	return freeCost
}

// candidates are the boxes to try, nearest first: at each distance the first
// place, the eight, and those above and below moved aside.
func (l *label) candidates(in paint.Rect, k float64) (out []candidate) {
	tried := gaps[:3]
	switch {
	case l.must || l.keen:
		tried = gaps
	case l.far:
		tried = gaps[:4]
	}
	id := 0
	add := func(p place, gap, aside float64) {
		id++
		// Never so near that the cells of its own symbol are in the way.
		box, anchor := l.box(p, math.Max(gap*k, roomCell+2*k))
		box.X += aside * box.W
		if anchor == paint.Middle { // near the edge it stands aside as it must
			to := math.Max(in.X, math.Min(box.X, in.Right()-box.W))
			box.X += math.Max(-0.45*box.W, math.Min(0.45*box.W, to-box.X))
		}
		if in.Covers(box) {
			out = append(out, candidate{box, anchor, gap, id})
		}
	}
	for _, gap := range tried {
		add(l.first, gap, 0)
		for p := range placeCount {
			add(p, gap, 0)
		}
		for _, aside := range []float64{-0.22, 0.22, -0.4, 0.4} {
			add(below, gap, aside)
			add(above, gap, aside)
		}
	}
	return out
}

// mistaken says whether the box stands nearer to another mark than to the
// label's own; marks within same pixels of it are one with it.
func (r *Room) mistaken(l *label, box paint.Rect, same float64) bool {
	own := distanceTo(box, l.at)
	for _, m := range r.marks {
		if distanceTo(box, m) <= own && m.Dist(l.at) > same {
			return true
		}
	}
	return false
}

// distanceTo is the distance of a point from a rectangle.
func distanceTo(r paint.Rect, p paint.Point) float64 {
	dx := math.Max(0, math.Max(r.X-p.X, p.X-r.Right()))
	dy := math.Max(0, math.Max(r.Y-p.Y, p.Y-r.Bottom()))
	return math.Hypot(dx, dy)
}

// label writes a label in the best free place round its point and takes the
// place. It says where; a label without a place is left out (a touch shows it),
// unless it must be written.
func (b *Brush) label(r *Room, l label, halo colour) (paint.Rect, bool) {
	c, ok := b.place(r, &l)
	if !ok {
		return paint.Rect{}, false
	}
	return b.writeLabel(r, l, c.box, c.anchor, halo), true
}

// place finds the best free place of a label.
func (b *Brush) place(r *Room, l *label) (best candidate, ok bool) {
	k := b.K.Symbol()
	limit := l.limit()
	least := limit
	for _, c := range l.candidates(r.box.Inset(6*k), k) {
		cost := c.gap * l.farCost()
		if l.held.stood(l.key, c.id) {
			cost -= stayBonus
		}
		if cost >= least {
			continue
		}
		if mean, worst := r.harm(c.withRoom(k)); worst > dotsHurt {
			cost += coverCost * mean
		} else if worst == dotsHurt {
			cost += dotsCost
		}
		if cost < least && r.mistaken(l, c.box, 8*k) {
			cost += l.mistakenCost()
		}
		if cost < least {
			best, least = c, cost
		}
	}
	if least >= limit {
		return best, false
	}
	l.held.keep(l.key, best.id)
	return best, true
}

func (b *Brush) writeLabel(r *Room, l label, box paint.Rect, a paint.Anchor, halo colour) paint.Rect {
	b.lettering(l.lines, box, a, halo)
	r.take(box, textHurts)
	return box
}

func (b *Brush) lettering(lines []words, box paint.Rect, a paint.Anchor, halo colour) {
	x := box.X + box.W*float64(a)/2
	y := box.Y
	for i, s := range lines {
		if i > 0 {
			y += s.size * (leading - 1)
		}
		y += s.size
		b.haloed(x, y-s.size*0.2, s.text, s.face, s.size, a, s.colour, halo)
	}
}

// write writes the name once more, in the colours of the brush.
func (n name) write(b *Brush, halo colour) {
	lines := slices.Clone(n.label.lines)
	for i := range lines {
		lines[i].colour = b.C.Ink
	}
	b.lettering(lines, n.box, n.anchor, halo)
}
