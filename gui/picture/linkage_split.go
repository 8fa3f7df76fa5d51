package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// The middle: the resolver, whose crank places the balls of the two discs, and
// the discs with their shafts.

const (
	splitX  = 1086.0 // of the north disc and the resolver
	crankY  = 462.0  // of the resolver and the east disc
	eastX   = 1318.0
	discR   = 66.0
	northY  = 178.0 // of the northing shaft
	ballWay = discR - 6
)

func splitParts(s *LinkageScene) {
	drive := func(t *Turns) float64 { return t.Drive }
	north := func(t *Turns) float64 { return t.North }
	east := func(t *Turns) float64 { return t.East }
	s.shaft(shaft{LinkDrive, splitX + discR + 5, mainY, 1306, mainY, 18, drive})
	s.shaft(shaft{LinkDrive, eastX, mainY + 12, eastX, crankY - discR - 5, 18, drive})
	s.add(LinkDrive, 1300, 258, 36, 36, nil, func(d *draft) { d.bevel(eastX, mainY, 1, 1, 13) })
	s.shaft(shaft{LinkRepeater, splitX, rowY - 14, splitX, crankY + discR + 13, 14, func(t *Turns) float64 { return t.Heading }})
	s.add(LinkRepeater, 1068, 698, 36, 36, nil, func(d *draft) { d.bevel(splitX, rowY, 1, -1, 13) })
	s.add(LinkNorthDisc, 1002, mainY-14, 20, 28, nil, func(d *draft) {
		d.box(1004, mainY-12, 16, 24, 2, d.C.BrassHi, d.edge(LinkDrive), 1.5)
	})
	s.fixed(LinkNorthDisc, nil, func(d *draft) { d.discOf(splitX, mainY) })
	s.fixed(LinkEastDisc, nil, func(d *draft) { d.discOf(eastX, crankY) })
	s.fixed(LinkResolver, nil, (*draft).rim)
	s.shaft(shaft{LinkNorthDisc, splitX, mainY + discR + 6, splitX, northY, 14, north})
	s.shaft(shaft{LinkEastDisc, eastX - discR - 6, crankY, 1459, crankY, 14, east})
	crank := func(l *seen, k *partKey) {
		k.put(float64(l.Hands.Heading), l.Hands.BallNorth, l.Hands.BallEast)
	}
	s.add(LinkResolver, 1006, 200, 160, 342, crank, (*draft).resolver)
	s.add(LinkResolver, 1080, 446, 316, 34, crank, (*draft).eastRod)
	s.add(LinkNorthDisc, 1194, 190, 224, 74, func(l *seen, k *partKey) { k.said(l, LinkNorthDisc) }, func(d *draft) {
		d.smallPlate(LinkNorthDisc, 1358, 194, 116, 20)
		d.smallVerdict(LinkNorthDisc, paint.R(1196, 230, 220, 28))
	})
	s.add(LinkEastDisc, 1114, 346, 310, 50, func(l *seen, k *partKey) { k.said(l, LinkEastDisc) }, func(d *draft) {
		d.smallPlate(LinkEastDisc, 1379, 362, 88, 18)
		d.smallVerdict(LinkEastDisc, paint.R(1116, 350, 186, 28))
	})
	s.add(LinkNorthDisc, 1166, 294, 138, 46, func(l *seen, k *partKey) { k.said(l, LinkNorthDisc) }, func(d *draft) {
		d.caption(1176, 314, d.l.Links[LinkNorthDisc].Note[0], paint.Start)
		d.caption(1176, 334, d.l.Links[LinkNorthDisc].Note[1], paint.Start)
	})
	s.add(LinkEastDisc, 1166, 474, 84, 62, func(l *seen, k *partKey) { k.said(l, LinkEastDisc) }, func(d *draft) {
		note := &d.l.Links[LinkEastDisc].Note
		d.captionIn(1206, 494, 76, note[0])
		d.captionIn(1206, 514, 76, note[1])
	})
	s.add(LinkResolver, 910, 416, 90, 58, func(l *seen, k *partKey) { k.said(l, LinkResolver) }, func(d *draft) {
		y, link := 468.0, &d.l.Links[LinkResolver]
		if d.small {
			y = 438
		}
		ink := d.C.Ink
		if link.Stands == Carries || link.Stands == Broken {
			ink = d.onWrong()
		}
		w := d.figures(0, 0, link.Value, d.letter(linkHead), ink, false)
		d.figures(993-w, y, link.Value, d.letter(linkHead), ink, true)
	})
}

// captionIn is a caption in the middle of a narrow room.
func (d *draft) captionIn(x, y, w float64, s string) {
	if !d.small {
		d.fit(x, y, w, s, look.Regular, linkCaption, paint.Middle, d.C.Ink2)
	}
}

func (d *draft) smallPlate(of Link, cx, y, w, size float64) {
	s := &d.l.Links[of]
	d.box(cx-w/2, y, w, 32, look.PlateRadius, d.C.Slate, d.heldEdge(s), 2)
	d.value(cx, y+23, w, s.Value, s.Unit, size)
}

// smallVerdict is the verdict on a small plate, at the right end of a room.
func (d *draft) smallVerdict(of Link, r paint.Rect) {
	s := &d.l.Links[of]
	switch {
	case s.Wrong[0] != "":
		w := math.Min(r.W, look.Bold.Font().Width(s.Wrong[0], d.letter(linkCaption))/d.f+20)
		r.X, r.W = r.Right()-w, w
		d.box(r.X, r.Y, r.W, r.H, look.PlateRadius, d.C.VermFill, d.C.Verm, 2)
		d.fit(r.X+r.W/2, r.Y+0.71*r.H, r.W-8, s.Wrong[0], look.Bold, linkCaption, paint.Middle, d.onWrong())
	case s.Stands == Agrees:
		d.agrees(r.Right()-50, r.Y+19)
	}
}

func (d *draft) discOf(x, y float64) {
	d.round(x, y, discR+6, d.C.Ground, d.C.BrassLo, 2)
	d.round(x, y, discR, d.C.BrassHi, d.C.BrassLo, 1.5)
	d.round(x, y, discR*0.66, none, d.C.Brass, 1.2)
	d.round(x, y, discR*0.33, none, d.C.Brass, 1.2)
	d.round(x, y, 3.5, d.C.BrassLo, none, 0)
}

// CrankPin is where the pin of the crank stands from the middle of the resolver,
// and NorthBall and EastBall how far their balls stand from the middle of their
// discs, all in units of the picture, right and down positive.
func CrankPin(heading units.TrueHeading) (x, y float64) {
	sin, cos := math.Sincos(float64(heading))
	return (discR - 8) * sin, -(discR - 8) * cos
}

// NorthBall is up for north.
func NorthBall(share float64) float64 { return -ballWay * share }

// EastBall is to the right for east.
func EastBall(share float64) float64 { return ballWay * share }

// rim draws what stays of the resolver.
func (d *draft) rim() {
	const r = discR
	m := d.at(splitX, crankY)
	d.round(splitX, crankY, r+10, d.C.Ground, d.C.Rod, 6)
	for b := 0.0; b < 360; b += 10 {
		from, width := r+1, 1.2
		if math.Mod(b, 90) == 0 {
			from, width = r-4, 2.4
		}
		d.Brush.tick(m.X, m.Y, (r+6)*d.f, from*d.f, b, width*d.f, d.C.Ink)
	}
	d.text(1052, 374, look.Text(look.North), look.Engraved, linkName, paint.End, d.C.Ink2)
}

// resolver draws the two slots with the pin in both, the rod to the north ball
// and the crank.
func (d *draft) resolver() {
	const r = discR
	px, py := CrankPin(d.l.Hands.Heading)
	d.box(splitX+px-8, crankY-r+10, 16, 2*r-20, 8, none, d.C.Rod, 3)
	d.box(splitX-r+10, crankY+py-8, 2*r-20, 16, 8, none, d.C.Rod, 3)
	ball := mainY + NorthBall(d.l.Hands.BallNorth)
	d.run(5, d.C.Rod, splitX, crankY+py-8, splitX, ball+11)
	d.run(13, d.C.BrassLo, splitX, crankY, splitX+px, crankY+py)
	d.run(9, d.C.BrassHi, splitX, crankY, splitX+px, crankY+py)
	d.round(splitX, crankY, 9, d.C.Rod, d.C.BrassLo, 1.5)
	d.round(splitX+px, crankY+py, 7, d.C.Card, d.C.Ink, 2.4)
	d.round(splitX, ball, 11, d.C.Card, d.C.Ink, 2.6)
}

func (d *draft) eastRod() {
	px, _ := CrankPin(d.l.Hands.Heading)
	ball := eastX + EastBall(d.l.Hands.BallEast)
	d.run(5, d.C.Rod, splitX+px+8, crankY, ball-11, crankY)
	d.round(ball, crankY, 11, d.C.Card, d.C.Ink, 2.6)
}
