package papers

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/sim"
)

// DeviationPage is the deviation card of a compass, the curve it comes from, and
// a form for a swing.
type DeviationPage struct {
	Line  string
	Coeff airplot.Coefficients
	Card  []airplot.CardRow
	Note  string     // what the card rests on; "" for the compass before the flight
	Swing [][]string // the readings of the swing, as its form has them; nil: it is empty
}

// SwungPage is the card of coefficients that were found in flight.
func SwungPage(line, note string, k airplot.Coefficients, swing [][]string) Page {
	return DeviationPage{Line: line, Coeff: k, Card: k.Card(cardEvery), Note: note, Swing: swing}
}

// cardEvery is the step of the card (common practice, no source).
const cardEvery = 15 * units.Degree

// Deviation is the deviation card of the flight's compass, as a swing before the
// flight found it: what the class of the instrument or the flight file says. What
// the flight breaks is not on it.
func Deviation(p *sim.Plan) []Page {
	k := CompassCard(p)
	return []Page{DeviationPage{Line: flightLine(p), Coeff: k, Card: k.Card(cardEvery)}}
}

// cardForm is one half of the card.
var cardForm = form{rowH: 8.2, size: 3.6, cols: []column{
	{look.PaperCardHead, look.PaperCardFor, look.PaperUnitM, 20, false, false},
	{look.PaperCardHead, look.PaperCardSteer, look.PaperUnitC, 20, false, false},
	{look.PaperCardHead, look.PaperDeviation, "", 17, false, false},
}}

var swingForm = form{rowH: 6.2, size: 2.9, cols: []column{
	{look.PaperSwingHead, look.PaperCompass, look.PaperUnitC, 22, false, false},
	{look.PaperSwingHead, look.PaperSwingTrue, look.PaperUnitT, 29, false, false},
	{look.PaperSwingHead, look.PaperVar, "", 20, false, false},
	{look.PaperSwingHead, look.PaperMagnetic, look.PaperUnitM, 22, false, false},
	{look.PaperSwingHead, look.PaperDeviation, look.PaperSwingLess, 0, false, false},
}}

// The layout of the card, mm.
const (
	cardTop  = 22.0
	cardHalf = 57.0

	mostSwing = 11 // readings of a swing for which there is room
)

func (p DeviationPage) draw(d *draft) {
	about := p.Note
	if about == "" {
		about = look.Text(look.PaperCardNote)
	}
	d.head(look.Text(look.PaperCardTitle), p.Line, about)
	half := len(p.Card) / 2
	for i, rows := range [][]airplot.CardRow{p.Card[:half], p.Card[half:]} {
		var cells [][]string
		for _, r := range rows {
			cells = append(cells, []string{
				units.Degrees3(units.Angle(r.For)), units.Degrees3(units.Angle(r.Steer)), p.Coeff.Deviation(r.Steer).Tenths(),
			})
		}
		d.form(margin+float64(i)*(cardHalf+3), cardTop, cardForm, len(rows), cells)
	}
	y := cardTop + cardForm.height(half) + 6
	right := margin + 2*cardHalf + 11
	y = d.paragraph(margin, y, 2*cardHalf+3, look.Text(look.PaperCardUse), look.Regular, note, d.c.Ink) + 1
	d.paragraph(margin, y, 2*cardHalf+3, coefficientsText(p.Coeff), look.Semibold, note, d.c.Ink)
	d.curve(paint.R(right+9, cardTop+4, d.right()-right-9, 62), p.Coeff)
	f := swingForm.stretched(d.right() - right)
	var rows [][]string
	for h := 0; h < 360; h += 45 {
		rows = append(rows, []string{units.Degrees3(degrees(h))})
	}
	if n := len(p.Swing); n > 0 { // the newest, if there is no room for all
		rows = p.Swing[max(0, n-mostSwing):]
	}
	bottom := d.form(right, cardTop+82, f, len(rows), rows)
	if len(p.Swing) == 0 { // what was swung in flight is worked by least squares
		d.paragraph(right, bottom+4, d.right()-right, look.Text(look.PaperSwingUse), look.Regular, small, d.c.Ink2)
	}
	d.foot()
}

// coefficientsText writes A to E.
func coefficientsText(k airplot.Coefficients) string {
	of := func(a units.Angle) string { return units.Figure(a.Degrees(), 1) }
	return look.Textf(look.PaperCoefficients, of(k.A), of(k.B), of(k.C), of(k.D), of(k.E))
}

// curve draws the deviation over the compass heading.
func (d *draft) curve(r paint.Rect, k airplot.Coefficients) {
	most := 1.0
	for h := 0; h < 360; h++ {
		most = math.Max(most, math.Abs(k.At(degrees(h)).Degrees()))
	}
	most = math.Ceil(most)
	step := math.Ceil(most / 4)
	top := step * math.Ceil(most/step)
	y := func(dev float64) float64 { return r.Centre().Y - dev/top*r.H/2 }
	x := func(h float64) float64 { return r.X + h/360*r.W }
	for dev := -top; dev <= top; dev += step {
		width := hair
		if dev == 0 {
			width = 0.3
		}
		d.line(r.X, y(dev), r.Right(), y(dev), width, d.c.Ink2)
		d.write(r.X-1.2, y(dev)+0.9, units.Deviation(units.Angle(dev)*units.Degree).String(), look.Engraved, small, paint.End, d.c.Ink)
	}
	for h := 0; h <= 360; h += 30 {
		d.line(x(float64(h)), r.Y, x(float64(h)), r.Bottom(), hair, d.c.Graticule)
		if h%90 == 0 {
			d.line(x(float64(h)), r.Y, x(float64(h)), r.Bottom(), thin, d.c.Ink2)
		}
		anchor := paint.Middle
		if h == 360 {
			anchor = paint.End
		}
		d.write(x(float64(h)), r.Bottom()+3.6, units.Degrees3(degrees(h)), look.Engraved, small, anchor, d.c.Ink)
	}
	d.box(r, line, d.c.Ink)
	var pts []paint.Point
	for h := 0; h <= 360; h += 2 {
		pts = append(pts, paint.Pt(x(float64(h)), y(k.At(degrees(h)).Degrees())))
	}
	d.Stroke(d.path.Reset().Polyline(pts...), paint.Pen{Width: 0.5, Cap: paint.Round}, d.c.Air)
	d.write(r.X, r.Y-1.6, look.Text(look.PaperCurve), look.Semibold, note, paint.Start, d.c.Ink)
	d.write(r.Centre().X, r.Bottom()+7.4, look.Text(look.PaperCurveAxis), look.Regular, small, paint.Middle, d.c.Ink2)
}
