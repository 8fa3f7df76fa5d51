package picture

import (
	"fmt"
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Loop is what is seen of the loop.
type Loop struct {
	Bearing float64   // of the line of the null, relative, degrees
	Signal  float64   // how strong it is there, 0 to 1
	Trail   []float64 // how strong it was, by degree from 0 to 359; NaN where not heard
	Lowest  float64   // the lowest so far, 0 to 1; NaN while there is none
	Sense   int       // which end of the line is shaded: 1 that of Bearing, -1 the other
}

// The loop, parts of the view.
const (
	trailLeast  = 0.10
	trailReach  = 0.84
	coilHalf    = 0.30
	coilWide    = 0.09
	coilOutline = 0.13
	lowestHalf  = 0.07
)

// trailAt is how far out a signal is drawn.
func trailAt(signal float64) float64 {
	return trailLeast + trailReach*math.Max(0, math.Min(1, signal))
}

// DrawLoop draws the loop: its coil seen from above, the line of its null and how
// strong the signal was as it was turned, to be turned to where it is weakest.
func DrawLoop(b *Brush, x, y, r float64, l Loop) {
	l.Bearing = finite(l.Bearing)
	e := b.lookInto(x, y, r, b.cardSight())
	e.senseShade(l)
	for _, k := range []float64{0.33, 0.66} {
		e.circle(0, 0, k, 1, e.s.faint)
	}
	e.trail(l.Trail)
	e.coil(l)
	e.ring()
	e.degrees(36, 3, 0.05, 0.09, 0)
	for d := 0; d < 360; d += 30 {
		e.outside(eyeFigures, 1.02, float64(d), figures3(d), 0.091, e.C.Ink2)
	}
	e.index(l.Bearing)
	e.knob(l.Bearing + 180)
}

// figures3 is a direction in three figures.
func figures3(d int) string { return fmt.Sprintf("%03d", d) }

// degrees graduates the ring: n marks, turned by deg, each major one long.
func (e eye) degrees(n, major int, short, long, deg float64) {
	for _, of := range []struct {
		major         bool
		length, width float64
	}{{false, short, 1}, {true, long, 2}} {
		e.path.Reset()
		for k := range n {
			if k%major == 0 == of.major {
				e.radial(0.985, 0.985-of.length, deg+float64(k)*360/float64(n))
			}
		}
		e.Stroke(&e.path, paint.Pen{Width: of.width * e.w}, e.m.figure)
	}
}

// senseShade shades the half of the view at the end of the line in question.
func (e eye) senseShade(l Loop) {
	if l.Sense == 0 {
		return
	}
	toward := l.Bearing
	if l.Sense < 0 {
		toward += 180
	}
	e.path.Reset().Arc(e.X, e.Y, e.View(), toward-90, toward+90).Close()
	e.Fill(&e.path, paint.Mix(e.C.Card, e.C.BrassHi, e.senseDeep()))
}

// senseDeep is how much brass there is in the shade: less where cards are dark.
func (e eye) senseDeep() float64 {
	if e.C.Variant == look.Paper {
		return 0.55
	}
	return 0.22
}

// sheet is the colour under the trail; under the lamp a recess is hardly darker
// than a card, so a little of the trail's own colour is in it.
func (e eye) sheet() colour {
	if e.C.Variant >= look.Lamp {
		return paint.Mix(e.C.Card, e.C.Pos, 0.16)
	}
	return e.C.Low
}

// trail draws what was heard: a sheet from the middle, and its edge.
func (e eye) trail(signals []float64) {
	signals = signals[:min(len(signals), 360)]
	each := func(do func(pts []paint.Point)) {
		for _, pts := range e.heard(signals) {
			do(pts)
		}
	}
	e.path.Reset()
	each(func(pts []paint.Point) { e.path.Polygon(append([]paint.Point{{X: e.X, Y: e.Y}}, pts...)...) })
	e.Fill(&e.path, e.sheet())
	e.path.Reset()
	each(func(pts []paint.Point) { e.path.Polyline(pts...) })
	e.Stroke(&e.path, paint.Pen{Width: 2.4 * e.w, Cap: paint.Round}, e.C.Pos)
}

// heard are the pieces of the trail without a gap; one that goes past north is
// one piece.
func (e eye) heard(signals []float64) (pieces [][]paint.Point) {
	n := len(signals)
	start := 0
	for start < n && !math.IsNaN(signals[start]) {
		start++
	}
	whole := start == n && n == 360
	if start == n {
		start = 0
	}
	var piece []paint.Point
	for k := range n {
		deg := (start + k) % n
		if (deg == 0 && n < 360 && k > 0) || math.IsNaN(signals[deg]) {
			pieces, piece = put(pieces, piece), nil
		}
		if !math.IsNaN(signals[deg]) {
			piece = append(piece, paint.Polar(e.X, e.Y, e.View()*trailAt(signals[deg]), float64(deg)))
		}
	}
	if whole {
		piece = append(piece, piece[0])
	}
	return put(pieces, piece)
}

func put(pieces [][]paint.Point, piece []paint.Point) [][]paint.Point {
	if len(piece) == 0 {
		return pieces
	}
	return append(pieces, piece)
}

// coil draws the line of the null, the coil across it, a tick on the line at the
// lowest signal so far and a dot at that of now.
func (e eye) coil(l Loop) {
	at := func(radius, deg float64) paint.Point { return paint.Polar(e.X, e.Y, e.View()*radius, deg) }
	e.wire(at(0.97, l.Bearing), at(0.97, l.Bearing+180), 1.4, e.s.strong, 6*e.w, 5*e.w)
	a, z := at(coilHalf, l.Bearing+90), at(coilHalf, l.Bearing-90)
	e.roundLine(e.View()*coilOutline, e.C.BrassLo, a, z)
	e.roundLine(e.View()*coilWide, e.C.Brass, a, z)
	e.disc(e.X, e.Y, e.View()*0.06, e.C.Slate, e.C.BrassLo, 1.5*e.w)
	if !math.IsNaN(l.Lowest) {
		p := at(trailAt(l.Lowest), l.Bearing)
		half := lowestHalf * e.View()
		e.line(paint.Polar(p.X, p.Y, half, l.Bearing+90), paint.Polar(p.X, p.Y, half, l.Bearing-90), 2.4*e.w, e.C.Ink)
	}
	if !math.IsNaN(l.Signal) {
		p := at(trailAt(l.Signal), l.Bearing)
		e.disc(p.X, p.Y, 5*e.w, e.C.Pos, e.s.ground, 1.5*e.w)
	}
}

// DrawSignalBar draws how strong the signal is: a bar as long as it, and a tick
// at the lowest so far. NaN draws none.
func DrawSignalBar(b *Brush, room paint.Rect, signal, lowest float64) {
	rad := look.SmallRadius * b.K.Symbol()
	b.rect(room, rad, b.C.Low, b.C.Line, b.K.Hair())
	share := func(v float64) float64 { return room.W * math.Max(0, math.Min(1, v)) }
	if w := share(signal); w > 0 {
		b.rect(paint.R(room.X, room.Y, w, room.H), rad, b.C.Pos, none, 0)
	}
	if !math.IsNaN(lowest) {
		x, over := room.X+share(lowest), room.H*0.4
		b.line(paint.Pt(x, room.Y-over), paint.Pt(x, room.Bottom()+over), 2*b.K.Symbol(), b.C.Ink)
	}
}
