package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// zone is a field of the picture with its title.
type zone struct {
	x, y, w, h, titleX float64
	title              look.Key
}

var zones = []zone{
	{40, 104, 884, 462, 56, look.LinkZoneAir},
	{936, 104, 496, 462, 952, look.LinkZoneSplit},
	{1448, 104, 432, 462, 1464, look.LinkZoneDegrees},
	{40, 582, 884, 330, 56, look.LinkZoneHeading},
	{936, 582, 944, 330, 1112, look.LinkZoneGround},
}

// ground draws what stays whatever happens: card, zones, names, cases.
func (d *draft) ground() {
	d.box(linkX, linkY, LinkageW, LinkageH, look.CardRadius, d.C.Card, d.C.Line, 1)
	low := d.zoneGround()
	for _, z := range zones {
		d.box(z.x, z.y, z.w, z.h, look.CardRadius, low, none, 0)
		d.text(z.titleX, z.y+28, look.Text(z.title), look.Semibold, linkHead, paint.Start, d.C.Ink2)
	}
	d.airNames()
	d.headingNames()
	d.splitNames()
	d.degreeNames()
	d.groundNames()
}

// zoneGround is what lies under the parts of a zone.
func (d *draft) zoneGround() colour {
	share := 0.42
	if d.C.Variant != look.Paper {
		share = 0.7
	}
	return paint.Mix(d.C.Card, d.C.Low, share)
}

func (d *draft) airNames() {
	d.head(128, 178, look.LinkNamePitot)
	d.head(402, 178, look.LinkNameCapsules)
	d.head(568, 178, look.LinkNameAirLog)
	d.head(690, 156, look.AirLogCounter)
	d.caption(144, 290, look.Text(look.LinkPitotWord), paint.Middle)
	d.caption(140, 341, look.Text(look.LinkStaticWord), paint.End)
	for i := range 3 { // the air that comes to meet the head
		y := 240 + 18*float64(i)
		d.run(2.2, d.C.Air, 54, y, 78, y)
		d.shapeOf(d.C.Air, none, 0, 86, y, 77, y-5, 77, y+5)
	}
	d.box(340, 222, 124, 134, 10, d.C.Ground, d.C.Ink, 2)
	d.box(494, 222, 150, 134, 10, d.C.Ground, d.C.Ink, 2)
	d.caption(532, 241, look.Text(look.LinkDensityWord), paint.Middle)
}

func (d *draft) headingNames() {
	d.head(126, 642, look.LinkNameCompass)
	d.head(346, 642, look.LinkNameDeviation)
	d.head(570, 642, look.LinkNameVariation)
	d.head(796, 642, look.LinkNameRepeater)
}

func (d *draft) splitNames() {
	nearer := 0.0 // the letters of a small sheet are large for its zones: off the border
	if d.small {
		nearer = 10
	}
	d.name(1030+nearer, 211, look.Text(look.LinkNameNorthDisc), paint.End)
	d.name(1336, 558, look.Text(look.LinkNameEastDisc), paint.Middle)
	d.name(1008+nearer, 415, look.Text(look.LinkNameResolver), paint.End)
	d.caption(996+nearer, 440, look.Text(look.LinkCrankWord), paint.End)
	d.caption(1290, 216, look.Text(look.LinkNorthingWord), paint.End)
	d.caption(1412, 334, look.Text(look.LinkEastingWord), paint.End)
	d.caption(1412, 353, look.Text(look.LinkSinceReset), paint.End)
}

func (d *draft) degreeNames() {
	if d.small {
		d.name(1460, 524, look.Text(look.LinkSecantShort), paint.Start)
		return
	}
	d.name(1460, 524, look.Text(look.LinkSecantWord), paint.Start)
}

func (d *draft) groundNames() {
	word := look.LinkNameWind
	if d.small {
		word = look.LinkWindShort
	}
	d.head(1220, 643, word)
	d.head(1004, 884, look.LinkClockWord)
	d.name(1474, 730, look.Text(look.LinkAdderWord), paint.Start)
	d.name(1504, 818, look.Text(look.LinkAdderWord), paint.Middle)
	if d.l.Links[LinkWind].Stands != Broken {
		d.caption(1338, 672, look.Text(look.LinkEastWind), paint.Middle)
		d.caption(1338, 756, look.Text(look.LinkNorthWind), paint.Middle)
	}
}
