package plotting

import (
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Swing is the swing of the compass by the heading checks of a flight.
type Swing struct {
	Checks   []airplot.HeadingCheck
	Headings int // that they were taken on
	Card     airplot.Coefficients
	Terms    int // that they determine: five, three, or none
	Left     units.Angle
}

// sameHeading is within which two headings count for one: a heading is not held better.
const sameHeading = 10 * units.Degree

// SwingOf makes the swing of what stands in a log.
func SwingOf(log []aboard.Entry) (s Swing) {
	s.Checks = airplot.HeadingChecks(log)
	readings := airplot.SwingReadings(s.Checks)
	s.Headings = airplot.Headings(readings, sameHeading)
	if k, terms, left, err := airplot.SwingTerms(readings); err == nil && s.Headings >= terms {
		s.Card, s.Terms, s.Left = k, terms, left
	} else if err == nil && s.Headings >= 3 { // five terms would be drawn through what was read twice
		s.three(readings)
	}
	return s
}

// three makes the card of three terms alone.
func (s *Swing) three(readings []airplot.Reading) {
	if k, left, err := airplot.SwingABC(readings); err == nil {
		s.Card, s.Terms, s.Left = k, 3, left
	}
}

// Told says what the swing rests on, and what is wanting.
func (s *Swing) Told() string {
	switch {
	case len(s.Checks) == 0:
		return look.Text(look.SwingNone)
	case s.Terms == 0:
		return look.Textf(look.SwingFew, headings(s.Headings))
	case s.Terms == 3:
		return look.Textf(look.SwingThree, headings(s.Headings), left(s.Left))
	}
	return look.Textf(look.SwingFive, headings(s.Headings), left(s.Left))
}

func headings(n int) string {
	if n == 1 {
		return look.Text(look.SwingOne)
	}
	return look.Textf(look.SwingHeadings, n)
}

func left(a units.Angle) string { return units.Figure(a.Degrees(), 1) + "°" }

// Words are the coefficients, written.
func (s *Swing) Words() string {
	of := func(a units.Angle) string { return units.Figure(a.Degrees(), 1) }
	if s.Terms == 3 {
		return look.Textf(look.SwingABC, of(s.Card.A), of(s.Card.B), of(s.Card.C))
	}
	return look.Textf(look.SwingAE, of(s.Card.A), of(s.Card.B), of(s.Card.C), of(s.Card.D), of(s.Card.E))
}

// Picture is the card as it is drawn.
func (s *Swing) Picture() picture.SwingCard {
	return picture.SwingCard{
		Coefficients: s.Card, Made: s.Terms > 0, Readings: airplot.SwingReadings(s.Checks), Words: s.Words(), Steer: look.Text(look.SwingSteer),
	}
}

// Now says what the card makes of the compass as it stands, and what the repeater shows;
// "" without a card.
func (s *Swing) Now(v *aboard.View) string {
	if s.Terms == 0 {
		return ""
	}
	d := s.Card.Deviation(v.Compass)
	heading := v.Compass.Magnetic(d).True(v.VariationSet)
	return look.Textf(look.SwingNow, v.Compass, d.Tenths(), v.VariationSet.Tenths(),
		units.TrueText(units.Angle(heading)), units.TrueText(units.Angle(v.Heading)))
}

// Rows are the readings as the form of a swing has them.
func (s *Swing) Rows() (rows [][]string) {
	for _, c := range s.Checks {
		magnetic := c.True.Magnetic(c.Variation)
		rows = append(rows, []string{
			units.Degrees3(units.Angle(c.Compass)), aboard.TenthsTrue(units.Angle(c.True)), c.Variation.Tenths(),
			units.Degrees3(units.Angle(magnetic)), c.Deviation.Tenths(),
		})
	}
	return rows
}
