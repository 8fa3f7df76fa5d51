package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// SpeedCurve is true airspeed against height, exact and by the rule of thumb, with the
// height in hand.
type SpeedCurve struct {
	Feet, Exact, Rule []float64 // ft, kt; all of one length
	LastFeet          float64   // where the scale of heights ends
	AtFeet            float64
	AtExact, AtRule   float64
	ExactText         string // at the end of the curves: exact 234
	RuleText          string
}

// DrawSpeedCurve draws the curves in a box. A height that is off the scale has no mark.
func DrawSpeedCurve(b *Brush, box paint.Rect, s *SpeedCurve) {
	size := b.K.Figure(look.TextSmall)
	left := look.Engraved.Font().Width("8888", size)
	names := math.Max(look.Bold.Font().Width(s.ExactText, b.K.Text(look.TextBody)), look.Bold.Font().Width(s.RuleText, b.K.Text(look.TextBody)))
	p := paint.R(box.X+left+b.K.Px(12), box.Y+0.6*size, 0, box.H-2.4*size)
	p.W = box.Right() - names - b.K.Px(24) - p.X
	low, high, step := s.span(p.H / (1.4 * size))
	at := func(feet, knots float64) paint.Point {
		return paint.Pt(p.X+p.W*feet/s.LastFeet, p.Bottom()-p.H*(knots-low)/(high-low))
	}
	for v := low; v <= high+1e-9; v += step {
		q := at(0, v)
		b.line(q, paint.Pt(p.Right(), q.Y), b.K.Hair(), b.C.Line)
		b.write(p.X-b.K.Px(10), q.Y+0.36*size, figure(v), look.Engraved, size, paint.End, b.C.Ink2)
	}
	b.line(paint.Pt(p.X, p.Bottom()), paint.Pt(p.Right(), p.Bottom()), 1.4*b.K.Device, b.C.Ink)
	for _, feet := range s.heights(p.W / (look.Engraved.Font().Width("25000", size) + 2*size)) {
		q := at(feet, low)
		b.line(q, q.Add(0, b.K.Px(6)), 1.4*b.K.Device, b.C.Ink)
		b.write(q.X, q.Y+b.K.Px(10)+size, figure(feet), look.Engraved, size, paint.Middle, b.C.Ink2)
	}
	b.curves(p, s, at)
}

// curves draws the two curves, their marks and names.
func (b *Brush) curves(p paint.Rect, s *SpeedCurve, at func(feet, knots float64) paint.Point) {
	if len(s.Feet) == 0 {
		return
	}
	var exact, rule []paint.Point
	for i, feet := range s.Feet {
		exact, rule = append(exact, at(feet, s.Exact[i])), append(rule, at(feet, s.Rule[i]))
	}
	k := b.K.Symbol()
	b.roundLine(3*k, b.C.Ink, exact...)
	b.Stroke(b.path.Reset().Polyline(rule...), paint.Pen{Width: 2.4 * k, Dash: []float64{9 * k, 6 * k}}, b.C.BrassText)
	if s.AtFeet >= 0 && s.AtFeet <= s.LastFeet {
		q := at(s.AtFeet, s.AtRule)
		b.disc(q.X, q.Y, 6*k, b.C.Card, b.C.BrassLo, 2*k)
		q = at(s.AtFeet, s.AtExact)
		b.disc(q.X, q.Y, 6*k, b.C.BrassHi, b.C.BrassLo, 2*k)
	}
	p.W = exact[len(exact)-1].X - p.X // the names stand where the curves end
	b.spreadNames(p, []spreadName{
		{exact[len(exact)-1].Y, s.ExactText, b.C.Ink, none}, {rule[len(rule)-1].Y, s.RuleText, b.C.BrassText, none},
	})
}

// span is the scale of speeds with no more than so many steps.
func (s *SpeedCurve) span(most float64) (low, high, step float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range s.Feet {
		low, high = math.Min(low, math.Min(s.Exact[i], s.Rule[i])), math.Max(high, math.Max(s.Exact[i], s.Rule[i]))
	}
	if low > high {
		return 0, 1, 1
	}
	step = NiceStep((high - low) / math.Max(2, math.Min(most-1, 6)))
	return step * math.Floor(low/step), step * math.Ceil(high/step), step
}

// heights are the heights of the scale, no more than so many.
func (s *SpeedCurve) heights(most float64) (all []float64) {
	step := NiceStep(s.LastFeet / math.Max(1, math.Min(most, 6)))
	for feet := 0.0; feet <= s.LastFeet+1e-9; feet += step {
		all = append(all, feet)
	}
	return all
}
