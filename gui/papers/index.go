package papers

import (
	"math"
	"slices"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// IndexPage is a chart of small scale on which it is seen which plotting sheet covers
// what.
type IndexPage struct {
	Sheets []Sheet
	Of     Paper // the paper of the sheets
}

// indexFrom is the number of sheets from which on there is an index of them.
const indexFrom = 3

// indexScales are the scales of an index, of which the greatest that fits is taken.
var indexScales = [...]float64{2e6, 2.5e6, 3e6, 4e6, 5e6, 6e6, 8e6, 10e6, 12e6, 15e6, 20e6, 25e6, 30e6, 40e6, 50e6, 60e6, 80e6, 100e6, 150e6, 200e6, 300e6}

// The frame of an index, mm.
const (
	indexFoot = 30.0 // from the lower edge of the paper
	indexEdge = 4.0  // the sheets stay so far inside
)

func indexFrame(on Paper) paint.Rect {
	return paint.R(frameSide, frameTop, on.W-2*frameSide, on.H-frameTop-indexFoot)
}

// onChart is where the frame of a sheet lies on another chart.
func (s *Sheet) onChart(of Paper, c chart) paint.Rect {
	own := s.chart(of)
	at := c.at(own.mid)
	k := mm(c.merc.Degree()) / mm(own.merc.Degree()) // one projection: a rectangle stays one
	return paint.R(at.X-k*own.box.W/2, at.Y-k*own.box.H/2, k*own.box.W, k*own.box.H)
}

// chart is the piece of the earth with all sheets on it, and its scale.
func (p IndexPage) chart(on Paper) (chart, float64) {
	box := indexFrame(on)
	first := p.Sheets[0]
	for _, scale := range indexScales {
		c := newChart(box, first.Centre, first.Latitude, scale)
		all := p.Sheets[0].onChart(p.Of, c)
		for _, s := range p.Sheets[1:] {
			all = union(all, s.onChart(p.Of, c))
		}
		if all.W <= box.W-2*indexEdge && all.H <= box.H-2*indexEdge || scale == indexScales[len(indexScales)-1] {
			return newChart(box, c.position(all.Centre()), first.Latitude, scale), scale
		}
	}
	panic("papers: an index has a last scale")
}

func union(a, b paint.Rect) paint.Rect {
	x, y := math.Min(a.X, b.X), math.Min(a.Y, b.Y)
	return paint.R(x, y, math.Max(a.Right(), b.Right())-x, math.Max(a.Bottom(), b.Bottom())-y)
}

func (p IndexPage) draw(d *draft) {
	c, scale := p.chart(d.paper)
	s := p.Sheets[0]
	lat := math.Copysign(s.Latitude.Degrees(), s.Centre.Lat.Degrees())
	d.head(look.Textf(look.PaperIndexTitle, s.Title), look.Textf(look.PaperScaleAt, grouped(int(scale)), latitudeWords(lat)),
		join(look.Text(look.PaperMercator), look.Textf(look.PaperIndexSheets, len(p.Sheets))))
	land := d.coasts(c, s.Waters.Coasts)
	d.indexGrid(c)
	r := &room{box: c.box.Inset(0.8)}
	d.PushClip(c.box)
	d.Stroke(d.path.Reset().Polyline(onPaper(c, s.Required)...), paint.Pen{Width: 0.35}, d.c.Rod)
	d.PopClip()
	for i := range p.Sheets {
		d.box(p.Sheets[i].onChart(p.Of, c), 0.25, d.c.Ink)
	}
	for i := range p.Sheets {
		q := p.Sheets[i].onChart(p.Of, c)
		d.number(q, p.Sheets[i].alone(), strconv.Itoa(i+1), r)
	}
	d.names(c, &picture.Waters{Places: chief(s.Waters.Places), Coasts: s.Waters.Coasts}, land, r)
	d.box(c.box, heavy, d.c.Ink)
	d.foot()
	d.paragraph(c.box.X, c.box.Bottom()+9.5, c.box.W, look.Textf(look.PaperIndexUse, s.scaleText()), look.Regular, note, d.c.Ink)
}

// onPaper is a line on a chart, unbroken where it runs round the earth.
func onPaper(c chart, line []units.Position) []paint.Point {
	round := 360 * mm(c.merc.Degree())
	out := make([]paint.Point, len(line))
	for i, p := range line {
		out[i] = c.at(p)
		if i > 0 {
			out[i].X += round * math.Round((out[i-1].X-out[i].X)/round)
		}
	}
	return out
}

// chief are the greatest places.
func chief(all []picture.Place) []picture.Place {
	return slices.DeleteFunc(slices.Clone(all), func(p picture.Place) bool { return p.Rank > 0 })
}

// alone is where in a sheet, from -1 to 1 across and down, its neighbours overlap it
// least.
func (s *Sheet) alone() paint.Point {
	east, south := 0, 0
	for _, n := range s.Next {
		east, south = east+n.East, south+n.South
	}
	return paint.Pt(-float64(sign(east)), -float64(sign(south)))
}

func sign(n int) int { return max(-1, min(n, 1)) }

// number writes the number of a sheet as large as it may be, toward the side of it that
// is its own, or where else there is room.
func (d *draft) number(q paint.Rect, toward paint.Point, words string, r *room) {
	size := math.Max(small, math.Min(7, 0.45*q.H))
	w := look.Engraved.Font().Width(words, size)
	m := q.Centre().Add(toward.X*0.3*q.W, toward.Y*0.25*q.H)
	for _, off := range []paint.Point{{}, {Y: -q.H / 5}, {Y: q.H / 5}, {X: -q.W / 5}, {X: q.W / 5}} {
		at := m.Add(off.X, off.Y)
		box := paint.R(at.X-w/2-0.4, at.Y-0.5*size, w+0.8, size)
		if r.free(box) {
			r.take(box)
			d.over(at.X, at.Y+0.35*size, words, look.Engraved, size, paint.Middle, d.c.Ink)
			return
		}
	}
}

// indexSteps are the steps of the graticule of an index, degrees.
var indexSteps = []int{1, 2, 5, 10, 20, 30}

// indexGrid draws the graticule as closely as its labels have room.
func (d *draft) indexGrid(c chart) {
	step := indexSteps[len(indexSteps)-1]
	for _, s := range slices.Backward(indexSteps) {
		if float64(s)*mm(c.merc.Degree()) > 17 {
			step = s
		}
	}
	for _, l := range c.meridians(60 * step) {
		d.line(l.at, c.box.Y, l.at, c.box.Bottom(), hair, d.c.Graticule)
		text := units.LongitudeLabel(units.Angle(units.WrapHalfDegrees(float64(l.minutes)/60)) * units.Degree)
		d.write(l.at, c.box.Y-1.3, text, look.Engraved, note, paint.Middle, d.c.Ink)
		d.write(l.at, c.box.Bottom()+3.4, text, look.Engraved, note, paint.Middle, d.c.Ink)
	}
	for _, l := range c.parallels(60 * step) {
		d.line(c.box.X, l.at, c.box.Right(), l.at, hair, d.c.Graticule)
		text := units.LatitudeLabel(units.Angle(l.minutes) * units.ArcMinute)
		d.write(c.box.X-1.2, l.at+0.9, text, look.Engraved, note, paint.End, d.c.Ink)
		d.write(c.box.Right()+1.2, l.at+0.9, text, look.Engraved, note, paint.Start, d.c.Ink)
	}
}

// neighbour is a sheet that overlaps another one.
type neighbour struct {
	Number       int // from 0
	East, South  int // -1, 0 or 1: on which side it lies
	across, down float64
}

// neighbours are the sheets that a sheet overlaps, the nearest for each side and
// corner.
func neighbours(sheets []Sheet, on Paper, i int) (all []neighbour) {
	own := sheets[i].chart(on)
	m := own.box.Centre()
	side := func(off float64) int {
		const none = 0.01 // mm: the sheets of a flight stand in rows and columns
		switch {
		case off > none:
			return 1
		case off < -none:
			return -1
		}
		return 0
	}
	for k := range sheets {
		at := own.at(sheets[k].Centre)
		n := neighbour{Number: k, across: at.X - m.X, down: at.Y - m.Y}
		n.East, n.South = side(n.across), side(n.down)
		if k == i || math.Abs(n.across) > own.box.W || math.Abs(n.down) > own.box.H || n.East == 0 && n.South == 0 {
			continue
		}
		all = append(all, n)
	}
	return all
}

// neighbours names the sheets that go on from this one, each inside the edge or the
// corner where it does.
func (d *draft) neighbours(c chart, all []neighbour, r *room) {
	for _, n := range all {
		words := look.Textf(look.PaperNext, n.Number+1)
		w := look.Semibold.Font().Width(words, note)
		x := c.box.Centre().X + float64(n.East)*(c.box.W/2-3.4-w/2)
		y := c.box.Centre().Y + float64(n.South)*(c.box.H/2-4.6)
		if n.East == 0 { // beside the meridian in the middle, if one is there
			x += w/2 + 2
		}
		q := paint.R(x-w/2-0.5, y-note*0.8, w+1, note*1.1)
		r.take(q)
		d.fill(q, d.c.Card)
		d.write(x, y, words, look.Semibold, note, paint.Middle, d.c.Ink2)
	}
}
