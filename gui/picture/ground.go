package picture

import (
	"math"
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
	b.rect(v.Box, 0, b.C.Sea, none, 0)
	land := b.project(v, g)
	b.waterLines(v, land)
	b.land(land)
	for _, p := range land {
		room.takeLine(append(p[:len(p):len(p)], p[0]), coastHurts)
		room.takeLand(p)
	}
	for _, line := range g.waters.Keep {
		room.TakeLine(v.ToPixels(line))
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
	for _, l := range labels {
		b.haloed(l.at.X, l.at.Y, l.text, look.Engraved, b.K.Text(look.TextSmall), l.anchor, b.C.Ink2, b.C.Sea)
	}
	b.PopClip()
	return room
}

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
	_, ok := b.label(room, label{at: at, clear: clear * k, first: rightOf, keen: p.Rank == 0 && v.Scale >= keenScale*k,
		lines: []words{{p.Name, look.Semibold, size, b.C.Ink}}}, b.C.Sea)
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
