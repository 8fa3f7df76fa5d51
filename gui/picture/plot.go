package picture

import (
	"math"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// layer is one drawing of a plot.
type layer struct {
	*Brush
	v    View
	p    *Plot
	room *Room
	k    float64
	tags []label
	ran  [][]paint.Point // lines drawn so far
}

// DrawPlot draws the plot over the ground; room is what DrawGround gave (it is
// not changed), nil if nothing is to be kept clear of. It gives the room that is
// left for what is drawn over the plot.
func DrawPlot(b *Brush, v View, p *Plot, room *Room) *Room {
	if room == nil {
		room = NewRoom(v.Box)
	}
	l := &layer{Brush: b, v: v, p: p, room: room.Clone(), k: b.K.Symbol()}
	b.PushClip(v.Box)
	defer b.PopClip()
	l.pool(v.ToPixel(units.Position(p.Marker)), l.k) // under the lines
	l.required()
	parts := p.stretches()
	for i, s := range parts {
		l.tracks(s, i == len(parts)-1)
	}
	l.truthTrack()
	l.ellipse()
	l.hat()
	for i := range p.Lines {
		l.moved(&p.Lines[i])
	}
	for _, m := range p.Lines {
		l.position(m)
	}
	l.fixes()
	for _, s := range parts[:len(parts)-1] {
		l.closed(s)
	}
	l.settings()
	l.names()
	l.present()
	for _, t := range l.tags {
		t.held = p.Held
		l.label(l.room, t, l.C.Sea)
	}
	return l.room
}

// tag keeps a label until all lines are drawn.
func (l *layer) tag(at paint.Point, clear float64, first place, must bool, lines ...words) {
	l.add(label{at: at, clear: clear * l.k, first: first, must: must, lines: lines})
}

func (l *layer) add(t label) {
	if l.v.Box.Contains(t.at) && (t.must || l.v.Scale >= rankScale[0]*l.k) {
		if t.key == "" {
			t.key = t.lines[0].text
		}
		l.tags = append(l.tags, t)
	}
}

func (l *layer) bold(s string, c colour) words { return words{s, look.Bold, l.K.Text(16), c} }
func (l *layer) second(s string) words         { return words{s, look.Regular, l.K.Text(15), l.C.Ink2} }

// take keeps labels off a symbol of radius r, and those of others from standing
// beside it.
func (l *layer) take(p paint.Point, r float64) {
	r *= l.k
	l.room.Take(paint.R(p.X-r, p.Y-r, 2*r, 2*r))
	l.room.marks = append(l.room.marks, p)
}

// run keeps labels off a line that was drawn.
func (l *layer) run(pts []paint.Point) {
	l.room.TakeLine(pts)
	l.ran = append(l.ran, pts)
}

// poolRadius is the radius of the light under the marker, pixels at scale 1.
const poolRadius = 34

// names draws furniture and names of the ground anew, over the plot, where a line
// runs through them, and names that the light dims.
func (l *layer) names() {
	for _, f := range l.room.furniture {
		if slices.ContainsFunc(l.ran, func(line []paint.Point) bool { return crosses(line, f.at) }) {
			f.draw(l.Brush, f.at)
		}
	}
	marker := l.v.ToPixel(units.Position(l.p.Marker))
	for _, n := range l.room.names {
		switch {
		case slices.ContainsFunc(l.ran, func(line []paint.Point) bool { return crosses(line, n.box) }):
			n.write(l.Brush, l.C.Sea)
		case distanceTo(n.box, marker) < poolRadius*l.k:
			n.write(l.Brush, none)
		}
	}
}

func crosses(line []paint.Point, box paint.Rect) bool {
	for i := 1; i < len(line); i++ {
		if _, _, ok := paint.ClipSegment(line[i-1], line[i], box); ok {
			return true
		}
	}
	return false
}

func (l *layer) required() {
	line := make([]units.Position, len(l.p.Required))
	for i, w := range l.p.Required {
		line[i] = w.At
	}
	if len(line) < 2 {
		return
	}
	pts := l.v.ToPixels(line)
	l.course(pts, l.strokeOf(look.RequiredTrack, 1), 0.5)
	l.run(pts)
	for i, w := range l.p.Required {
		if i == 0 || w.Label == "" {
			continue
		}
		l.TurningPoint(pts[i], l.k)
		l.take(pts[i], 6)
		l.add(label{at: pts[i], clear: 6 * l.k, first: rightOf, far: true, lines: []words{l.bold(w.Label, l.C.Ink)}})
	}
}

// tracks draws air plot and ground track of a stretch, a head on each leg.
func (l *layer) tracks(s stretch, present bool) {
	l.legs(s.air, s.legs, look.AirPlot, -headsApart)
	for _, i := range s.legs {
		if i < len(s.air) {
			at := l.v.ToPixel(s.air[i])
			l.disc(at.X, at.Y, 3.2*l.k, l.C.Air, none, 0)
			l.room.marks = append(l.room.marks, at)
		}
	}
	l.legs(s.ground, s.legs, look.GroundTrack, headsApart)
	a, z := l.v.ToPixel(s.air[len(s.air)-1]), l.v.ToPixel(s.ground[len(s.ground)-1])
	if present {
		z = l.v.ToPixel(units.Position(l.p.Marker))
	}
	if a.Dist(z) > 3*l.k {
		l.wind(a, z, look.WindSet, 0.5)
	}
}

func (l *layer) wind(a, z paint.Point, kind look.LineKind, at float64) {
	w := l.strokeOf(kind, l.k)
	if a.Dist(z) < leastForHeads*l.k {
		w.heads = 0
	}
	if at == 0.5 {
		at = visibleMiddle([]paint.Point{a, z}, l.v.Box, 0)
	}
	l.vector(a, z, w, at)
	l.run([]paint.Point{a, z})
}

// onLine is how far a point may lie off the line that is drawn for it, pixels.
const onLine = 0.2

// headsApart is how far, as a share of a leg, the heads of air plot and ground
// track stand from its middle, so that they keep clear of each other.
const headsApart = 0.07

func (l *layer) legs(line []units.Position, legs []int, kind look.LineKind, aside float64) {
	pts := l.v.ToPixels(line)
	w := l.strokeOf(kind, l.k)
	drawn := straightened(thin(pts, 0.5), onLine)
	l.run(drawn)
	bare := w
	bare.heads = 0
	l.course(drawn, bare, 0)
	from := 0
	for _, to := range append(append([]int(nil), legs...), len(pts)-1) {
		to = min(to, len(pts)-1)
		if to > from && lineLength(pts[from:to+1]) > leastForHeads*l.k {
			l.heads(pts[from:to+1], w, visibleMiddle(pts[from:to+1], l.v.Box, aside))
		}
		from = to
	}
}

// visibleMiddle is the middle of the part of the line that lies in the box, or a
// share of that part aside from it, as a share of the line's length; 0.5 if
// none does.
func visibleMiddle(pts []paint.Point, box paint.Rect, aside float64) float64 {
	from, to, at := math.Inf(1), 0.0, 0.0
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if p, q, ok := paint.ClipSegment(a, b, box); ok {
			from, to = math.Min(from, at+a.Dist(p)), at+a.Dist(q)
		}
		at += a.Dist(b)
	}
	if math.IsInf(from, 1) || at == 0 {
		return 0.5
	}
	return ((from+to)/2 + aside*(to-from)) / at
}

func (l *layer) truthTrack() {
	if l.p.Truth == nil || len(l.p.Truth.Track) < 2 {
		return
	}
	pts := straightened(thin(l.v.ToPixels(l.p.Truth.Track), 0.5), onLine)
	l.course(pts, l.strokeOf(look.TrueTrack, l.k), 0)
	l.run(pts)
}

func (l *layer) position(m Line) {
	a, z := l.v.ToPixel(m.From), l.v.ToPixel(m.To)
	if m.Source != nil {
		src, end := l.v.ToPixel(*m.Source), a
		if src.Dist(z) < src.Dist(a) {
			end = z
		}
		l.dashed(src, end, 1.1*l.k, l.C.Pos, 2*l.k, 6*l.k)
		l.run([]paint.Point{src, end})
	}
	if m.Fresh {
		l.fresh(a, z)
	}
	l.positionLine(a, z, m.Transferred, l.k)
	l.run([]paint.Point{a, z})
	if m.Label != "" {
		lines := []words{{m.Label, look.Semibold, l.K.Text(look.TextSmall), l.C.Pos}}
		if m.Under != "" && !l.K.Small() {
			lines = append(lines, words{m.Under, look.Regular, l.K.Text(look.TextSmall), l.C.Ink2})
		}
		if _, q, ok := paint.ClipSegment(a, z, l.v.Box.Inset(16*l.k)); ok {
			z = q // an end that is off the sheet has its words where the line leaves it
		}
		l.tag(z, 8, rightOf, false, lines...)
	}
}

func (l *layer) fixes() {
	for _, f := range l.p.Fixes {
		at := l.v.ToPixel(f.At)
		if f.Found != nil {
			from := l.v.ToPixel(units.Position(f.From))
			l.wind(from, at, look.WindFound, 0.55)
			mid := paint.Pt((from.X+at.X)/2, (from.Y+at.Y)/2)
			l.tag(mid, 10, aboveRight, false, l.bold(look.Textf(look.WindFoundLabel, f.Found), l.C.Wind))
		}
		l.FixTriangle(at, 0.72*l.k)
		l.take(at, 9)
		lines := []words{l.bold(look.Text(look.Fix)+" "+units.TimeText(f.Time), l.C.Ink)}
		if f.Which {
			lines[0].text += " " + look.Text(look.PlotWhich)
		}
		if l.K.Fine() {
			lines = append(lines, l.second(f.At.String()))
		}
		l.tag(at, 9, below, false, lines...)
	}
}

// closed marks where air and ground position stood when the counters were set.
func (l *layer) closed(s stretch) {
	when := units.TimeText(l.p.Start.Add(s.end.Elapsed))
	air, ground := l.v.ToPixel(units.Position(s.end.Air)), l.v.ToPixel(units.Position(s.end.Ground))
	l.AirCross(air, l.k)
	l.take(air, 9)
	l.tag(air, 9, aboveLeft, false, words{look.Textf(look.AirShort, when), look.Semibold, l.K.Text(15), l.C.Ink})
	l.disc(ground.X, ground.Y, 4*l.k, l.C.Card, l.C.Ink, 2*l.k)
	l.take(ground, 5)
	l.tag(ground, 5, aboveRight, false, words{look.Textf(look.GroundShort, when), look.Semibold, l.K.Text(15), l.C.Ink})
}

// settings marks where the counters were set.
func (l *layer) settings() {
	for _, m := range l.p.Marks {
		if m.Event == aboard.CountersSet && m.Elapsed > 0 {
			at := l.v.ToPixel(units.Position(m.Ground))
			l.CountersBox(at, 0.75*l.k)
			l.take(at, 7)
		}
	}
}

// present draws the air position, the true one if it may be seen, and the
// marker.
func (l *layer) present() {
	air, marker := l.v.ToPixel(units.Position(l.p.Air)), l.v.ToPixel(units.Position(l.p.Marker))
	l.AirCross(air, l.k)
	l.take(air, 9)
	if l.p.Truth != nil {
		l.truePosition(l.v.ToPixel(l.p.Truth.Position), marker)
	}
	l.pointer(marker, l.k, l.p.Heading.Degrees())
	l.take(marker, 20)
	when := units.TimeText(l.p.Clock)
	ground := label{at: marker, clear: 24 * l.k, first: below, must: true, key: "ground",
		lines: []words{l.bold(look.Textf(look.GroundShort, when), l.C.Ink)}}
	if !l.K.Small() {
		ground.lines = append(ground.lines, l.second(units.Position(l.p.Marker).String()))
	}
	first := []label{ground}
	if air.Dist(marker) > 20*l.k {
		first = append(first, label{at: air, clear: 9 * l.k, first: above, key: "air",
			lines: []words{l.bold(look.Textf(look.AirShort, when), l.C.Ink)}})
	}
	first = slices.DeleteFunc(first, func(t label) bool { return !l.v.Box.Contains(t.at) })
	l.tags = append(first, l.tags...)
}

// truePosition draws the true position; where the marker stands on it the
// diamond is drawn round the marker.
func (l *layer) truePosition(at, marker paint.Point) {
	clear, size := 11.0, 0.95
	if at.Dist(marker) < 7*l.k {
		clear, size = 26, 1.7 // clear of the light
	}
	l.TruthDiamond(at, size*l.k)
	l.take(at, 10)
	if l.v.Box.Contains(at) {
		l.tags = append([]label{{at: at, clear: clear * l.k, first: belowLeft, must: true, key: "true",
			lines: []words{l.bold(look.Text(look.TruePosition), l.C.Verm)}}}, l.tags...)
	}
}
