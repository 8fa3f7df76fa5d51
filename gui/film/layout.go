package film

import (
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// kind is what stands in a place of a frame.
type kind uint8

const (
	chartKind kind = iota
	worksKind
	clockKind
	airKind
	groundKind
	airLogKind
	headingKind
	speedKind
	windKind
	variationKind
	captionKind
)

// spot is a thing in its place: units of the layout while it is laid out, then
// pixels.
type spot struct {
	kind kind
	at   paint.Rect
	part paint.Rect // of the picture of the mechanism, in its own units; of the others none
	soft float64    // how far it fades where the picture goes on, units of the layout
}

// Parts of the picture of the mechanism, from its corner: the whole; the half from
// pitot head and compass to the repeater; the half from the resolver to the
// marker; of that the upper part, which makes the air position.
const worksSplit = 904.0

var (
	allWorks   = paint.R(0, 0, picture.LinkageW, picture.LinkageH)
	leftWorks  = paint.R(0, 0, worksSplit, picture.LinkageH)
	rightWorks = paint.R(worksSplit, 0, picture.LinkageW-worksSplit, picture.LinkageH)
	airWorks   = paint.R(worksSplit, 0, picture.LinkageW-worksSplit, 500)
)

// Bands of a frame, units: margin, gap between cards, head, foot.
const (
	edge     = 20.0
	gap      = 12.0
	headTall = 68.0
	footTall = 34.0
)

// layout places everything of a frame but the head's words and the foot's.
type layout struct {
	size  Size
	spots []spot
	body  paint.Rect
}

// arrange lays a frame out.
func arrange(s Size, view string, link picture.Link, captioned bool) *layout {
	u := s.unit()
	l := &layout{size: s}
	all := paint.R(0, 0, float64(s.W)/u, float64(s.H)/u)
	in := all.Inset(edge)
	head := headTall
	if s.shape() == tall {
		head *= 2
	}
	top, foot := in.Y+head, all.H-footTall
	l.put(clockKind, l.clockRoom(in, head))
	if captioned {
		h := captionTall[s.shape()]
		l.put(captionKind, paint.R(in.X, foot-h, in.W, h))
		foot -= h + gap
	}
	l.body = paint.R(in.X, top, in.W, foot-top)
	switch view {
	case LinkageView:
		l.linkage(link)
	case BothView:
		l.both(link)
	case CountersView:
		l.counters()
	default:
		l.chart()
	}
	for i := range l.spots {
		q := &l.spots[i].at
		*q = paint.R(q.X*u, q.Y*u, q.W*u, q.H*u).Snap()
	}
	return l
}

// captionTall is the room for a caption: two lines, where the frame is narrow
// three.
var captionTall = [...]float64{wide: 92, square: 92, tall: 128}

func (l *layout) put(k kind, at paint.Rect) { l.spots = append(l.spots, spot{kind: k, at: at}) }

// clockRoom is the place of the clock: right in the head, or in a second line of
// it.
func (l *layout) clockRoom(in paint.Rect, head float64) paint.Rect {
	const w, h = 330, 52
	if l.size.shape() == tall {
		return paint.R(in.X, in.Y+head-h-8, w, h)
	}
	return paint.R(in.Right()-w, in.Y+2, w, h)
}

// chart is the view with the chart and the instruments.
func (l *layout) chart() {
	b := l.body
	switch l.size.shape() {
	case wide:
		c, col := left(b, b.W-min(look.Column, 0.36*b.W)-look.GapColumn, look.GapColumn)
		l.put(chartKind, c)
		rows := down(col, gap, min(200, 0.27*b.H), min(76, 0.12*b.H), 0, 0)
		l.put(airKind, rows[0])
		l.put(airLogKind, rows[1])
		l.across(rows[2], headingKind, speedKind)
		l.across(rows[3], windKind, variationKind)
	case square:
		rows := down(b, gap, 0, 176)
		l.put(chartKind, rows[0])
		air, rest := left(rows[1], 400, gap)
		l.put(airKind, air)
		l.across(rest, headingKind, windKind)
	case tall:
		rows := down(b, gap, 0, 210, 84, 190)
		l.put(chartKind, rows[0])
		l.put(airKind, rows[1])
		l.put(airLogKind, rows[2])
		l.across(rows[3], headingKind, speedKind, windKind)
	}
}

// linkage is the view of the mechanism: whole where the frame is wide, its two
// halves one over the other where it is tall, one half where it is square.
func (l *layout) linkage(link picture.Link) {
	b := l.body
	switch {
	case link != picture.NoLink:
		l.framed(b, link)
	case l.size.shape() == wide:
		l.works(b, allWorks)
	case l.size.shape() == tall:
		f := min((b.H-gap)/(2*picture.LinkageH), b.W/rightWorks.W)
		h := picture.LinkageH * f
		y := b.Y + (b.H-2*h-gap)/2
		// The brass goes out at the right edge and comes in again at the left.
		one, two := leftWorks.W*f, rightWorks.W*f
		l.works(paint.R(b.Right()-one, y, one, h), leftWorks)
		l.works(paint.R(b.X, y+h+gap, two, h), rightWorks)
	default:
		l.works(b, rightWorks)
	}
}

// both is chart and mechanism.
func (l *layout) both(link picture.Link) {
	b := l.body
	part := rightWorks
	if l.size.shape() == square {
		part = airWorks
	}
	var c, m paint.Rect
	if l.size.shape() == wide {
		w := min(b.H*part.W/part.H, 0.6*b.W)
		c, m = left(b, b.W-w-gap, gap)
	} else {
		h := min(b.W*part.H/part.W, 0.56*b.H)
		rows := down(b, gap, 0, h)
		c, m = rows[0], rows[1]
	}
	l.put(chartKind, c)
	if link != picture.NoLink {
		l.framed(m, link)
		return
	}
	l.works(m, part)
}

// counters are the drums alone, large, and the dials that feed them.
func (l *layout) counters() {
	b := l.body
	switch l.size.shape() {
	case wide:
		rows := down(b, gap, 0, min(96, 0.12*b.H), 0.31*b.H)
		l.across(rows[0], airKind, groundKind)
		l.put(airLogKind, rows[1])
		l.across(rows[2], headingKind, speedKind, windKind, variationKind)
	case square:
		rows := down(b, gap, 0, 0, 64, 150)
		l.put(airKind, rows[0])
		l.put(groundKind, rows[1])
		l.put(airLogKind, rows[2])
		l.across(rows[3], headingKind, speedKind, windKind)
	case tall:
		rows := down(b, gap, 270, 270, 88, 0, 0)
		l.put(airKind, rows[0])
		l.put(groundKind, rows[1])
		l.put(airLogKind, rows[2])
		l.across(rows[3], headingKind, speedKind)
		l.across(rows[4], windKind, variationKind)
	}
}

// How far a part of the mechanism fades at its edges: where it was cut between two
// zones hardly, where it was cut anywhere softly.
const cutFade, framedFade = 10.0, 40.0

// works puts a part of the mechanism, as large as it goes, in the middle of a
// place.
func (l *layout) works(at, part paint.Rect) {
	f := min(at.W/part.W, at.H/part.H)
	w, h := part.W*f, part.H*f
	l.spots = append(l.spots, spot{worksKind, paint.R(at.X+(at.W-w)/2, at.Y+(at.H-h)/2, w, h), part, cutFade})
}

// framed puts one link with what stands about it, filling the place.
func (l *layout) framed(at paint.Rect, link picture.Link) {
	l.spots = append(l.spots, spot{worksKind, at, around(link, at.W/at.H), framedFade})
}

// around is the part of the mechanism in which a link is framed: the link and its
// plate in the middle, with as much again about them, of a shape.
func around(link picture.Link, shape float64) paint.Rect {
	q := picture.LinkRoom(link)
	c := q.Centre()
	h := max(q.H*1.9, q.W*1.9/shape, 400)
	h = min(h, picture.LinkageH, picture.LinkageW/shape)
	w := h * shape
	x := max(0, min(c.X-w/2, picture.LinkageW-w))
	y := max(0, min(c.Y-h/2, picture.LinkageH-h))
	return paint.R(x, y, w, h)
}

// left cuts a piece of a width off the left of a place.
func left(r paint.Rect, w, gap float64) (a, rest paint.Rect) {
	return paint.R(r.X, r.Y, w, r.H), paint.R(r.X+w+gap, r.Y, r.W-w-gap, r.H)
}

// down cuts a place into rows; those of height 0 share what is left.
func down(r paint.Rect, gap float64, heights ...float64) []paint.Rect {
	rest, free := r.H-gap*float64(len(heights)-1), 0
	for _, h := range heights {
		rest -= h
		if h == 0 {
			free++
		}
	}
	rows, y := make([]paint.Rect, len(heights)), r.Y
	for i, h := range heights {
		if h == 0 {
			h = rest / float64(free)
		}
		rows[i] = paint.R(r.X, y, r.W, h)
		y += h + gap
	}
	return rows
}

// across puts things side by side.
func (l *layout) across(r paint.Rect, kinds ...kind) {
	n := float64(len(kinds))
	w := (r.W - gap*(n-1)) / n
	for i, k := range kinds {
		l.put(k, paint.R(r.X+float64(i)*(w+gap), r.Y, w, r.H))
	}
}
