package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// A Box tells the room a dial of radius r takes round its middle, which is
// (0, 0), in device pixels.
type Box func(k look.Size, r float64) paint.Rect

// HeadingCardBox is the room of HeadingCard.
func HeadingCardBox(_ look.Size, r float64) paint.Rect { return span(1.03*r, 1.15*r, 1.03*r) }

// AirspeedFanBox is the room of AirspeedFan, whose middle is the pivot of its
// needle; the value below is part of it.
func AirspeedFanBox(k look.Size, r float64) paint.Rect {
	figure := k.Figure(r * 0.165 / k.Part)
	top := math.Max(r*1.27, r*1.12+figure*0.46) + figure*0.4
	// The outermost figures stand at 42.5 degrees when the scale begins at 100.
	side := math.Max(r*1.27, r*1.12+figure*1.1)*math.Sin(fanHalf*math.Pi/180) + figure
	value := fanUnitAt(k, "888") + look.Regular.Font().Width(look.Text(look.Knots), k.Text(look.TextBody))
	return span(math.Max(side, value), top, r*0.12+k.Text(fanValue)*1.02)
}

// WindSetterBox is the room of WindSetter, knob included.
func WindSetterBox(_ look.Size, r float64) paint.Rect { return span(1.19*r, 1.19*r, 1.19*r) }

// VariationSetterBox is the room of VariationSetter: knob and letters beside.
func VariationSetterBox(k look.Size, r float64) paint.Rect {
	return span(1.24*r+besideSize(k, r)*0.45, 1.19*r, 1.19*r)
}

// SmallDialBox is the room of SmallDial.
func SmallDialBox(_ look.Size, r float64) paint.Rect { return span(1.03*r, 1.03*r, 1.03*r) }

// StandbyCompassBox is the room of StandbyCompass, lubber line included.
func StandbyCompassBox(_ look.Size, r float64) paint.Rect { return span(1.03*r, 1.12*r, 1.03*r) }

func span(side, up, down float64) paint.Rect { return paint.R(-side, -up, 2*side, up+down) }

// FitDial finds the largest dial that fits into the area, in its middle, and
// gives its own middle and radius; r is 0 if not even the smallest does.
func FitDial(area paint.Rect, k look.Size, box Box) (x, y, r float64) {
	low, high := 0.0, math.Max(area.W, area.H)
	for range 40 { // to a thousandth of a pixel and beyond
		r = (low + high) / 2
		if q := box(k, r); q.W <= area.W && q.H <= area.H {
			low = r
		} else {
			high = r
		}
	}
	q, m := box(k, low), area.Centre()
	c := q.Centre()
	return m.X - c.X, m.Y - c.Y, low
}

// VariationField is where the value of VariationSetter stands; a tap there
// opens it for typing.
func VariationField(k look.Size, x, y, r float64, v units.Variation) paint.Rect {
	text := look.Engraved.Font().Width(variationText(v), variationSize(k, r))
	w := math.Max(math.Max(40*k.Device, r*0.74), text+0.14*r)
	h := math.Max(22*k.Device, r*0.42)
	return paint.R(x-w/2, y-h/2, w, h)
}

// WindAt is the direction, to the whole degree, from which the wind blows when
// the hand at p holds the knob of a wind setter round (x, y). ok is false at
// the very middle, where no direction can be told.
func WindAt(x, y, r float64, p paint.Point) (from units.Angle, ok bool) {
	d, ok := directionAt(x, y, r, p)
	return units.Angle(math.Mod(math.Round(d), 360)) * units.Degree, ok
}

// VariationAt is the variation, to the whole degree, at which the hand at p
// holds the knob of a variation setter round (x, y): 180 W to 179 E.
func VariationAt(x, y, r float64, p paint.Point) (v units.Variation, ok bool) {
	d, ok := directionAt(x, y, r, p)
	return units.Variation(units.WrapHalfDegrees(math.Round(d))) * units.Variation(units.Degree), ok
}

// directionAt is the direction of p from (x, y), degrees from 0 to 360.
func directionAt(x, y, r float64, p paint.Point) (float64, bool) {
	c := paint.Pt(x, y)
	if p.Dist(c) < 0.12*r {
		return 0, false
	}
	return units.WrapDegrees(math.Atan2(p.X-x, y-p.Y) * 180 / math.Pi), true
}

// OnRing says whether p is on the ring of a setter or its knob, or near enough
// to take hold of it: within half a target of the rim.
func OnRing(k look.Size, x, y, r float64, p paint.Point) bool {
	reach := math.Max(0.3*r, look.Control/2*k.Device)
	return math.Abs(p.Dist(paint.Pt(x, y))-r) <= reach
}
