package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// linkRooms are where the links stand in the design.
var linkRooms = [LinkCount]paint.Rect{
	LinkPitot:        {X: 46, Y: 184, W: 196, H: 110},
	LinkStatic:       {X: 92, Y: 304, W: 150, H: 64},
	LinkCapsules:     {X: 334, Y: 216, W: 136, H: 146},
	LinkAirLog:       {X: 488, Y: 216, W: 162, H: 170},
	LinkCounter:      {X: 606, Y: 140, W: 168, H: 76},
	LinkDrive:        {X: 764, Y: 232, W: 110, H: 90},
	LinkCompass:      {X: 54, Y: 648, W: 144, H: 144},
	LinkDeviation:    {X: 266, Y: 648, W: 160, H: 144},
	LinkVariation:    {X: 490, Y: 648, W: 160, H: 144},
	LinkRepeater:     {X: 724, Y: 648, W: 144, H: 144},
	LinkResolver:     {X: 1002, Y: 380, W: 168, H: 166},
	LinkNorthDisc:    {X: 1006, Y: 200, W: 156, H: 154},
	LinkEastDisc:     {X: 1240, Y: 388, W: 156, H: 156},
	LinkLatitude:     {X: 1600, Y: 140, W: 274, H: 76},
	LinkSecant:       {X: 1446, Y: 360, W: 96, H: 140},
	LinkLongitude:    {X: 1560, Y: 400, W: 314, H: 92},
	LinkClock:        {X: 956, Y: 770, W: 96, H: 96},
	LinkWind:         {X: 1142, Y: 650, W: 156, H: 156},
	LinkAdders:       {X: 1396, Y: 646, W: 78, H: 78},
	LinkGroundSecant: {X: 1560, Y: 640, W: 96, H: 100},
	LinkGround:       {X: 1674, Y: 680, W: 200, H: 112},
	LinkMarker:       {X: 1554, Y: 796, W: 318, H: 114},
}

// LinkBounds is where a link is pointed at in a picture that fills a box.
func LinkBounds(_ look.Size, box paint.Rect, l Link) paint.Rect {
	f, at := fitted(box)
	r := linkRooms[l]
	return paint.R(at.X+(r.X-linkX)*f, at.Y+(r.Y-linkY)*f, r.W*f, r.H*f)
}

// ringed draws the ring about the link that is spoken of.
func (d *draft) ringed(l Link) {
	r := linkRooms[l]
	d.path.Reset().RoundRect(d.rect(r), 10*d.f)
	d.Stroke(&d.path, paint.Pen{Width: 4 * d.f}, d.C.SlateHi)
	d.path.Reset().RoundRect(d.rect(r.Inset(-5)), 14*d.f)
	d.Stroke(&d.path, paint.Pen{Width: 2 * d.f}, d.C.Brass)
}
