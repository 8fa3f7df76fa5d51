package picture

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Size of the picture of a spread where nobody says another, pixels.
const (
	SpreadWidth  = 1600
	SpreadHeight = 960
)

// SpreadLinks is the number of links that the variance is shared out to, always in
// this order: wind, heading, air log, drive, start position.
const SpreadLinks = 5

// Spread is how the error of many flights of one plan grows.
type Spread struct {
	Title, Told string
	Flights     int
	Hours       []float64 // of the looks at the flights; the last is the end
	// Each as Hours, NM: the median miss; the radii that hold half of the flights
	// and 95 in 100; the same two in closed form, as far as that holds.
	Median, Half, Most, FormHalf, FormMost []float64
	Shares                                 [][SpreadLinks]float64 // as Hours; nil: not worked
	Dots                                   []Miss                 // at the end
	Mean                                   Miss
	HalfAxes, MostAxes                     SpreadEllipse // round the mean
}

// Miss is an error, NM.
type Miss struct{ North, East float64 }

// SpreadEllipse is an ellipse by its half axes, NM, and the bearing of the greater.
type SpreadEllipse struct{ Major, Minor, BearingDeg float64 }

// text is the ellipse in words.
func (e SpreadEllipse) text(k look.Key) string {
	return look.Textf(k, e.Major, e.Minor, fmt.Sprintf("%03dT", int(math.Round(e.BearingDeg))%180))
}

// DrawSpread draws the picture in a box: growth and shares on the left, the flights
// at their end on the right.
func DrawSpread(b *Brush, box paint.Rect, s Spread) {
	b.rect(box, 0, b.C.Ground, none, 0)
	in, gap := box.Inset(b.K.Px(look.Edge)), b.K.Px(look.GapColumn)
	b.write(in.X, in.Y+b.K.Px(26), s.Title, look.Semibold, b.K.Text(look.TextHeading), paint.Start, b.C.Ink)
	b.write(in.X, in.Y+b.K.Px(56), s.Told, look.Regular, b.K.Text(look.TextBody), paint.Start, b.C.Ink2)
	top := in.Y + b.K.Px(78)
	left, h := math.Round(0.57*in.W), in.Bottom()-top
	upper := math.Round(0.56 * h)
	b.spreadGrowth(paint.R(in.X, top, left, upper), &s)
	b.spreadShares(paint.R(in.X, top+upper+gap, left, h-upper-gap), &s)
	b.spreadEnd(paint.R(in.X+left+gap, top, in.W-left-gap, h), &s)
}

// spreadCard draws a card with its title and what is measured on it.
func (b *Brush) spreadCard(r paint.Rect, title, unit look.Key) {
	b.rect(r, b.K.Px(look.CardRadius), b.C.Card, b.C.Line, b.K.Hair())
	y := r.Y + b.K.Px(36)
	b.write(r.X+b.K.Px(20), y, look.Text(title), look.Semibold, b.K.Text(look.TextLabel), paint.Start, b.C.Ink)
	b.write(r.Right()-b.K.Px(20), y, look.Text(unit), look.Regular, b.K.Text(look.TextSmall), paint.End, b.C.Ink2)
}

// spreadPlot is the part of a card in which curves run, names to their right.
func (b *Brush) spreadPlot(r paint.Rect) paint.Rect {
	x, y := r.X+b.K.Px(64), r.Y+b.K.Px(66)
	return paint.R(x, y, r.Right()-b.K.Px(250)-x, r.Bottom()-b.K.Px(46)-y)
}

// hourStep divides hours as a clock does.
func hourStep(hours float64) float64 {
	for _, s := range []float64{1.0 / 60, 1.0 / 12, 0.25, 0.5, 1, 2, 3, 6} {
		if hours/s <= 9 {
			return s
		}
	}
	return 12
}

// figure is a figure of a scale, without ends that say nothing.
func figure(x float64) string { return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64) }

// spreadHours draws the time scale under a plot.
func (b *Brush) spreadHours(p paint.Rect, last float64) {
	size := b.K.Figure(look.TextSmall)
	b.line(paint.Pt(p.X, p.Bottom()), paint.Pt(p.Right(), p.Bottom()), b.K.Hair(), b.C.Ink)
	for step, i := hourStep(last), 0.0; last > 0 && i*step <= last*(1+1e-9); i++ {
		x := p.X + p.W*i*step/last
		b.line(paint.Pt(x, p.Bottom()), paint.Pt(x, p.Bottom()+b.K.Px(6)), b.K.Hair(), b.C.Ink)
		b.write(x, p.Bottom()+b.K.Px(10)+size, look.Textf(look.SpreadHours, figure(i*step)), look.Engraved, size, paint.Middle, b.C.Ink)
	}
}

// end is the last of some figures, 0 if there are none.
func end(all []float64) float64 {
	if len(all) == 0 {
		return 0
	}
	return all[len(all)-1]
}

// spreadCurve is one of the curves.
type spreadCurve struct {
	values []float64
	pen    paint.Pen
	colour colour
	name   look.Key
}

func (b *Brush) spreadGrowth(r paint.Rect, s *Spread) {
	b.spreadCard(r, look.SpreadGrowth, look.SpreadGrowthUnit)
	p, last, most := b.spreadPlot(r), end(s.Hours), 0.0
	px := b.K.Px
	curves := []spreadCurve{
		{s.FormHalf, paint.Pen{Width: px(1.6)}, b.C.BrassLo, ""},
		{s.FormMost, paint.Pen{Width: px(1.6)}, b.C.BrassLo, ""},
		{s.Half, paint.Pen{Width: px(3), Dash: []float64{px(12), px(6)}}, b.C.Ink2, look.SpreadHalf},
		{s.Most, paint.Pen{Width: px(3), Dash: []float64{px(3), px(5)}}, b.C.Ink, look.SpreadMost},
		{s.Median, paint.Pen{Width: px(3.4)}, b.C.Ink, look.SpreadMedian},
	}
	for _, c := range curves {
		for _, v := range c.values {
			most = math.Max(most, v)
		}
	}
	step := NiceStep((most) / 6)
	most = math.Max(step, most*1.04)
	size := b.K.Figure(look.TextSmall)
	for i := 0.0; i*step <= most; i++ {
		y := p.Bottom() - p.H*i*step/most
		b.line(paint.Pt(p.X, y), paint.Pt(p.Right(), y), b.K.Hair(), b.C.Line)
		b.write(p.X-px(12), y+0.36*size, figure(i*step), look.Engraved, size, paint.End, b.C.Ink)
	}
	b.spreadHours(p, last)
	var names []spreadName
	for _, c := range curves {
		pts := make([]paint.Point, 0, len(c.values))
		for i, v := range c.values {
			pts = append(pts, paint.Pt(p.X+p.W*ofAll(s.Hours[i], last), p.Bottom()-p.H*v/most))
		}
		if len(pts) > 1 {
			b.Stroke(b.path.Reset().Polyline(pts...), c.pen, c.colour)
		}
		if c.name != "" && len(pts) > 0 {
			names = append(names, spreadName{pts[len(pts)-1].Y, fmt.Sprintf("%.1f %s", end(c.values), look.Text(c.name)), c.colour, none})
		}
	}
	b.spreadNames(p, names)
	b.spreadForm(r, p)
}

// ofAll is x of all, 1 if that is nothing.
func ofAll(x, all float64) float64 {
	if all <= 0 {
		return 1
	}
	return x / all
}

// spreadForm is the key of the thin lines.
func (b *Brush) spreadForm(r, p paint.Rect) {
	size, y := b.K.Text(look.TextSmall), p.Y+b.K.Px(10)
	b.line(paint.Pt(p.X+b.K.Px(14), y), paint.Pt(p.X+b.K.Px(50), y), b.K.Px(1.6), b.C.BrassLo)
	text := look.Text(look.SpreadForm)
	x := p.X + b.K.Px(60)
	b.haloed(x, y+0.34*size, text, look.Regular, size, paint.Start, b.C.Ink2, b.C.Card)
}

// spreadName is a name at the right end of what it names, with a swatch where that
// is an area.
type spreadName struct {
	y      float64
	text   string
	colour colour
	swatch colour
}

// spreadNames writes names from the top down, none nearer to another than a line.
func (b *Brush) spreadNames(p paint.Rect, names []spreadName) {
	slices.SortStableFunc(names, func(a, c spreadName) int {
		switch {
		case a.y < c.y:
			return -1
		case a.y > c.y:
			return 1
		}
		return 0
	})
	size := b.K.Text(look.TextBody)
	line := 1.3 * size
	for i := range names { // down, then up again where the last leave the plot
		if i > 0 {
			names[i].y = math.Max(names[i].y, names[i-1].y+line)
		}
	}
	for i, below := len(names)-1, p.Bottom(); i >= 0; i-- {
		names[i].y = math.Min(names[i].y, below)
		below = names[i].y - line
	}
	for _, n := range names {
		x := p.Right() + b.K.Px(14)
		if paint.Visible(n.swatch) {
			b.rect(paint.R(x, n.y-0.45*size, 0.9*size, 0.9*size), 0, n.swatch, b.C.Ink, b.K.Hair())
			x += 1.4 * size
		}
		b.write(x, n.y+0.34*size, n.text, look.Semibold, size, paint.Start, n.colour)
	}
}
