package picture

import (
	"image"
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// stripSeen is what the strip of chart under the marker shows, in pixels rounded
// to halves.
type stripSeen struct {
	view                       View
	air, ground, marker, truth paint.Point
	heading                    float64
}

// strip keeps the ground of the last view of the strip of chart, with its frame.
type strip struct {
	view    View
	of      *Ground
	palette *look.Palette
	image   *image.RGBA
	line    []paint.Point
}

// stripScale is the largest scale of the strip, units of the picture to a degree
// of longitude; it is halved until air position and marker have room.
const stripScale = 300.0

// stripTail is how many points of a track the strip shows at most.
const stripTail = 400

// chartRoom is where the strip lies in the design.
func (d *draft) chartRoom() paint.Rect {
	return paint.R(chartX, chartY, rightX-chartX, chartH)
}

func (d *draft) frameWidth() float64 { return 8*d.K.Symbol() + 2*d.K.Hair() }

// takeStrip works out the view of the strip and the places on it. The view
// depends on nothing but the places, and moves on by a quarter of its size.
func (d *draft) takeStrip() {
	p, t := &d.l.Small.Plot, &d.l.strip
	*t = stripSeen{view: View{Box: d.rect(d.chartRoom()).Inset(d.frameWidth()).Snap()}}
	lo := spotOf(units.Position(p.Air))
	hi := lo
	span := func(q units.Position) {
		s := spotOf(q)
		s.lon = near(s.lon, lo.lon)
		lo = spot{math.Min(lo.lon, s.lon), math.Min(lo.psi, s.psi)}
		hi = spot{math.Max(hi.lon, s.lon), math.Max(hi.psi, s.psi)}
	}
	span(units.Position(p.Marker))
	if p.Truth != nil {
		span(p.Truth.Position)
	}
	box, scale := t.view.Box, stripScale*d.f
	for scale > 0.005*stripScale*d.f && ((hi.lon-lo.lon)*scale > 0.5*box.W || (hi.psi-lo.psi)*scale > 0.45*box.H) {
		scale /= 2
	}
	middle := func(a, b, grid float64) float64 { return math.Round((a+b)/2/grid) * grid }
	t.view.Scale = scale
	t.view.Centre = units.Position{
		Lat: geodesy.LatitudeOfIsometric(middle(lo.psi, hi.psi, box.H/4/scale) / degPerPsi),
		Lon: units.WrapHalf(units.Angle(middle(lo.lon, hi.lon, box.W/4/scale)) * units.Degree),
	}
	place := func(q units.Position) paint.Point {
		at := t.view.ToPixel(q)
		return paint.Pt(down(at.X, 2), down(at.Y, 2))
	}
	t.air, t.ground, t.marker = place(units.Position(p.Air)), place(units.Position(p.Ground)), place(units.Position(p.Marker))
	if p.Truth != nil {
		t.truth = place(p.Truth.Position)
	}
	t.heading = degrees(units.Angle(p.Heading), 0.5).Degrees()
}

func stripKey(l *seen, k *partKey) {
	p, t := &l.Small.Plot, &l.strip
	k.put(t.view.Scale, t.view.Centre.Lat.Degrees(), t.view.Centre.Lon.Degrees(), t.heading)
	k.points(t.air, t.ground, t.marker, t.truth)
	k.put(float64(len(p.Marks)))
	if p.Truth != nil {
		k.put(float64(len(p.Truth.Track)))
	}
	k.said(l, LinkMarker)
}

// chartStrip draws the marker on its strip of chart, and what is said of it.
func (d *draft) chartStrip() {
	d.markerVerdict()
	if d.l.Small.Ground == nil {
		return
	}
	v := d.l.strip.view
	d.stripGround(v)
	d.PushClip(v.Box)
	d.stripPlot(v)
	d.PopClip()
}

// markerVerdict stands left of the strip.
func (d *draft) markerVerdict() {
	s, r := &d.l.Links[LinkMarker], paint.R(1414, 846, 138, 32)
	switch {
	case s.Wrong[0] != "":
		d.errorPlate(r.X, r.Y, r.W, s.Wrong, 1)
	case s.Stands == Agrees:
		d.agrees(r.Centre().X, r.Y+22)
	default:
		d.caption(1546, 858, s.Note[0], paint.End)
	}
}

// stripGround draws sea, land, graticule and frame, without a word.
func (d *draft) stripGround(v View) {
	t, pad := d.strip, math.Ceil(d.frameWidth())
	if _, raster := d.Surface.(*paint.Raster); !raster {
		d.stripWaters(d.Brush, v)
		return
	}
	if t.image == nil || t.view != v || t.of != d.l.Small.Ground || t.palette != d.C {
		at := v
		at.Box = paint.R(pad, pad, v.Box.W, v.Box.H)
		r := paint.NewImage(int(v.Box.W+2*pad), int(v.Box.H+2*pad))
		d.stripWaters(NewBrush(r, d.C, d.K), at)
		t.image, t.view, t.of, t.palette = r.Pixels(), v, d.l.Small.Ground, d.C
	}
	d.Image(v.Box.Inset(-pad), t.image)
}

func (d *draft) stripWaters(b *Brush, v View) {
	b.rect(v.Box.Inset(-8*b.K.Symbol()), 0, b.C.Sea, none, 0)
	b.PushClip(v.Box)
	land := b.project(v, d.l.Small.Ground)
	b.waterLines(v, land)
	b.land(land)
	b.graticule(v)
	b.PopClip()
	b.frame(v)
}

// stripPlot draws the ground track, the wind from the air position to the ground
// position, the marker, and the truth if it may be seen.
func (d *draft) stripPlot(v View) {
	p, t, k := &d.l.Small.Plot, &d.l.strip, 0.8*math.Max(d.f, 0.8*d.K.Device)
	if p.Truth != nil {
		at := p.Truth.Track[max(0, len(p.Truth.Track)-stripTail):]
		d.trackTo(v, len(at), func(i int) units.Position { return at[i] }, t.truth)
		d.Stroke(d.path.Reset().Polyline(d.strip.line...), paint.Pen{Width: 2 * k, Dash: []float64{7 * k, 5 * k}}, d.C.Verm)
	}
	at := p.Marks[max(0, len(p.Marks)-stripTail):]
	d.trackTo(v, len(at), func(i int) units.Position { return units.Position(at[i].Ground) }, t.marker)
	d.roundLine(3*k, d.C.Ink, d.strip.line...)
	d.vector(t.air, t.ground, stroke{colour: d.C.Wind, width: 2.4 * k, heads: 3, head: 9 * k}, 0.45)
	d.AirCross(t.air, k)
	if p.Truth != nil {
		d.TruthDiamond(t.truth, 0.9*k)
	}
	d.Marker(t.marker, 0.94*k, t.heading)
}

// trackTo puts the points of a track, and the place where it ends, into the line
// of the strip.
func (d *draft) trackTo(v View, n int, at func(int) units.Position, end paint.Point) {
	c := v.spot()
	ref, line := c.lon, d.strip.line[:0]
	for i := range n {
		s := spotOf(at(i))
		s.lon = near(s.lon, ref)
		ref = s.lon
		line = append(line, v.place(c, s))
	}
	d.strip.line = append(line, end)
}
