package picture

import (
	"math"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// faultPlace is where a link is shown to be broken: the middle of its gap in the
// brass, how long and how thick the gap is and whether the brass lies level
// there (no gap where long is 0: the plates of the clutch part, the strip of
// chart has none), the radius of the ring, the room of its flag, and where the
// line from the flag to the ring has its corners (none: it goes straight).
type faultPlace struct {
	x, y, long, thick float64
	level             bool
	ring              float64
	flag              paint.Rect
	lead              []float64
}

// Rooms of flags. A flag takes as much as its words need, from the top down, in
// two lines if one does not do; in the row of the heading there is but one.
var (
	airFlag     = paint.R(300, 104, 304, 38)
	staticFlag  = paint.R(56, 355, 458, 38)
	driveFlag   = paint.R(616, 340, 424, 44)
	splitFlag   = paint.R(1180, 106, 246, 40)
	degreeFlag  = paint.R(1562, 284, 310, 38)
	headingFlag = paint.R(130, 586, 786, 38)
	clockFlag   = paint.R(1098, 586, 774, 38)
	groundFlag  = paint.R(1392, 580, 480, 38)
)

var faultPlaces = [LinkCount]faultPlace{
	LinkPitot:        {255, 258, 18, 9, true, 27, airFlag, []float64{312, 124}},
	LinkStatic:       {255, 336, 18, 9, true, 21, staticFlag, nil},
	LinkCapsules:     {479, 276, 14, 10, true, 27, airFlag, []float64{479, 124}},
	LinkAirLog:       {658, 276, 18, 28, true, 30, driveFlag, nil},
	LinkCounter:      {690, 238, 14, 16, false, 25, paint.R(730, 218, 188, 34), nil},
	LinkDrive:        {822, 276, 0, 0, true, 52, driveFlag, nil},
	LinkCompass:      {233, 716, 18, 16, true, 27, headingFlag, nil},
	LinkDeviation:    {460, 716, 18, 16, true, 27, headingFlag, nil},
	LinkVariation:    {683, 716, 18, 16, true, 27, headingFlag, nil},
	LinkRepeater:     {904, 716, 18, 16, true, 27, headingFlag, []float64{906, 610}},
	LinkResolver:     {splitX, 367, 14, 9, false, 25, driveFlag, nil},
	LinkNorthDisc:    {1212, northY, 18, 16, true, 25, splitFlag, nil},
	LinkEastDisc:     {1411, crankY, 14, 16, true, 25, splitFlag, []float64{1424, 120, 1426, 441}},
	LinkLatitude:     {1584, northY, 18, 16, true, 25, degreeFlag, []float64{1569, 290, 1569, 199}},
	LinkSecant:       {1539, 449, 10, 14, true, 27, degreeFlag, []float64{1566, 300, 1566, 400}},
	LinkLongitude:    {1567, 449, 12, 14, true, 24, degreeFlag, []float64{1567, 300}},
	LinkClock:        {1106, clockY, 16, 12, true, 25, clockFlag, []float64{1106, 610}},
	LinkWind:         {1344, eastSumY, 16, 12, true, 25, groundFlag, nil},
	LinkAdders:       {1502, eastSumY, 16, 14, true, 25, groundFlag, nil},
	LinkGroundSecant: {1664, 705, 14, 10, true, 24, groundFlag, []float64{1673, 610}},
	LinkGround:       {1676, northSumY, 14, 14, true, 24, groundFlag, []float64{1676, 610}},
	LinkMarker:       {1870, 797, 0, 0, true, 0, groundFlag, []float64{1870, 610}},
}

// faultPlace is the place, where a pinion has slid to.
func (d *draft) faultPlace(l Link) faultPlace {
	p := faultPlaces[l]
	switch l {
	case LinkSecant, LinkLongitude:
		p.y = pinionY(d.l.Hands.Gear)
	case LinkGroundSecant:
		p.y = pinion2Y(d.l.Hands.GroundGear)
	}
	return p
}

// faultMark is how one broken link is shown in a picture.
type faultMark struct {
	of    Link
	place faultPlace
	words [2]string
	flag  paint.Rect // empty: told by its ring alone
	room  paint.Rect // that all of it takes, in pixels
}

// takeFaults works out how the broken links are shown. Where a flag would lie on
// another, its link is told by its ring alone.
func (d *draft) takeFaults(marks []faultMark) []faultMark {
	marks = marks[:0]
	for i := range d.l.Links {
		s := &d.l.Links[i]
		if s.Stands != Broken {
			continue
		}
		m := faultMark{of: Link(i), place: d.faultPlace(Link(i))}
		p := &m.place
		m.words = d.flagWords(s.Flag, p)
		r := d.flagRoom(m.words, p)
		if s.Flag != "" && !slices.ContainsFunc(marks, func(o faultMark) bool { return r.Overlaps(o.flag) }) {
			m.flag = r
		}
		reach := p.ring + 20
		if p.ring == 0 {
			reach = LinkageW / 4 // the strip of chart
		}
		room := around(paint.R(p.x-reach, p.y-reach, 2*reach, 2*reach), m.flag)
		for j := 0; j < len(p.lead); j += 2 {
			room = around(room, paint.R(p.lead[j]-4, p.lead[j+1]-4, 8, 8))
		}
		if m.of == LinkWind {
			room = around(room, paint.R(p.x-20, northSumY-20, 40, 40))
		}
		m.room = d.rect(around(room, d.titleRoom(m.flag)))
		marks = append(marks, m)
	}
	return marks
}

// around is the rectangle round two, of which the second may be empty.
func around(a, b paint.Rect) paint.Rect {
	if b.W <= 0 {
		return a
	}
	x, y := math.Min(a.X, b.X), math.Min(a.Y, b.Y)
	return paint.R(x, y, math.Max(a.Right(), b.Right())-x, math.Max(a.Bottom(), b.Bottom())-y)
}

// titleRoom is the room of the title that gives way to a flag.
func (d *draft) titleRoom(flag paint.Rect) paint.Rect {
	for i := range zones {
		z := &zones[i]
		if t := paint.R(z.titleX-2, z.y+8, d.titleEnd(z)-z.titleX+4, 28); t.Overlaps(flag) {
			return t
		}
	}
	return flag
}

// wrongs draws ring, gap and flag of every broken link that meets a rectangle.
func (d *draft) wrongs(marks []faultMark, q paint.Rect) {
	for i := range marks {
		m := &marks[i]
		if !m.room.Overlaps(q) {
			continue
		}
		p := &m.place
		if p.long > 0 {
			d.gap(p.x, p.y, p.long, p.thick, p.level)
		}
		if m.of == LinkWind { // both wind shafts come from there
			d.gap(p.x, northSumY, p.long, p.thick, p.level)
		}
		if m.flag.W > 0 {
			d.lead(p, m.flag)
			d.flag(m.words, m.flag)
		}
		d.faultRing(p)
	}
}

// gap cuts the brass: the ground shows between two ragged ends.
func (d *draft) gap(x, y, long, thick float64, level bool) {
	half, side := long/2, thick/2+2
	at := [8][2]float64{
		{-half, -side}, {3 - half, -side / 3}, {-3 - half, side / 3}, {-half, side},
		{half, side}, {half - 3, side / 3}, {half + 3, -side / 3}, {half, -side},
	}
	var xy [16]float64
	for i, p := range at {
		if !level {
			p[0], p[1] = p[1], p[0]
		}
		xy[2*i], xy[2*i+1] = x+p[0], y+p[1]
	}
	d.shapeOf(d.zoneGround(), none, 0, xy[:]...)
	d.run(1.8, d.C.Verm, xy[:8]...)
	d.run(1.8, d.C.Verm, xy[8:]...)
}

// faultRing is dashed, with the sign of a fault where it does not lie on brass;
// about the strip of chart it is a frame.
func (d *draft) faultRing(p *faultPlace) {
	m, pen := d.at(p.x, p.y), paint.Pen{Width: 3 * d.f, Dash: []float64{9 * d.f, 6 * d.f}}
	if p.ring == 0 {
		d.path.Reset().RoundRect(d.rect(d.chartRoom().Inset(-4)), 6*d.f)
		d.Stroke(&d.path, pen, d.C.Verm)
		d.FaultDiamond(d.at(chartX-3, chartY+chartH-6), 1.1*d.f)
		return
	}
	d.Stroke(d.path.Reset().Circle(m.X, m.Y, p.ring*d.f), pen, d.C.Verm)
	at := paint.Polar(p.x, p.y, p.ring+3, 48)
	d.FaultDiamond(d.at(at.X, at.Y), math.Min(1.3, p.ring/26)*d.f)
}

// flagWords are the lines of a flag.
func (d *draft) flagWords(words string, p *faultPlace) [2]string {
	wide := look.Bold.Font().Width(words, d.letter(linkHead))/d.f + flagMargin
	if one := p.flag == headingFlag || p.flag == clockFlag; one || wide <= p.flag.W {
		return [2]string{words}
	}
	return folded(words)
}

// flagMargin is what a flag is wider than its words.
const flagMargin = 26.0

// flagRoom is how large a flag is: about the place of its fault as far as its
// room lets it.
func (d *draft) flagRoom(words [2]string, p *faultPlace) paint.Rect {
	w, h := 0.0, p.flag.H
	for _, line := range words {
		w = math.Max(w, look.Bold.Font().Width(line, d.letter(linkHead))/d.f+flagMargin)
	}
	if words[1] != "" {
		h = math.Max(h, 2*flagPitch*d.letter(linkHead)/d.f+8)
	}
	if p.flag == degreeFlag && w > p.flag.W { // over the shaft beside it, if there is no other way
		more := math.Min(w-p.flag.W, 62)
		p.flag.X, p.flag.W = p.flag.X-more, p.flag.W+more
	}
	w = math.Min(w, p.flag.W)
	x := math.Max(p.flag.X, math.Min(p.flag.Right()-w, p.x-w/2))
	if p.flag == headingFlag { // keep off the title, as long as the ring is near
		x = math.Max(x, math.Min(d.titleEnd(&zones[3])+14, p.x-24))
		x = math.Min(x, p.flag.Right()-w)
	}
	return paint.R(x, p.flag.Y, w, h)
}

// flagPitch is from line to line, in sizes of type.
const flagPitch = 1.06

// lead is the line from a flag to its ring.
func (d *draft) lead(p *faultPlace, r paint.Rect) {
	xy := p.lead
	if xy == nil {
		xy = []float64{
			math.Max(r.X+8, math.Min(r.Right()-8, p.x)), math.Max(r.Y, math.Min(r.Bottom(), p.y)),
		}
		if r.Y < p.y && p.y < r.Bottom() {
			xy[0] = r.Right()
			if p.x < r.X {
				xy[0] = r.X
			}
		}
	}
	n := len(xy)
	if n == 2 && xy[0] > r.Right() {
		xy = []float64{r.Right() - 8, xy[1]}
	}
	dx, dy := xy[n-2]-p.x, xy[n-1]-p.y
	if far := math.Hypot(dx, dy); far > p.ring {
		xy = append(slices.Clip(xy), p.x+dx*p.ring/far, p.y+dy*p.ring/far)
		d.run(2.4, d.C.Verm, xy...)
	}
}

// flag says in plain words what is broken.
func (d *draft) flag(words [2]string, r paint.Rect) {
	if t := d.titleRoom(r); t != r { // it gives way
		d.box(t.X, t.Y, t.W, t.H, 0, d.zoneGround(), none, 0)
	}
	d.box(r.X, r.Y, r.W, r.H, 6, d.C.Verm, none, 0)
	size, lines := d.letter(linkHead)/d.f, words[:]
	if words[1] == "" {
		lines = lines[:1]
	}
	for i, line := range lines {
		y := r.Y + r.H/2 + (float64(i)-float64(len(lines)-1)/2)*flagPitch*size
		d.fit(r.X+r.W/2, y+0.35*size, r.W-12, line, look.Bold, linkHead, paint.Middle, d.C.OnVerm)
	}
}

// titleEnd is where the title of a zone ends.
func (d *draft) titleEnd(z *zone) float64 {
	return z.titleX + look.Semibold.Font().Width(look.Text(z.title), d.letter(linkHead))/d.f
}

// handPlaces are where the sign of a hand stands at the links that can be held.
var handPlaces = map[Link][2]float64{
	LinkAirLog: {488, 412}, LinkRepeater: {734, 818}, LinkResolver: {1024, 534}, LinkSecant: {1530, 518}, LinkWind: {1154, 842},
}

// handSigns draws a brass ring with a dot at every link that is held by hand.
func (d *draft) handSigns() {
	for i := range d.l.Links {
		at, ok := handPlaces[Link(i)]
		if !ok || !d.l.Links[i].Held {
			continue
		}
		if Link(i) == LinkRepeater {
			at[1] = d.plateY()
		}
		d.round(at[0], at[1], 11, d.C.BrassHi, d.C.BrassLo, 1.6)
		d.round(at[0], at[1], 6, d.C.Card, d.C.BrassLo, 1.2)
		d.round(at[0], at[1], 2.6, d.C.BrassLo, none, 0)
	}
}

// depths are how far along the chain a link stands, for stripes that run out.
var depths = [LinkCount]float64{
	LinkPitot: 0, LinkStatic: 0, LinkCapsules: 1, LinkAirLog: 2, LinkCounter: 3, LinkDrive: 3,
	LinkCompass: 0, LinkDeviation: 1, LinkVariation: 2, LinkRepeater: 3, LinkResolver: 4,
	LinkNorthDisc: 4.5, LinkEastDisc: 4.5, LinkLatitude: 5.5, LinkSecant: 6.5, LinkLongitude: 7.5,
	LinkClock: 4, LinkWind: 5, LinkAdders: 6, LinkGroundSecant: 7, LinkGround: 8, LinkMarker: 9,
}

// striped is how much of the shaft that a link drives is striped now, of one.
func (l *Linkage) striped(of Link) float64 {
	if s := l.Links[of].Stands; s != Carries && s != Broken {
		return 0
	}
	first := math.Inf(1)
	for i := range l.Links {
		if l.Links[i].Stands == Broken {
			first = math.Min(first, depths[i])
		}
	}
	if l.Run >= 1 || math.IsInf(first, 1) {
		return 1
	}
	const all = 9
	return math.Max(0, math.Min(1, l.Run*(all-first+1)-(depths[of]-first)))
}
