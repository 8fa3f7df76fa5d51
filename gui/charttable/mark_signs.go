package charttable

import (
	"image/color"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// signBrush draws the symbols of the time line.
type signBrush struct {
	*picture.Brush
	k float64 // size, 1 at 1080 lines
}

// mark draws a symbol round p, hollow if it is still ahead.
func (b *signBrush) mark(m *mark, p paint.Point) {
	switch m.kind {
	case countersMark:
		b.counters(p, m.ahead)
	case windMark:
		b.wind(p, m.ahead)
	case variationMark:
		b.variation(p, m.ahead)
	case leverMark:
		b.lever(p, m.ahead)
	case slewMark:
		b.slew(p, m.ahead)
	case brokenMark:
		b.broken(p, m.ahead)
	case mendedMark:
		b.mended(p)
	default:
		b.other(p, m.ahead)
	}
}

func (b *signBrush) stroke(width float64, c color.NRGBA, pts ...paint.Point) {
	b.Stroke(new(paint.Path).Polyline(pts...), paint.Pen{Width: width * b.k, Cap: paint.Round}, c)
}

// outlined fills a shape, unless it is still ahead, and outlines it.
func (b *signBrush) outlined(p *paint.Path, fill, edge color.NRGBA, ahead bool) {
	width := 1.8
	if ahead {
		fill, width = b.C.Card, 1.5
	}
	b.Fill(p, fill)
	b.Stroke(p, paint.Pen{Width: width * b.k}, edge)
}

func (b *signBrush) counters(p paint.Point, ahead bool) {
	k := b.k
	if !ahead {
		b.CountersBox(p, k)
		return
	}
	b.outlined(new(paint.Path).Rect(paint.R(p.X-8*k, p.Y-8*k, 16*k, 16*k)), b.C.Card, b.C.Ink2, true)
	b.stroke(1.6, b.C.Ink2, p.Add(-4*k, 0), p.Add(-1*k, 4*k), p.Add(5*k, -5*k))
}

// wind is a small line with the three heads of the wind.
func (b *signBrush) wind(p paint.Point, ahead bool) {
	k, c := b.k, b.C.Wind
	b.stroke(2.2, c, p.Add(-9*k, 0), p.Add(3*k, 0))
	for _, x := range []float64{-1, 4, 9} {
		var head paint.Path
		head.Polygon(p.Add(x*k, 0), p.Add((x-6)*k, -5*k), p.Add((x-6)*k, 5*k))
		if ahead {
			b.Fill(&head, b.C.Card)
			b.Stroke(&head, paint.Pen{Width: 1.2 * k}, c)
		} else {
			b.Fill(&head, c)
		}
	}
}

// variation is a ring with its knob turned from the top.
func (b *signBrush) variation(p paint.Point, ahead bool) {
	k := b.k
	b.outlined(new(paint.Path).Circle(p.X, p.Y, 7*k), b.C.Card, b.C.BrassText, ahead)
	b.stroke(1.5, b.C.BrassText, p, p.Add(0, -4.5*k))
	knob := paint.Polar(p.X, p.Y, 7*k, 45)
	b.outlined(new(paint.Path).Circle(knob.X, knob.Y, 3.2*k), b.C.Brass, b.C.BrassText, ahead)
}

// lever is an arm with a knob on a foot.
func (b *signBrush) lever(p paint.Point, ahead bool) {
	k := b.k
	b.stroke(2.2, b.C.Ink, p.Add(-8*k, 7*k), p.Add(8*k, 7*k))
	b.stroke(2.2, b.C.Ink, p.Add(-2*k, 7*k), p.Add(4*k, -4*k))
	b.outlined(new(paint.Path).Circle(p.X+4.5*k, p.Y-5*k, 3.6*k), b.C.Brass, b.C.Ink, ahead)
}

// slew is a drum with a turn up and a turn down.
func (b *signBrush) slew(p paint.Point, ahead bool) {
	k := b.k
	b.outlined(new(paint.Path).RoundRect(paint.R(p.X-6*k, p.Y-9*k, 12*k, 18*k), 2.5*k), b.C.BrassHi, b.C.BrassLo, ahead)
	ink := b.C.OnBrass
	if ahead {
		ink = b.C.Ink2
	}
	b.stroke(1.6, ink, p.Add(-3*k, -2*k), p.Add(0, -5.5*k), p.Add(3*k, -2*k))
	b.stroke(1.6, ink, p.Add(-3*k, 2*k), p.Add(0, 5.5*k), p.Add(3*k, 2*k))
}

func (b *signBrush) other(p paint.Point, ahead bool) {
	b.outlined(new(paint.Path).Circle(p.X, p.Y, 6*b.k), b.C.Card, b.C.Ink, ahead)
	if !ahead {
		b.Fill(new(paint.Path).Circle(p.X, p.Y, 2.4*b.k), b.C.Ink)
	}
}

// broken is the diamond with a broken stroke.
func (b *signBrush) broken(p paint.Point, ahead bool) {
	if !ahead {
		b.FaultDiamond(p, 0.9*b.k)
		return
	}
	k := b.k
	b.outlined(new(paint.Path).Polygon(p.Add(0, -10*k), p.Add(10*k, 0), p.Add(0, 10*k), p.Add(-10*k, 0)), b.C.Card, b.C.Verm, true)
	b.stroke(1.5, b.C.Verm, p.Add(2*k, -5*k), p.Add(-3*k, 0.5*k), p.Add(3*k, -0.5*k), p.Add(-2*k, 5*k))
}

// mended is a circle struck through.
func (b *signBrush) mended(p paint.Point) {
	k := b.k
	b.outlined(new(paint.Path).Circle(p.X, p.Y, 7.5*k), b.C.Card, b.C.Verm, false)
	b.stroke(2, b.C.Verm, p.Add(-7*k, 7*k), p.Add(7*k, -7*k))
}

// flagWide and flagTall are the cloth of a moment's flag, before its size.
const flagWide, flagTall = 15.0, 17.0

// flag draws a named moment: a pole on the line at p and a cloth with its digit
// that begins at x.
func (b *signBrush) flag(p paint.Point, x float64, digit string, ahead bool, size float64) {
	k := b.k
	cloth := paint.R(x, p.Y-flagTall*k, flagWide*k, flagTall*k-2*k)
	fill, ink := b.C.Slate, b.C.OnSlate
	if ahead {
		fill, ink = b.C.Card, b.C.Ink
	}
	top := p.Y - flagTall*k
	b.Stroke(new(paint.Path).Polyline(p, paint.Pt(p.X, top), paint.Pt(x+cloth.W/2, top)), paint.Pen{Width: 1.5 * k}, b.C.SlateHi)
	path := new(paint.Path).Rect(cloth)
	b.Fill(path, fill)
	b.Stroke(path, paint.Pen{Width: b.K.Hair()}, b.C.SlateHi)
	m := cloth.Centre()
	b.Text(m.X, m.Y+0.36*size, digit, paint.Type{Font: look.Bold.Font(), Size: size, Anchor: paint.Middle}, ink)
}
