package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// The row of the heading: compass, deviation card, variation setter, repeater.

const (
	rowY  = 716.0 // of its shaft
	dialR = 64.0
)

// The curve of the deviation card: where it begins, how wide a circle is, where
// zero lies and how high a degree is.
const cardX, cardWide, cardY, cardTall = 286.0, 120.0, rowY + 4, 24.0

func cardAt(deg float64) float64 { return cardX + deg/360*cardWide }

func headingParts(s *LinkageScene) {
	turns := func(t *Turns) float64 { return t.Heading }
	s.shaft(shaft{LinkCompass, 194, rowY, 272, rowY, 14, turns})
	s.shaft(shaft{LinkDeviation, 420, rowY, 500, rowY, 14, turns})
	s.shaft(shaft{LinkVariation, 638, rowY, 728, rowY, 14, turns})
	s.shaft(shaft{LinkRepeater, 864, rowY, 1074, rowY, 14, turns})
	s.add(LinkCompass, 56, 644, 140, 146, func(l *seen, k *partKey) {
		k.put(float64(l.Hands.Compass))
		k.words(l.compass)
	}, func(d *draft) {
		p := d.at(126, rowY+6)
		d.headingCard(p.X, p.Y, dialR*d.f, units.Angle(d.l.Hands.Compass).Degrees(), d.l.compass)
	})
	s.fixed(LinkDeviation, func(l *seen, k *partKey) {
		k.put(l.Hands.Deviation[:]...)
		if t := l.Hands.TrueCurve; t != nil {
			k.put(t[:]...)
		}
	}, (*draft).deviationCard)
	s.add(LinkDeviation, 274, 658, 144, 124, func(l *seen, k *partKey) { k.put(float64(l.Hands.Compass), l.Hands.degreeTall()) }, (*draft).deviationPoint)
	s.fixed(LinkVariation, func(l *seen, k *partKey) { k.put(float64(l.Hands.Setter)) }, func(d *draft) {
		p := d.at(570, rowY+6)
		d.variationSetter(p.X, p.Y, dialR*d.f, d.l.Hands.Setter, true)
	})
	s.add(LinkRepeater, 726, 644, 140, 146, func(l *seen, k *partKey) {
		k.put(float64(l.Hands.Heading))
		k.words(l.heading)
	}, func(d *draft) {
		p := d.at(796, rowY+6)
		d.headingCard(p.X, p.Y, dialR*d.f, units.Angle(d.l.Hands.Heading).Degrees(), d.l.heading)
	})
	for _, p := range []struct {
		of   Link
		x, w float64 // of the plate, and how wide an error plate may be
	}{{LinkCompass, 126, 164}, {LinkDeviation, 346, 188}, {LinkVariation, 570, 188}, {LinkRepeater, 796, 188}} {
		s.add(p.of, p.x-96, 800, 192, 110, func(l *seen, k *partKey) { k.said(l, p.of) }, func(d *draft) {
			d.plateWide(p.of, p.x, d.plateY(), 124, p.w)
		})
	}
}

// plateY is where the plates of the row begin: with large type there must be two
// lines under them.
func (d *draft) plateY() float64 {
	if d.small {
		return 804
	}
	return 818
}

// plateWide is a plate whose error plate is wider than itself.
func (d *draft) plateWide(of Link, cx, y, w, errorW float64) {
	s := &d.l.Links[of]
	d.box(cx-w/2, y, w, 44, look.PlateRadius, d.C.Slate, d.heldEdge(s), 2)
	d.value(cx, y+31, w, s.Value, s.Unit, linkValue)
	if s.Wrong[0] != "" {
		d.errorPlate(cx-errorW/2, y+48, errorW, [2]string{s.Wrong[0]}, 2)
		return
	}
	d.verdict(s, cx-w/2, y+50, w, 1)
}

// deviationCard is the curve of the last swing, with the point of the present
// heading; what the compass really does lies beside it once it may be seen.
func (d *draft) deviationCard() {
	const left, wide, mid = cardX, cardWide, cardY
	x, tall := cardAt, d.l.Hands.degreeTall()
	d.box(272, 656, 148, 128, 10, d.C.Ground, d.C.Ink, 2)
	d.run(1.2, d.C.Ink2, left, mid, left+wide, mid)
	for b := 0.0; b <= 360; b += 90 {
		d.run(1.4, d.C.Ink2, x(b), mid-5, x(b), mid+5)
	}
	curve := func(all *[37]float64, c colour, sw float64) {
		var xy []float64
		for i, v := range all {
			xy = append(xy, x(10*float64(i)), cardY-v*tall)
		}
		d.run(sw, c, xy...)
	}
	if t := d.l.Hands.TrueCurve; t != nil {
		curve(t, d.C.Verm, 2)
	}
	curve(&d.l.Hands.Deviation, d.C.Ink, 2.4)
	d.text(290, 677, look.Text(look.East), look.Engraved, 14, paint.Start, d.C.Ink2)
	d.text(290, 778, look.Text(look.West), look.Engraved, 14, paint.Start, d.C.Ink2)
}

// degreeTall is how tall a degree is on the deviation card: less where a curve
// would leave it.
func (h *Hands) degreeTall() float64 {
	const room = 54.0
	most := 0.0
	for _, v := range h.Deviation {
		most = math.Max(most, math.Abs(v))
	}
	if h.TrueCurve != nil {
		for _, v := range h.TrueCurve {
			most = math.Max(most, math.Abs(v))
		}
	}
	return math.Min(cardTall, room/most) // all flat: +Inf
}

// deviationPoint is the point of the present heading on the curve.
func (d *draft) deviationPoint() {
	deg := units.Wrap(units.Angle(d.l.Hands.Compass)).Degrees()
	i := min(int(deg/10), 35)
	share := deg/10 - float64(i)
	v := d.l.Hands.Deviation[i]*(1-share) + d.l.Hands.Deviation[i+1]*share
	y := cardY - v*d.l.Hands.degreeTall()
	d.run(2, d.C.BrassLo, cardAt(deg), cardY, cardAt(deg), y)
	d.round(cardAt(deg), y, 7, d.C.Brass, d.C.BrassLo, 1.6)
}
