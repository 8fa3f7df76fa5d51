package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// steps are the distances of graticule lines, minutes.
var steps = []float64{1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 900, 1800, 3600}

// step is the least of the steps that is at least so many pixels of longitude.
func (v View) step(pixels float64) float64 {
	for _, m := range steps {
		if m/60*v.Scale >= pixels {
			return m
		}
	}
	return steps[len(steps)-1]
}

// latStep is the same for latitude: far from the equator, where its degrees
// grow on the chart, it is finer.
func (v View) latStep(pixels float64) float64 {
	v.Scale *= math.Max(1, 0.75/math.Cos(v.Centre.Lat.Radians()))
	return v.step(pixels)
}

// gridLine is one line of the graticule: where it runs and what it is.
type gridLine struct {
	at      float64 // x or y in pixels
	minutes int     // of longitude (as it falls, not wrapped) or latitude
}

// meridians are the multiples of step minutes of longitude in the box, with
// one beyond each side.
func (v View) meridians(step float64) []gridLine {
	c, m := v.Centre.Lon.Degrees(), v.Box.Centre().X
	half := v.Box.W / 2 / v.Scale
	var out []gridLine
	for k := math.Floor((c - half) * 60 / step); k <= math.Ceil((c+half)*60/step); k++ {
		out = append(out, gridLine{m + (k*step/60-c)*v.Scale, int(k * step)})
	}
	return out
}

// parallels are the same of latitude, from the south up.
func (v View) parallels(step float64) []gridLine {
	c := v.spot()
	m := v.Box.Centre().Y
	lat := func(y float64) float64 { return v.FromPixel(paint.Pt(m, y)).Lat.Degrees() }
	var out []gridLine
	for k := math.Floor(lat(v.Box.Bottom()) * 60 / step); k <= math.Ceil(lat(v.Box.Y)*60/step); k++ {
		deg := k * step / 60
		if math.Abs(deg) >= 89 {
			continue
		}
		psi := geodesy.IsometricLatitude(units.Angle(deg)*units.Degree) * degPerPsi
		out = append(out, gridLine{m - (psi-c.psi)*v.Scale, int(math.Round(k * step))})
	}
	return out
}

// gridRoom is the least distance of two meridians, pixels at scale 1; blockRoom
// that of the ends of a block of the frame.
const (
	gridRoom  = 85
	blockRoom = 22
)

func (b *Brush) graticule(v View) {
	room, hair := gridRoom*b.K.Symbol(), b.K.Hair()
	crisp := func(x float64) float64 { return math.Floor(x) + 0.5*math.Mod(hair, 2) }
	b.fineGraticule(v, crisp)
	for _, l := range v.meridians(v.step(room)) {
		x := crisp(l.at)
		if isDateLine(l.minutes) {
			k := b.K.Symbol()
			b.dashed(paint.Pt(x, v.Box.Y), paint.Pt(x, v.Box.Bottom()), 1.4*b.K.Hair(), paint.Alpha(b.C.Ink2, 0.8), 14*k, 5*k, 3*k, 5*k)
			continue
		}
		b.line(paint.Pt(x, v.Box.Y), paint.Pt(x, v.Box.Bottom()), hair, b.C.Graticule)
	}
	for _, l := range v.parallels(v.latStep(room)) {
		y := crisp(l.at)
		b.line(paint.Pt(v.Box.X, y), paint.Pt(v.Box.Right(), y), hair, b.C.Graticule)
	}
}

// fineRoom is the least distance of two lines of the finer graticule, pixels at
// scale 1.
const fineRoom = 26

// fineGraticule adds fainter lines between those with labels, on a surface fine
// enough for them.
func (b *Brush) fineGraticule(v View, crisp func(float64) float64) {
	if !b.K.Fine() {
		return
	}
	k, hair, faint := b.K.Symbol(), b.K.Hair(), paint.Alpha(b.C.Graticule, 0.45)
	between := func(fine, main float64) bool { return fine < main && math.Mod(main, fine) == 0 }
	if step := v.step(fineRoom * k); between(step, v.step(gridRoom*k)) {
		for _, l := range v.meridians(step) {
			b.line(paint.Pt(crisp(l.at), v.Box.Y), paint.Pt(crisp(l.at), v.Box.Bottom()), hair, faint)
		}
	}
	if step := v.latStep(fineRoom * k); between(step, v.latStep(gridRoom*k)) {
		for _, l := range v.parallels(step) {
			b.line(paint.Pt(v.Box.X, crisp(l.at)), paint.Pt(v.Box.Right(), crisp(l.at)), hair, faint)
		}
	}
}

// isDateLine says whether a meridian, in minutes of any size, is the 180th.
func isDateLine(minutes int) bool { return minutes%21600 == 10800 || minutes%21600 == -10800 }

// gridLabel is one label of the graticule.
type gridLabel struct {
	at     paint.Point
	anchor paint.Anchor
	text   string
}

// graticuleLabels are laid out before the names of places, which keep off
// them: longitudes along the foot where no coast is, latitudes on the side with
// less coast, one that would stand on a coast on the other.
func (b *Brush) graticuleLabels(v View, room *Room) []gridLabel {
	size, wide := b.K.Text(look.TextSmall), gridRoom*b.K.Symbol()
	k := b.K.Symbol()
	var out []gridLabel
	add := func(x, y float64, a paint.Anchor, text string, always bool) bool {
		w := look.Engraved.Font().Width(text, size)
		box := paint.R(x-w*float64(a)/2-2, y-size, w+4, size*1.2)
		if !always && !room.Free(box) {
			return false
		}
		room.Take(box)
		out = append(out, gridLabel{paint.Pt(x, y), a, text})
		return true
	}
	side, anchor, other := v.Box.Right()-8*k, paint.End, v.Box.X
	strip := paint.R(v.Box.Right()-80*k, v.Box.Y, 80*k, v.Box.H)
	if left := (paint.Rect{X: v.Box.X, Y: v.Box.Y, W: 80 * k, H: v.Box.H}); room.burden(left) < room.burden(strip) {
		side, anchor, other = v.Box.X+8*k, paint.Start, v.Box.Right()
	}
	opposite := v.Box.X + v.Box.Right() - side
	room.side = side
	for _, l := range v.parallels(v.latStep(wide)) {
		if l.at > v.Box.Y+26*k && l.at < v.Box.Bottom()-26*k-size {
			text, y := units.LatitudeLabel(units.Angle(l.minutes)*units.ArcMinute), l.at+size*0.35
			if !add(side, y, anchor, text, false) && !add(opposite, y, paint.End-anchor, text, false) {
				add(side, y, anchor, text, true)
			}
		}
	}
	for _, l := range v.meridians(v.step(wide)) {
		text := units.LongitudeLabel(units.Angle(l.minutes) * units.ArcMinute)
		half := look.Engraved.Font().Width(text, size) / 2
		if math.Abs(l.at-side) > half+70*k && math.Abs(l.at-other) > half+8*k && l.at > v.Box.X+half && l.at < v.Box.Right()-half {
			add(l.at, v.Box.Bottom()-10*k, paint.Middle, text, false)
		}
	}
	return out
}

// frame draws the double outline with its alternate blocks; between them shows
// what lies under the chart.
func (b *Brush) frame(v View) {
	k := b.K.Symbol()
	lonStep, latStep := v.step(blockRoom*k), v.latStep(blockRoom*k)
	bar, box := 8*k, v.Box
	var p paint.Path
	blocks := func(lines []gridLine, step, lo, hi float64, add func(from, to float64)) {
		for i := 1; i < len(lines); i++ {
			even := int(math.Round(float64(min(lines[i-1].minutes, lines[i].minutes))/step))%2 == 0
			from, to := math.Min(lines[i-1].at, lines[i].at), math.Max(lines[i-1].at, lines[i].at)
			from, to = math.Max(lo, from), math.Min(hi, to)
			if even && to > from {
				add(from, to)
			}
		}
	}
	blocks(v.meridians(lonStep), lonStep, box.X, box.Right(), func(from, to float64) {
		p.Rect(paint.R(from, box.Y-bar, to-from, bar)).Rect(paint.R(from, box.Bottom(), to-from, bar))
	})
	blocks(v.parallels(latStep), latStep, box.Y, box.Bottom(), func(from, to float64) {
		p.Rect(paint.R(box.X-bar, from, bar, to-from)).Rect(paint.R(box.Right(), from, bar, to-from))
	})
	b.Fill(&p, b.C.Ink)
	b.rect(box.Inset(-bar), 0, none, b.C.Ink, 1.4*b.K.Hair())
	b.rect(box, 0, none, b.C.Ink, 1.2*b.K.Hair())
}
