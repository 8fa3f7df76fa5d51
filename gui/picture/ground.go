package picture

import (
	"math"
	"slices"
	"sort"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Coast is a closed ring of land.
type Coast struct {
	Name   string
	Points []units.Position
}

// Place is a point with a name.
type Place struct {
	Name string
	At   units.Position
	// Rank says how near one must look for the name: from 12, 40, 110 or 400
	// pixels to a degree on.
	Rank int
	// Mark is true where a mark stands; without it only the name is written.
	Mark bool
}

// Isogonal is a line of equal variation.
type Isogonal struct {
	Value  units.Variation
	Points []units.Position
}

// Waters is what a chart shows of the earth: the part that stays.
type Waters struct {
	Title, Line string // the name, and the line under it
	Coasts      []Coast
	Places      []Place
	Isogonals   []Isogonal
	Rose        *units.Variation // the variation of the rose; nil: no rose
	Year        int              // of variation
	Key         []KeyRow         // of the key; none: no key on the chart
	// Keep are lines that title, key, rose, scale and names keep off:
	// where the flight will go.
	Keep [][]units.Position
	// Bare charts have no scale.
	Bare bool
	// Points will have labels of their own: no name may seem to be theirs.
	Points []units.Position
}

// Ground is Waters made ready for drawing: latitudes projected once.
type Ground struct {
	waters Waters
	rings  []ring
}

type ring struct {
	spots  []spot
	lo, hi spot // the rectangle round it; longitudes unwrapped
}

// NewGround makes waters ready. They may not be changed afterwards.
func NewGround(w Waters) *Ground {
	g := &Ground{waters: w}
	g.waters.Places = append([]Place(nil), w.Places...)
	sort.SliceStable(g.waters.Places, func(i, j int) bool { return g.waters.Places[i].Rank < g.waters.Places[j].Rank })
	for _, c := range w.Coasts {
		if len(c.Points) > 2 {
			g.rings = append(g.rings, ringOf(c.Points))
		}
	}
	return g
}

// WithoutKeyRow is the same ground with a row less in its key.
func (g *Ground) WithoutKeyRow(row KeyRow) *Ground {
	c := *g
	c.waters.Key = slices.DeleteFunc(slices.Clone(g.waters.Key), func(r KeyRow) bool { return r == row })
	return &c
}

// WithKeyRow is the same ground with a row more in its key.
func (g *Ground) WithKeyRow(row KeyRow) *Ground {
	c := *g
	c.waters.Key = append(slices.Clone(g.waters.Key), row)
	return &c
}

func ringOf(pts []units.Position) ring {
	r := ring{spots: make([]spot, len(pts))}
	ref := pts[0].Lon.Degrees()
	for i, p := range pts {
		s := spotOf(p)
		s.lon = near(s.lon, ref)
		ref = s.lon
		r.spots[i] = s
		if i == 0 {
			r.lo, r.hi = s, s
		}
		r.lo = spot{math.Min(r.lo.lon, s.lon), math.Min(r.lo.psi, s.psi)}
		r.hi = spot{math.Max(r.hi.lon, s.lon), math.Max(r.hi.psi, s.psi)}
	}
	return r
}

// FrameWidth is the room the frame takes round the chart's box, pixels.
func FrameWidth(k look.Size) float64 { return 8*k.Symbol() + 2*k.Hair() }

// DrawGround draws everything of the chart that stays as long as the view
// does, frame included, and tells what room is left for the labels of the
// plot. It is the dear half: keep it as an image.
func DrawGround(b *Brush, v View, g *Ground) *Room {
	room := NewRoom(v.Box)
	b.PushClip(v.Box)
	b.coasts(v, g, room)
	for _, line := range g.waters.Keep {
		room.comeAlong(v.ToPixels(line))
	}
	for _, p := range g.waters.Points {
		room.marks = append(room.marks, v.ToPixel(p))
	}
	b.graticule(v)
	labels := b.graticuleLabels(v, room)
	b.isogonals(v, g, room)
	b.PopClip()
	b.frame(v)
	b.PushClip(v.Box)
	b.titles(v, g, room)
	b.furniture(v, g, room)
	b.places(v, g, room)
	b.writeGraticule(labels, b.C.Sea)
	b.PopClip()
	room.coming = nil
	return room
}

// DrawEmpty draws a chart on which nothing is known yet but where it lies.
func DrawEmpty(b *Brush, v View) {
	b.PushClip(v.Box)
	b.rect(v.Box, 0, b.C.Sea, none, 0)
	b.graticule(v)
	b.PopClip()
	b.frame(v)
}

// coasts draws water and land.
func (b *Brush) coasts(v View, g *Ground, room *Room) {
	b.rect(v.Box, 0, b.C.Sea, none, 0)
	land := b.project(v, g)
	b.waterLines(v, land)
	b.land(land)
	for _, p := range land {
		room.takeLine(append(p[:len(p):len(p)], p[0]), coastHurts)
		room.takeLand(p)
	}
}

func (b *Brush) writeGraticule(labels []gridLabel, halo colour) {
	for _, l := range labels {
		b.haloed(l.at.X, l.at.Y, l.text, look.Engraved, b.K.Text(look.TextSmall), l.anchor, b.C.Ink2, halo)
	}
}

// keenScale is the scale from which the names of rank 0 may cover a little,
// pixels to a degree.
const keenScale = 80

// rankScale is the scale from which names of a rank show, pixels to a degree.
var rankScale = [...]float64{12, 40, 110, 400}

// places writes the names, high ranks first. Marks of rank 0 always show, others
// only with their names.
func (b *Brush) places(v View, g *Ground, room *Room) {
	k := b.K.Symbol()
	around := func(at paint.Point) paint.Rect { return paint.R(at.X-5*k, at.Y-5*k, 10*k, 10*k) }
	mark := func(at paint.Point) {
		room.Take(around(at))
		room.marks = append(room.marks, at)
		b.NamedMark(at, k)
	}
	var shown []Place
	for _, p := range g.waters.Places {
		if at := v.ToPixel(p.At); p.scale()*k <= v.Scale && v.Box.Contains(at) {
			shown = append(shown, p)
			if p.Mark && p.Rank == 0 {
				mark(at)
			}
		}
	}
	for _, p := range shown {
		at := v.ToPixel(p.At)
		late := p.Mark && p.Rank > 0
		if _, worst := room.harm(around(at)); late && worst > coastHurts {
			continue
		}
		if b.placeName(v, p, at, room) && late {
			mark(at)
		}
	}
}

// scale is the scale from which the place shows, pixels to a degree.
func (p Place) scale() float64 { return rankScale[min(max(p.Rank, 0), len(rankScale)-1)] }

func (b *Brush) placeName(v View, p Place, at paint.Point, room *Room) bool {
	k := b.K.Symbol()
	size, clear := b.K.Text(16), 2.0
	if p.Rank > 1 {
		size = b.K.Text(14.5)
	}
	if p.Mark {
		clear = 5
	}
	l := label{at: at, clear: clear * k, first: rightOf, keen: p.Rank == 0 && v.Scale >= keenScale*k,
		lines: []words{{p.Name, look.Semibold, size, b.C.Ink}}}
	c, ok := b.place(room, &l)
	if ok {
		b.writeLabel(room, l, c.box, c.anchor, b.C.Sea)
		room.names = append(room.names, name{l, c.box, c.anchor})
	}
	return ok
}

func (b *Brush) titles(v View, g *Ground, room *Room) {
	w := g.waters
	if w.Title == "" || b.K.Small() {
		return
	}
	x, y := v.Box.X+v.Box.W/2, v.Box.Y+b.K.Px(46)
	l := label{at: paint.Pt(x, y-b.K.Px(24)), first: below, lines: []words{{w.Title, look.Engraved, b.K.Text(24), b.C.Ink}}}
	if w.Line != "" {
		l.lines = append(l.lines, words{w.Line, look.Regular, b.K.Text(15.5), b.C.Ink2})
	}
	// The title stands at the top where most room is, the middle first.
	for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		l.at.X = v.Box.X + v.Box.W*share
		box, anchor := l.box(below, 0)
		if around := box.Inset(-10 * b.K.Symbol()); room.Free(around) && room.ashore(around) == 0 {
			b.writeLabel(room, l, box, anchor, b.C.Sea)
			return
		}
	}
}
