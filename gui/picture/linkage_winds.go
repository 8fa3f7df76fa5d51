package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// The lower right: clock, wind setter and resolver, wind shafts, adders, second
// secant gear, ground drums, and the marker on a strip of chart.

const (
	clockX, clockY  = 1004.0, 818.0
	windX, windY    = 1220.0, 726.0
	windR           = 60.0
	cone2X          = 1598.0
	cone2Top        = 646.0
	cone2Tall       = 88.0
	groundDrum      = 34.0
	chartX, chartY  = 1560.0, 800.0
	chartH          = 104.0
	groundBranch    = cone2X + 34
	groundDrumsLeft = 1690.0
)

func pinion2Y(latitude units.Angle) float64 {
	return cone2Top + cone2Tall*pinionShare(latitude.Degrees())
}

func groundParts(s *LinkageScene) {
	clock := func(t *Turns) float64 { return t.Wind }
	windEast := func(t *Turns) float64 { return t.WindEast }
	windNorth := func(t *Turns) float64 { return t.WindNorth }
	sumEast := func(t *Turns) float64 { return t.GroundEast }
	sumNorth := func(t *Turns) float64 { return t.GroundNorth }
	s.add(LinkClock, 960, 774, 88, 88, func(l *seen, k *partKey) { k.put(float64(l.Hands.Clock.Unix())) }, (*draft).hands)
	s.fixed(LinkClock, nil, (*draft).clock)
	s.shaft(shaft{LinkClock, clockX + 43, clockY, windX - 10, clockY, 10, clock})
	s.shaft(shaft{LinkClock, windX, clockY - 11, windX, windY + windR + 2, 10, clock})
	s.add(LinkClock, 1204, 802, 32, 32, nil, func(d *draft) { d.bevel(windX, clockY, 1, -1, 11) })
	s.shaft(shaft{LinkWind, windX + 50, eastSumY, lonBranch - 31, eastSumY, 10, windEast})
	s.shaft(shaft{LinkWind, windX + 46, northSumY, latBranch - 31, northSumY, 10, windNorth})
	wind := func(l *seen, k *partKey) {
		k.put(float64(l.Hands.Wind.From), float64(l.Hands.Wind.Speed))
		k.said(l, LinkWind)
	}
	s.fixed(LinkWind, wind, func(d *draft) {
		p := d.at(windX, windY)
		WindSetter(d.Brush, p.X, p.Y, windR*d.f, d.l.Hands.Wind)
	})
	s.add(LinkWind, 1120, 840, 282, 68, wind, (*draft).windPlate)
	s.shaft(shaft{LinkAdders, lonBranch + 31, eastSumY, cone2X - 16, eastSumY, 12, sumEast})
	s.shaft(shaft{LinkAdders, latBranch + 31, northSumY, groundDrumsLeft + 24, northSumY, 12, sumNorth})
	s.add(LinkAdders, groundBranch-16, 744, 32, 24, nil, func(d *draft) { d.takeOff(groundBranch, northSumY-2, -1, 10) })
	for _, p := range []paint.Point{{X: lonBranch, Y: eastSumY}, {X: latBranch, Y: northSumY}} {
		s.fixed(LinkAdders, nil, func(d *draft) { d.round(p.X, p.Y, 30, d.C.Ground, d.C.BrassLo, 2.4) })
	}
	adder := func(turns func(*Turns) float64) func(*seen, *partKey) {
		return func(l *seen, k *partKey) { k.put(turns(&l.Turns)) }
	}
	s.add(LinkAdders, lonBranch-34, eastSumY-34, 68, 68, adder(sumEast), func(d *draft) { d.adder(lonBranch, eastSumY, d.l.Turns.GroundEast) })
	s.add(LinkAdders, latBranch-34, northSumY-34, 68, 68, adder(sumNorth), func(d *draft) { d.adder(latBranch, northSumY, d.l.Turns.GroundNorth) })
	gear := func(l *seen, k *partKey) {
		k.put(float64(l.Hands.GroundGear), l.Turns.GroundLongitude, l.Turns.GroundNorth)
		k.said(l, LinkGroundSecant)
	}
	s.add(LinkGroundSecant, 1614, cone2Top-14, 88, northSumY-cone2Top, gear, (*draft).groundGear)
	s.fixed(LinkGroundSecant, nil, func(d *draft) { d.cone(LinkGroundSecant, cone2X, cone2Top, cone2Tall, 10, 22, 6) })
	s.add(LinkGroundSecant, 1560, 622, 132, 24, gear, func(d *draft) { d.secantNote(1562, 641, LinkGroundSecant, look.Text(look.LinkSecantWord)+" ") })
	s.add(LinkGround, 1672, cone2Top-72, 202, cone2Tall+96, func(l *seen, k *partKey) {
		gear(l, k)
		k.counter(&l.Hands.GroundCounts.Longitude)
		k.said(l, LinkGround)
	}, (*draft).groundLongitude)
	s.add(LinkGround, 1688, 744, 184, 48, func(l *seen, k *partKey) {
		k.counter(&l.Hands.GroundCounts.Latitude)
	}, func(d *draft) {
		d.counter(rightX, northSumY-groundDrum*0.62, groundDrum, Counter{Reading: d.l.Hands.GroundCounts.Latitude, Row: LatitudeRow}, 1)
	})
	s.add(LinkMarker, 1360, 794, 512, 116, stripKey, (*draft).chartStrip)
}

// groundLongitude draws the drums where the pinion stands, and their name above
// them, or what is wrong.
func (d *draft) groundLongitude() {
	y, s := math.Max(662, math.Min(720, pinion2Y(d.l.Hands.GroundGear))), &d.l.Links[LinkGround] // clear of the row below
	d.counter(rightX, y-groundDrum*0.62, groundDrum, Counter{Reading: d.l.Hands.GroundCounts.Longitude, Row: LongitudeRow}, 1)
	y -= 0.62*groundDrum + 9
	switch {
	case s.Wrong[0] != "" && d.small: // there is no room for the name too
		d.smallVerdict(LinkGround, paint.R(1682, y-22, rightX-1682, 28))
		return
	case s.Wrong[0] != "":
		d.smallVerdict(LinkGround, paint.R(1682, y-48, rightX-1682, 27))
	}
	name := look.Text(look.LinkNameGround)
	d.name(rightX, y, name, paint.End)
	if s.Stands == Agrees && s.Wrong[0] == "" {
		d.tick(rightX-12-look.Semibold.Font().Width(name, d.letter(linkName))/d.f, y-6)
	}
}

func (d *draft) clock() {
	m := d.at(clockX, clockY)
	d.round(clockX, clockY, 40, d.C.Card, d.C.Rod, 3.4)
	for b := 0.0; b < 360; b += 30 {
		to, width := 31.0, 1.2
		if math.Mod(b, 90) == 0 {
			to, width = 28, 2.2
		}
		d.Brush.tick(m.X, m.Y, 36*d.f, to*d.f, b, width*d.f, d.C.Ink)
	}
}

func (d *draft) hands() {
	t := d.l.Hands.Clock.UTC()
	minutes := float64(t.Minute()) + float64(t.Second())/60
	hour := paint.Polar(0, 0, 20, (float64(t.Hour()%12)+minutes/60)*30)
	minute := paint.Polar(0, 0, 30, minutes*6)
	d.run(4, d.C.Ink, clockX, clockY, clockX+hour.X, clockY+hour.Y)
	d.run(2.6, d.C.Ink, clockX, clockY, clockX+minute.X, clockY+minute.Y)
	d.round(clockX, clockY, 5, d.C.Brass, d.C.BrassLo, 1.4)
}

func (d *draft) windPlate() {
	s := &d.l.Links[LinkWind]
	d.box(windX-66, 842, 132, 40, look.PlateRadius, d.C.Slate, d.heldEdge(s), 2)
	d.value(windX, 871, 132, s.Value, s.Unit, 24)
	switch {
	case s.Wrong[0] != "":
		d.errorPlate(1292, 846, 116, s.Wrong, 1)
	case s.Stands == Agrees && d.small:
		d.tick(windX+92, 862)
	case s.Stands == Agrees:
		d.tick(windX+84, 862)
		d.text(windX+98, 868, look.Text(look.LinkAgrees), look.Regular, linkName, paint.Start, d.C.Ink2)
	case !d.small:
		d.text(windX, 902, s.Note[0], look.Regular, 15, paint.Middle, d.C.Ink2)
	}
}

// adder is a pair of meshed wheels in a ring, which turn against one another.
func (d *draft) adder(x, y, turns float64) {
	deg := 360 * turns
	d.gear(x-8, y, 13, 10, 8+deg)
	d.gear(x+8, y+2, 11, 9, 12-deg*10/9)
}

func (d *draft) groundGear() {
	y := pinion2Y(d.l.Hands.GroundGear)
	d.shaft(&shaft{LinkAdders, groundBranch, northSumY - 19, groundBranch, y + 8, 8, func(t *Turns) float64 { return t.GroundNorth }})
	d.box(cone2X+20, y-9, 26, 18, 3, d.C.Brass, d.edge(LinkGroundSecant), 1.6)
	d.shaft(&shaft{LinkGroundSecant, cone2X + 46, y, groundDrumsLeft, y, 8, func(t *Turns) float64 { return t.GroundLongitude }})
}
