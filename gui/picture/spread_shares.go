package picture

import (
	"math"
	"sort"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// spreadLinks are the names of the links, from the foot of the strip up.
var spreadLinks = [SpreadLinks]look.Key{look.SpreadWind, look.SpreadHeading, look.SpreadAirLog, look.SpreadDrive, look.SpreadStart}

// spreadColours are those of the links.
func (b *Brush) spreadColours() [SpreadLinks]colour {
	return [SpreadLinks]colour{b.C.Wind, b.C.Brass, b.C.Air, b.C.SlateHi, b.C.Pos}
}

// spreadShares draws the shares of the links as a strip over time.
func (b *Brush) spreadShares(r paint.Rect, s *Spread) {
	b.spreadCard(r, look.SpreadShares, look.SpreadSharesUnit)
	p := b.spreadPlot(r)
	if len(s.Shares) == 0 {
		b.write(p.X, p.Y+b.K.Px(20), look.Text(look.SpreadNoShares), look.Regular, b.K.Text(look.TextBody), paint.Start, b.C.Ink2)
		return
	}
	last := end(s.Hours)
	colours := b.spreadColours()
	for link := range SpreadLinks {
		pts := append(spreadEdge(p, s, link+1), reversed(spreadEdge(p, s, link))...)
		b.polygon(colours[link], none, 0, pts...)
	}
	for link := 1; link < SpreadLinks; link++ { // told apart where there is one hue
		b.Stroke(b.path.Reset().Polyline(spreadEdge(p, s, link)...), paint.Pen{Width: b.K.Px(2)}, b.C.Card)
	}
	b.spreadHours(p, last)
	final := s.Shares[len(s.Shares)-1]
	whole := wholePercents(final[:])
	var names []spreadName
	foot := 0.0
	for link, share := range final {
		y := p.Bottom() - p.H*(foot+share/2)
		foot += share
		names = append(names, spreadName{y, look.Textf(look.SpreadPercent, whole[link], look.Text(spreadLinks[link])), b.C.Ink, colours[link]})
	}
	b.spreadNames(p, names)
}

// spreadEdge is the upper edge of the first so many links.
func spreadEdge(p paint.Rect, s *Spread, links int) []paint.Point {
	pts := make([]paint.Point, 0, len(s.Hours))
	for i, h := range s.Hours {
		sum := 0.0
		for _, share := range s.Shares[i][:links] {
			sum += share
		}
		pts = append(pts, paint.Pt(p.X+p.W*ofAll(h, end(s.Hours)), p.Bottom()-p.H*math.Min(1, sum)))
	}
	return pts
}

func reversed(pts []paint.Point) []paint.Point {
	for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
	return pts
}

// wholePercents are shares as whole percents that add up to 100 if the shares add up
// to 1: rounded down, the rest to the largest remainders.
func wholePercents(shares []float64) []int {
	out, order, left, sum := make([]int, len(shares)), make([]int, len(shares)), 0, 0.0
	for i, s := range shares {
		out[i], order[i] = int(100*s), i
		left -= out[i]
		sum += s
	}
	left += int(math.Round(100 * sum))
	rest := func(i int) float64 { return 100*shares[i] - float64(out[i]) }
	sort.SliceStable(order, func(a, b int) bool { return rest(order[a]) > rest(order[b]) })
	for i := 0; i < left && i < len(order); i++ {
		out[order[i]]++
	}
	return out
}

// mostDots is how many flights are shown as dots.
const mostDots = 2000

// spreadEnd draws the flights at their end round the true position.
func (b *Brush) spreadEnd(r paint.Rect, s *Spread) {
	b.spreadCard(r, look.SpreadEnd, look.SpreadEndUnit)
	px, size := b.K.Px, b.K.Text(look.TextBody)
	foot := 3 * 1.5 * size
	in := paint.R(r.X+px(20), r.Y+px(56), r.W-px(40), r.H-px(72)-foot)
	side := math.Min(in.W, in.H)
	p := paint.R(in.X+(in.W-side)/2, in.Y+(in.H-side)/2, side, side).Snap()
	b.rect(p, 0, b.C.Sea, b.C.Ink, b.K.Hair())
	reach := spreadReach(s)
	at := func(m Miss) paint.Point {
		return p.Centre().Add(p.W/2*m.East/reach, -p.H/2*m.North/reach)
	}
	b.PushClip(p)
	b.spreadGrid(p, reach)
	dots := s.Dots[:min(len(s.Dots), mostDots)]
	b.spreadEllipse(s.Mean, s.MostAxes, at, paint.Pen{}, paint.Alpha(b.C.BrassHi, 0.28))
	for _, d := range dots {
		q := at(d)
		b.disc(q.X, q.Y, px(2), b.C.Ink2, none, 0)
	}
	b.spreadEllipse(s.Mean, s.MostAxes, at, paint.Pen{Width: px(2.4)}, none)
	b.spreadEllipse(s.Mean, s.HalfAxes, at, paint.Pen{Width: px(2.4), Dash: []float64{px(7), px(5)}}, none)
	b.TruthDiamond(at(Miss{}), b.K.Symbol())
	b.PopClip()
	b.spreadEndWords(paint.R(r.X+px(20), r.Bottom()-px(14)-foot, r.W-px(40), foot), s, len(dots))
}

// spreadEndWords are the key under the dots.
func (b *Brush) spreadEndWords(r paint.Rect, s *Spread, shown int) {
	size := b.K.Text(look.TextBody)
	dots := look.Text(look.SpreadDots)
	if shown < s.Flights {
		dots = look.Textf(look.SpreadDotsSome, shown, s.Flights)
	}
	x, y := r.X+b.K.Px(22), r.Y+size
	for i, line := range []string{dots, s.HalfAxes.text(look.SpreadEllipseHalf), s.MostAxes.text(look.SpreadEllipseMost)} {
		at := y + 1.5*size*float64(i)
		b.write(r.X+b.K.Px(60), at, line, look.Regular, size, paint.Start, b.C.Ink)
		from, to := paint.Pt(x-b.K.Px(20), at-0.34*size), paint.Pt(x+b.K.Px(24), at-0.34*size)
		switch i {
		case 0:
			b.disc(x, from.Y, b.K.Px(2.6), b.C.Ink2, none, 0)
		case 1:
			b.dashed(from, to, b.K.Px(2.4), b.C.Ink, b.K.Px(7), b.K.Px(5))
		default:
			b.line(from, to, b.K.Px(2.4), b.C.Ink)
		}
	}
}

// spreadReach is how far the picture of the end reaches from the true position, NM:
// over all dots and the greater ellipse.
func spreadReach(s *Spread) float64 {
	reach := math.Hypot(s.Mean.North, s.Mean.East) + s.MostAxes.Major
	for _, d := range s.Dots {
		reach = math.Max(reach, math.Max(math.Abs(d.North), math.Abs(d.East)))
	}
	return math.Max(1e-3, 1.05*reach)
}

// spreadGrid draws lines at round miles, with figures at the foot.
func (b *Brush) spreadGrid(p paint.Rect, reach float64) {
	step, size := NiceStep(2*reach/11), b.K.Figure(look.TextSmall)
	for i := -math.Floor(reach / step); i*step <= reach; i++ {
		d := p.W / 2 * i * step / reach
		width := b.K.Hair()
		if i == 0 {
			width *= 2
		}
		x, y := p.Centre().X+d, p.Centre().Y-d
		b.line(paint.Pt(x, p.Y), paint.Pt(x, p.Bottom()), width, b.C.Graticule)
		b.line(paint.Pt(p.X, y), paint.Pt(p.Right(), y), width, b.C.Graticule)
		if i != 0 {
			b.haloed(p.X+b.K.Px(6), y+0.36*size, figure(math.Abs(i*step)), look.Engraved, size, paint.Start, b.C.Ink2, b.C.Sea)
		}
	}
	b.haloed(p.Centre().X, p.Y+b.K.Px(8)+size, look.Text(look.North), look.Engraved, 1.2*size, paint.Middle, b.C.Ink, b.C.Sea)
}

// spreadEllipse draws an ellipse round the mean.
func (b *Brush) spreadEllipse(mean Miss, e SpreadEllipse, at func(Miss) paint.Point, pen paint.Pen, fill colour) {
	if e.Major <= 0 {
		return
	}
	const n = 72
	pts := make([]paint.Point, n)
	sin, cos := math.Sincos(e.BearingDeg * math.Pi / 180)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		along, across := e.Major*c, e.Minor*s
		pts[i] = at(Miss{mean.North + along*cos - across*sin, mean.East + along*sin + across*cos})
	}
	b.path.Reset().Polygon(pts...)
	if paint.Visible(fill) {
		b.Fill(&b.path, fill)
	}
	if pen.Width > 0 {
		b.Stroke(&b.path, pen, b.C.Ink)
	}
}
