package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// ComputerCard is the card of the height-and-airspeed computer, and the card with its
// curve against height.
type ComputerCard struct {
	Rings          SpeedRings
	CAS, TAS, Rule string
	Difference     string
	Curve          SpeedCurve
	CurveTitle     string
	CurveShown     bool // where there is one card only: the curve stands in place of the rings
}

// ComputerCardPlaces is where things stand. Where there is no room for a second card
// Curve is empty, and the curve may stand in the place of the rings.
type ComputerCardPlaces struct {
	Card, Curve    paint.Rect
	Rings          paint.Rect // room of rings, or of the curve where that stands in their place
	Dial           SpeedDial
	Captions       paint.Rect
	CAS, TAS, Rule paint.Rect    // plates
	Difference     paint.Rect    // what is said of the rule
	Keys           [4]paint.Rect // height, temperature, less, more
	CurveKey       paint.Rect    // only where there is one card
	caption        float64       // height of the names over the plates
}

// twoCards is the height, units, from which the curve has a card of its own.
const twoCards = 640

// ComputerCardLayout lays the card out, or the two cards, in a box.
func ComputerCardLayout(z look.Size, box paint.Rect) ComputerCardPlaces {
	p := ComputerCardPlaces{Card: box}
	u := z.Device
	pad, gap := math.Max(z.Px(20), 10*u), 8*u
	if box.H >= twoCards*u {
		p.Card.H = math.Round(0.68 * box.H)
		y := p.Card.Bottom() + z.Px(look.GapCard)
		p.Curve = paint.R(box.X, y, box.W, box.Bottom()-y)
	}
	top := p.Card.Y + cardTitle(z)
	wide := math.Max(z.Px(252), 172*u)
	column := paint.R(p.Card.Right()-pad-wide, top, wide, p.Card.Bottom()-0.7*pad-top)
	small := z.Text(look.TextSmall)
	p.Captions = paint.R(p.Card.X+pad, p.Card.Bottom()-0.5*pad-2.6*small, column.X-p.Card.X-2*pad, 2.6*small)
	foot := p.Captions.Y
	if p.Curve.H == 0 {
		key := look.Control * u
		p.CurveKey = paint.R(p.Captions.Right()-96*u, p.Card.Bottom()-0.7*pad-key, 96*u, key)
		p.Captions.W -= 96*u + gap
		foot = p.CurveKey.Y
	}
	p.Rings = paint.R(p.Card.X+pad, top, column.X-p.Card.X-2*pad, foot-top)
	p.Dial = FitSpeedDial(z, p.Rings)
	p.column(z, column, gap)
	return p
}

// column lays out plates, sentence and keys from above.
func (p *ComputerCardPlaces) column(z look.Size, r paint.Rect, gap float64) {
	key := look.Control * z.Device
	half := (r.W - gap) / 2
	for i := range p.Keys {
		y := r.Bottom() - key - float64(1-i/2)*(key+gap)
		p.Keys[i] = paint.R(r.X+float64(i%2)*(half+gap), y, half, key)
	}
	p.caption = 1.35 * z.Text(look.TextSmall)
	body := 1.28 * z.Text(look.TextBody)
	lines := 3.0
	if p.Dial.DayBeside(z) {
		lines = 5
	}
	room := p.Keys[0].Y - r.Y - 3*p.caption - lines*body - 4*gap
	tall := math.Max(24*z.Device, math.Min(room/3, z.Px(60)))
	y := r.Y
	for _, q := range []*paint.Rect{&p.CAS, &p.TAS, &p.Rule} {
		*q = paint.R(r.X, y+p.caption, r.W, tall)
		y = q.Bottom() + gap
	}
	p.Difference = paint.R(r.X, y, r.W, p.Keys[0].Y-gap-y)
}

// DrawComputerCard draws the card, or the two cards, without the keys.
func DrawComputerCard(b *Brush, p ComputerCardPlaces, s *ComputerCard) {
	hint := look.Text(look.CalcRingHint)
	if s.CurveShown && p.Curve.H == 0 {
		hint = look.Text(look.CalcCurveUnit)
	}
	b.calculatorCard(p.Card, look.Text(look.CalcComputer), hint)
	if s.CurveShown && p.Curve.H == 0 {
		b.curveOn(p.Rings, s)
	} else {
		DrawSpeedRings(b, p.Dial, &s.Rings)
		b.ringCaptions(p.Captions)
	}
	b.answers(p, s)
	if p.Curve.H > 0 {
		b.calculatorCard(p.Curve, s.CurveTitle, look.Text(look.CalcCurveUnit))
		top, pad := cardTitle(b.K), math.Max(b.K.Px(20), 10*b.K.Device)
		DrawSpeedCurve(b, paint.R(p.Curve.X+pad, p.Curve.Y+top, p.Curve.W-2*pad, p.Curve.H-top-0.5*pad), &s.Curve)
	}
}

// curveOn draws the curve in the place of the rings, its title wrapped above it.
func (b *Brush) curveOn(r paint.Rect, s *ComputerCard) {
	y := b.paragraph(r, s.CurveTitle, b.C.Ink, false)
	y += 0.4 * b.K.Text(look.TextBody)
	DrawSpeedCurve(b, paint.R(r.X, y, r.W, r.Bottom()-y-0.5*b.K.Text(look.TextBody)), &s.Curve)
}

// ringCaptions say what the rings are, side by side or one above the other.
func (b *Brush) ringCaptions(r paint.Rect) {
	size := b.K.Text(look.TextSmall)
	outer, inner := look.Text(look.CalcOuterRing), look.Text(look.CalcBrassRing)
	width := func(s string) float64 { return look.Regular.Font().Width(s, size) }
	y := r.Y + 1.05*size
	if width(outer)+width(inner)+2*size <= r.W {
		y += 0.65 * size
		b.write(r.X+r.W/2-0.5*size-(width(inner)-width(outer))/2, y, outer, look.Regular, size, paint.End, b.C.Ink2)
		b.write(r.X+r.W/2+0.5*size-(width(inner)-width(outer))/2, y, inner, look.Regular, size, paint.Start, b.C.Ink2)
		return
	}
	b.write(r.X, y, outer, look.Regular, b.fitted(look.Regular, outer, size, r.W), paint.Start, b.C.Ink2)
	b.write(r.X, y+1.25*size, inner, look.Regular, b.fitted(look.Regular, inner, size, r.W), paint.Start, b.C.Ink2)
}

// answers draws the plates with their names, and what is said of the rule.
func (b *Brush) answers(p ComputerCardPlaces, s *ComputerCard) {
	knots, size := look.Text(look.CalcKnots), b.K.Text(look.TextSmall)
	for _, a := range []struct {
		at    paint.Rect
		name  look.Key
		value string
		exact bool
	}{{p.CAS, look.CalcCAS, s.CAS, true}, {p.TAS, look.CalcExact, s.TAS, true}, {p.Rule, look.CalcRule, s.Rule, false}} {
		name := look.Text(a.name)
		b.write(a.at.X, a.at.Y-0.42*size, name, look.Semibold, b.fitted(look.Semibold, name, size, a.at.W), paint.Start, b.C.Ink2)
		Plate(b, a.at, a.value, knots, a.exact)
	}
	y := b.paragraph(p.Difference, s.Difference, b.C.Ink, false)
	if p.Dial.DayBeside(b.K) {
		rest := p.Difference
		rest.H -= y - rest.Y
		rest.Y = y
		b.paragraph(rest, s.Rings.Day, b.C.Ink2, false)
	}
}
