package picture

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// All dials take their middle and R, the radius of their ring. Figures on a
// scale are sized by look.Size.Figure; below smallDialR units they give way.
const smallDialR = 58

// bare says whether a dial of radius r keeps letters only.
func (b *Brush) bare(r float64) bool { return r < smallDialR*b.K.Device }

// figureAt is where figures stand, in radii: a little further in on a small dial,
// whose letters are large for it and would touch the scale.
func (b *Brush) figureAt(share, r float64) float64 {
	if b.bare(r) {
		return share - 0.04
	}
	return share
}

// ring is the rim of a round card.
func (b *Brush) ring(x, y, r, share float64) { b.disc(x, y, r, b.C.Card, b.C.Rod, r*share) }

// tick draws a radial line between two radii.
func (b *Brush) tick(x, y, from, to, deg, width float64, c colour) {
	b.line(paint.Polar(x, y, from, deg), paint.Polar(x, y, to, deg), width, c)
}

// ticks draws a tick each 10 degrees, longer each 30, turned by deg.
func (b *Brush) ticks(x, y, outer, minor, major, deg float64, c colour) {
	w := b.K.Symbol()
	for k := 0; k < 36; k++ {
		length, width := minor, 1.1*w
		if k%3 == 0 {
			length, width = major, 1.9*w
		}
		b.tick(x, y, outer, outer-length, deg+float64(k)*10, width, c)
	}
}

// needle is a brass triangle from near the middle to the tip.
func (b *Brush) needle(x, y, tip, half, deg float64) {
	b.polygon(b.C.Brass, b.C.BrassLo, b.K.Hair(),
		paint.Polar(x, y, tip, deg), paint.Polar(x, y, half, deg-90), paint.Polar(x, y, half, deg+90))
}

// knob is the brass handle on a rim.
func (b *Brush) knob(x, y, r, deg float64) {
	p := paint.Polar(x, y, r, deg)
	b.disc(p.X, p.Y, r*0.17, b.C.Brass, b.C.BrassLo, 1.5*b.K.Symbol())
	b.disc(p.X, p.Y, r*0.06, b.C.BrassHi, none, 0)
}

// compassLetters are the letters of the four quarters, from north.
func compassLetters() [4]string {
	return [4]string{look.Text(look.North), look.Text(look.East), look.Text(look.South), look.Text(look.West)}
}

// upright writes a figure with its middle at the given place.
func (b *Brush) upright(p paint.Point, s string, size float64, c colour) {
	b.write(p.X, p.Y+size*0.36, s, look.Engraved, size, paint.Middle, c)
}

// HeadingCard draws the heading repeater: the ring turns under a fixed brass
// lubber line, its figures stay upright, the value stands in the middle.
func HeadingCard(b *Brush, x, y, r float64, heading units.TrueHeading) {
	b.headingCard(x, y, r, heading.Degrees(), heading.String())
}

// headingCard draws the card turned to h degrees, with the words for it.
func (b *Brush) headingCard(x, y, r, h float64, words string) {
	b.ring(x, y, r, 0.05)
	b.disc(x, y, r*0.47, b.C.Low, b.C.Line, b.K.Hair())
	b.ticks(x, y, r*0.945, r*0.08, r*0.15, -h, b.C.Ink)
	letters := compassLetters()
	for k := range 12 {
		deg := float64(k) * 30
		p := paint.Polar(x, y, r*b.figureAt(0.66, r), deg-h)
		if k%3 == 0 {
			b.upright(p, letters[k/3], b.K.Figure(r*0.22/b.K.Part), b.C.Ink)
		} else if !b.bare(r) {
			b.upright(p, tens(k*3), b.K.Figure(r*0.185/b.K.Part), b.C.Ink2)
		}
	}
	b.polygon(b.C.Brass, b.C.BrassLo, 1.2*b.K.Symbol(),
		paint.Pt(x-r*0.1, y-r*1.13), paint.Pt(x+r*0.1, y-r*1.13), paint.Pt(x+r*0.1, y-r*1.02), paint.Pt(x, y-r*0.8), paint.Pt(x-r*0.1, y-r*1.02))
	b.upright(paint.Pt(x, y), words, math.Min(r*0.38, math.Max(r*0.31, b.K.Text(look.TextSmall))), b.C.Ink)
}

// tens writes a heading in tens of degrees, "03".
func tens(n int) string { return strconv.Itoa(n/10) + strconv.Itoa(n%10) }

// Fan is an airspeed dial in the form of a fan.
type Fan struct {
	Value, Low, High units.Speed
	Major, Minor     units.Speed // from tick to tick
}

// TASFan is the fan of the true airspeed, its scale chosen so that the value
// lies on it: 160 kt wide, from 100 kt by default.
func TASFan(v units.Speed) Fan {
	f := Fan{Value: v, Low: 100 * units.Knot, High: 260 * units.Knot, Major: 40 * units.Knot, Minor: 10 * units.Knot}
	for v < f.Low && f.Low > 0 {
		f.Low, f.High = f.Low-80*units.Knot, f.High-80*units.Knot
	}
	if f.Low < 0 {
		f.Low, f.High = 0, f.High-f.Low
	}
	for v > f.High {
		f.Low, f.High = f.Low+80*units.Knot, f.High+80*units.Knot
	}
	return f
}

// fanValue is the size of the value under the fan, at 1080 lines.
const fanValue = 34

// fanHalf is how far the scale reaches to either side, degrees.
const fanHalf = 58

// AirspeedFan draws the fan; the value stands 0.40 R below the pivot.
func AirspeedFan(b *Brush, x, y, r float64, f Fan) {
	at := func(v units.Speed) float64 {
		return -fanHalf + float64((v-f.Low)/(f.High-f.Low))*2*fanHalf
	}
	b.arc(x, y, r, -fanHalf, fanHalf, 2*b.K.Symbol(), b.C.Ink)
	every := int(math.Round(float64(f.Major / f.Minor)))
	from, to := int(math.Ceil(float64(f.Low/f.Minor))), int(math.Floor(float64(f.High/f.Minor)+1e-9))
	for k := from; k <= to; k++ {
		v := units.Speed(k) * f.Minor
		if k%every != 0 {
			b.tick(x, y, r, r*1.06, at(v), 1.2*b.K.Symbol(), b.C.Ink)
			continue
		}
		b.tick(x, y, r, r*1.12, at(v), 2*b.K.Symbol(), b.C.Ink)
		if b.crowded(r, at(f.Low+f.Major)-at(f.Low)) && k/every%2 != 0 {
			continue // every other figure where all would touch
		}
		b.fanFigure(x, y, r, at(v), units.Figure(v.Knots(), 0))
	}
	b.needle(x, y, r*0.99, r*0.07, math.Max(-fanHalf-4, math.Min(fanHalf+4, at(f.Value))))
	b.disc(x, y, r*0.12, b.C.Slate, none, 0)
	b.disc(x, y, r*0.04, b.C.BrassHi, none, 0)
	size, text := b.K.Text(fanValue), units.Figure(f.Value.Knots(), 0)
	foot := y + r*0.12 + size
	b.write(x, foot, text, look.Engraved, size, paint.Middle, b.C.Ink)
	b.write(x+fanUnitAt(b.K, text), foot, look.Text(look.Knots), look.Regular, b.K.Text(look.TextBody), paint.Start, b.C.Ink2)
}

// fanUnitAt is where the unit begins, right of the middle of the value.
func fanUnitAt(k look.Size, value string) float64 {
	size := k.Text(fanValue)
	return look.Engraved.Font().Width(value, size)/2 + 0.25*size
}

// crowded says whether figures so many degrees apart would touch.
func (b *Brush) crowded(r, apart float64) bool {
	size := b.K.Figure(r * 0.165 / b.K.Part)
	return 2*r*1.27*math.Sin(apart/2*math.Pi/180) < look.Engraved.Font().Width("888", size)*1.04
}

// fanFigure writes a figure at 1.27 R, or as far out as it must stand to keep
// clear of its tick where the dial is small.
func (b *Brush) fanFigure(x, y, r, deg float64, s string) {
	size := b.K.Figure(r * 0.165 / b.K.Part)
	sin, cos := math.Sincos(deg * math.Pi / 180)
	half := math.Abs(sin)*look.Engraved.Font().Width(s, size)/2 + math.Abs(cos)*size*0.36
	b.upright(paint.Polar(x, y, math.Max(r*1.27, r*1.12+half+size*0.1), deg), s, size, b.C.Ink2)
}

// WindSetter draws the wind setter: north up, an arrow blowing across, a knob
// on the rim where the wind comes from.
func WindSetter(b *Brush, x, y, r float64, w units.Wind) {
	b.setterRing(x, y, r)
	for k, s := range compassLetters() {
		b.upright(paint.Polar(x, y, r*b.figureAt(0.68, r), float64(k)*90), s, b.K.Figure(r*0.2/b.K.Part), b.C.Ink2)
	}
	from := units.Wrap(w.From).Degrees()
	if w.Speed > 0 {
		a, z := paint.Polar(x, y, r*0.86, from), paint.Polar(x, y, r*0.8, from+180)
		b.vector(a, z, stroke{colour: b.C.Wind, width: r * 0.045, heads: 3, head: r * 0.15}, 0.56)
	}
	b.knob(x, y, r, from)
}

// setterRing is the rim and scale of the two setters.
func (b *Brush) setterRing(x, y, r float64) {
	b.ring(x, y, r, 0.05)
	b.ticks(x, y, r*0.945, r*0.065, r*0.125, 0, b.C.Ink)
}

// VariationSetter draws the variation setter: zero at the top, east to the
// right, 180 both ways; the value in a field in the middle.
func VariationSetter(b *Brush, x, y, r float64, v units.Variation) {
	b.variationSetter(x, y, r, v, false)
}

// variationSetter draws it with its letters beside the ring, or raised where
// shafts pass there.
func (b *Brush) variationSetter(x, y, r float64, v units.Variation, raised bool) {
	b.setterRing(x, y, r)
	size := b.K.Figure(r * 0.17 / b.K.Part)
	for k := 0; k < 12; k++ {
		deg := k * 30
		if b.bare(r) && deg%180 != 0 {
			continue
		}
		b.upright(paint.Polar(x, y, r*b.figureAt(0.68, r), float64(deg)), strconv.Itoa(min(deg, 360-deg)), size, b.C.Ink2)
	}
	d := units.WrapHalf(units.Angle(v)).Degrees()
	b.arc(x, y, r*0.91, 0, d, r*0.1, b.C.BrassHi)
	b.arc(x, y, r*0.86, 0, d, 1.2*b.K.Symbol(), b.C.BrassLo)
	b.arc(x, y, r*0.96, 0, d, 1.2*b.K.Symbol(), b.C.BrassLo)
	b.variationField(x, y, r, v)
	b.besideRing(x, y, r, d, raised)
	b.knob(x, y, r, d)
}

func (b *Brush) variationField(x, y, r float64, v units.Variation) {
	field := VariationField(b.K, x, y, r, v)
	b.rect(field, look.SmallRadius*b.K.Symbol(), b.C.Low, b.C.SlateHi, 1.4*b.K.Symbol())
	b.upright(paint.Pt(x, y), variationText(v), variationSize(b.K, r), b.C.Ink)
}

func variationSize(k look.Size, r float64) float64 { return math.Max(15*k.Device, r*0.28) }

// variationText is the value in whole degrees if it is that, else in tenths: a
// setter must not hide half a degree.
func variationText(v units.Variation) string {
	if d := v.Degrees(); math.Abs(d-math.Round(d)) < 0.05 {
		return v.String()
	}
	return v.Tenths()
}

// besideSize is the size of the letters beside the ring.
func besideSize(k look.Size, r float64) float64 { return k.Text(math.Max(14, r*0.2/k.Part)) }

// besideRing writes W and E left and right of the ring, the one in use in the
// colour of variation.
func (b *Brush) besideRing(x, y, r, d float64, raised bool) {
	size := besideSize(b.K, r)
	reach := r * 1.24
	if raised {
		reach, y = r*1.02, y-0.9*r
	}
	for _, s := range []struct {
		word string
		side float64
	}{{look.Text(look.West), -1}, {look.Text(look.East), 1}} {
		c := b.C.Ink2
		if s.side*d > 0 || d == 0 && s.side > 0 {
			c = b.C.BrassText
		}
		b.upright(paint.Pt(x+s.side*reach, y), s.word, size, c)
	}
}

// smallScale is the reach of a small dial's scale, degrees.
const smallScale = 270

// SmallDial draws a ring with a scale without figures and a needle at share
// (0 to 1, clamped) of it; the value stands below, on the card.
func SmallDial(b *Brush, x, y, r, share float64) {
	b.ring(x, y, r, 0.06)
	for k := range 11 {
		from, width := 0.82, 1.1
		if k%5 == 0 {
			from, width = 0.72, 1.8
		}
		b.tick(x, y, r*0.93, r*from, -smallScale/2+smallScale*float64(k)/10, width*b.K.Symbol(), b.C.Ink)
	}
	share = math.Max(0, math.Min(1, share))
	b.needle(x, y, r*0.8, r*0.1, -smallScale/2+smallScale*share)
	b.disc(x, y, r*0.13, b.C.Slate, none, 0)
}

// HeightShare is the needle of the pressure altitude: a turn of the scale is
// 10,000 ft. TemperatureShare runs from -60 to 40 C, AirspeedShare from 60 to
// 260 kt; both stop at their ends.
func HeightShare(h units.Length) float64 { return math.Mod(math.Max(0, h.Feet()), 10000) / 10000 }

// TemperatureShare is the needle of the thermometer.
func TemperatureShare(t units.Temperature) float64 { return (t.Celsius() + 60) / 100 }

// AirspeedShare is the needle of the indicated airspeed.
func AirspeedShare(v units.Speed) float64 { return (v.Knots() - 60) / 200 }

// StandbyCompass draws a card of four letters under a lubber line.
func StandbyCompass(b *Brush, x, y, r float64, heading units.CompassHeading) {
	h := heading.Degrees()
	b.ring(x, y, r, 0.06)
	for k := range 12 {
		width := 1.1
		if k%3 == 0 {
			width = 1.8
		}
		b.tick(x, y, r*0.93, r*0.78, float64(k)*30-h, width*b.K.Symbol(), b.C.Ink)
	}
	for k, s := range compassLetters() {
		b.upright(paint.Polar(x, y, r*0.5, float64(k)*90-h), s, math.Min(b.K.Figure(r*0.4/b.K.Part), r*0.56), b.C.Ink2)
	}
	b.polygon(b.C.Brass, b.C.BrassLo, b.K.Hair(), paint.Pt(x-r*0.12, y-r*1.1), paint.Pt(x+r*0.12, y-r*1.1), paint.Pt(x, y-r*0.74))
}
