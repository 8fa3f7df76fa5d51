package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Ruled is the rhumb line from one position to another.
func Ruled(a, b units.Position) (course units.Angle, distance units.Length) {
	return geodesy.RhumbInverse(a, b)
}

// Rule is a rule laid on the chart along a rhumb line.
type Rule struct {
	A, B  units.Position
	Words string // on its plate
}

// Dividers stand with two feet on the chart.
type Dividers struct {
	A, B  units.Position
	Words string
}

// Protractor lies on the chart with its middle at a place, its arm through another.
type Protractor struct {
	At, Arm units.Position
	Words   string
}

// Measures of the tools, pixels at scale 1.
const (
	ruleWide    = 40
	rulePast    = 30 // beyond its ends
	protractorR = 132
	dividerLeg  = 150
	handleR     = 9
)

// toolTint is the opacity of rule and protractor.
const toolTint = 0.72

// handle is the brass disc a tool is moved by.
func (b *Brush) handle(p paint.Point, k float64) {
	b.disc(p.X, p.Y, handleR*k, b.C.Brass, b.C.BrassLo, 2*k)
	b.disc(p.X, p.Y, 2.4*k, b.C.BrassLo, none, 0)
}

// toolPlate writes what a tool says about a place and gives its outline.
func (b *Brush) toolPlate(at paint.Point, words string, box paint.Rect) paint.Rect {
	q := b.ToolPlate(at, words, box)
	b.rect(q, look.PlateRadius*b.K.Symbol(), b.C.Slate, b.C.Housing, 1.5*b.K.Symbol())
	size := b.toolText()
	b.write(q.Centre().X, q.Centre().Y+0.35*size, words, look.Engraved, size, paint.Middle, b.C.OnSlate)
	return q
}

func (b *Brush) toolText() float64 { return b.K.Figure(look.TextBody) }

// ToolPlate is the outline of the plate with these words about a place, inside the
// chart.
func (b *Brush) ToolPlate(at paint.Point, words string, box paint.Rect) paint.Rect {
	size := b.toolText()
	w, h := look.Engraved.Font().Width(words, size)+1.2*size, 1.7*size
	in := box.Inset(4 * b.K.Symbol())
	return paint.R(math.Max(in.X, math.Min(at.X-w/2, in.Right()-w)), math.Max(in.Y, math.Min(at.Y-h/2, in.Bottom()-h)), w, h)
}

// across is the unit vector to the right of the way from a to z.
func across(a, z paint.Point) paint.Point {
	u := unit(a, z)
	return paint.Pt(-u.Y, u.X)
}

// DrawRule draws a rule: its edge runs through A and B, with a tick for each mile, or
// each ten where they stand too close.
func DrawRule(b *Brush, v View, r Rule) paint.Rect {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{r.A, r.B})
	a, z := pts[0], pts[1]
	u, n := unit(a, z), across(a, z)
	at := func(p paint.Point, along, aside float64) paint.Point {
		return p.Add(u.X*along*k+n.X*aside*k, u.Y*along*k+n.Y*aside*k)
	}
	b.polygon(paint.Alpha(b.C.Card, toolTint), b.C.Ink, 1.4*k,
		at(a, -rulePast, 0), at(z, rulePast, 0), at(z, rulePast, ruleWide), at(a, -rulePast, ruleWide))
	b.ruleTicks(v, r, n, k)
	b.line(at(a, -rulePast, 0), at(z, rulePast, 0), 2*k, b.C.Ink)
	b.handle(a, k)
	b.handle(z, k)
	mid := paint.Pt((a.X+z.X)/2, (a.Y+z.Y)/2)
	return b.toolPlate(at(mid, 0, ruleWide/2), r.Words, v.Box)
}

// ruleTicks draws the miles along the edge; on Mercator's chart they grow toward the
// pole, as those of the latitude scale do.
func (b *Brush) ruleTicks(v View, r Rule, n paint.Point, k float64) {
	course, distance := Ruled(r.A, r.B)
	step := 1.0
	for step*1852 < distance.Metres() && step/v.MilesPerPixel(r.A.Lat) < 5*k {
		step *= 10
	}
	const most = 400
	for i := range min(most, int(distance.NM()/step)+1) {
		p, err := geodesy.RhumbDirect(r.A, course, units.Length(float64(i)*step)*units.NM)
		if err != nil {
			return
		}
		at, tall := v.ToPixels([]units.Position{r.A, p})[1], 6*k
		switch {
		case i%10 == 0:
			tall = 13 * k
		case i%5 == 0:
			tall = 9 * k
		}
		b.line(at, at.Add(n.X*tall, n.Y*tall), k, b.C.Ink)
	}
}

// DrawProtractor draws a ring of degrees true about its middle, and its arm.
func DrawProtractor(b *Brush, v View, p Protractor) paint.Rect {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{p.At, p.Arm})
	c, arm := pts[0], pts[1]
	r := protractorR * k
	b.path.Reset().Circle(c.X, c.Y, r*0.84)
	b.Stroke(&b.path, paint.Pen{Width: 0.32 * r}, paint.Alpha(b.C.Card, toolTint))
	b.disc(c.X, c.Y, r, none, b.C.Ink, 1.4*k)
	b.disc(c.X, c.Y, 0.68*r, none, b.C.Ink, k)
	size := b.K.Figure(14)
	for deg := 0; deg < 360; deg += 2 {
		tall, width := 0.05*r, 0.8*k
		switch {
		case deg%30 == 0:
			tall, width = 0.13*r, 1.8*k
			at := paint.Polar(c.X, c.Y, 0.79*r, float64(deg))
			b.write(at.X, at.Y+0.35*size, units.Degrees3(units.Angle(deg)*units.Degree), look.Engraved, size, paint.Middle, b.C.Ink)
		case deg%10 == 0:
			tall, width = 0.1*r, 1.2*k
		}
		b.line(paint.Polar(c.X, c.Y, r, float64(deg)), paint.Polar(c.X, c.Y, r-tall, float64(deg)), width, b.C.Ink)
	}
	b.line(c.Add(-8*k, 0), c.Add(8*k, 0), 1.4*k, b.C.Ink)
	b.line(c.Add(0, -8*k), c.Add(0, 8*k), 1.4*k, b.C.Ink)
	end := arm
	if d := c.Dist(arm); d < 1.1*r { // the arm reaches over the ring
		u := unit(c, arm)
		end = c.Add(u.X*1.1*r, u.Y*1.1*r)
	}
	b.line(c, end, 2.4*k, b.C.Ink)
	b.handle(c, k)
	b.handle(arm, k)
	return b.toolPlate(paint.Pt(c.X, c.Y+r+22*k), p.Words, v.Box)
}

// Hinge is where the legs of dividers meet, for feet at two places on the chart.
func Hinge(a, z paint.Point, k float64) paint.Point {
	n := across(a, z)
	if n.Y > 0 { // always above
		n = paint.Pt(-n.X, -n.Y)
	}
	half := a.Dist(z) / 2
	tall := math.Max(0.35*dividerLeg*k, math.Sqrt(math.Max(0, dividerLeg*k*dividerLeg*k-half*half)))
	return paint.Pt((a.X+z.X)/2+n.X*tall, (a.Y+z.Y)/2+n.Y*tall)
}

// DrawDividers draws dividers: two legs from a hinge.
func DrawDividers(b *Brush, v View, d Dividers) paint.Rect {
	k := b.K.Symbol()
	pts := v.ToPixels([]units.Position{d.A, d.B})
	a, z := pts[0], pts[1]
	h := Hinge(a, z, k)
	for _, foot := range pts {
		n := across(h, foot)
		b.polygon(b.C.Rod, b.C.Ink, k, h.Add(n.X*5*k, n.Y*5*k), foot, h.Add(-n.X*5*k, -n.Y*5*k))
		b.disc(foot.X, foot.Y, 5*k, none, b.C.Ink, 1.6*k)
	}
	b.disc(h.X, h.Y, 13*k, b.C.Brass, b.C.BrassLo, 2*k)
	b.disc(h.X, h.Y, 4*k, b.C.BrassLo, none, 0)
	return b.toolPlate(paint.Pt((a.X+z.X)/2, (a.Y+z.Y)/2+26*k), d.Words, v.Box)
}
