package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// stroke is a kind of line at its size.
type stroke struct {
	colour colour
	width  float64
	heads  int
	head   float64
	dash   []float64
}

// strokeOf is a line of the table at the size k.
func (b *Brush) strokeOf(kind look.LineKind, k float64) stroke {
	l := look.Lines[kind]
	s := stroke{colour: l.Colour(b.C), width: l.Width * k, heads: l.Heads, head: l.Head * k}
	for _, d := range l.Dash {
		s.dash = append(s.dash, d*k)
	}
	return s
}

// headPitch is the distance from head to head along a line, headNotch how far
// the notch at the back of a head lies behind its tip, both in heads.
const (
	headPitch = 0.85
	headNotch = 0.72
	headBarb  = 0.5
)

// leastForHeads is the length, pixels at scale 1, below which a line has no
// heads.
const leastForHeads = 44

// vector draws a straight line from a to z with its heads about the share at
// of its length.
func (b *Brush) vector(a, z paint.Point, s stroke, at float64) {
	b.course([]paint.Point{a, z}, s, at)
}

// course draws a line through the points with its heads about the share at of
// its length.
func (b *Brush) course(pts []paint.Point, s stroke, at float64) {
	pen := paint.Pen{Width: s.width, Cap: paint.Round}
	if len(s.dash) > 0 {
		pen = paint.Pen{Width: s.width, Dash: s.dash}
	}
	b.Stroke(b.path.Reset().Polyline(pts...), pen, s.colour)
	b.heads(pts, s, at)
}

// heads draws only the heads.
func (b *Brush) heads(pts []paint.Point, s stroke, at float64) {
	length := lineLength(pts)
	span := s.head * headPitch * float64(s.heads-1)
	for k := range s.heads {
		along := length*at + span/2 - float64(k)*s.head*headPitch + s.head/2
		tip, u := alongLine(pts, along)
		b.arrowHead(tip, u, s.head, s.colour)
	}
}

// arrowHead draws a filled head with its tip at p, pointing along the unit
// vector u.
func (b *Brush) arrowHead(p, u paint.Point, size float64, c colour) {
	back := p.Add(-u.X*size, -u.Y*size)
	side := size * headBarb
	b.polygon(c, none, 0, p,
		back.Add(-u.Y*side, u.X*side),
		p.Add(-u.X*size*headNotch, -u.Y*size*headNotch),
		back.Add(u.Y*side, -u.X*side))
}

// openHead draws two barbs at p, pointing along u.
func (b *Brush) openHead(p, u paint.Point, size, width float64, c colour) {
	back := p.Add(-u.X*size, -u.Y*size)
	side := size * 0.6
	b.roundLine(width, c, back.Add(-u.Y*side, u.X*side), p, back.Add(u.Y*side, -u.X*side))
}

func lineLength(pts []paint.Point) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += pts[i-1].Dist(pts[i])
	}
	return sum
}

// alongLine is the point so far along the line and the direction there; beyond
// the ends it goes straight on.
func alongLine(pts []paint.Point, along float64) (paint.Point, paint.Point) {
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := a.Dist(b)
		if d == 0 || (along > d && i < len(pts)-1) {
			along -= d
			continue
		}
		t := along / d
		return paint.Pt(a.X+(b.X-a.X)*t, a.Y+(b.Y-a.Y)*t), unit(a, b)
	}
	return pts[len(pts)-1], paint.Pt(1, 0)
}

func unit(a, b paint.Point) paint.Point {
	d := math.Max(1e-9, a.Dist(b))
	return paint.Pt((b.X-a.X)/d, (b.Y-a.Y)/d)
}
