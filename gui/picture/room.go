package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Room remembers, in cells of a few pixels, where something is drawn, so that
// labels keep off lines, coasts and one another.
type Room struct {
	box  paint.Rect
	w, h int
	used []uint8 // how much it would hurt to write there
	side float64 // x at which the latitudes are written
}

// What a label does least harm to cross: a coast; never a line or a text.
const (
	coastHurts = 1
	lineHurts  = 6
)

// roomCell is the side of a cell in pixels.
const roomCell = 4.0

// NewRoom is an empty room over the box.
func NewRoom(box paint.Rect) *Room {
	w, h := int(math.Ceil(box.W/roomCell)), int(math.Ceil(box.H/roomCell))
	w, h = max(w, 1), max(h, 1)
	return &Room{box: box, w: w, h: h, used: make([]uint8, w*h)}
}

// Clone is a copy to go on with.
func (r *Room) Clone() *Room {
	c := *r
	c.used = append([]uint8(nil), r.used...)
	return &c
}

func (r *Room) cells(q paint.Rect) (x0, y0, x1, y1 int) {
	at := func(v float64, n int) int { return max(0, min(n, int(math.Floor(v/roomCell)))) }
	return at(q.X-r.box.X, r.w), at(q.Y-r.box.Y, r.h), at(q.Right()-r.box.X, r.w-1) + 1, at(q.Bottom()-r.box.Y, r.h-1) + 1
}

// Take marks a rectangle as used.
func (r *Room) Take(q paint.Rect) {
	q = q.Intersect(r.box)
	if q.W <= 0 || q.H <= 0 {
		return
	}
	x0, y0, x1, y1 := r.cells(q)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			r.used[y*r.w+x] = lineHurts
		}
	}
}

// TakeLine marks the cells along a line.
func (r *Room) TakeLine(pts []paint.Point) { r.takeLine(pts, lineHurts) }

func (r *Room) takeLine(pts []paint.Point, hurts uint8) {
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
			at := min(y, r.h-1)*r.w + min(x, r.w-1)
			r.used[at] = max(r.used[at], hurts)
		}
	}
}

// Free says whether the rectangle lies inside the room with nothing in it.
func (r *Room) Free(q paint.Rect) bool { return r.box.Covers(q) && r.harm(q) == 0 }

// harm is what writing over the rectangle would cover, for each of its cells.
func (r *Room) harm(q paint.Rect) float64 {
	x0, y0, x1, y1 := r.cells(q)
	n := 0
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			n += int(r.used[y*r.w+x])
		}
	}
	return float64(n) / math.Max(1, float64((x1-x0)*(y1-y0)))
}

// sums are the totals of the cells above and left of each corner of a cell.
func (r *Room) sums() []int32 {
	s := make([]int32, (r.w+1)*(r.h+1))
	for y := range r.h {
		row := int32(0)
		for x := range r.w {
			row += int32(r.used[y*r.w+x])
			s[(y+1)*(r.w+1)+x+1] = s[y*(r.w+1)+x+1] + row
		}
	}
	return s
}

// none says whether no cell of the rectangle is used, by the sums.
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
	near  bool  // only near its point: others might be taken for it
	must  bool  // drawn even where nothing is free, where it covers least
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

// label finds the first free place round the point, nearest first, writes the
// label there and takes the place. It says where; a label without a place is
// left out (a touch shows it), unless it must be written.
func (b *Brush) label(r *Room, l label, halo colour) (paint.Rect, bool) {
	k := b.K.Symbol()
	var best paint.Rect
	var bestAnchor paint.Anchor
	least := math.Inf(1)
	in := r.box.Inset(6 * k)
	gaps := []float64{5, 14, 26, 40, 60}
	if l.near {
		gaps = gaps[:3]
	} else if !l.must {
		gaps = gaps[:4]
	}
	for _, gap := range gaps {
		for i := -1; i < int(placeCount); i++ {
			p := l.first
			if i >= 0 {
				p = place(i)
			}
			box, anchor := l.box(p, gap*k)
			if anchor == paint.Middle { // above and below it may stand aside a little
				to := math.Max(in.X, math.Min(box.X, in.Right()-box.W))
				box.X += math.Max(-0.45*box.W, math.Min(0.45*box.W, to-box.X))
			}
			if !in.Covers(box) {
				continue
			}
			harm := r.harm(box.Inset(-2 * k))
			if harm == 0 {
				return b.writeLabel(r, l, box, anchor, halo), true
			}
			if harm < least-0.02 {
				best, bestAnchor, least = box, anchor, harm
			}
		}
	}
	if !l.must || math.IsInf(least, 1) {
		return paint.Rect{}, false
	}
	return b.writeLabel(r, l, best, bestAnchor, halo), true
}

func (b *Brush) writeLabel(r *Room, l label, box paint.Rect, a paint.Anchor, halo colour) paint.Rect {
	x := box.X + box.W*float64(a)/2
	y := box.Y
	for i, s := range l.lines {
		if i > 0 {
			y += s.size * (leading - 1)
		}
		y += s.size
		b.haloed(x, y-s.size*0.2, s.text, s.face, s.size, a, s.colour, halo)
	}
	r.Take(box)
	return box
}
