package papers

import (
	"math"
	"slices"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// chart is a piece of a Mercator plotting sheet in its place on the paper.
type chart struct {
	merc geodesy.Mercator // its origin is in the middle of the frame
	mid  units.Position
	box  paint.Rect // the frame, mm
}

func newChart(box paint.Rect, mid units.Position, standard units.Angle, denominator float64) chart {
	return chart{geodesy.NewMercator(mid, standard, denominator), mid, box}
}

// mm is a paper length in millimetres.
func mm(l units.Length) float64 { return 1000 * l.Metres() }

// at is the place of a position on the paper, inside the frame or not.
func (c chart) at(p units.Position) paint.Point {
	x, y := c.merc.Forward(p)
	m := c.box.Centre()
	return paint.Pt(m.X+mm(x), m.Y-mm(y))
}

// position is the inverse of at.
func (c chart) position(p paint.Point) units.Position {
	m := c.box.Centre()
	return c.merc.Inverse(units.Length(p.X-m.X)/1000, units.Length(m.Y-p.Y)/1000)
}

// gridLine is a meridian or a parallel: its minutes of arc and its x or y.
type gridLine struct {
	minutes int
	at      float64
}

// meridians are those each step minutes inside the frame, from the west; their
// minutes are not wrapped.
func (c chart) meridians(step int) (out []gridLine) {
	m, perMinute := c.box.Centre().X, mm(c.merc.Degree())/60
	mid := c.mid.Lon.Minutes()
	half := c.box.W / 2 / perMinute
	for k := int(math.Ceil((mid - half) / float64(step))); float64(k*step) <= mid+half; k++ {
		out = append(out, gridLine{k * step, m + (float64(k*step)-mid)*perMinute})
	}
	return out
}

// parallels are those each step minutes inside the frame, from the south.
func (c chart) parallels(step int) (out []gridLine) {
	south, north := c.position(paint.Pt(c.box.X, c.box.Bottom())), c.position(paint.Pt(c.box.X, c.box.Y))
	for k := int(math.Ceil(south.Lat.Minutes() / float64(step))); float64(k*step) <= north.Lat.Minutes(); k++ {
		p := units.Position{Lat: units.Angle(k*step) * units.ArcMinute, Lon: c.mid.Lon}
		out = append(out, gridLine{k * step, c.at(p).Y})
	}
	return out
}

// Steps of the graticule, minutes: every line, the heavier ones, and those with
// a scale of minutes.
const (
	gridStep  = 10
	heavyStep = 30
	scaleStep = 60
)

// graticule draws the lines each 10 minutes, heavier each 30, and the scales of
// minutes: on each whole degree of longitude, on one parallel and along the
// lower edge.
func (d *draft) graticule(c chart) {
	faint := d.c.Graticule
	for _, l := range c.meridians(gridStep) {
		if l.minutes%heavyStep == 0 {
			d.line(l.at, c.box.Y, l.at, c.box.Bottom(), line, d.c.Rod)
		} else {
			d.line(l.at, c.box.Y, l.at, c.box.Bottom(), thin, faint)
		}
	}
	for _, l := range c.parallels(gridStep) {
		if l.minutes%heavyStep == 0 {
			d.line(c.box.X, l.at, c.box.Right(), l.at, line, d.c.Rod)
		} else {
			d.line(c.box.X, l.at, c.box.Right(), l.at, thin, faint)
		}
	}
	for _, m := range c.meridians(scaleStep) {
		for _, l := range c.parallels(1) {
			half := tickOf(l.minutes)
			d.line(m.at-half, l.at, m.at+half, l.at, hair, d.c.Ink)
		}
	}
	middle, ok := c.scaleParallel()
	for _, m := range c.meridians(1) {
		half := tickOf(m.minutes)
		if ok {
			d.line(m.at, middle-half, m.at, middle+half, hair, d.c.Ink)
		}
		d.line(m.at, c.box.Bottom()-2*half, m.at, c.box.Bottom(), hair, d.c.Ink)
	}
	d.box(c.box, heavy, d.c.Ink)
}

// tickOf is half the length of a minute's tick, mm.
func tickOf(minutes int) float64 {
	switch {
	case minutes%10 == 0:
		return 1.2
	case minutes%5 == 0:
		return 0.9
	}
	return 0.5
}

// scaleParallel is the y of the parallel with a scale: the whole degree, or
// else the half one, nearest the middle.
func (c chart) scaleParallel() (y float64, ok bool) {
	for _, step := range []int{scaleStep, heavyStep} {
		lines := c.parallels(step)
		if len(lines) > 0 {
			near := slices.MinFunc(lines, func(a, b gridLine) int {
				m := c.box.Centre().Y
				return int(1000 * (math.Abs(a.at-m) - math.Abs(b.at-m)))
			})
			return near.at, true
		}
	}
	return 0, false
}

// gridLabels writes longitudes along top and foot, latitudes on both sides:
// whole ones each 30 minutes, and between them the minutes where there is room.
func (d *draft) gridLabels(c chart) {
	between := mm(c.merc.Degree())/60*gridStep > 9.2
	for _, l := range c.meridians(gridStep) {
		text := units.LongitudeLabel(units.Angle(units.WrapHalfDegrees(float64(l.minutes)/60)) * units.Degree)
		if l.minutes%heavyStep != 0 {
			text = strconv.Itoa(abs(westOrEast(l.minutes)) % 60)
			if !between {
				continue
			}
		}
		d.write(l.at, c.box.Y-1.3, text, look.Engraved, note, paint.Middle, d.c.Ink)
		d.write(l.at, c.box.Bottom()+3.4, text, look.Engraved, note, paint.Middle, d.c.Ink)
	}
	for _, l := range c.parallels(gridStep) {
		text := units.LatitudeLabel(units.Angle(l.minutes) * units.ArcMinute)
		d.write(c.box.X-1.2, l.at+0.9, text, look.Engraved, note, paint.End, d.c.Ink)
		d.write(c.box.Right()+1.2, l.at+0.9, text, look.Engraved, note, paint.Start, d.c.Ink)
	}
}

// westOrEast wraps minutes of longitude to +-180 degrees.
func westOrEast(minutes int) int {
	return int(math.Round(units.WrapHalfDegrees(float64(minutes)/60) * 60))
}

func abs(n int) int { return max(n, -n) }

// ring gives the outline of an island on the paper, cut to the frame; nothing
// if it lies outside.
func (c chart) ring(points []units.Position) []paint.Point {
	out := make([]paint.Point, 0, len(points))
	for _, p := range points {
		q := c.at(p)
		if len(out) > 0 { // an island across the meridian opposite the middle stays whole
			round := 360 * mm(c.merc.Degree())
			q.X += round * math.Round((out[len(out)-1].X-q.X)/round)
		}
		out = append(out, q)
	}
	return paint.ClipPolygon(out, c.box)
}

// coasts fills and outlines the land and gives the rings.
func (d *draft) coasts(c chart, coasts []picture.Coast) (rings [][]paint.Point) {
	d.PushClip(c.box)
	for _, land := range coasts {
		ring := c.ring(land.Points)
		rings = append(rings, ring)
		if len(ring) < 3 {
			continue
		}
		d.path.Reset().Polygon(ring...)
		d.Fill(&d.path, d.c.Land)
		d.Stroke(&d.path, paint.Pen{Width: 0.25}, d.c.Ink)
	}
	d.PopClip()
	return rings
}
