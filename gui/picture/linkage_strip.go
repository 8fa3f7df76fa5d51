package picture

import (
	"image"
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// strip is the strip of chart under the marker: its ground is drawn once and
// stays until the marker comes near its edge.
type strip struct {
	view    View
	ground  *image.RGBA
	palette *look.Palette
}

// stripScale is the scale of the strip, units of the picture to a degree of
// longitude, where the wind vector has room in it.
const stripScale = 300.0

func (l *Linkage) stripKey(k *partKey) {
	p := &l.Small.Plot
	k.add(units.Angle(p.Ground.Lat).Degrees(), 2*stripScale*1.6)
	k.add(units.Angle(p.Ground.Lon).Degrees(), 2*stripScale)
	k.add(units.Angle(p.Air.Lat).Degrees(), 2*stripScale*1.6)
	k.add(units.Angle(p.Air.Lon).Degrees(), 2*stripScale)
	k.add(units.Angle(p.Heading).Degrees(), 0.5)
	k.add(float64(len(p.Marks)), 1)
	k.said(l, LinkMarker)
}

// chartStrip draws the marker on its strip of chart.
func (d *draft) chartStrip() {
	s := &d.l.Links[LinkMarker]
	switch {
	case s.Wrong[0] != "":
		d.errorPlate(1404, 846, 146, [2]string{s.Wrong[0]}, 1)
	case s.Stands == Agrees:
		d.agrees(1478, 868)
	default:
		d.caption(1546, 858, s.Note[0], paint.End)
	}
	if d.l.Small.Ground == nil {
		return
	}
	box := d.rect(paint.R(chartX, chartY, chartW, chartH)).Inset(d.frameWidth()).Snap()
	d.follow(box)
	v := d.strip.view
	d.box(chartX, chartY, chartW, chartH, 0, d.C.Sea, none, 0)
	d.PushClip(box)
	d.stripGround(v)
	d.stripPlot(v)
	d.PopClip()
	d.frame(v)
}

func (d *draft) frameWidth() float64 { return 8*d.K.Symbol() + 2*d.K.Hair() }

// follow keeps the view of the strip until the marker or the air position comes
// near its edge, and then puts both in its middle.
func (d *draft) follow(box paint.Rect) {
	p, v := &d.l.Small.Plot, d.strip.view
	inner := box.Inset(math.Min(box.W, box.H) * 0.14)
	ground, air := units.Position(p.Marker), units.Position(p.Air)
	if v.Box == box && inner.Contains(v.ToPixel(ground)) && inner.Contains(v.ToPixel(air)) && d.strip.palette == d.C {
		return
	}
	fit := Fit(box, 0.3*box.H, ground, air)
	fit.Scale = math.Min(fit.Scale, stripScale*d.f)
	if v.Box == box && math.Abs(math.Log(fit.Scale/v.Scale)) < 0.2 {
		fit.Scale = v.Scale
	}
	d.strip.view, d.strip.ground, d.strip.palette = fit, nil, d.C
}

// stripGround draws sea, land and graticule, without a word.
func (d *draft) stripGround(v View) {
	if _, raster := d.Surface.(*paint.Raster); !raster {
		d.ground2(d.Brush, v)
		return
	}
	if d.strip.ground == nil {
		w, h := int(v.Box.W), int(v.Box.H)
		at := v
		at.Box = paint.R(0, 0, v.Box.W, v.Box.H)
		r := paint.NewImage(w, h)
		d.ground2(NewBrush(r, d.C, d.K), at)
		d.strip.ground = r.Pixels()
	}
	d.Image(v.Box, d.strip.ground)
}

func (d *draft) ground2(b *Brush, v View) {
	b.rect(v.Box, 0, b.C.Sea, none, 0)
	land := b.project(v, d.l.Small.Ground)
	b.waterLines(v, land)
	b.land(land)
	b.graticule(v)
}

// stripPlot draws the ground track, the wind from the air position to the ground
// position, the marker, and the truth if it may be seen.
func (d *draft) stripPlot(v View) {
	p, k := &d.l.Small.Plot, 0.8*math.Max(d.f, 0.8*d.K.Device)
	if t := p.Truth; t != nil {
		d.Stroke(d.path.Reset().Polyline(v.ToPixels(t.Track)...), paint.Pen{Width: 2 * k, Dash: []float64{7 * k, 5 * k}}, d.C.Verm)
	}
	var track []units.Position
	for i := max(0, len(p.Marks)-400); i < len(p.Marks); i++ {
		track = append(track, units.Position(p.Marks[i].Ground))
	}
	track = append(track, units.Position(p.Marker))
	d.roundLine(3*k, d.C.Ink, v.ToPixels(track)...)
	air, ground := v.ToPixel(units.Position(p.Air)), v.ToPixel(units.Position(p.Ground))
	d.vector(air, ground, stroke{colour: d.C.Wind, width: 2.4 * k, heads: 3, head: 9 * k}, 0.45)
	d.AirCross(air, k)
	if p.Truth != nil {
		d.TruthDiamond(v.ToPixel(p.Truth.Position), 0.9*k)
	}
	d.Marker(v.ToPixel(units.Position(p.Marker)), 0.75*k/0.8, p.Heading.Degrees())
}
