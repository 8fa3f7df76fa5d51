package picture

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// WindTriangle is the figure of a wind triangle: three vectors, knots and degrees
// true. The air and the ground vector begin at the origin; the wind, from where it
// comes, joins their tips. Where Missing says so the wind does not reach the tip of
// the ground vector, and the rest is drawn as a dashed gap.
type WindTriangle struct {
	TAS, Heading       float64
	Wind, WindFrom     float64
	Groundspeed, Track float64

	// What is written: the two directions and speeds, 050T and 178 kt; the wind, 305/33;
	// the drift, 10 R, "" for none to be told. What is "" is not written.
	HeadingText, TASText, TrackText, GroundspeedText, WindText, DriftText string
	Missing                                                               string // words at the gap
}

// triangleTip is where a vector ends that begins at a point: knots east and south, as
// on the surface.
func triangleTip(from paint.Point, size, deg float64) paint.Point {
	return paint.Polar(from.X, from.Y, size, deg)
}

// tips are the tips of the air vector, of the wind after it and of the ground vector.
func (t *WindTriangle) tips() (air, wind, ground paint.Point) {
	air = triangleTip(paint.Point{}, t.TAS, t.Heading)
	return air, triangleTip(air, t.Wind, t.WindFrom+180), triangleTip(paint.Point{}, t.Groundspeed, t.Track)
}

// TriangleView is the sheet on which a triangle is drawn: where the origin lies, and
// how many pixels a knot has. North is up.
type TriangleView struct {
	Box    paint.Rect
	Origin paint.Point
	Scale  float64
}

// Times is the same sheet with so many pixels for each of now.
func (v TriangleView) Times(k float64) TriangleView {
	q := v.Box
	return TriangleView{Box: paint.R(k*q.X, k*q.Y, k*q.W, k*q.H), Origin: paint.Pt(k*v.Origin.X, k*v.Origin.Y), Scale: k * v.Scale}
}

// At is the place of a point so many knots north and east of the origin.
func (v TriangleView) At(north, east float64) paint.Point {
	return paint.Pt(v.Origin.X+east*v.Scale, v.Origin.Y-north*v.Scale)
}

// Knots is what lies at a place: knots north and east of the origin.
func (v TriangleView) Knots(p paint.Point) (north, east float64) {
	return (v.Origin.Y - p.Y) / v.Scale, (p.X - v.Origin.X) / v.Scale
}

// place is a point of the figure, which is in knots, on the sheet.
func (v TriangleView) place(p paint.Point) paint.Point {
	return paint.Pt(v.Origin.X+p.X*v.Scale, v.Origin.Y+p.Y*v.Scale)
}

// Corners are the places of the two knobs: the tips of the air and ground vectors.
func (v TriangleView) Corners(t *WindTriangle) (air, ground paint.Point) {
	a, _, g := t.tips()
	return v.place(a), v.place(g)
}

// Room round the figure, pixels at 1080 lines and least units, and the least extent
// of what is shown, knots.
const (
	triangleAside, triangleAsideLeast = 128.0, 96.0
	triangleAbove, triangleAboveLeast = 66.0, 50.0
	triangleKnots                     = 60.0
)

// extent is the rectangle round the origin and all tips, knots.
func (t *WindTriangle) extent() paint.Rect {
	a, w, g := t.tips()
	r := paint.Rect{}
	for _, p := range []paint.Point{a, w, g} {
		x, y := math.Min(r.X, p.X), math.Min(r.Y, p.Y)
		r = paint.R(x, y, math.Max(r.Right(), p.X)-x, math.Max(r.Bottom(), p.Y)-y)
	}
	return r
}

// FitTriangle is the sheet on which the whole figure shows, with room for its words.
func FitTriangle(k look.Size, box paint.Rect, t *WindTriangle) TriangleView {
	e := t.extent()
	aside, above := triangleRoom(k)
	scale := math.Min((box.W-2*aside)/math.Max(e.W, triangleKnots), (box.H-2*above)/math.Max(e.H, triangleKnots))
	m, c := box.Centre(), e.Centre()
	return TriangleView{Box: box, Scale: scale, Origin: paint.Pt(math.Round(m.X-c.X*scale), math.Round(m.Y-c.Y*scale))}
}

func triangleRoom(k look.Size) (aside, above float64) {
	return math.Max(k.Px(triangleAside), triangleAsideLeast*k.Device), math.Max(k.Px(triangleAbove), triangleAboveLeast*k.Device)
}

// Holds says whether the figure still shows well on the sheet, so that the sheet need
// not move under a hand.
func (v TriangleView) Holds(k look.Size, box paint.Rect, t *WindTriangle) bool {
	if v.Box != box || !(v.Scale > 0) {
		return false
	}
	e := t.extent()
	a, z := v.place(paint.Pt(e.X, e.Y)), v.place(paint.Pt(e.Right(), e.Bottom()))
	aside, above := triangleRoom(k)
	room := paint.R(box.X+0.6*aside, box.Y+0.6*above, box.W-1.2*aside, box.H-1.2*above)
	const least = 0.45 // of what would fit
	return room.Contains(a) && room.Contains(z) && v.Scale > least*FitTriangle(k, box, t).Scale
}

// Knobs and heads of the triangle, pixels at 1080 lines.
const (
	triangleKnob     = 17.0
	triangleKnobLess = 13.0 // units
)

// TriangleKnob is the radius of the knobs.
func TriangleKnob(k look.Size) float64 {
	return math.Max(k.Px(triangleKnob), triangleKnobLess*k.Device)
}

// DrawWindTriangle draws the figure on its sheet. It draws nothing outside the box,
// and the ground of the box is left as it is: a card.
func DrawWindTriangle(b *Brush, v TriangleView, t *WindTriangle) {
	d := newTriangleDraft(b, v, t)
	b.PushClip(v.Box)
	d.sheet()
	d.north()
	d.arcs()
	d.sides()
	d.letter()
	b.PopClip()
}

// triangleDraft is a triangle being drawn, with what words may not lie on.
type triangleDraft struct {
	*Brush
	v       TriangleView
	t       *WindTriangle
	o       paint.Point // origin
	a, w, g paint.Point // tips on the sheet
	knob    float64
	size    float64 // of running text
	thick   float64 // factor of widths

	lines  [][2]paint.Point
	taken  []paint.Rect
	labels []triangleLabel
}

// triangleLabel is a word with its place.
type triangleLabel struct {
	words  string
	face   look.Face
	size   float64
	colour colour
	box    paint.Rect
}

func newTriangleDraft(b *Brush, v TriangleView, t *WindTriangle) *triangleDraft {
	a, w, g := t.tips()
	d := &triangleDraft{Brush: b, v: v, t: t, o: v.Origin, a: v.place(a), w: v.place(w), g: v.place(g)}
	d.knob, d.thick = TriangleKnob(b.K), b.K.Symbol()
	d.size = b.K.Text(look.TextBody)
	d.lines = [][2]paint.Point{{d.o, d.a}, {d.o, d.g}, {d.a, d.w}, {d.o.Add(0, d.arrow()*0.35), d.o.Add(0, -d.arrow())}}
	if t.Missing != "" {
		a, z := d.gap()
		d.lines = append(d.lines, [2]paint.Point{a, z})
	}
	for _, p := range []paint.Point{d.a, d.g} {
		d.taken = append(d.taken, paint.R(p.X-d.knob, p.Y-d.knob, 2*d.knob, 2*d.knob))
	}
	d.place()
	return d
}

// arrow is the length of the arrow to the north.
func (d *triangleDraft) arrow() float64 { return math.Max(d.K.Px(118), 70*d.K.Device) }

// Rings stand each 50 kt, rays each 10 degrees; rings nearer to one another than the
// least are drawn each 100 or 200 kt.
const (
	ringKnots = 50.0
	ringLeast = 22.0 // units
	rayStep   = 10
)

// ringStep is the step of the rings in knots.
func (d *triangleDraft) ringStep() float64 {
	step := ringKnots
	for step*d.v.Scale < ringLeast*d.K.Device && step < 1000 {
		step *= 2
	}
	return step
}

// reach is the distance of the farthest corner of the sheet from the origin, pixels.
func (d *triangleDraft) reach() (far float64) {
	q := d.v.Box
	for _, p := range []paint.Point{{X: q.X, Y: q.Y}, {X: q.Right(), Y: q.Y}, {X: q.X, Y: q.Bottom()}, {X: q.Right(), Y: q.Bottom()}} {
		far = math.Max(far, p.Dist(d.o))
	}
	return far
}

// sheet draws rings and rays, and writes the knots of the rings where nothing lies.
func (d *triangleDraft) sheet() {
	far, step := d.reach(), d.ringStep()*d.v.Scale
	for r := step; r < far; r += step {
		d.Stroke(d.path.Reset().Circle(d.o.X, d.o.Y, r), paint.Pen{Width: d.K.Hair()}, d.C.Line)
	}
	for deg := 0; deg < 360; deg += rayStep {
		a, z := paint.Polar(d.o.X, d.o.Y, math.Max(30*d.thick, 0.16*step), float64(deg)), paint.Polar(d.o.X, d.o.Y, far, float64(deg))
		if p, q, ok := paint.ClipSegment(a, z, d.v.Box); ok {
			d.line(p, q, 0.8*d.K.Hair(), d.C.Line)
		}
	}
	size := d.K.Figure(14.5)
	for _, m := range d.ringFigures(d.ringBearing()) {
		d.haloed(m.at.X, m.at.Y+0.36*size, m.words, look.Engraved, size, paint.Middle, d.C.Ink2, d.C.Card)
	}
}

// ringFigure is a figure of a ring.
type ringFigure struct {
	at    paint.Point
	words string
}

// ringFigures are the figures along a bearing that lie on nothing.
func (d *triangleDraft) ringFigures(deg float64) (all []ringFigure) {
	size, step := d.K.Figure(14.5), d.ringStep()
	for n := 1.0; n*step*d.v.Scale < d.reach(); n++ {
		words := strconv.Itoa(int(n * step))
		p := paint.Polar(d.o.X, d.o.Y, n*step*d.v.Scale, deg)
		w := look.Engraved.Font().Width(words, size)
		if q := paint.R(p.X-w/2, p.Y-size/2, w, size); d.free(q, 3*d.thick) {
			all = append(all, ringFigure{p, words})
		}
	}
	return all
}

// ringBearing is the bearing on which most figures find room, east by preference.
func (d *triangleDraft) ringBearing() float64 {
	best, most := 93.5, -1
	for _, deg := range []float64{93.5, 266.5, 183.5, 3.5, 45, 135, 225, 315} {
		if n := len(d.ringFigures(deg)); n > most {
			best, most = deg, n
		}
	}
	return best
}

// north draws the dotted line to the north with its arrow.
func (d *triangleDraft) north() {
	l := d.arrow()
	d.dashed(d.o.Add(0, 0.35*l), d.o.Add(0, -0.88*l), 1.4*d.thick, d.C.Ink2, 2*d.thick, 5*d.thick)
	k := l / 118
	d.polygon(d.C.Ink2, none, 0, d.o.Add(0, -1.1*l), d.o.Add(-7*k, -0.95*l), d.o.Add(7*k, -0.95*l))
}

// headingArc is the radius of the arc of the heading.
func (d *triangleDraft) headingArc() float64 { return 0.81 * d.arrow() }

// driftArc is the radius of the arc of the drift, 0 for none.
func (d *triangleDraft) driftArc() float64 {
	r := 0.55 * math.Min(d.o.Dist(d.a), d.o.Dist(d.g))
	if d.t.DriftText == "" || r < d.headingArc()+10*d.thick {
		return 0
	}
	return r
}

// drift is the drift in degrees, right +.
func (t *WindTriangle) drift() float64 { return math.Remainder(t.Track-t.Heading, 360) }

func (d *triangleDraft) arcs() {
	if d.t.HeadingText != "" {
		d.arc(d.o.X, d.o.Y, d.headingArc(), 0, d.t.Heading, 1.6*d.thick, d.C.Air)
	}
	if r := d.driftArc(); r > 0 {
		d.arc(d.o.X, d.o.Y, r, d.t.Heading, d.t.Heading+d.t.drift(), 2*d.thick, d.C.Ink)
	}
}

// sides draws the three vectors with their heads, the gap, the origin and the knobs.
func (d *triangleDraft) sides() {
	k := d.thick
	d.side(d.o, d.a, stroke{colour: d.C.Air, width: 3.4 * k, heads: 1, head: 20 * k}, 0.55)
	d.side(d.o, d.g, stroke{colour: d.C.Ink, width: 4 * k, heads: 2, head: 22 * k}, 0.62)
	d.side(d.a, d.w, stroke{colour: d.C.Wind, width: 3.4 * k, heads: 3, head: 15 * k}, 0.52)
	if d.t.Missing != "" {
		a, z := d.gap()
		d.dashed(a, z, 3*k, d.C.Verm, 9*k, 7*k)
	}
	d.disc(d.o.X, d.o.Y, 7*k, d.C.Card, d.C.Ink, 2.2*k)
	d.disc(d.o.X, d.o.Y, 2.2*k, d.C.Ink, none, 0)
	for _, p := range []paint.Point{d.g, d.a} {
		d.disc(p.X, p.Y, d.knob, d.C.Brass, d.C.BrassLo, 1.8*k)
		d.disc(p.X, p.Y, 0.36*d.knob, d.C.BrassHi, d.C.BrassLo, k)
	}
}

// gap is where the gap is drawn: beside the wind where it would lie on it.
func (d *triangleDraft) gap() (a, z paint.Point) {
	u, v := unit(d.a, d.w), unit(d.w, d.g)
	if u.X*v.X+u.Y*v.Y > -0.98 {
		return d.w, d.g
	}
	off := 9 * d.thick
	return d.w.Add(-u.Y*off, u.X*off), d.g.Add(-u.Y*off, u.X*off)
}

// side draws a vector; its heads grow smaller where there is no room for them between
// the knobs, and leave when they would be too small to be counted.
func (d *triangleDraft) side(a, z paint.Point, s stroke, at float64) {
	room := a.Dist(z) - 2*d.knob
	s.head = math.Min(s.head, room/(headPitch*float64(s.heads-1)+1.1))
	if s.head < 6*d.thick {
		s.heads = 0
	}
	if a != z {
		d.vector(a, z, s, at)
	}
}
