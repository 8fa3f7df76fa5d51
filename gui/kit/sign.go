package kit

import (
	"image/color"
	"math"

	"stillair/gui/paint"
)

// Sign is a small drawing on a key.
type Sign uint8

// The signs.
const (
	NoSign Sign = iota
	PlaySign
	PauseSign
	StepSign
	StepBackSign
	RestartSign
	PlusSign
	MinusSign
	FitSign
	FollowSign
	RevealSign
	NightSign
	PaperSign
	FullScreenSign
	HelpSign
	LampSign
	BesideSign
	PlotSign // two lines that cross, and a fix
)

// DrawSign draws a sign round (x, y), size high.
func DrawSign(s paint.Surface, sign Sign, x, y, size float64, ink color.NRGBA) {
	var p paint.Path
	r := size / 2
	pen := paint.Pen{Width: math.Max(1.5, size*0.11), Cap: paint.Round}
	switch sign {
	case PlaySign:
		p.Polygon(paint.Pt(x-0.7*r, y-r), paint.Pt(x+0.95*r, y), paint.Pt(x-0.7*r, y+r))
		s.Fill(&p, ink)
	case PauseSign:
		p.Rect(paint.R(x-0.7*r, y-0.9*r, 0.45*r, 1.8*r)).Rect(paint.R(x+0.25*r, y-0.9*r, 0.45*r, 1.8*r))
		s.Fill(&p, ink)
	case StepSign, StepBackSign:
		k := r
		if sign == StepBackSign {
			k = -r
		}
		p.Polygon(paint.Pt(x-0.8*k, y-0.9*r), paint.Pt(x+0.4*k, y), paint.Pt(x-0.8*k, y+0.9*r))
		s.Fill(&p, ink)
		p.Reset().Rect(paint.R(math.Min(x+0.5*k, x+0.85*k), y-0.9*r, 0.35*r, 1.8*r))
		s.Fill(&p, ink)
	case RestartSign:
		p.Arc(x, y, 0.8*r, -40, 250)
		s.Stroke(&p, pen, ink)
		tip := paint.Polar(x, y, 0.8*r, -40)
		p.Reset().Polygon(tip.Add(-0.62*r, 0.1*r), tip.Add(0.18*r, -0.52*r), tip.Add(0.2*r, 0.42*r))
		s.Fill(&p, ink)
	case PlusSign, MinusSign:
		p.MoveTo(x-0.65*r, y).LineTo(x+0.65*r, y)
		if sign == PlusSign {
			p.MoveTo(x, y-0.65*r).LineTo(x, y+0.65*r)
		}
		s.Stroke(&p, pen, ink)
	case FitSign, FullScreenSign:
		for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			p.MoveTo(x+0.85*r*q[0], y+0.35*r*q[1]).LineTo(x+0.85*r*q[0], y+0.85*r*q[1]).LineTo(x+0.35*r*q[0], y+0.85*r*q[1])
		}
		s.Stroke(&p, pen, ink)
		if sign == FitSign {
			p.Reset().Circle(x, y, 0.22*r)
			s.Fill(&p, ink)
		}
	case FollowSign:
		p.Circle(x, y, 0.34*r)
		s.Fill(&p, ink)
		p.Reset().MoveTo(x, y-0.55*r).LineTo(x, y-r).MoveTo(x-0.28*r, y-0.72*r).LineTo(x, y-r).LineTo(x+0.28*r, y-0.72*r)
		s.Stroke(&p, pen, ink)
	case RevealSign:
		p.Polygon(paint.Pt(x, y-r), paint.Pt(x+r, y), paint.Pt(x, y+r), paint.Pt(x-r, y))
		s.Stroke(&p, pen, ink)
	case NightSign, PaperSign, LampSign:
		drawLight(s, sign, x, y, r, pen, ink)
	case PlotSign:
		p.MoveTo(x-0.95*r, y+0.45*r).LineTo(x+0.95*r, y-0.15*r).MoveTo(x-0.5*r, y-0.95*r).LineTo(x+0.45*r, y+0.95*r)
		s.Stroke(&p, pen, ink)
		p.Reset().MoveTo(x-0.05*r, y-0.42*r).LineTo(x+0.42*r, y+0.38*r).LineTo(x-0.52*r, y+0.38*r).Close()
		s.Fill(&p, ink)
	case BesideSign: // two sheets
		p.Rect(paint.R(x-r, y-0.75*r, 0.85*r, 1.5*r)).Rect(paint.R(x+0.15*r, y-0.75*r, 0.85*r, 1.5*r))
		s.Stroke(&p, pen, ink)
	case HelpSign:
		p.Arc(x, y-0.35*r, 0.48*r, -90, 130).LineTo(x, y+0.42*r)
		s.Stroke(&p, pen, ink)
		p.Reset().Circle(x, y+0.85*r, 0.14*r)
		s.Fill(&p, ink)
	}
}

// drawLight draws the sign of a light to read by.
func drawLight(s paint.Surface, sign Sign, x, y, r float64, pen paint.Pen, ink color.NRGBA) {
	var p paint.Path
	switch sign {
	case NightSign: // a crescent: the rim of the moon, back along the edge of its shadow
		tip := paint.Polar(x, y, 0.95*r, 15)
		p.Arc(x, y, 0.95*r, 105, 375)
		p.CubicTo(tip.Add(-0.75*r, 0.5*r), tip.Add(-0.35*r, 1.5*r), paint.Polar(x, y, 0.95*r, 105)).Close()
		s.Fill(&p, ink)
	case PaperSign:
		p.Circle(x, y, 0.45*r)
		s.Fill(&p, ink)
		p.Reset()
		for a := 0.0; a < 360; a += 45 {
			p.Segment(paint.Polar(x, y, 0.68*r, a), paint.Polar(x, y, r, a))
		}
		s.Stroke(&p, pen, ink)
	case LampSign: // a bulb: globe, neck and two rings of its cap
		p.Arc(x, y-0.25*r, 0.62*r, -220, 40).LineTo(x+0.28*r, y+0.52*r).LineTo(x-0.28*r, y+0.52*r).Close()
		p.MoveTo(x-0.26*r, y+0.76*r).LineTo(x+0.26*r, y+0.76*r).MoveTo(x-0.16*r, y+0.98*r).LineTo(x+0.16*r, y+0.98*r)
		s.Stroke(&p, pen, ink)
	}
}
