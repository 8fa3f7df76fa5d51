package calculator

import (
	"io"

	"stillair/gui/calc"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// sideOf are the sides of the quantities, in their order.
var sideOf = [calc.Quantities]picture.TriangleSide{
	calc.Heading: picture.AirSide, calc.TAS: picture.AirSide, calc.WindFrom: picture.WindSide,
	calc.WindSpeed: picture.WindSide, calc.Track: picture.GroundSide, calc.Groundspeed: picture.GroundSide,
}

// stateWords are what the states are called.
var stateWords = map[calc.State]look.Key{
	calc.Given: look.CalcGiven, calc.Answer: look.CalcAnswer, calc.Free: look.CalcFree, calc.None: look.CalcNoAnswer,
}

// quantity is what a box shows.
func (v *View) quantity(q calc.Quantity) picture.Quantity {
	state := v.triangle.State(q)
	return picture.Quantity{Name: q.Name(), Value: v.triangle.Text(q), Said: look.Text(stateWords[state]), Side: sideOf[q],
		Locked: state == calc.Given, Answer: state == calc.Answer}
}

// card is what the card of the triangle shows.
func (v *View) card() (c picture.TriangleCard) {
	t := v.triangle
	for i := range c.Quantities {
		c.Quantities[i] = v.quantity(calc.Quantity(i))
	}
	c.Said, c.Wrong = t.Said(), t.Problem() != ""
	text := func(q calc.Quantity) string {
		if t.State(q) == calc.None {
			return ""
		}
		return t.Text(q)
	}
	c.Figure = picture.WindTriangle{TAS: t.Value(calc.TAS), Heading: t.Value(calc.Heading), Wind: t.Value(calc.WindSpeed),
		WindFrom: t.Value(calc.WindFrom), Groundspeed: t.Value(calc.Groundspeed), Track: t.Value(calc.Track),
		HeadingText: text(calc.Heading), TASText: text(calc.TAS), TrackText: text(calc.Track),
		GroundspeedText: text(calc.Groundspeed), DriftText: t.Drift()}
	if text(calc.WindFrom) != "" && text(calc.WindSpeed) != "" {
		c.Figure.WindText = t.WindText()
	}
	if gap := t.Gap(); gap > leastGap {
		c.Figure.Missing = look.Textf(look.CalcGap, units.Figure(gap, 1))
	}
	return c
}

// leastGap is the gap that is drawn, knots.
const leastGap = 0.05

// computerCard is what the card of the computer shows.
func (v *View) computerCard() picture.ComputerCard {
	c := v.computer
	r := c.Readings()
	card := picture.ComputerCard{CAS: r.CAS, TAS: r.TAS, Rule: r.Rule, Difference: c.Difference(), CurveShown: v.curve,
		CurveTitle: look.Textf(look.CalcCurveTitle, units.Figure(c.CAS().Knots(), 0), c.Day())}
	card.Rings = picture.SpeedRings{CAS: c.CAS().Knots(), TAS: c.TAS().Knots(), Top: c.Top().Knots(),
		TASText: units.Figure(c.TAS().Knots(), 0), Height: r.Height, Temperature: r.Temperature, Day: c.Day()}
	s := picture.SpeedCurve{LastFeet: calc.CurveFeet, AtFeet: c.Height().Feet(), AtExact: c.TAS().Knots(), AtRule: c.Rule().Knots()}
	for _, p := range c.Curve() {
		s.Feet, s.Exact, s.Rule = append(s.Feet, p.Feet), append(s.Exact, p.Exact), append(s.Rule, p.Rule)
		s.ExactText, s.RuleText = look.Textf(look.CalcCurveExact, units.Figure(p.Exact, 0)), look.Textf(look.CalcCurveRule, units.Figure(p.Rule, 0))
	}
	card.Curve = s
	return card
}

// Size of the page, pixels.
const pageWidth, pageHeight, pageFoot = 1800, 860, 34

// writePage draws both cards on a page, with the caution at its foot.
func writePage(out io.Writer, f paint.Format, left picture.TriangleCard, right picture.ComputerCard) error {
	return paint.Export(out, f, pageWidth, pageHeight+pageFoot, look.Text(look.CalcWord), func(d paint.Surface) {
		z, c := look.SizeOf(1920, 1080, 1), look.Of(look.Paper)
		b := picture.NewBrush(d, c, z)
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, pageWidth, pageHeight+pageFoot)), c.Ground)
		const edge, split = 20, 0.54 * pageWidth
		p := picture.TriangleCardLayout(z, paint.R(edge, edge, split-edge, pageHeight-edge), 0)
		picture.DrawTriangleCard(b, p, picture.FitTriangle(z, p.Figure, &left.Figure), &left)
		for i := range left.Quantities {
			picture.DrawQuantity(b, p.Boxes[i], &left.Quantities[i])
		}
		picture.DrawComputerCard(b, picture.ComputerCardLayout(z, paint.R(split+16, edge, pageWidth-split-16-edge, pageHeight-edge)), &right)
		d.Text(edge, pageHeight+pageFoot-12, look.Text(look.Caution), paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}, c.Ink2)
	})
}
