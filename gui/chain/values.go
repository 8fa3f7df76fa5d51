package chain

import (
	"math"
	"strings"

	"stillair/integrator/units"
)

// Values are printed once, here, and what is worked from them in public is
// worked from them as printed.

// measure is a unit of a plate: how many decimals, and its name.
type measure struct {
	decimals int
	unit     string
}

// text writes a number of it.
func (m measure) text(x float64) string { return units.Figure(x, m.decimals) }

// with writes a number with its unit.
func (m measure) with(x float64) string { return m.text(x) + " " + m.unit }

// as is a number as it is printed.
func (m measure) as(x float64) float64 { return round(x, m.decimals) }

// round rounds a number to what units.Figure prints of it.
func round(x float64, decimals int) float64 {
	k := math.Pow10(decimals)
	return math.Round(x*k+math.Copysign(1e-7, x)) / k
}

func (s *Story) pressure() measure {
	if s.SI {
		return measure{2, "kPa"}
	}
	return measure{1, "hPa"}
}

func (s *Story) pa(p units.Pressure) float64 {
	if s.SI {
		return p.Pascals() / 1000
	}
	return p.Hectopascals()
}

func (s *Story) speed() measure {
	if s.SI {
		return measure{1, "m/s"}
	}
	return measure{1, "kt"}
}

func (s *Story) v(x units.Speed) float64 {
	if s.SI {
		return x.MetresPerSecond()
	}
	return x.Knots()
}

func (s *Story) length() measure {
	if s.SI {
		return measure{1, "km"}
	}
	return measure{1, "NM"}
}

func (s *Story) l(x units.Length) float64 {
	if s.SI {
		return x.Kilometres()
	}
	return x.NM()
}

// pressureText and its like write a value with its unit.
func (s *Story) pressureText(p units.Pressure) string { return s.pressure().with(s.pa(p)) }
func (s *Story) speedText(v units.Speed) string       { return s.speed().with(s.v(v)) }
func (s *Story) lengthText(l units.Length) string     { return s.length().with(s.l(l)) }

// toward writes a length with the letter of its side: "33.1 N".
func (s *Story) toward(l units.Length, plus, minus string) string {
	x := s.length().as(s.l(l))
	if x < 0 {
		return s.length().text(-x) + " " + minus
	}
	return s.length().text(x) + " " + plus
}

// sided writes it with its unit: "33.1 NM N".
func (s *Story) sided(l units.Length, plus, minus string) string {
	x := s.length().as(s.l(l))
	if x < 0 {
		return s.length().with(-x) + " " + minus
	}
	return s.length().with(x) + " " + plus
}

// variationText writes whole degrees without a tenth, as on the setter's dial.
func variationText(v units.Variation) string {
	return strings.Replace(v.Tenths(), ".0", "", 1)
}

func (s *Story) follows() bool { return s.View != nil && s.View.FollowsField }

// windText writes a wind in the units of the story.
func (s *Story) windText(w units.Wind) string {
	if s.SI {
		return units.Degrees3(w.From) + "/" + s.speed().text(s.v(w.Speed))
	}
	return w.String()
}

// turnOf is by how much one direction is clockwise of another, -180 to 180.
func turnOf(a, b units.Angle) units.Angle { return units.WrapHalf(a - b) }

// impact is the impact pressure.
func impact(pitot, static units.Pressure) units.Pressure { return pitot - static }
