package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Number plates, pixels at scale 1.
const (
	plateTall  = 22
	plateText  = 14.5
	plateApart = 54
	plateOff   = 120 // from a fix
	plateEdge  = 8   // from the frame
)

// InkPlate draws a number plate of an ink about a place, round for the first,
// square for the second, and gives its outline.
func (b *Brush) InkPlate(ink int, at paint.Point, words string) paint.Rect {
	q := b.plateRect(at, words)
	k, size := b.K.Symbol(), b.K.Figure(plateText)
	radius := q.H / 2
	if ink == 1 {
		radius = 2 * k
	}
	b.rect(q, radius, b.C.Card, b.ink(ink), 1.5*k)
	b.write(at.X, at.Y+0.35*size, words, look.Engraved, size, paint.Middle, b.C.Ink)
	return q
}

func (b *Brush) plateRect(at paint.Point, words string) paint.Rect {
	size := b.K.Figure(plateText)
	w, h := look.Engraved.Font().Width(words, size)+0.9*size, plateTall/plateText*size
	return paint.R(at.X-w/2, at.Y-h/2, w, h)
}

// InkSample draws a piece of a curve as the ink has it.
func (b *Brush) InkSample(ink int, from, to paint.Point) {
	b.Stroke(b.path.Reset().Segment(from, to), b.inkPen(ink, inkWidths[2], true), b.ink(ink))
}

// plates writes the numbers: of all but fine curves, or of all where there are no
// others.
func (l *printing) plates(i int) {
	curves := l.o.Inks[i].Curves
	least := 0
	for _, c := range curves {
		least = max(least, min(c.Weight, 1))
	}
	for _, c := range curves {
		if c.Weight < least && !l.o.PlateAll || c.Plate == "" {
			continue
		}
		if at, ok := l.platePlace(i, c.Lines, c.Plate, plateApart); ok {
			l.plate(i, at, c.Plate)
		}
	}
}

// readPlate names the curve of what was read.
func (l *printing) readPlate(i int) {
	ink := l.o.Inks[i]
	if ink.Plate == "" || len(ink.Read) == 0 {
		return
	}
	at, ok := l.place(ink.Read, ink.Plate, plateApart, func(p paint.Point) float64 {
		d := l.nearestFix(p)
		if d < 0.75*plateOff*l.k {
			return math.Inf(1)
		}
		return d // not far from the fix
	})
	if ok {
		l.plate(i, at, ink.Plate)
	}
}

func (l *printing) plate(i int, at paint.Point, words string) {
	q := l.InkPlate(i, at, words)
	l.put = append(l.put, q)
	l.take(q)
}

// platePlace is where the number of a curve stands on it: near the upper edge for
// the first ink and the right edge for the second, else nearest the middle of the
// chart.
func (l *printing) platePlace(ink int, lines [][]units.Position, words string, apart float64) (paint.Point, bool) {
	box := l.v.Box
	m := box.Centre()
	return l.place(lines, words, apart, func(p paint.Point) float64 {
		if l.nearestFix(p) < plateOff*l.k {
			return math.Inf(1)
		}
		switch {
		case !l.o.AtEdge:
			return 0.5 * p.Dist(m)
		case ink == 0:
			return p.Y - box.Y
		}
		return box.Right() - p.X
	})
}

// nearestFix is how far the nearest crossing is, pixels.
func (l *printing) nearestFix(p paint.Point) float64 {
	d := math.Inf(1)
	for _, c := range l.o.Crossings {
		d = math.Min(d, p.Dist(l.v.ToPixel(c.At)))
	}
	return d
}

// every is how far apart places along a curve are tried, pixels.
const every = 10.0

// place is the best place for a plate along some lines: inside the frame, apart
// from other plates, on as little as may be.
func (l *printing) place(lines [][]units.Position, words string, apart float64, cost func(paint.Point) float64) (best paint.Point, ok bool) {
	least := math.Inf(1)
	inside := l.v.Box.Inset(plateEdge * l.k)
	for _, line := range lines {
		pts := l.v.ToPixels(line)
		for along, length := 0.0, lineLength(pts); along < length; along += every {
			p, _ := alongLine(pts, along)
			q := l.plateRect(p, words)
			if !inside.Covers(q) || l.crowded(q, apart*l.k) {
				continue
			}
			c := cost(p)
			if c < least {
				mean, _ := l.room.harm(q)
				c += coverCost / 4 * mean
			}
			if c < least {
				best, least, ok = p, c, true
			}
		}
	}
	return best, ok
}

// crowded says whether a plate would stand too near another.
func (l *printing) crowded(q paint.Rect, apart float64) bool {
	for _, r := range l.put {
		if q.Overlaps(r.Inset(-6*l.k)) || q.Centre().Dist(r.Centre()) < apart {
			return true
		}
	}
	return false
}
