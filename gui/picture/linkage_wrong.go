package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// fault is where a link is shown to be broken: the middle of its gap in the
// brass, how long and how thick the gap is and whether the brass lies level
// there (no gap where long is 0), the radius of the ring, and the room of its
// flag, which grows to the left or to the right.
type faultPlace struct {
	x, y, long, thick float64
	level             bool
	ring              float64
	flag              paint.Rect
	leftward          bool
}

var (
	airFlag     = paint.R(330, 108, 280, 40)
	splitFlag   = paint.R(1140, 110, 284, 40)
	degreeFlag  = paint.R(1578, 300, 294, 40)
	headingFlag = paint.R(350, 586, 566, 38)
	groundFlag  = paint.R(1400, 586, 472, 38)
)

var faultPlaces = [LinkCount]faultPlace{
	LinkPitot:        {255, 258, 20, 9, true, 28, paint.R(70, 192, 262, 38), false},
	LinkStatic:       {255, 336, 20, 9, true, 28, paint.R(56, 368, 262, 38), false},
	LinkCapsules:     {479, 276, 12, 10, true, 28, airFlag, false},
	LinkAirLog:       {666, 276, 16, 30, true, 30, paint.R(656, 348, 256, 44), false},
	LinkCounter:      {690, 238, 12, 18, false, 26, paint.R(722, 220, 196, 38), false},
	LinkDrive:        {822, 276, 0, 0, true, 52, paint.R(656, 348, 256, 44), false},
	LinkCompass:      {233, 716, 16, 18, true, 28, headingFlag, false},
	LinkDeviation:    {460, 716, 16, 18, true, 28, headingFlag, false},
	LinkVariation:    {683, 716, 16, 18, true, 28, headingFlag, false},
	LinkRepeater:     {893, 716, 16, 18, true, 28, headingFlag, true},
	LinkResolver:     {1086, 462, 0, 0, true, 90, splitFlag, false},
	LinkNorthDisc:    {1130, 178, 16, 18, true, 26, splitFlag, false},
	LinkEastDisc:     {1408, 462, 16, 18, true, 28, splitFlag, true},
	LinkLatitude:     {1586, 178, 16, 18, true, 28, degreeFlag, false},
	LinkSecant:       {1484, 428, 0, 0, true, 74, degreeFlag, true},
	LinkLongitude:    {1562, 449, 14, 16, true, 26, degreeFlag, true},
	LinkClock:        {1090, 818, 14, 14, true, 26, groundFlag, true},
	LinkWind:         {1220, 726, 0, 0, true, 75, groundFlag, true},
	LinkAdders:       {1500, 684, 14, 16, true, 26, groundFlag, true},
	LinkGroundSecant: {1656, 705, 14, 12, true, 26, groundFlag, true},
	LinkGround:       {1678, 768, 12, 16, true, 26, groundFlag, true},
	LinkMarker:       {1713, 852, 0, 0, true, 0, groundFlag, true},
}

// wrongs draws ring, gap and flag of every broken link. Where two flags would
// have one room, the second is told by its ring.
func (d *draft) wrongs() {
	taken := map[paint.Rect]bool{}
	for i := range d.l.Links {
		s := &d.l.Links[i]
		if s.Stands != Broken {
			continue
		}
		p := faultPlaces[i]
		switch Link(i) {
		case LinkLongitude:
			p.y = pinionY(d.l.Hands.Gear)
		case LinkGroundSecant:
			p.y = pinion2Y(d.l.Hands.GroundGear)
		}
		if p.long > 0 {
			d.gap(p.x, p.y, p.long, p.thick, p.level)
		}
		d.faultRing(&p)
		if !taken[p.flag] {
			taken[p.flag] = true
			d.flag(s.Flag, &p)
		}
	}
}

// gap cuts the brass: the ground shows between two ragged ends.
func (d *draft) gap(x, y, long, thick float64, level bool) {
	w, h := long, thick+5
	if !level {
		w, h = thick+5, long
	}
	d.box(x-w/2, y-h/2, w, h, 0, d.zoneGround(), none, 0)
	for _, side := range []float64{-1, 1} {
		if level {
			e := x + side*w/2
			d.run(2, d.C.Verm, e, y-h/2, e+side*3, y-h/6, e-side*3, y+h/6, e, y+h/2)
		} else {
			e := y + side*h/2
			d.run(2, d.C.Verm, x-w/2, e, x-w/6, e+side*3, x+w/6, e-side*3, x+w/2, e)
		}
	}
}

// clearTitle takes away the title of a zone on which a flag would lie.
func (d *draft) clearTitle(flag paint.Rect) {
	for _, z := range zones {
		wide := look.Semibold.Font().Width(look.Text(z.title), d.letter(linkHead)) / d.f
		if t := paint.R(z.titleX-2, z.y+8, wide+4, 28); t.Overlaps(flag) {
			d.box(t.X, t.Y, t.W, t.H, 0, d.zoneGround(), none, 0)
		}
	}
}

func (d *draft) faultRing(p *faultPlace) {
	m := d.at(p.x, p.y)
	if p.ring == 0 { // about the strip of chart
		d.path.Reset().RoundRect(d.rect(d.chartRoom().Inset(-5)), 6*d.f)
		d.Stroke(&d.path, paint.Pen{Width: 3.5 * d.f, Dash: []float64{10 * d.f, 6 * d.f}}, d.C.Verm)
		return
	}
	d.Stroke(d.path.Reset().Circle(m.X, m.Y, p.ring*d.f), paint.Pen{Width: 3.5 * d.f, Dash: []float64{10 * d.f, 6 * d.f}}, d.C.Verm)
	at := paint.Polar(p.x, p.y, p.ring, 45)
	d.FaultDiamond(d.at(at.X, at.Y), 1.2*d.f)
}

// flag says in plain words what is broken, and points at its ring where the way
// is short.
func (d *draft) flag(words string, p *faultPlace) {
	if words == "" {
		return
	}
	px := d.letter(linkHead)
	w := math.Min(p.flag.W, look.Bold.Font().Width(words, px)/d.f+28)
	r := paint.R(p.flag.X, p.flag.Y, w, p.flag.H)
	far := p.x - w/2
	r.X = math.Max(p.flag.X, math.Min(p.flag.Right()-w, far))
	foot := d.at(math.Max(r.X+12, math.Min(r.Right()-12, p.x)), r.Y+r.H/2)
	if rim := paint.Polar(p.x, p.y, p.ring, 0); p.ring > 0 && math.Abs(p.x-r.Centre().X) < w/2 {
		if r.Y > p.y {
			rim = paint.Polar(p.x, p.y, p.ring, 180)
		}
		if math.Abs(rim.Y-r.Y) < 90 {
			d.Brush.line(foot, d.at(rim.X, rim.Y), 2.5*d.f, d.C.Verm)
		}
	}
	d.clearTitle(r)
	d.box(r.X, r.Y, r.W, r.H, 6, d.C.Verm, none, 0)
	d.fit(r.X+r.W/2, r.Y+r.H/2+6, r.W-14, words, look.Bold, linkHead, paint.Middle, d.C.OnVerm)
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
