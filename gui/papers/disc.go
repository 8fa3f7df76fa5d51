package papers

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// The height-and-airspeed discs. A full circle is a decade of speed:
//
//	angle of a speed    a(v) = 360 log10(v/100 kt)
//	of a temperature    a(T) = c + 180 log10(T/T0)         T0 = 288.15 K
//	of a height         a(h) = c + 180 log10(p(h)/p0)
//
// The inner disc is turned by r so that height stands against temperature,
// a(h) + r = a(T). Then r = 360 log10(sqrt((T/T0)/(p/p0))), which is
// 360 log10(TAS/CAS) but for compressibility: below 200 kt and 20,000 ft the
// disc reads at most 1.3 percent too much (disc_test.go, against isa).
const (
	discMiddle = 318.0 // c, degrees
	discOuter  = 71.0  // radius, mm
	discInner  = 55.0
)

func angleOfSpeed(kt float64) float64 { return 360 * math.Log10(kt/100) }

func angleOfTemperature(c float64) float64 {
	return discMiddle + 180*math.Log10(units.Celsius(c).Kelvins()/isa.Temperature(0).Kelvins())
}

func angleOfHeight(ft float64) float64 {
	return discMiddle + 180*math.Log10(isa.Pressure(units.Length(ft)*units.Foot).Pascals()/isa.Pressure(0).Pascals())
}

// scale is a graduation: ticks with their lengths, and figures.
type scale struct {
	angle            func(float64) float64
	at               paint.Point
	radius, side     float64 // side +1: ticks and figures outside the radius
	from, to         float64
	step             func(float64) float64 // of ticks
	five, ten, label func(float64) bool    // longer ticks, figures
	text             func(float64) string
}

func (d *draft) scale(s scale) {
	for v := s.from; v <= s.to+1e-9; v += s.step(v) {
		length, width := 1.5, hair
		switch {
		case s.ten(v):
			length, width = 3.2, line
		case s.five(v):
			length = 2.3
		}
		d.ray(s.at, s.angle(v), s.radius, s.radius+s.side*length, width, d.c.Ink)
		if s.label(v) {
			q := paint.Polar(s.at.X, s.at.Y, s.radius+s.side*5.4, s.angle(v))
			d.over(q.X, q.Y+0.9, s.text(v), look.Engraved, small, paint.Middle, d.c.Ink)
		}
	}
}

// every says whether a value is a multiple.
func every(n float64) func(float64) bool {
	return func(v float64) bool { return math.Abs(math.Remainder(v, n)) < 1e-6 }
}

func whole0(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// speeds is a scale of speeds.
func speeds(at paint.Point, side, from, to float64) scale {
	return scale{
		angle: angleOfSpeed, at: at, radius: discInner, side: side, from: from, to: to,
		step: func(v float64) float64 {
			switch {
			case v < 200-1e-6:
				return 1
			case v < 300-1e-6:
				return 2
			}
			return 5
		},
		five: every(5), ten: every(10), text: whole0,
		label: func(v float64) bool { return every(10)(v) && v < 200 || every(20)(v) && v < 300 || every(50)(v) },
	}
}

func (p DiscPage) draw(d *draft) {
	d.head(look.Text(look.PaperDiscTitle), p.Line, look.Text(look.PaperDiscLine))
	d.foot()
	outer := paint.Pt(margin+discOuter+1, 21+discOuter+2)
	inner := paint.Pt(d.right()-discInner-4, 21+discInner+3)
	d.outerDisc(outer)
	d.innerDisc(inner)
	x := outer.X + discOuter + 7
	y := inner.Y + discInner + 7
	d.paragraph(x, y, d.right()-x, look.Text(look.PaperDiscUse), look.Regular, note, d.c.Ink)
}

// outerDisc has true airspeeds and temperatures outside the edge of the inner one.
func (d *draft) outerDisc(at paint.Point) {
	d.circle(at.X, at.Y, discOuter, thin, d.c.Ink2)
	d.circle(at.X, at.Y, discInner, line, d.c.Ink)
	d.cross(at)
	d.scale(speeds(at, 1, 100, 450))
	d.scale(scale{
		angle: angleOfTemperature, at: at, radius: discInner, side: 1, from: -60, to: 40,
		step: func(float64) float64 { return 5 }, five: every(10), ten: every(20), label: every(20), text: whole0,
	})
	d.named(at, 9, discInner+11.6, look.PaperDiscTAS)
	d.named(at, 284, discInner+7, look.PaperDiscTemperature)
	d.band(at, discInner+9.6, angleOfTemperature(-60)-1, angleOfTemperature(40)+1)
	lines := wrap(look.Text(look.PaperDiscUnder), look.Regular, note, 60)
	for i, s := range lines {
		d.write(at.X, at.Y+12+float64(i)*3.8, s, look.Regular, note, paint.Middle, d.c.Ink2)
	}
}

// innerDisc has calibrated airspeeds and heights inside its edge.
func (d *draft) innerDisc(at paint.Point) {
	d.circle(at.X, at.Y, discInner, line, d.c.Ink)
	d.cross(at)
	d.scale(speeds(at, -1, 80, 400))
	thousands := every(5000)
	d.scale(scale{
		angle: angleOfHeight, at: at, radius: discInner, side: -1, from: 0, to: 30000,
		step: func(float64) float64 { return 500 }, five: every(1000), ten: thousands, label: thousands,
		text: func(v float64) string { return whole0(v / 1000) },
	})
	d.named(at, 80, discInner-25, look.PaperDiscCAS)
	d.named(at, 280, discInner-25, look.PaperDiscHeight)
	d.band(at, discInner-8, angleOfHeight(30000)-2, angleOfHeight(0)+2)
}

// band is an arc that holds a scale together.
func (d *draft) band(at paint.Point, r, from, to float64) {
	var q paint.Path
	d.Stroke(q.Arc(at.X, at.Y, r, from, to), paint.Pen{Width: thin}, d.c.Ink2)
}

// cross marks the middle, where the pin goes.
func (d *draft) cross(at paint.Point) {
	d.line(at.X-3, at.Y, at.X+3, at.Y, thin, d.c.Ink)
	d.line(at.X, at.Y-3, at.X, at.Y+3, thin, d.c.Ink)
	d.circle(at.X, at.Y, 1, thin, d.c.Ink)
}

// named writes what a scale is.
func (d *draft) named(at paint.Point, deg, r float64, words look.Key) {
	q := paint.Polar(at.X, at.Y, r, deg)
	d.over(q.X, q.Y+0.9, look.Text(words), look.Semibold, small, paint.Middle, d.c.Ink)
}
