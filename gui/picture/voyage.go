package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Voyage is a plot with few things, drawn large, in words that are given: for those
// who see a chart for the first time. Where the truth is given the marker is what the
// instrument says.
type Voyage struct {
	Plot  Plot
	Words VoyageWords
	Goal  *Place  // over clouds too; nil: none
	Large float64 // symbols and lines, in those of other charts
	Text  float64 // height of the words, pixels
	Miss  bool    // by how much the goal was missed is drawn, once the truth is there
}

// VoyageWords are the words on it; "" leaves one out.
type VoyageWords struct{ Air, Wind, Marker, Truth string }

// DrawVoyage draws the voyage over a ground; room is what the ground has left, and
// what the labels of the voyage leave is given.
func DrawVoyage(b *Brush, v View, y *Voyage, room *Room) *Room {
	if room == nil {
		room = NewRoom(v.Box)
	}
	l := &layer{Brush: b, v: v, p: &y.Plot, room: room.Clone(), k: b.K.Symbol() * y.Large}
	b.PushClip(v.Box)
	defer b.PopClip()
	marker, air := v.ToPixel(units.Position(l.p.Marker)), v.ToPixel(units.Position(l.p.Air))
	l.pool(marker, l.k)
	l.truthTrack()
	parts := l.p.stretches()
	s := parts[len(parts)-1]
	l.legs(s.air, nil, look.AirPlot, 0)
	l.legs(append(s.ground[:len(s.ground):len(s.ground)], units.Position(l.p.Marker)), nil, look.GroundTrack, 0)
	if air.Dist(marker) > 3*l.k {
		l.wind(air, marker, look.WindSet, 0.5)
	}
	l.names()
	if y.Goal != nil {
		l.goal(y)
	}
	l.AirCross(air, 1.15*l.k)
	l.take(air, 11)
	l.pointer(marker, l.k, l.p.Heading.Degrees())
	l.take(marker, 22)
	l.voyageTruth(y, marker)
	l.voyageLabels(y, air, marker)
	if y.Goal != nil {
		l.voyageWord(y, v.ToPixel(y.Goal.At), 11, below, "goal", y.Goal.Name, 1, l.C.Ink)
	}
	for _, t := range l.tags {
		t.held = l.p.Held
		l.label(l.room, t, l.C.Sea)
	}
	return l.room
}

func (l *layer) goal(y *Voyage) {
	at := l.v.ToPixel(y.Goal.At)
	l.disc(at.X, at.Y, 9*l.k, none, l.C.Ink, 2.2*l.k)
	l.disc(at.X, at.Y, 2.6*l.k, l.C.Ink, none, 0)
	l.take(at, 9)
	if l.p.Truth == nil || !y.Miss {
		return
	}
	z := l.v.ToPixel(l.p.Truth.Position)
	if d := at.Dist(z); d > 30*l.k {
		u := unit(at, z)
		l.line(at.Add(u.X*9*l.k, u.Y*9*l.k), z.Add(-u.X*9*l.k, -u.Y*9*l.k), 3*l.k, l.C.Verm)
		l.run([]paint.Point{at, z})
	}
}

// voyageTruth draws the true position; under the marker it is a wider diamond round it.
func (l *layer) voyageTruth(y *Voyage, marker paint.Point) {
	if l.p.Truth == nil {
		return
	}
	at, size := l.v.ToPixel(l.p.Truth.Position), 1.3
	if at.Dist(marker) < 14*l.k {
		l.polygon(none, l.C.Verm, 2.4*l.k, at.Add(0, -20*l.k), at.Add(20*l.k, 0), at.Add(0, 20*l.k), at.Add(-20*l.k, 0))
		size = 2
	} else {
		l.TruthDiamond(at, size*l.k)
	}
	l.take(at, 10*size)
	l.voyageWord(y, at, 11*size, awayFrom(marker, at), "true", y.Words.Truth, 1, l.C.Verm)
}

// awayFrom is the place of a label at a point that is farthest from another point.
func awayFrom(from, at paint.Point) place {
	dx, dy := at.X-from.X, at.Y-from.Y
	switch {
	case math.Abs(dx) > 2*math.Abs(dy) && dx > 0:
		return rightOf
	case math.Abs(dx) > 2*math.Abs(dy):
		return leftOf
	case dy > 0:
		return below
	}
	return above
}

func (l *layer) voyageLabels(y *Voyage, air, marker paint.Point) {
	first := below
	if l.p.Truth != nil { // on the side that is not the true position's
		first = awayFrom(l.v.ToPixel(l.p.Truth.Position), marker)
	}
	l.voyageWord(y, marker, 24, first, "marker", y.Words.Marker, 1.15, l.C.Ink)
	if air.Dist(marker) < 40*l.k {
		return
	}
	l.voyageWord(y, air, 12, above, "air", y.Words.Air, 1, l.C.Air)
	mid := paint.Pt((air.X+marker.X)/2, (air.Y+marker.Y)/2)
	if air.Dist(marker) > 70*l.k {
		l.voyageWord(y, mid, 6, leftOf, "wind", y.Words.Wind, 1, l.C.Wind)
	}
}

func (l *layer) voyageWord(y *Voyage, at paint.Point, clear float64, first place, key, s string, large float64, c colour) {
	if s == "" || !l.v.Box.Contains(at) {
		return
	}
	l.tags = append(l.tags, label{at: at, clear: clear * l.k, first: first, must: true, key: key,
		lines: []words{{s, look.Bold, math.Round(y.Text * large), c}}})
}
