package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Twin is what the twin of the flight has on the chart.
type Twin struct {
	Track  []units.Position    // its ground track
	Gaps   [][2]units.Position // flight and twin, each ten minutes
	Flight units.Position      // marker of the flight
	Marker units.Position      // of the twin
	Miles  string              // between the two
}

// Dashes of the twin, pixels at scale 1.
var (
	twinTrack = [2]float64{7, 6}
	twinCell  = [2]float64{3, 2.5}
	twinGap   = [2]float64{1.5, 4}
)

func (b *Brush) dashes(d [2]float64) []float64 {
	k := b.K.Symbol()
	return []float64{d[0] * k, d[1] * k}
}

// DrawTwin draws the twin over the plot, all in outline; room is what the plot
// has left, nil if nothing is to be kept clear of.
func DrawTwin(b *Brush, v View, t *Twin, room *Room) {
	k := b.K.Symbol()
	b.Stroke(b.path.Reset().Polyline(v.ToPixels(t.Track)...), paint.Pen{Width: 2 * k, Dash: b.dashes(twinTrack)}, b.C.Ink2)
	for _, g := range t.Gaps {
		if p, q := v.ToPixel(g[0]), v.ToPixel(g[1]); p.Dist(q) > 4*k {
			b.dashed(p, q, 1.6*k, b.C.Verm, b.dashes(twinGap)...)
		}
	}
	a, z := v.ToPixel(t.Flight), v.ToPixel(t.Marker)
	if a.Dist(z) > 19*k {
		u := unit(a, z)
		b.line(a.Add(u.X*10*k, u.Y*10*k), z.Add(-u.X*9.5*k, -u.Y*9.5*k), 3*k, b.C.Verm)
	}
	b.TwinMarker(z, k)
	b.twinPlate(v, t, a, z, room)
}

// TwinMarker is a dashed ring about a hollow disc.
func (b *Brush) TwinMarker(p paint.Point, k float64) {
	pen := paint.Pen{Width: 1.8 * k, Dash: []float64{5 * k, 4 * k}}
	b.Stroke(b.path.Reset().Circle(p.X, p.Y, 25*k), pen, b.C.Ink2)
	b.disc(p.X, p.Y, 9.5*k, none, b.C.Ink2, 1.8*k)
	b.disc(p.X, p.Y, 2*k, b.C.Ink2, none, 0)
}

// twinPlate writes the miles beside the twin's marker.
func (b *Brush) twinPlate(v View, t *Twin, a, z paint.Point, room *Room) {
	if t.Miles == "" || !v.Box.Contains(z) {
		return
	}
	k, size := b.K.Symbol(), b.K.Text(look.TextBody)
	w, h := look.Engraved.Font().Width(t.Miles, size)+20*k, 1.5*size
	q := platePlace(v.Box, a, z, w, h, k, room)
	b.rect(q, look.PlateRadius*k, b.C.Card, b.C.Verm, 1.6*k)
	b.write(q.X+q.W/2, q.Y+q.H/2+0.35*size, t.Miles, look.Engraved, size, paint.Middle, b.C.Verm)
}

// platePlace is a place round z for a plate of w by h: the nearest that is free
// and off the marker at a; else the nearest on the chart; for the miles have to
// be read.
func platePlace(chart paint.Rect, a, z paint.Point, w, h, k float64, room *Room) paint.Rect {
	pool := paint.R(a.X-30*k, a.Y-30*k, 60*k, 60*k)
	best, on := beside(z, 90, 34*k, w, h), false
	for i := range 36 {
		q := beside(z, float64(i%12)*30+60, (34+30*float64(i/12))*k, w, h)
		if !chart.Inset(4 * k).Covers(q) {
			continue
		}
		if !q.Overlaps(pool) && (room == nil || room.Free(q)) {
			return q
		}
		if !on {
			best, on = q, true
		}
	}
	return best
}

// GhostCounter draws a counter in outline, with the corner of its housing at
// (x, y) and drums of height h: dashed cells, no shade and no brass.
func GhostCounter(b *Brush, x, y, h float64, c Counter) {
	cells, width := c.cells(h)
	x, y = math.Round(x), math.Round(y)
	pad, hair := h*drumMargin, b.K.Hair()
	house := paint.R(x, y, width, h+2*pad).Inset(hair)
	b.Stroke(b.path.Reset().RoundRect(house, look.PlateRadius*b.K.Symbol()), paint.Pen{Width: 1.6 * hair, Dash: b.dashes([2]float64{6, 4})}, b.C.Ink2)
	for _, k := range cells {
		face := paint.R(x+k.x, y+pad, k.w, h).Snap()
		if k.drum == signCell {
			b.write(x+k.x+k.w/2-math.Max(2, h*drumGap)/2, y+pad+h*k.sign.down, k.sign.text, look.Engraved, h*signSize, paint.Middle, b.C.Ink2)
			continue
		}
		b.Stroke(b.path.Reset().RoundRect(face.Inset(hair/2), 2*b.K.Symbol()), paint.Pen{Width: hair, Dash: b.dashes(twinCell)}, b.C.Ink2)
		b.PushClip(face)
		b.ghostFigures(face, k.drum, c)
		b.PopClip()
	}
}

// ghostFigures writes what shows of a drum, the lowest one turning.
func (b *Brush) ghostFigures(face paint.Rect, drum int, c Counter) {
	switch {
	case drum == letterCell:
		b.onDrum(face, string(c.Reading.Letter), 0, b.C.Ink2)
	case drum == 0 && c.Fast:
		b.hatch(face, 5*b.K.Symbol(), b.K.Hair(), b.C.Ink2)
	default:
		v := c.position(drum)
		low := math.Floor(v)
		n := c.digits(drum)
		for i := -1; i <= 2; i++ {
			digit := (int(low) + i + n) % n
			b.onDrum(face, string(rune('0'+digit)), float64(i)-(v-low), b.C.Ink2)
		}
	}
}
