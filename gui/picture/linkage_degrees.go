package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// The right: the northing shaft to the latitude drums and to the secant gear,
// the easting shaft through it to the longitude drums, and the branches to the
// ground position.

const (
	latBranch = 1548.0 // of the northing shaft, to the ground side
	lonBranch = 1434.0
	rightX    = 1866.0
	secantX   = 1484.0
	coneTop   = 370.0
	coneTall  = 118.0
	eastSumY  = 684.0 // of the shaft behind the east adder
	northSumY = 768.0
	drumTall  = 52.0
)

// pinionY is where the pinion of the first secant gear stands.
func pinionY(latitude units.Angle) float64 { return coneTop + coneTall*pinionShare(latitude.Degrees()) }

func degreeParts(s *LinkageScene) {
	north := func(t *Turns) float64 { return t.North }
	east := func(t *Turns) float64 { return t.East }
	s.shaft(shaft{LinkNorthDisc, latBranch, northY, latBranch, northSumY - 31, 10, north})
	s.shaft(shaft{LinkEastDisc, lonBranch, crankY, lonBranch, eastSumY - 31, 10, east})
	s.shaft(shaft{LinkNorthDisc, splitX + 10, northY, 1620, northY, 14, north})
	s.add(LinkNorthDisc, 1068, 160, 36, 36, nil, func(d *draft) { d.bevel(splitX, northY, -1, 1, 13) })
	s.add(LinkNorthDisc, 1530, 176, 36, 26, nil, func(d *draft) { d.takeOff(latBranch, northY+2, 1, 12) })
	s.add(LinkEastDisc, 1416, 460, 36, 26, nil, func(d *draft) { d.takeOff(lonBranch, crankY+2, 1, 12) })
	s.shaft(shaft{LinkLatitude, secantX, northY + 16, secantX, coneTop - 1, 10, north})
	s.add(LinkLatitude, 1466, 176, 36, 26, nil, func(d *draft) { d.takeOff(secantX, northY+2, 1, 12) })
	gear := func(l *seen, k *partKey) {
		k.put(float64(l.Hands.Gear), l.Turns.Longitude)
		k.said(l, LinkSecant)
	}
	s.fixed(LinkSecant, nil, func(d *draft) { d.cone(LinkSecant, secantX, coneTop, coneTall, 14, 30, 7) })
	s.add(LinkSecant, 1506, coneTop-12, 124, coneTall+28, gear, (*draft).secantGear)
	s.add(LinkSecant, 1456, 526, 84, 26, gear, func(d *draft) { d.secantNote(1460, 546, LinkSecant, "") })
	s.add(LinkLatitude, 1604, 142, 268, 72, func(l *seen, k *partKey) {
		k.counter(&l.Hands.AirCounters.Latitude)
	}, func(d *draft) {
		d.counter(rightX, northY-drumTall*0.62, drumTall, Counter{Reading: d.l.Hands.AirCounters.Latitude, Row: LatitudeRow}, 1)
	})
	longitude := func(l *seen, k *partKey) {
		gear(l, k)
		k.counter(&l.Hands.AirCounters.Longitude)
	}
	s.add(LinkLongitude, 1560, coneTop-34, 312, coneTall+72, longitude, func(d *draft) {
		y := pinionY(d.l.Hands.Gear)
		d.counter(rightX, y-drumTall*0.62, drumTall, Counter{Reading: d.l.Hands.AirCounters.Longitude, Row: LongitudeRow}, 1)
	})
	s.add(LinkLatitude, 1566, 216, 306, 66, func(l *seen, k *partKey) { k.said(l, LinkLatitude) }, func(d *draft) {
		d.counterError(LinkLatitude, northY+44, look.LinkLatitudeWord)
	})
	s.add(LinkLongitude, 1566, coneTop+30, 306, 194, func(l *seen, k *partKey) {
		k.said(l, LinkLongitude)
		k.put(float64(l.Hands.Gear))
	}, func(d *draft) { d.counterError(LinkLongitude, pinionY(d.l.Hands.Gear)+44, look.LinkLongitudeWord) })
}

// secantGear is the pinion on the cone and the shaft to the drums.
func (d *draft) secantGear() {
	y := pinionY(d.l.Hands.Gear)
	d.box(secantX+24, y-10, 26, 20, 3, d.C.Brass, d.edge(LinkSecant), 1.6)
	d.shaft(&shaft{LinkSecant, secantX + 50, y, 1620, y, 12, func(t *Turns) float64 { return t.Longitude }})
}

// secantNote is the ratio of a secant gear; a wrong one is red.
func (d *draft) secantNote(x, y float64, of Link, name string) {
	s := &d.l.Links[of]
	ink := d.C.Ink2
	if s.Wrong[0] != "" {
		ink = d.onWrong()
	}
	if d.small {
		return
	}
	d.text(x, y, name+s.Value, look.Regular, linkCaption, paint.Start, ink)
}

// counterError is the name under a pair of drums, with its error plate.
func (d *draft) counterError(of Link, y float64, name look.Key) {
	s := &d.l.Links[of]
	if s.Stands == Unjudged {
		d.name(rightX, y+18, look.Text(name), paint.End)
		return
	}
	x, room := 1576.0, 200.0
	if d.small {
		room = math.Min(190, rightX-x-8-look.Semibold.Font().Width(look.Text(look.LinkLongitudeWord), d.letter(linkName))/d.f)
	}
	d.name(x, y+22, look.Text(name), paint.Start)
	switch {
	case s.Wrong[0] != "":
		d.errorPlate(rightX-room, y, room, s.Wrong, 2)
	case s.Stands == Agrees:
		d.agrees(rightX-100, y+22)
	}
}
