package calc

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"stillair/gui/look"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Readings are what the computer prints, without units.
type Readings struct{ CAS, TAS, Rule, Height, Temperature string }

// Readings are what the computer prints.
func (c *Computer) Readings() Readings {
	tenth := func(v units.Speed) string { return units.Figure(v.Knots(), 1) }
	return Readings{CAS: tenth(c.cas), TAS: tenth(c.TAS()), Rule: tenth(c.Rule()),
		Height: units.Figure(c.height.Feet(), 0), Temperature: units.Figure(c.Temperature().Celsius(), 1)}
}

// Difference says how far the rule is out, in the printed figures; two lines.
func (c *Computer) Difference() string {
	diff := units.Compare(c.Rule().Knots(), c.TAS().Knots(), 1).Difference
	size := strings.TrimLeft(diff, "+-")
	hour := "\n" + look.Textf(look.CalcRuleHour, size)
	switch {
	case strings.HasPrefix(diff, "+"):
		return look.Textf(look.CalcRuleHigh, size) + hour
	case size != diff:
		return look.Textf(look.CalcRuleLow, size) + hour
	}
	return look.Text(look.CalcRuleAgrees)
}

// Day says how the temperature stands to the standard one, in printed figures.
func (c *Computer) Day() string {
	std := isa.Temperature(c.height).Celsius()
	tenths := math.Round(c.Temperature().Celsius()*10) - math.Round(std*10)
	switch by := units.Figure(math.Abs(tenths)/10, 1); {
	case tenths > 0:
		return look.Textf(look.CalcWarmer, by)
	case tenths < 0:
		return look.Textf(look.CalcColder, by)
	}
	return look.Text(look.CalcStandardDay)
}

// Curve is a point of the curve against height.
type Curve struct{ Feet, Exact, Rule float64 }

// CurveFeet is the height at which the curve ends, ft.
const CurveFeet = 25000

// Curve is true airspeed against pressure altitude at the calibrated airspeed and the
// deviation of temperature in hand: exact and by the rule; kt. It ends where the
// speed of sound is reached.
func (c *Computer) Curve() (all []Curve) {
	for ft := 0.0; ft <= CurveFeet; ft += 500 {
		at := c.at(ft)
		if at.mach() > 1 {
			break
		}
		all = append(all, Curve{ft, at.TAS().Knots(), at.Rule().Knots()})
	}
	return all
}

// TypeCAS reads a calibrated airspeed in knots.
func (c *Computer) TypeCAS(text string) error {
	return typed(text, "KT", func(v float64) error { return c.SetCAS(units.Speed(v) * units.Knot) })
}

// TypeTAS reads a true airspeed in knots.
func (c *Computer) TypeTAS(text string) error {
	return typed(text, "KT", func(v float64) error { return c.SetTAS(units.Speed(v) * units.Knot) })
}

// TypeHeight reads a pressure altitude in feet.
func (c *Computer) TypeHeight(text string) error {
	return typed(text, "FT", func(v float64) error { return c.SetHeight(units.Length(v) * units.Foot) })
}

// TypeTemperature reads a temperature in degrees Celsius.
func (c *Computer) TypeTemperature(text string) error {
	return typed(text, "C", func(v float64) error { return c.SetTemperature(units.Celsius(v)) })
}

// typed reads a number with its unit or without, and has it taken.
func typed(text, unit string, take func(float64) error) error {
	v, ok := plainNumber(text, unit)
	if !ok {
		return errors.New(look.Textf(look.CalcNotNumber, text))
	}
	return take(v)
}

// plainNumber reads figures, with a sign and a point or without; a true minus counts.
func plainNumber(text, unit string) (v float64, ok bool) {
	figure := strings.TrimSpace(strings.TrimSuffix(strings.ToUpper(strings.TrimSpace(text)), unit))
	figure = strings.Replace(figure, "−", "-", 1)
	v, err := strconv.ParseFloat(figure, 64)
	return v, err == nil && strings.Trim(figure, "+-.0123456789") == ""
}
