package picture

import (
	"maps"
	"math"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
)

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

// Clone is a memory of its own.
func (h *Held) Clone() Held { return Held{maps.Clone(h.at)} }
