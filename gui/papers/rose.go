package papers

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Radii of a compass rose, mm.
const (
	roseRadius  = 24.0
	roseMagnet  = 17.0
	roseFigures = 26.2 // the middle of its figures
	roseReach   = 28.5 // with its figures
)

// rose is a compass rose and the variation of its place, if there is one.
type rose struct {
	at        paint.Point
	variation *units.Variation
	year      int // 0: of no year
}

// rose draws it: true outside, magnetic inside.
func (d *draft) rose(r rose) {
	d.ticks(r.at, 0, roseRadius, -1, 1, d.c.Ink)
	d.circle(r.at.X, r.at.Y, roseRadius, line, d.c.Ink)
	d.circle(r.at.X, r.at.Y, 0.4, thin, d.c.Ink)
	for deg := 0; deg < 360; deg += 30 {
		p := paint.Polar(r.at.X, r.at.Y, roseFigures, float64(deg))
		d.over(p.X, p.Y+1, units.Degrees3(units.Angle(deg)*units.Degree), look.Engraved, note, paint.Middle, d.c.Ink)
	}
	d.arrow(r.at, 0, roseRadius-4.2, roseRadius, d.c.Ink)
	if r.variation == nil {
		return
	}
	east := r.variation.Degrees()
	d.ticks(r.at, east, roseMagnet, -1, 5, d.c.BrassText)
	d.circle(r.at.X, r.at.Y, roseMagnet, thin, d.c.BrassText)
	for deg := 90; deg < 360; deg += 90 {
		p := paint.Polar(r.at.X, r.at.Y, 12.4, east+float64(deg))
		d.over(p.X, p.Y+0.9, units.Degrees3(units.Angle(deg)*units.Degree), look.Engraved, small, paint.Middle, d.c.BrassText)
	}
	p, q := paint.Polar(r.at.X, r.at.Y, 1.2, east), paint.Polar(r.at.X, r.at.Y, 10.2, east)
	d.Stroke(d.path.Reset().Segment(p, q), paint.Pen{Width: thin, Dash: []float64{1.4, 0.9}}, d.c.BrassText)
	d.arrow(r.at, east, roseMagnet-3.4, roseMagnet, d.c.BrassText)
	d.fill(paint.R(r.at.X-7, r.at.Y+2, 14, 6), d.c.Card)
	d.over(r.at.X, r.at.Y+4.2, look.Text(look.PaperVariation), look.Regular, small, paint.Middle, d.c.BrassText)
	text := r.variation.String()
	if r.year > 0 {
		text = look.Textf(look.PaperOfYear, text, r.year)
	}
	d.over(r.at.X, r.at.Y+7.2, text, look.Regular, small, paint.Middle, d.c.BrassText)
}

// ticks graduates a circle from a zero direction, inwards (side -1) or outwards,
// each step degrees; fives, tens and thirties stand out.
func (d *draft) ticks(at paint.Point, zero, r, side float64, step int, c colour) {
	for deg := 0; deg < 360; deg += step {
		length, width := 0.8, hair
		switch {
		case deg%30 == 0:
			length, width = 3.0, line
		case deg%10 == 0:
			length, width = 2.2, thin
		case deg%5 == 0:
			length = 1.5
		}
		d.ray(at, zero+float64(deg), r, r+side*length, width, c)
	}
}

// arrow is a filled head on a ray, from its back to its tip.
func (d *draft) arrow(at paint.Point, deg, back, tip float64, c colour) {
	b := paint.Polar(at.X, at.Y, back, deg)
	left, right := paint.Polar(b.X, b.Y, 0.26*(tip-back), deg-90), paint.Polar(b.X, b.Y, 0.26*(tip-back), deg+90)
	d.Fill(d.path.Reset().Polygon(paint.Polar(at.X, at.Y, tip, deg), left, right), c)
}

// obstacles are what roses keep off: never words, land if that can be, and the
// flight if that can be.
type obstacles struct{ words, land, track []paint.Point }

// roseSpots finds up to n places for roses: on the meridians of whole degrees, or
// else between them, as far as can be off the obstacles and off each other.
func roseSpots(c chart, o obstacles, n int) (out []paint.Point) {
	in := c.box.Inset(roseReach + 1.5)
	if in.W <= 0 || in.H <= 0 {
		return nil
	}
	o = obstacles{around(c, o.words), around(c, o.land), around(c, o.track)}
	for len(out) < n {
		found, ok := paint.Point{}, false
		for _, step := range []int{scaleStep, heavyStep, gridStep} {
			if found, ok = roseSpot(c, in, o, out, step); ok {
				break
			}
		}
		if !ok {
			break
		}
		out = append(out, found)
	}
	return out
}

// roseSpot is the best place on the meridians of a step; ok is false if there is
// none clear of words, or a second rose would lie on land.
func roseSpot(c chart, in paint.Rect, o obstacles, others []paint.Point, step int) (found paint.Point, ok bool) {
	const enough = 14 // mm of clear space are as good as any more
	best := math.Inf(-1)
	for _, m := range inside(c.meridians(step), in) {
		for y := in.Y; y <= in.Bottom(); y += math.Max(3, in.H/60) {
			p := paint.Pt(m.at, y)
			apart := math.Min(90, clearance(p, others)) // far from the others, but no farther than that
			if clearance(p, o.words) < roseReach+1.5 || apart < 2*roseReach+2 {
				continue
			}
			clear := math.Min(enough, clearance(p, o.land)-roseReach)
			if clear < 0 {
				if len(others) > 0 {
					continue
				}
				clear *= 10
			}
			clear += math.Min(0, math.Max(-roseReach, clearance(p, o.track)-roseReach))
			edge := math.Min(math.Min(p.X-in.X, in.Right()-p.X), math.Min(p.Y-in.Y, in.Bottom()-p.Y))
			if score := clear + 0.1*apart + 0.05*math.Min(edge, 10); score > best {
				best, found, ok = score, p, true
			}
		}
	}
	return found, ok
}

// around are the points in the frame or so near it that a rose might meet them,
// those thinned out that lie close together.
func around(c chart, points []paint.Point) (out []paint.Point) {
	near := c.box.Inset(-roseReach)
	for _, p := range points {
		if near.Contains(p) && (len(out) == 0 || out[len(out)-1].Dist(p) > 0.8) {
			out = append(out, p)
		}
	}
	return out
}

// inside are the lines whose x lies in the box.
func inside(lines []gridLine, in paint.Rect) (out []gridLine) {
	for _, l := range lines {
		if l.at >= in.X && l.at <= in.Right() {
			out = append(out, l)
		}
	}
	return out
}

// clearance is the distance to the nearest of the points; infinite without any.
func clearance(p paint.Point, from []paint.Point) float64 {
	least := math.Inf(1)
	for _, q := range from {
		least = math.Min(least, p.Dist(q))
	}
	return least
}
