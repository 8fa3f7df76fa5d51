package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// linkRooms are where the links stand in the design.
var linkRooms = [LinkCount]paint.Rect{
	LinkPitot:        {X: 46, Y: 196, W: 196, H: 104},
	LinkStatic:       {X: 92, Y: 304, W: 150, H: 64},
	LinkCapsules:     {X: 334, Y: 216, W: 136, H: 146},
	LinkAirLog:       {X: 488, Y: 216, W: 162, H: 170},
	LinkCounter:      {X: 608, Y: 138, W: 164, H: 78},
	LinkDrive:        {X: 764, Y: 238, W: 110, H: 62},
	LinkCompass:      {X: 52, Y: 624, W: 148, H: 168},
	LinkDeviation:    {X: 262, Y: 624, W: 168, H: 168},
	LinkVariation:    {X: 484, Y: 624, W: 172, H: 168},
	LinkRepeater:     {X: 692, Y: 624, W: 208, H: 168},
	LinkResolver:     {X: 1002, Y: 378, W: 168, H: 168},
	LinkNorthDisc:    {X: 1010, Y: 200, W: 152, H: 152},
	LinkEastDisc:     {X: 1242, Y: 386, W: 152, H: 152},
	LinkLatitude:     {X: 1600, Y: 140, W: 274, H: 76},
	LinkSecant:       {X: 1446, Y: 360, W: 96, H: 140},
	LinkLongitude:    {X: 1560, Y: 336, W: 314, H: 184}, // wherever the pinion stands
	LinkClock:        {X: 960, Y: 774, W: 88, H: 88},
	LinkWind:         {X: 1146, Y: 652, W: 148, H: 148},
	LinkAdders:       {X: 1400, Y: 650, W: 68, H: 68},
	LinkGroundSecant: {X: 1560, Y: 640, W: 96, H: 100},
	LinkGround:       {X: 1674, Y: 618, W: 200, H: 174}, // with its name, wherever the pinion stands
	LinkMarker:       {X: 1554, Y: 796, W: 318, H: 113},
}

// LinkBounds is where a link is pointed at in a picture that fills a box.
func LinkBounds(_ look.Size, box paint.Rect, l Link) paint.Rect {
	f, at := fitted(box)
	r := linkRooms[l]
	return paint.R(at.X+(r.X-linkX)*f, at.Y+(r.Y-linkY)*f, r.W*f, r.H*f)
}

// LinkAt is the link pointed at, or NoLink: where two rooms meet, the one whose
// middle is nearer.
func LinkAt(z look.Size, box paint.Rect, p paint.Point) Link {
	at, best := NoLink, math.Inf(1)
	for l := range LinkCount {
		r := LinkBounds(z, box, l)
		c := r.Centre()
		if far := math.Hypot((p.X-c.X)/r.W, (p.Y-c.Y)/r.H); r.Contains(p) && far < best {
			at, best = l, far
		}
	}
	return at
}

// lighting lays paper over all in a rectangle but the link that the walk stands
// at, with its plate, and rings the link that is spoken of.
func (d *draft) lighting(q paint.Rect) {
	if lit := d.l.Lit; lit < LinkCount {
		card := d.rect(paint.R(linkX, linkY, LinkageW, LinkageH)).Snap().Intersect(rectOf(pixels(q)))
		d.path.Reset().Rect(card)
		if d.rect(d.room(lit)).Inset(-2).Overlaps(card) {
			d.opening(lit)
		}
		if r, ok := linkPlates[lit]; ok && d.rect(r).Inset(-2).Overlaps(card) {
			d.hole(r)
		}
		d.Fill(&d.path, paint.Alpha(d.C.Card, dimmed))
		d.ringed(lit)
	}
	if d.l.Chosen < LinkCount {
		d.ringed(d.l.Chosen)
	}
}

// dimmed is how much paper lies over what the walk does not speak of.
const dimmed = 0.55

// room is where a link stands now.
func (d *draft) room(l Link) paint.Rect {
	r := linkRooms[l]
	if l == LinkLongitude {
		r.Y, r.H = pinionY(d.l.Hands.Gear)-0.62*drumTall-6, 1.24*drumTall+12
	}
	return r
}

// roundLinks are ringed by a circle.
var roundLinks = [LinkCount]bool{
	LinkResolver: true, LinkNorthDisc: true, LinkEastDisc: true, LinkClock: true, LinkWind: true, LinkAdders: true,
}

// opening leaves the link itself out of the path.
func (d *draft) opening(l Link) {
	if !roundLinks[l] {
		d.hole(d.room(l))
		return
	}
	q := d.rect(d.room(l))
	c := q.Centre()
	for i := range 72 { // the other way round than the paper laid over the picture
		p := paint.Polar(c.X, c.Y, q.W/2, -5*float64(i))
		if i == 0 {
			d.path.MoveTo(p.X, p.Y)
		} else {
			d.path.LineTo(p.X, p.Y)
		}
	}
	d.path.Close()
}

// hole leaves a rectangle out of the path.
func (d *draft) hole(r paint.Rect) {
	q := d.rect(r).Snap()
	d.path.MoveTo(q.X, q.Y)
	d.path.LineTo(q.X, q.Bottom())
	d.path.LineTo(q.Right(), q.Bottom())
	d.path.LineTo(q.Right(), q.Y)
	d.path.Close()
}

// ringed draws the ring about the link that is spoken of.
func (d *draft) ringed(l Link) {
	r := d.room(l)
	ring := func(r paint.Rect, width float64, c colour) {
		rad := 10 + width
		if roundLinks[l] {
			rad = r.W / 2
		}
		d.path.Reset().RoundRect(d.rect(r), rad*d.f)
		d.Stroke(&d.path, paint.Pen{Width: width * d.f}, c)
	}
	ring(r, 4, d.C.SlateHi)
	ring(r.Inset(-5), 2, d.C.Brass)
}

// linkPlates are the rooms of values that stand apart from their links.
var linkPlates = map[Link]paint.Rect{
	LinkPitot:        {X: 42, Y: 408, W: 140, H: 108},
	LinkStatic:       {X: 187, Y: 408, W: 140, H: 108},
	LinkCapsules:     {X: 332, Y: 408, W: 140, H: 108},
	LinkAirLog:       {X: 486, Y: 408, W: 152, H: 108},
	LinkDrive:        {X: 720, Y: 408, W: 160, H: 108},
	LinkCompass:      {X: 34, Y: 814, W: 184, H: 96},
	LinkDeviation:    {X: 252, Y: 814, W: 188, H: 96},
	LinkVariation:    {X: 476, Y: 814, W: 188, H: 96},
	LinkRepeater:     {X: 702, Y: 814, W: 188, H: 96},
	LinkNorthDisc:    {X: 1240, Y: 196, W: 184, H: 66},
	LinkEastDisc:     {X: 1330, Y: 318, W: 98, H: 66},
	LinkLatitude:     {X: 1570, Y: 220, W: 302, H: 58},
	LinkSecant:       {X: 1452, Y: 506, W: 88, H: 46},
	LinkWind:         {X: 1150, Y: 838, W: 284, H: 72},
	LinkGroundSecant: {X: 1558, Y: 620, W: 110, H: 20},
	LinkGround:       {X: 1680, Y: 626, W: 190, H: 52},
}

// LinkRoom is where a link stands with its plate, wherever its parts have moved,
// from the corner of a picture drawn at LinkageW by LinkageH.
func LinkRoom(l Link) paint.Rect {
	r := linkRooms[l]
	if q, ok := linkPlates[l]; ok {
		r = around(r, q)
	}
	return paint.R(r.X-linkX, r.Y-linkY, r.W, r.H)
}
