package picture

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// SpeedRings are the two rings of the height-and-airspeed computer, knots. Each holds
// one decade. On the outer, which is fixed, the value Top stands at the top; the brass
// ring is turned so that the calibrated airspeed stands under the true one.
type SpeedRings struct {
	CAS, TAS, Top float64
	// What is written: the true airspeed over the cursor; in the windows height and
	// temperature; how the day is. "" is left out.
	TASText, Height, Temperature, Day string
}

// RingDegrees is where a value stands on a ring that has another at its top: degrees
// clockwise, 360 for a decade. The law is that of logarithms, 360 log10(v/top).
func RingDegrees(v, top float64) float64 { return 360 * math.Log10(v/top) }

// Turned is how far the brass ring is turned against the fixed one, degrees clockwise.
func (s *SpeedRings) Turned() float64 { return RingDegrees(s.TAS, s.CAS) }

// Cursor is where the cursor stands, degrees clockwise from the top.
func (s *SpeedRings) Cursor() float64 { return RingDegrees(s.TAS, s.Top) }

// The radii of the rings, parts of R: outer and inner edge of the brass, the figures
// on both rings, the knob and its size. Where the dial is small its figures are not, so
// the bands are broader there.
type ringRadii struct{ brass, hole, fixed, turning, knob, knobSize float64 }

var (
	broadRings = ringRadii{0.735, 0.455, 0.890, 0.567, 0.567, 0.078}
	drawnRadii = ringRadii{0.80, 0.56, 0.925, 0.675, 0.68, 0.068}
)

// The R of the two, units; between them the radii are between.
const broadFrom, drawnFrom = 130.0, 250.0

// radii are those of a dial.
func (d SpeedDial) radii(k look.Size) ringRadii {
	s := math.Max(0, math.Min((d.R/k.Device-broadFrom)/(drawnFrom-broadFrom), 1))
	mix := func(a, b float64) float64 { return a + (b-a)*s }
	a, b := broadRings, drawnRadii
	return ringRadii{mix(a.brass, b.brass), mix(a.hole, b.hole), mix(a.fixed, b.fixed), mix(a.turning, b.turning), mix(a.knob, b.knob), mix(a.knobSize, b.knobSize)}
}

// ringTicks are the lengths of small, middle and long ticks, parts of R.
var ringTicks = [3]float64{0.025, 0.045, 0.065}

// Others of the dial: the foot of the cursor's triangle and the value over it, parts of
// R; the knots of the brass ring at which its knob sits.
const (
	cursorFoot, cursorText = 1.07, 1.09
	brassKnobOn            = 65
	cursorSize             = 22.0
)

// SpeedDial is where the rings stand: their middle and outer radius, pixels.
type SpeedDial struct{ X, Y, R float64 }

// FitSpeedDial is the largest dial in a box, with room for the value over the cursor
// wherever that stands.
func FitSpeedDial(k look.Size, box paint.Rect) SpeedDial {
	size := k.Text(cursorSize)
	wide := look.Engraved.Font().Width("888", size)
	r := math.Min((box.W/2-wide)/cursorText, (box.H/2-1.1*size)/cursorText)
	m := box.Centre()
	return SpeedDial{m.X, m.Y, math.Max(20, r)}
}

// Ring is the direction of the hand at p, and whether it is on the brass ring or near.
func (d SpeedDial) Ring(p paint.Point) (deg float64, ok bool) {
	deg, _ = directionAt(d.X, d.Y, d.R, p)
	far := p.Dist(paint.Pt(d.X, d.Y))
	return deg, far >= 0.48*d.R && far <= 1.1*d.R
}

// roomyDial is the radius, units, from which the windows have their names over them,
// dayDial that from which how the day is stands under them.
const roomyDial, dayDial = 165, 225

// Windows are the places of the two windows within the rings: height, temperature.
func (d SpeedDial) Windows(k look.Size) (height, temperature paint.Rect) {
	w, h := 0.64*d.R, math.Max(0.16*d.R, 26*k.Device)
	gap := 0.07 * d.R
	up := h + gap/2
	if d.named(k) {
		gap = k.Text(look.TextSmall) + 0.07*d.R
		up = h + gap/2
	}
	if !d.DayBeside(k) {
		up += 0.05 * d.R
	} else if d.named(k) {
		up -= 0.4 * k.Text(look.TextSmall)
	}
	return paint.R(d.X-w/2, d.Y-up, w, h), paint.R(d.X-w/2, d.Y-up+h+gap, w, h)
}

// named says whether the windows have their names over them.
func (d SpeedDial) named(k look.Size) bool { return d.R >= roomyDial*k.Device && !k.Larger }

// DrawSpeedRings draws the two rings, the cursor and the windows.
func DrawSpeedRings(b *Brush, at SpeedDial, s *SpeedRings) {
	d := speedDraft{Brush: b, SpeedDial: at, s: s, w: math.Max(at.R/drawnFrom, 0.55*b.K.Device), m: b.brassRing(), r: at.radii(b.K)}
	d.disc(at.X, at.Y, at.R, d.C.Card, d.C.Rod, 4*d.w)
	d.disc(at.X, at.Y, d.r.brass*at.R, d.m.face, d.C.BrassLo, 2*d.w)
	d.disc(at.X, at.Y, d.r.hole*at.R, d.C.Card, d.C.BrassLo, 1.6*d.w)
	knob := paint.Polar(at.X, at.Y, d.r.knob*at.R, d.onBrass(brassKnobOn))
	r := math.Max(d.r.knobSize*at.R, 9*d.K.Device)
	taken := []paint.Rect{paint.R(knob.X-r, knob.Y-r, 2*r, 2*r)}
	taken = d.scale(scaleOf{0, 1, d.r.fixed, d.C.Ink, taken})
	d.scale(scaleOf{s.Turned(), -1, d.r.turning, d.m.figure, taken})
	d.cursor()
	d.disc(knob.X, knob.Y, r, d.C.Brass, d.C.BrassLo, 1.8*d.w)
	d.disc(knob.X, knob.Y, 0.36*r, d.C.BrassHi, d.C.BrassLo, d.w)
	d.windows()
}

// speedDraft is a dial being drawn.
type speedDraft struct {
	*Brush
	SpeedDial
	s *SpeedRings
	m brass
	w float64 // factor of widths
	r ringRadii
}

// onBrass is where a value of the brass ring stands.
func (d *speedDraft) onBrass(v float64) float64 { return RingDegrees(v, d.s.Top) + d.s.Turned() }

// Figures of the rings, the most wanted first; where there is no room the later ones
// are left out. Each has a long tick.
var (
	ringFirst = []int{60, 80, 100, 150, 200, 300, 400, 500}
	ringNext  = []int{70, 90, 120, 250, 110, 130, 140, 160, 180, 220, 350}
)

// scaleOf is one of the two scales: how far it is turned, whether its ticks run outward
// (1) or inward (-1) from the edge of the brass, where its figures stand, and what is
// there.
type scaleOf struct {
	turned  float64
	way     float64
	figures float64
	ink     colour
	taken   []paint.Rect
}

// scale draws ticks and figures, and adds to what is taken.
func (d *speedDraft) scale(o scaleOf) []paint.Rect {
	named := map[int]bool{}
	for _, v := range append(append([]int{}, ringFirst...), ringNext...) {
		named[v] = true
	}
	for v := 60; v < 600; v += d.step(v) {
		long, width := 0, 1.0
		switch {
		case named[v]:
			long, width = 2, 1.8
		case v%10 == 0:
			long = 1
		}
		deg := RingDegrees(float64(v), d.s.Top) + o.turned
		end := d.r.brass + o.way*ringTicks[long]
		d.line(paint.Polar(d.X, d.Y, d.R*d.r.brass, deg), paint.Polar(d.X, d.Y, d.R*end, deg), width*d.w, o.ink)
	}
	size := d.K.Figure(d.R * 0.062 / d.K.Part)
	for _, v := range append(append([]int{}, ringFirst...), ringNext...) {
		p := paint.Polar(d.X, d.Y, d.R*o.figures, RingDegrees(float64(v), d.s.Top)+o.turned)
		words := strconv.Itoa(v)
		w := look.Engraved.Font().Width(words, size)
		q := paint.R(p.X-w/2, p.Y-0.37*size, w, 0.74*size)
		if !overlapsAny(q.Inset(-2*d.K.Device), o.taken) {
			o.taken = append(o.taken, q)
			d.upright(p, words, size, o.ink)
		}
	}
	return o.taken
}

func overlapsAny(q paint.Rect, all []paint.Rect) bool {
	for _, t := range all {
		if q.Overlaps(t) {
			return true
		}
	}
	return false
}

// step is the step of the ticks after a value: such that they stand apart.
func (d *speedDraft) step(v int) int {
	steps := []int{1, 2, 5, 10}
	i := 0
	for _, from := range []int{100, 200, 400} {
		if v >= from {
			i++
		}
	}
	const apart = 2.6 // units
	for i < len(steps)-1 && RingDegrees(float64(v+steps[i]), float64(v))*math.Pi/180*d.r.brass*d.R < apart*d.K.Device {
		i++
	}
	return steps[i] - v%steps[i]
}

// cursor draws the line at which both rings are read, with the value over it.
func (d *speedDraft) cursor() {
	deg := d.s.Cursor()
	for _, part := range [][2]float64{{d.r.brass - ringTicks[2], d.r.brass + ringTicks[2]}, {d.r.hole, d.r.hole + 0.07}, {0.965, 1}} {
		c := d.C.Ink
		if part[0] < d.r.brass {
			c = d.m.figure
		}
		d.line(paint.Polar(d.X, d.Y, d.R*part[0], deg), paint.Polar(d.X, d.Y, d.R*part[1], deg), 2.6*d.w, c)
	}
	at := func(r, off float64) paint.Point { return paint.Polar(d.X, d.Y, d.R*r, deg+off) }
	d.polygon(d.C.Ink, none, 0, at(cursorFoot, -2.6), at(cursorFoot, 2.6), at(1, 0))
	size := d.K.Text(cursorSize)
	s, c := math.Sincos(deg * math.Pi / 180)
	half := math.Abs(s)*look.Engraved.Font().Width(d.s.TASText, size)/2 + math.Abs(c)*0.36*size
	d.upright(paint.Polar(d.X, d.Y, cursorText*d.R+half, deg), d.s.TASText, size, d.C.Ink)
}

// windows draws height and temperature within the rings.
func (d *speedDraft) windows() {
	height, temperature := d.Windows(d.K)
	d.slate(height, d.s.Height, look.Text(look.CalcFeet))
	d.slate(temperature, d.s.Temperature, look.Text(look.CalcCelsius))
	if !d.named(d.K) {
		return
	}
	size := d.K.Text(look.TextSmall)
	d.write(d.X, height.Y-0.45*size, look.Text(look.CalcHeight), look.Regular, size, paint.Middle, d.C.Ink2)
	d.write(d.X, temperature.Y-0.45*size, look.Text(look.CalcTemperature), look.Regular, size, paint.Middle, d.C.Ink2)
	if d.DayBeside(d.K) {
		return
	}
	y := temperature.Bottom() + 1.25*size
	for _, line := range (paint.Type{Font: look.Regular.Font(), Size: size}).Wrap(d.s.Day, 0.8*d.R) {
		d.write(d.X, y, line, look.Regular, size, paint.Middle, d.C.Ink2)
		y += 1.2 * size
	}
}

// DayBeside says whether how the day is has no room within the rings.
func (d SpeedDial) DayBeside(k look.Size) bool { return d.R < dayDial*k.Device || k.Larger }

// slate draws a value with its unit on a slate plate.
func (b *Brush) slate(r paint.Rect, value, unit string) {
	b.rect(r, b.K.Px(look.PlateRadius), b.C.Slate, none, 0)
	b.valued(r, value, unit, b.C.OnSlate)
}

// Plate draws a value with its unit: on slate what is exact or given, on paper what is
// a rule of thumb.
func Plate(b *Brush, r paint.Rect, value, unit string, exact bool) {
	if exact {
		b.slate(r, value, unit)
		return
	}
	b.rect(r, b.K.Px(look.PlateRadius), b.C.Ground, b.C.SlateHi, 1.5*b.K.Device)
	b.valued(r, value, unit, b.C.Ink)
}

// valued writes a value and its unit in the middle of a plate.
func (b *Brush) valued(r paint.Rect, value, unit string, c colour) {
	size, small := 0.6*r.H, math.Max(0.3*r.H, b.K.Text(look.TextSmall))
	w, u, gap := look.Engraved.Font().Width(value, size), look.Regular.Font().Width(unit, small), 0.16*r.H
	if over := w + gap + u; over > 0.94*r.W {
		size *= 0.94 * r.W / over
		small = math.Min(small, size)
		w, u = look.Engraved.Font().Width(value, size), look.Regular.Font().Width(unit, small)
	}
	x, y := r.X+(r.W-w-gap-u)/2, r.Y+r.H/2+0.36*size
	b.write(x, y, value, look.Engraved, size, paint.Start, c)
	b.write(x+w+gap, y, unit, look.Regular, small, paint.Start, c)
}
