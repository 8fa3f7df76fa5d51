package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
)

// Attract is a picture that asks to be touched without a word: air, wind and track grow
// over a chart, the drums count, a hand points. It is drawn for a screen of any shape.
type Attract struct {
	// Air, Wind and Track are how far each has grown, of one.
	Air, Wind, Track float64
	// From is where the wind comes from, degrees.
	From float64
	// Press is how far the hand has gone down, of one.
	Press    float64
	Lat, Lon counter.Reading
}

// The places of the picture: shares of the screen, from its top left corner.
type attractPlaces struct {
	start, air, drums, hand paint.Point
	f                       float64 // pixels at 1080 lines
	drum                    float64 // height of a drum
	wind                    float64 // length of the wind
}

func attractPlacesOf(w, h float64) (p attractPlaces) {
	p.f = math.Min(w/1920, h/1080)
	if h > w { // upright: the drums over the figure, the hand under it
		p.f = math.Min(w/1080, h/1920)
		p.start, p.air = paint.Pt(0.2*w, 0.62*h), paint.Pt(0.50*w, 0.32*h)
		p.drums, p.hand = paint.Pt(70*p.f, 200*p.f), paint.Pt(0.36*w, 0.80*h)
		p.drum, p.wind = 84*p.f, 400*p.f
		return p
	}
	p.start, p.air = paint.Pt(w*330/1920, h*820/1080), paint.Pt(w*940/1920, h*250/1080)
	p.drums, p.hand = paint.Pt(96*p.f, 220*p.f), paint.Pt(w*700/1920, h*880/1080)
	p.drum, p.wind = 84*p.f, 500*p.f
	return p
}

// AttractGround draws what stays: sea, grid, a coast, the name.
func AttractGround(b *Brush, w, h float64) {
	p := attractPlacesOf(w, h)
	b.rect(paint.R(0, 0, w, h), 0, b.C.Ground, none, 0)
	for x := 120 * p.f; x < w; x += 240 * p.f {
		b.line(paint.Pt(x, 0), paint.Pt(x, h), 1.4*p.f, paint.Alpha(b.C.Graticule, 0.45))
	}
	for y := 60 * p.f; y < h; y += 240 * p.f {
		b.line(paint.Pt(0, y), paint.Pt(w, y), 1.4*p.f, paint.Alpha(b.C.Graticule, 0.45))
	}
	b.attractCoast(w, h, p.f)
	b.Still(paint.Pt(110*p.f, 100*p.f), 26*p.f)
	b.write(178*p.f, 116*p.f, look.Text(look.Stillair), look.Engraved, 44*p.f, paint.Start, b.C.Ink)
}

// attractCoast is a coast in the corner at the foot, its edge broken by a hash of its
// points so that it is the same every time.
func (b *Brush) attractCoast(w, h, f float64) {
	line := []paint.Point{{X: w - 740*f, Y: h}, {X: w - 680*f, Y: h - 120*f}, {X: w - 520*f, Y: h - 180*f}, {X: w - 360*f, Y: h - 150*f},
		{X: w - 230*f, Y: h - 220*f}, {X: w - 120*f, Y: h - 200*f}, {X: w, Y: h - 280*f}}
	for k := range 6 {
		var next []paint.Point
		for i := range len(line) - 1 {
			a, z := line[i], line[i+1]
			u := (share(hashOf(int64(i), int64(k))) - 0.5) * 0.3
			next = append(next, a, paint.Pt((a.X+z.X)/2-(z.Y-a.Y)*u, (a.Y+z.Y)/2+(z.X-a.X)*u))
		}
		line = append(next, line[len(line)-1])
	}
	for _, e := range [][2]float64{{260, 0.35}, {190, 0.5}, {128, 0.65}, {74, 0.8}, {32, 1}} {
		b.path.Reset().Polyline(thinned(line, e[0]*f/16)...)
		b.Stroke(&b.path, paint.Pen{Width: (e[0] + 3) * f, Cap: paint.Round}, paint.Alpha(b.C.WaterLine, e[1]))
		b.Stroke(&b.path, paint.Pen{Width: e[0] * f, Cap: paint.Round}, b.C.Ground)
	}
	b.polygon(b.C.Land, b.C.Ink, 2.4*f, append(line, paint.Pt(w+10, h+10), paint.Pt(w-750*f, h+10))...)
}

// thinned leaves out points of a line that stand nearer than that to the last one kept: a
// wide pen does not show them, and takes long over each.
func thinned(line []paint.Point, least float64) []paint.Point {
	out := []paint.Point{line[0]}
	for _, p := range line[1 : len(line)-1] {
		if p.Dist(out[len(out)-1]) >= least {
			out = append(out, p)
		}
	}
	return append(out, line[len(line)-1])
}

// DrawAttract draws what moves over the ground.
func DrawAttract(b *Brush, w, h float64, a *Attract) {
	p := attractPlacesOf(w, h)
	towards := a.From + 180
	ground := paint.Polar(p.air.X, p.air.Y, p.wind, towards)
	part := func(from, to paint.Point, k float64) paint.Point {
		return paint.Pt(from.X+(to.X-from.X)*k, from.Y+(to.Y-from.Y)*k)
	}
	line := func(c colour, width float64, heads int) stroke { return stroke{c, width * p.f, heads, 44 * p.f, nil} }
	grown := func(from, to paint.Point, k float64, s stroke) {
		if k <= 0 {
			return
		}
		if k < 0.5 {
			s.heads = 0
		}
		b.vector(from, part(from, to, k), s, 0.52)
	}
	b.blowing(w, h, p, towards)
	at := part(p.start, p.air, a.Air)
	grown(p.start, p.air, a.Air, line(b.C.Air, 8, 1))
	grown(p.start, ground, a.Track, line(b.C.Ink, 9, 2))
	if a.Wind > 0 {
		grown(at, part(at, ground, 1), a.Wind, line(b.C.Wind, 8, 3))
	}
	b.attractBrass(p, at)
	b.disc(p.start.X, p.start.Y, 20*p.f, b.C.Ground, b.C.Ink, 4*p.f)
	b.disc(p.start.X, p.start.Y, 6*p.f, b.C.Ink, none, 0)
	b.AirCross(at, 5*p.f)
	marker, heading := at, math.Atan2(p.air.X-p.start.X, p.start.Y-p.air.Y)*180/math.Pi
	if a.Wind > 0 {
		marker = part(at, ground, a.Wind)
	}
	b.Marker(marker, 3.6*p.f, heading)
	lat := DrumCounter(b, p.drums.X, p.drums.Y, p.drum, Counter{Reading: a.Lat, Row: LatitudeRow})
	DrumCounter(b, p.drums.X, lat.Bottom()+10*p.f, p.drum, Counter{Reading: a.Lon, Row: LongitudeRow})
	b.pointingHand(p.hand, p.f, a.Press)
}

// attractBrass ties the drums to the cross.
func (b *Brush) attractBrass(p attractPlaces, cross paint.Point) {
	w, h := CounterSize(Counter{Reading: counter.Reading{N: 5, Letter: 'S'}, Row: LatitudeRow}, p.drum)
	from := paint.Pt(p.drums.X+w, p.drums.Y+h/2)
	bend := from.X + 90*p.f
	pts := []paint.Point{from, {X: bend, Y: from.Y}, {X: bend, Y: cross.Y}, {X: cross.X - math.Copysign(50*p.f, cross.X-bend), Y: cross.Y}}
	b.Stroke(b.path.Reset().Polyline(pts...), paint.Pen{Width: 12 * p.f}, b.C.BrassLo)
	b.Stroke(b.path.Reset().Polyline(pts...), paint.Pen{Width: 8 * p.f}, b.C.Brass)
}

// blowing draws the wind over the sea.
func (b *Brush) blowing(w, h float64, p attractPlaces, towards float64) {
	for _, at := range [][2]float64{{0.57, 0.07}, {0.68, 0.12}, {0.78, 0.06}, {0.82, 0.23}, {0.66, 0.23}} {
		from := paint.Pt(w*at[0], h*at[1])
		b.vector(from, paint.Polar(from.X, from.Y, 150*p.f, towards), stroke{paint.Alpha(b.C.Wind, 0.55), 3 * p.f, 3, 18 * p.f, nil}, 0.55)
	}
}

// pointingHand is a hand on a knob.
func (b *Brush) pointingHand(at paint.Point, f, press float64) {
	b.Stroke(b.path.Reset().Circle(at.X, at.Y, 104*f), paint.Pen{Width: 4 * f, Dash: []float64{14 * f, 10 * f}}, b.C.BrassHi)
	b.disc(at.X, at.Y, 76*f, none, b.C.BrassHi, 5*f)
	b.disc(at.X, at.Y, (46-4*press)*f, b.C.BrassHi, b.C.BrassLo, 3*f)
	b.line(at.Add(-22*f, 0), at.Add(22*f, 0), 8*f, b.C.OnBrass)
	b.line(at.Add(0, -22*f), at.Add(0, 22*f), 8*f, b.C.OnBrass)
	o := at.Add(0, (1-press)*34*f)
	pt := func(x, y float64) paint.Point { return o.Add(x*f, y*f) }
	b.path.Reset().MoveTo(pt(14, 24).X, pt(14, 24).Y)
	lineTo := func(x, y float64) { q := pt(x, y); b.path.LineTo(q.X, q.Y) }
	lineTo(14, 116)
	lineTo(-10, 98)
	b.path.QuadTo(pt(-28, 90), pt(-34, 106))
	lineTo(18, 172)
	lineTo(114, 172)
	b.path.QuadTo(pt(136, 114), pt(128, 68))
	lineTo(50, 48)
	lineTo(50, 14)
	b.path.QuadTo(pt(32, -4), pt(14, 24))
	b.path.Close()
	b.shape(b.C.Ink, b.C.Ground, 6*f)
}
