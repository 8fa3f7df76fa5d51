package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Marks of an overlay, pixels at scale 1.
const (
	stationRadius = 14
	overlayFix    = 1.15
)

// stations draws the senders: rings with their letters.
func (l *printing) stations() {
	for _, s := range l.o.Stations {
		q := l.station(l.v, s)
		l.put = append(l.put, q)
		l.take(q)
	}
}

// station draws a sender; it gives the square about it.
func (b *Brush) station(v View, s Station) paint.Rect {
	p, k := v.ToPixel(s.At), b.K.Symbol()
	r, size := stationRadius*k, 17*k
	b.disc(p.X, p.Y, r, b.C.Card, b.C.Ink, 2.2*k)
	b.write(p.X, p.Y+0.36*size, s.Letter, look.Engraved, size, paint.Middle, b.C.Ink)
	return paint.R(p.X-r, p.Y-r, 2*r, 2*r)
}

// DrawStations draws the senders of an overlay anew over the plot, whose turning
// points lie on their letters; not where they would lie on the marker.
func DrawStations(b *Brush, v View, all []Station, marker units.Position) {
	at := v.ToPixel(marker)
	for _, s := range all {
		if p := v.ToPixel(s.At); v.Box.Contains(p) && math.Hypot(p.X-at.X, p.Y-at.Y) > poolRadius*b.K.Symbol() {
			b.station(v, s)
		}
	}
}

// crossings keeps the places of the fixes free, and words off the heavy lines.
func (l *printing) crossings() {
	for _, c := range l.o.Crossings {
		p := l.v.ToPixel(c.At)
		l.take(paint.R(p.X-16*l.k, p.Y-16*l.k, 32*l.k, 32*l.k))
	}
	for _, ink := range l.o.Inks {
		for _, line := range ink.Read {
			l.room.TakeLine(l.v.ToPixels(line))
		}
	}
}

// DrawCrossings draws the fixes of an overlay over the plot; room is what the plot
// has left.
func DrawCrossings(b *Brush, v View, all []Crossing, room *Room, held *Held) {
	if room == nil {
		room = NewRoom(v.Box)
	}
	k := b.K.Symbol()
	for i, c := range all {
		p := v.ToPixel(c.At)
		if !v.Box.Contains(p) {
			continue
		}
		b.crossing(p, c.Open, overlayFix*k)
		t := label{at: p, clear: 14 * k, first: belowRight, must: i == 0, keen: true, held: held, key: "crossing"}
		for n, w := range c.Words {
			face, ink := look.Bold, b.C.Ink
			if n > 0 {
				face, ink = look.Regular, b.C.Ink2
			}
			if n == 0 || !b.K.Small() {
				t.lines = append(t.lines, words{w, face, b.K.Text(16), ink})
			}
		}
		if len(t.lines) > 0 {
			b.label(room, t, b.C.Sea)
		}
	}
}

// crossing is the symbol of a fix, hollow where it is one of two.
func (b *Brush) crossing(p paint.Point, open bool, k float64) {
	if !open {
		b.FixTriangle(p, k)
		return
	}
	b.polygon(none, b.C.Ink, 2.2*k, p.Add(0, -11*k), p.Add(10*k, 7*k), p.Add(-10*k, 7*k))
}

// going draws the arrow that says where the curves go, and its words on a card.
func (l *printing) going() {
	g := l.o.Going
	if g == nil {
		return
	}
	a, z := l.v.ToPixel(g.From), l.v.ToPixel(g.To)
	if a.Dist(z) < 24*l.k || !l.v.Box.Contains(a) {
		return
	}
	l.line(a, z, 1.6*l.k, l.C.Ink)
	l.arrowHead(z, unit(a, z), 10*l.k, l.C.Ink)
	if l.K.Small() {
		return // the card beside the chart says it
	}
	size := l.K.Text(look.TextSmall)
	w := 0.0
	for i, s := range g.Words {
		face := [2]look.Face{look.Semibold, look.Regular}[i]
		w = math.Max(w, face.Font().Width(s, size))
	}
	h := 2.9 * size
	q := paint.R(a.X+12*l.k, a.Y-h/2, w+1.4*size, h)
	if !l.v.Box.Inset(6 * l.k).Covers(q) {
		return
	}
	l.rect(q, look.SmallRadius*l.k, l.C.Card, l.C.Line, l.K.Hair())
	l.write(q.X+0.7*size, q.Y+1.2*size, g.Words[0], look.Semibold, size, paint.Start, l.C.Ink)
	l.write(q.X+0.7*size, q.Y+2.4*size, g.Words[1], look.Regular, size, paint.Start, l.C.Ink2)
	l.put = append(l.put, q)
	l.take(q)
}
