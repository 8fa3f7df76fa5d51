package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// The upper row of the air: pressures, capsules, air log, its counter, clutch.

const mainY = 276.0 // of the main shaft

func airParts(s *LinkageScene) {
	s.add(LinkPitot, 90, 240, 266, 38, nil, (*draft).pitotLine)
	s.add(LinkStatic, 146, 314, 198, 44, nil, (*draft).staticLine)
	s.add(LinkCapsules, 344, 232, 124, 106, func(l *seen, k *partKey) { k.put(l.Hands.Impact) }, (*draft).capsules)
	s.shaft(shaft{LinkCapsules, 464, mainY, 494, mainY, 8, nil})
	s.add(LinkAirLog, 500, 238, 140, 76, func(l *seen, k *partKey) {
		k.put(l.Turns.AirLog, float64(l.Hands.Temperature))
	}, (*draft).airLog)
	s.add(LinkAirLog, 518, 304, 110, 82, func(l *seen, k *partKey) {
		k.words(l.temperature)
		k.put(float64(l.Hands.Temperature))
	}, (*draft).thermometer)
	airLog := func(t *Turns) float64 { return t.AirLog }
	s.shaft(shaft{LinkAirLog, 644, mainY, 815, mainY, 26, airLog})
	s.shaft(shaft{LinkDrive, 815, mainY, 1014, mainY, 26, func(t *Turns) float64 { return t.Drive }})
	s.shaft(shaft{LinkAirLog, 690, mainY - 12, 690, 214, 14, airLog})
	s.add(LinkAirLog, 672, 252, 36, 24, nil, func(d *draft) { d.takeOff(690, mainY-4, -1, 13) })
	s.add(LinkDrive, 760, 224, 110, 104, nil, (*draft).clutch)
	s.add(LinkCounter, 606, 164, 170, 52, func(l *seen, k *partKey) { k.counter(&l.Hands.AirLog) }, func(d *draft) {
		d.counter(690, 166, 40, Counter{Reading: d.l.Hands.AirLog, Row: MilesRow}, 0.5)
	})
	s.add(LinkCounter, 776, 164, 148, 52, func(l *seen, k *partKey) { k.said(l, LinkCounter) }, (*draft).counterNote)
	for _, p := range []struct {
		of   Link
		x, w float64
	}{{LinkPitot, 112, 136}, {LinkStatic, 257, 136}, {LinkCapsules, 402, 136}, {LinkAirLog, 562, 148}, {LinkDrive, 800, 156}} {
		s.add(p.of, p.x-p.w/2-2, 410, p.w+4, 108, func(l *seen, k *partKey) { k.said(l, p.of) }, func(d *draft) { d.plate(p.of, p.x, 412, p.w, 2) })
	}
	s.add(NoLink, 56, 528, 840, 34, nil, (*draft).legend)
}

// counter draws drums of height h, of whose width a part lies left of x, from
// y downwards.
func (d *draft) counter(x, y, h float64, c Counter, part float64) {
	c.Fast = d.l.Fast
	w, _ := CounterSize(c, h*d.f)
	p := d.at(x, y)
	DrumCounter(d.Brush, p.X-part*w, p.Y, h*d.f, c)
}

func (d *draft) pitotLine() {
	d.run(7, d.C.Air, 190, 258, 322, 258, 322, 262, 350, 262)
	d.box(94, 246, 100, 24, 12, d.C.SlateHi, d.C.Ink, 1.6)
	d.box(92, 252, 22, 12, 2, d.C.Air, none, 0)
	d.box(114, 255, 78, 6, 0, d.C.Air, none, 0)
}

func (d *draft) staticLine() {
	d.run(7, d.C.Wind, 194, 336, 337, 336)
	d.box(150, 318, 44, 36, 4, d.C.SlateHi, d.C.Ink, 1.6)
	d.round(172, 336, 6, d.C.Card, d.C.Ink, 1.6)
}

// Capsules swell from their least to their greatest height with the difference
// of the pressures.
const capsuleLeast, capsuleMost = 8.0, 13.0

// CapsuleAxis is the smaller half-axis of a capsule, in units of the picture, at
// an impact from 0 to 1.
func CapsuleAxis(impact float64) float64 {
	return capsuleLeast + (capsuleMost-capsuleLeast)*math.Max(0, math.Min(1, impact))
}

func (d *draft) capsules() {
	axis := CapsuleAxis(d.l.Hands.Impact)
	rise := axis - 11
	for i := range 3 {
		y := 252 + 24*float64(i)
		d.ellipse(396, y, 38, math.Min(axis, 11.8), d.C.BrassHi, d.C.BrassLo, 1.6)
		d.run(1, d.C.BrassLo, 360, y, 432, y)
	}
	d.run(5, d.C.Air, 340, 262, 350, 262, 350, 276, 358, 276)
	foot := 326 + rise // the lever follows the lowest capsule
	d.run(4, d.C.BrassLo, 396, 311, 396, foot)
	d.run(4, d.C.Rod, 396, foot, 442, 326, 442, 276, 464, 276)
	d.round(442, 326, 5, d.C.BrassHi, d.C.BrassLo, 1.5)
	d.round(396, foot, 5, d.C.BrassHi, d.C.BrassLo, 1.5)
}

func (d *draft) ellipse(x, y, rx, ry float64, fill, outline colour, sw float64) {
	p := d.at(x, y)
	rx, ry = rx*d.f, ry*d.f
	const k = 0.5523
	d.path.Reset().MoveTo(p.X-rx, p.Y)
	d.path.CubicTo(paint.Pt(p.X-rx, p.Y-k*ry), paint.Pt(p.X-k*rx, p.Y-ry), paint.Pt(p.X, p.Y-ry))
	d.path.CubicTo(paint.Pt(p.X+k*rx, p.Y-ry), paint.Pt(p.X+rx, p.Y-k*ry), paint.Pt(p.X+rx, p.Y))
	d.path.CubicTo(paint.Pt(p.X+rx, p.Y+k*ry), paint.Pt(p.X+k*rx, p.Y+ry), paint.Pt(p.X, p.Y+ry))
	d.path.CubicTo(paint.Pt(p.X-k*rx, p.Y+ry), paint.Pt(p.X-rx, p.Y+k*ry), paint.Pt(p.X-rx, p.Y))
	d.path.Close()
	d.shape(fill, outline, sw*d.f)
}

// camTurn is how far the density cam turns for a degree of temperature.
const camTurn = 3.0

// airLog draws the density cam, turned by the temperature, and the wheel that
// runs with the shaft.
func (d *draft) airLog() {
	d.gear(596, mainY, 32, 18, 20+360*d.l.Turns.AirLog)
	m, turn := d.at(530, mainY), camTurn*d.l.Hands.Temperature.Celsius()
	d.path.Reset()
	for i := range 40 {
		b := 9 * float64(i)
		r := 20 + 7*math.Sin((b-30)*math.Pi/180) + 3*math.Sin(2*b*math.Pi/180)
		p := paint.Polar(m.X, m.Y, r*d.f, b+turn)
		if i == 0 {
			d.path.MoveTo(p.X, p.Y)
		} else {
			d.path.LineTo(p.X, p.Y)
		}
	}
	d.path.Close()
	d.shape(d.C.BrassHi, d.C.BrassLo, 1.6*d.f)
	d.round(530, mainY, 4, d.C.Slate, none, 0)
	d.run(4, d.C.Rod, 554, mainY, 564, mainY)
}

func (d *draft) thermometer() {
	t := d.l.Hands.Temperature.Celsius()
	level := math.Max(4, math.Min(40, 22+0.35*t))
	d.run(4, d.C.Rod, 530, 306, 530, 326)
	d.box(525, 326, 10, 46, 5, d.C.Card, d.C.Ink, 1.4)
	d.box(528, 368-level, 4, level, 0, d.C.Ink, none, 0)
	d.round(530, 374, 8, d.C.Ink2, d.C.Ink, 1.4)
	d.text(546, 381, d.l.temperature, look.Regular, linkCaption, paint.Start, d.C.Ink2)
}

// clutch draws its two plates: together with the notches in line, or apart and
// out of line.
func (d *draft) clutch() {
	left, right, notch := 800.0, 816.0, 268.0
	broken := d.l.Links[LinkDrive].Stands == Broken
	edge := d.C.BrassLo
	if broken {
		left, right, notch, edge = 796, 834, 283, d.C.Verm
		d.box(810, mainY-16, 24, 32, 0, d.zoneGround(), none, 0)
	}
	d.box(left, 252, 14, 48, 2, d.C.BrassHi, d.C.BrassLo, 1.6)
	d.box(right, 252, 14, 48, 2, d.C.BrassHi, edge, 1.6)
	d.box(left+1, 268, 12, 8, 0, d.C.OnBrass, none, 0)
	d.box(right+1, notch, 12, 8, 0, d.C.OnBrass, none, 0)
	if d.l.Links[LinkDrive].Stands == Unjudged {
		d.caption(815, 320, look.Text(look.LinkClutchWord), paint.Middle)
	}
}

func (d *draft) counterNote() {
	s := &d.l.Links[LinkCounter]
	words, ink := s.Note, d.C.Ink2
	if s.Wrong[0] != "" {
		words, ink = s.Wrong, d.onWrong()
	}
	if d.small {
		if s.Wrong[0] == "" {
			return
		}
		words = folded(words[0])
	}
	first := look.Regular
	if s.Wrong[0] != "" {
		first = look.Bold
	}
	d.fit(782, 184, 138, words[0], first, 15.5, paint.Start, ink)
	d.fit(782, 206, 138, words[1], look.Regular, 15.5, paint.Start, ink)
}

// legend says how the brass is to be read.
func (d *draft) legend() {
	if d.l.Links[LinkAirLog].Stands == Unjudged {
		d.text(60, 550, look.Text(look.LinkFollowBrass), look.Regular, linkName, paint.Start, d.C.Ink2)
		return
	}
	sample := func(x float64, striped bool, word look.Key) {
		r := paint.R(x, 537, 90, 14)
		d.box(r.X, r.Y, r.W, r.H, 0, d.C.Brass, none, 0)
		d.box(r.X, r.Y, r.W, 4, 0, d.C.BrassHi, none, 0)
		edge := d.C.BrassLo
		if striped {
			d.slanted(r, 0, 16, 7, d.C.Verm, true)
			edge = d.C.Verm
		} else {
			d.slanted(r, 9, turnPitch, 5, d.C.BrassLo, true)
		}
		d.box(r.X, r.Y, r.W, r.H, 0, none, edge, 1.5)
		d.text(x+102, 550, look.Text(word), look.Regular, linkName, paint.Start, d.C.Ink)
	}
	sample(60, false, look.LinkPlainBrass)
	sample(372, true, look.LinkStripedBrass)
}
