package charttable

import (
	"math"
	"time"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// aheadFor is how far the forecast of a fault looks.
const aheadFor = 20 * time.Minute

// dialTold is what a dial will read, and whether that is wrong.
type dialTold struct {
	name  look.Key
	value string
	wrong bool // so far that an eye sees it
}

// outlookOf are the dials of a forecast.
func outlookOf(l *helm.Outlook) []dialTold {
	a, z := &l.Sound, &l.Broken
	off := func(x, y float64, least float64) bool { return math.Abs(x-y) >= least }
	apart := func(p, q units.Position) dialTold {
		_, d := geodesy.RhumbInverse(p, q)
		told := dialTold{value: units.DistanceText(d), wrong: d.NM() >= 0.1}
		if told.wrong {
			told.value = look.Textf(look.PinOff, told.value)
		}
		return told
	}
	air := apart(units.Position(a.Air), units.Position(z.Air))
	ground := apart(units.Position(a.Marker), units.Position(z.Marker))
	air.name, ground.name = look.AirPositionTitle, look.BreakMarker
	return []dialTold{
		{look.Indicated, units.SpeedText(z.IAS), off(a.IAS.Knots(), z.IAS.Knots(), 1)},
		{look.TrueAirspeed, units.SpeedText(z.TAS), off(a.TAS.Knots(), z.TAS.Knots(), 1)},
		{look.AirLogCounter, units.DistanceText(z.AirLog), off(a.AirLog.NM(), z.AirLog.NM(), 0.1)},
		{look.PressureAlt, units.HeightText(z.PressureAltitude), off(a.PressureAltitude.Feet(), z.PressureAltitude.Feet(), 20)},
		headingTold(a, z),
		{look.VariationSet, z.VariationSet.Tenths(), off(a.VariationSet.Degrees(), z.VariationSet.Degrees(), 0.3)},
		air, ground,
	}
}

func headingTold(a, z *aboard.View) dialTold {
	d := units.WrapHalf(units.Angle(z.Heading) - units.Angle(a.Heading)).Degrees()
	return dialTold{look.TrueHeading, z.Heading.String(), math.Abs(d) >= 0.5}
}

// words are the value and, where it is wrong and does not say so, a sign.
func (t *dialTold) words() string {
	if t.wrong && t.name != look.AirPositionTitle && t.name != look.BreakMarker {
		return t.value + " \u2260"
	}
	return t.value
}

// foresee asks for the forecast of the fault on the page.
func (b *breakage) foresee() {
	b.outlook = nil
	b.asked++
	turn := b.asked
	o := b.order
	o.Params = append([]float64(nil), o.Params...)
	b.shape(&o)
	b.table.helm.Forecast(o, aheadFor, func(l helm.Outlook) {
		b.onMain(func() {
			if turn == b.asked {
				b.outlook = outlookOf(&l)
				b.paper.Repaint()
			}
		})
	})
}

// forecast is the passage of the dials of the forecast.
func (p *page) forecast() passage {
	small := noteType(p.z)
	const across = 2
	pitch := 1.7 * small.Size
	rows := (len(p.outlook) + across - 1) / across
	return passage{tall: float64(rows)*pitch + 1.8*small.Size, draw: func(y float64) {
		c, u := p.paper.Palette(), p.z.Device
		y += 1.3 * small.Size
		p.d.Text(p.left, y-0.2*small.Size, look.Text(look.BreakForecast), small, c.Ink2)
		cell := (p.room - 6*u) / across
		for i, t := range p.outlook {
			p.dial(paint.R(p.left+float64(i%across)*(cell+6*u), y+float64(i/across)*pitch+2*u, cell, pitch-3*u), &t)
		}
	}}
}

// dial is one dial of the forecast.
func (p *page) dial(r paint.Rect, t *dialTold) {
	c, u, small := p.paper.Palette(), p.z.Device, noteType(p.z)
	fill, ink := c.Low, c.Ink2
	if t.wrong {
		fill, ink = c.VermFill, c.Ink
	}
	p.d.Fill(new(paint.Path).RoundRect(r, 3*u), fill)
	base := r.Y + r.H/2 + 0.35*small.Size
	p.d.Text(r.X+8*u, base, look.Text(t.name), small, ink)
	p.d.Text(r.Right()-8*u, base, t.words(), paint.Type{Font: look.Semibold.Font(), Size: small.Size, Anchor: paint.End}, c.Ink)
}
