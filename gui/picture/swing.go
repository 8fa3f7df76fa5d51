package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// SwingCard is a deviation card as the navigator makes it of the heading checks of a flight.
type SwingCard struct {
	Coefficients airplot.Coefficients
	Made         bool              // the readings determine it
	Readings     []airplot.Reading // compass heading, deviation found
	Words        string            // the coefficients, written
	Steer        string            // over the table
}

// DrawSwing draws the curve with the readings on it, and under it the table: for a magnetic
// heading, steer by compass.
func DrawSwing(b *Brush, room paint.Rect, c *SwingCard) {
	size := b.K.Text(14)
	table := 0.0
	if c.Made {
		table = 7.4 * size
	}
	in := paint.R(room.X+3.2*size, room.Y+0.6*size, room.W-4.4*size, room.H-table-2.8*size)
	b.swingCurve(in, size, c)
	if c.Made {
		b.swingTable(paint.R(room.X, room.Bottom()-table+0.4*size, room.W, table), size, c)
	}
}

// swingTop is the scale of the curve, whole degrees: all readings and the curve fit.
func (c *SwingCard) swingTop() float64 {
	most := 1.0
	for _, r := range c.Readings {
		most = math.Max(most, math.Abs(r.Found.Degrees()))
	}
	for h := 0; c.Made && h < 360; h++ {
		most = math.Max(most, math.Abs(c.Coefficients.At(units.Angle(h)*units.Degree).Degrees()))
	}
	step := math.Ceil(most / 2)
	return 2 * step
}

func (b *Brush) swingCurve(r paint.Rect, size float64, c *SwingCard) {
	k, top := b.K.Symbol(), c.swingTop()
	at := func(h units.Angle, dev units.Angle) paint.Point {
		return paint.Pt(r.X+units.Wrap(h).Degrees()/360*r.W, r.Centre().Y-dev.Degrees()/top*r.H/2)
	}
	for i := -2; i <= 2; i++ {
		dev := units.Angle(float64(i)*top/2) * units.Degree
		y := at(0, dev).Y
		b.line(paint.Pt(r.X, y), paint.Pt(r.Right(), y), b.K.Hair(), b.C.Graticule)
		b.write(r.X-0.4*size, y+0.35*size, units.Deviation(dev).String(), look.Engraved, size, paint.End, b.C.Ink2)
	}
	for h := 0; h <= 360; h += 90 {
		x := r.X + float64(h)/360*r.W
		b.line(paint.Pt(x, r.Y), paint.Pt(x, r.Bottom()), b.K.Hair(), b.C.Graticule)
		b.write(x, r.Bottom()+1.5*size, units.Degrees3(units.Angle(h)*units.Degree), look.Engraved, size, paint.Middle, b.C.Ink2)
	}
	b.rect(r, 0, none, b.C.Line, 1.2*k)
	if c.Made {
		var pts []paint.Point
		for h := 0; h < 360; h += 2 {
			pts = append(pts, at(units.Angle(h)*units.Degree, c.Coefficients.At(units.Angle(h)*units.Degree)))
		}
		pts = append(pts, paint.Pt(r.Right(), at(0, c.Coefficients.At(0)).Y))
		b.Stroke(b.path.Reset().Polyline(pts...), paint.Pen{Width: 2.2 * k, Cap: paint.Round}, b.C.Ink)
	}
	for _, x := range c.Readings {
		p := at(x.On, x.Found)
		b.disc(p.X, p.Y, 4*k, b.C.Brass, b.C.Ink, 1.4*k)
	}
}

// swingTable writes a row of the card each 30 degrees, four in a row, and the coefficients.
func (b *Brush) swingTable(r paint.Rect, size float64, c *SwingCard) {
	b.write(r.X, r.Y+size, c.Words, look.Semibold, size, paint.Start, b.C.Ink)
	b.write(r.X, r.Y+2.4*size, c.Steer, look.Regular, size, paint.Start, b.C.Ink2)
	for i, row := range c.Coefficients.Card(30 * units.Degree) {
		x, y := r.X+float64(i%4)*r.W/4, r.Y+3.9*size+float64(i/4)*1.35*size
		words := row.For.String() + " " + row.Steer.String()
		b.write(x, y, words, look.Engraved, size, paint.Start, b.C.Ink)
	}
}
