package plotting

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Checked is a thing drawn by hand and how it stands against the plot that is worked.
type Checked struct {
	ID      int    // of the line; 0 of a mark and of the fix that follows from the lines
	What    string // 078T 24.3 NM, pin B
	Name    string // what it stands for, "" if nobody has said
	Told    string // how it differs
	Checked bool   // it does have its like in the worked plot
	Good    bool   // within what is granted to a hand
	Miss    string // how far off the truth; "" if that is not to be seen
	// Hand and Worked are where the chart shows how far apart the two lie; alike where it
	// does not.
	Hand, Worked units.Position
}

// Check holds all that was drawn by hand against the plot that is worked; the last one is
// the fix at which the lines cross, if they do.
func (b *Book) Check(v *aboard.View, all []Drawn) []Checked {
	var out []Checked
	for i := range all {
		out = append(out, b.check(v, &all[i]))
	}
	if at, n, ok := b.handFix(v, all); ok {
		d := Drawn{Line: airplot.PencilLine{From: at, To: at}, PerMM: coarsest(all), Means: n}
		c := b.check(v, &d)
		c.What = look.Text(look.HandCross)
		out = append(out, c)
	}
	return out
}

// Granted says what is granted to a hand: on the chart as it was when the coarsest line
// was drawn.
func (b *Book) Granted(all []Drawn) string {
	if len(all) == 0 {
		return ""
	}
	a := airplot.AllowanceFor(coarsest(all), airplot.PencilLine{})
	return look.Textf(look.HandGranted, units.DistanceText(a.Off), units.Figure(airplot.HandDegrees, 0)+"°")
}

func (b *Book) check(v *aboard.View, d *Drawn) Checked {
	c := Checked{ID: d.ID, What: d.Measured, Hand: d.Line.From, Worked: d.Line.From}
	if d.Mark != "" {
		c.ID, c.What = 0, look.Textf(look.HandPin, d.Mark)
	}
	if d.Means.What == NoWork {
		c.Told = look.Text(look.HandUnnamed)
		return c
	}
	words, under := b.NameText(v, d.Means)
	c.Name = words + ", " + under
	o, ok := b.ownOf(v, d.Means)
	if !ok {
		c.Told = look.Text(look.HandGone)
		return c
	}
	c.Checked = true
	a := airplot.AllowanceFor(d.PerMM, d.Line)
	switch d.Means.What {
	case LineTaken, LineMoved:
		b.checkLine(&c, d, &o, a)
	case WindDrawn:
		b.checkWind(&c, d, &o, a)
	case AirDrawn, RunDrawn:
		b.checkRun(&c, d, &o, a)
	default:
		b.checkPlace(&c, d, &o, a)
	}
	return c
}

func (b *Book) checkLine(c *Checked, d *Drawn, o *own, a airplot.Allowance) {
	l, err := airplot.CheckLine(d.Line, *o.line, o.near)
	if err != nil {
		c.Checked, c.Told = false, look.Text(look.HandFar)
		return
	}
	c.Good, c.Hand, c.Worked = a.Grants(l), l.At, l.At
	if on, err := o.line.Near(l.At); err == nil {
		c.Worked = on.Point
	}
	c.Told = look.Textf(look.HandLine, off(l.Apart), turned(l.Turned))
	if b.trues != nil {
		miss := airplot.CheckPlace(d.Line.Nearest(b.trues(o.when)), b.trues(o.when))
		c.Miss = look.Textf(look.PlotMiss, units.DistanceText(miss.Off))
	}
}

func (b *Book) checkRun(c *Checked, d *Drawn, o *own, a airplot.Allowance) {
	r := airplot.CheckRun(d.Line, *o.run)
	c.Good, c.Hand, c.Worked = a.GrantsRun(r), d.Line.To, o.run.To
	course, length := d.Line.Measure()
	should, miles := o.run.Measure()
	c.Told = look.Textf(look.HandRun, units.TrueText(should), units.DistanceText(miles),
		turned(units.Angle(printedTurn(course, should))*units.Degree), longer(printedMiles(length)-printedMiles(miles)), off(r.Ends))
	if r.Begins.Off > a.Off {
		c.Told += " " + look.Textf(look.HandBegins, off(r.Begins))
	}
}

// checkWind tells the difference of the winds as they are printed.
func (b *Book) checkWind(c *Checked, d *Drawn, o *own, a airplot.Allowance) {
	w, err := airplot.CheckWind(d.Line, o.since, o.wind)
	if err != nil {
		c.Checked, c.Told = false, look.Text(look.HandGone)
		return
	}
	c.Good = a.GrantsWind(w, o.since)
	hand, own := whole(w.Wind), whole(o.wind)
	veered := math.Round(units.WrapHalfDegrees((hand.From - own.From).Degrees()))
	faster := math.Round((hand.Speed - own.Speed).Knots())
	c.Told = look.Textf(look.HandWinds, hand, own, count(math.Abs(veered))+"°", count(math.Abs(faster)))
}

func (b *Book) checkPlace(c *Checked, d *Drawn, o *own, a airplot.Allowance) {
	p := airplot.CheckPlace(d.Line.From, *o.place)
	granted := a.Off
	if d.Means.What == FixMarked {
		granted = a.OfFix(o.cut)
	}
	c.Good, c.Hand, c.Worked = p.Off <= granted, d.Line.From, *o.place
	c.Told = look.Textf(look.HandPlace, off(p))
	if b.trues != nil && d.Means.What != AirMarked {
		c.Miss = look.Textf(look.PlotMiss, units.DistanceText(airplot.CheckPlace(d.Line.From, b.trues(o.when)).Off))
	}
}

func count(x float64) string { return strconv.Itoa(int(x)) }

// printedMiles is a distance as it is printed, tenths of a mile.
func printedMiles(d units.Length) float64 { return math.Round(d.NM() * 10) }

// printedTurn is the angle between two directions as they are printed, whole degrees.
func printedTurn(hand, worked units.Angle) float64 {
	return units.WrapHalfDegrees(math.Round(hand.Degrees()) - math.Round(worked.Degrees()))
}

// off is a distance and a direction: 1.3 NM 045T; nothing of no distance.
func off(a airplot.Apart) string {
	if a.Off.NM() < 0.05 {
		return units.DistanceText(a.Off)
	}
	return units.DistanceText(a.Off) + " " + units.TrueText(a.True)
}

// turned is by how much something is turned, in whole degrees.
func turned(a units.Angle) string {
	d := math.Round(a.Degrees())
	switch {
	case d == 0:
		return look.Text(look.HandNotTurned)
	case d > 0:
		return look.Textf(look.HandRight, count(d)+"°")
	}
	return look.Textf(look.HandLeft, count(-d)+"°")
}

// longer is by how many tenths of a mile something is longer.
func longer(tenths float64) string {
	miles := units.DistanceText(units.Length(math.Abs(tenths)/10) * units.NM)
	switch {
	case tenths == 0:
		return look.Text(look.HandAsLong)
	case tenths > 0:
		return look.Textf(look.HandLonger, miles)
	}
	return look.Textf(look.HandShorter, miles)
}
