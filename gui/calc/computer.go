package calc

import (
	"errors"
	"math"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Computer is the height-and-airspeed computer: calibrated airspeed, pressure altitude
// and temperature in, true airspeed out. Make it with NewComputer.
type Computer struct {
	cas       units.Speed
	height    units.Length
	deviation float64     // of the temperature from the standard, K
	top       units.Speed // the value at the top of the fixed ring
}

// The ring holds one decade; heights and temperatures are those of flights.
const (
	RingLow, RingHigh       = 60.0, 600.0 // kt
	lowestFeet, highestFeet = -1000.0, 40000.0
	mostDeviation           = 60.0
)

// NewComputer is an example: 178 kt under the cursor at 8000 ft on a standard day.
func NewComputer() *Computer {
	c := &Computer{height: 8000 * units.Foot, top: 178 * units.Knot}
	c.cas = isa.CASFromTAS(c.top, c.height, c.Temperature())
	return c
}

// CAS is the calibrated airspeed.
func (c *Computer) CAS() units.Speed { return c.cas }

// Height is the pressure altitude.
func (c *Computer) Height() units.Length { return c.height }

// Temperature is that of the air.
func (c *Computer) Temperature() units.Temperature {
	return isa.Temperature(c.height) + units.Temperature(c.deviation)
}

// Top is the speed at the top of the fixed ring: what was put under the cursor last.
func (c *Computer) Top() units.Speed { return c.top }

// TAS is the true airspeed, exact.
func (c *Computer) TAS() units.Speed { return isa.TASFromCAS(c.cas, c.height, c.Temperature()) }

// Rule is the true airspeed by the rule of 2 % for each 1000 ft of pressure altitude.
func (c *Computer) Rule() units.Speed { return rule(c.cas, c.height) }

func rule(cas units.Speed, h units.Length) units.Speed {
	return cas * units.Speed(1+0.02*h.Feet()/1000)
}

// RingDegrees is how far the brass ring is turned against the fixed one, clockwise:
// 360 log10(TAS/CAS).
func (c *Computer) RingDegrees() float64 { return RingAngle(c.TAS().Knots(), c.cas.Knots()) }

// RingAngle is where a value stands on a ring of one decade with another at its top,
// degrees clockwise; a decade more is the same place.
func RingAngle(v, top float64) float64 { return 360 * math.Log10(v/top) }

// check tells in words what cannot be shown.
func (c *Computer) check() error {
	knots := func(v float64) string { return units.Figure(v, 0) }
	ft, cas := c.height.Feet(), c.cas.Knots()
	switch {
	case !(ft >= lowestFeet-1e-6 && ft <= highestFeet+1e-6):
		return errors.New(look.Textf(look.CalcHeightOutside, knots(lowestFeet), knots(highestFeet)))
	case !(math.Abs(c.deviation) <= mostDeviation+1e-9):
		std := isa.Temperature(c.height).Celsius()
		return errors.New(look.Textf(look.CalcTemperatureOutside, units.Figure(std-mostDeviation, 1), units.Figure(std+mostDeviation, 1)))
	case !(cas >= RingLow-1e-9 && cas <= RingHigh && c.TAS().Knots() >= RingLow-1e-9 && c.TAS().Knots() <= RingHigh+1e-9):
		return errors.New(look.Textf(look.CalcRingOutside, knots(RingLow), knots(RingHigh)))
	case c.mach() > 1:
		return errors.New(look.Text(look.CalcSound))
	}
	return nil
}

// take takes up another state if it can be shown.
func (c *Computer) take(next Computer) error {
	if err := next.check(); err != nil {
		return err
	}
	*c = next
	return nil
}

// SetCAS puts a calibrated airspeed under the cursor; the ring is laid with the true
// airspeed at its top.
func (c *Computer) SetCAS(v units.Speed) error {
	next := *c
	next.cas = v
	next.top = next.TAS()
	return c.take(next)
}

// SetTAS puts a true airspeed under the cursor, at the height and temperature of now.
func (c *Computer) SetTAS(v units.Speed) error {
	next := *c
	next.cas, next.top = isa.CASFromTAS(v, c.height, c.Temperature()), v
	return c.take(next)
}

// SetHeight sets the pressure altitude; the deviation from the standard temperature
// and the calibrated airspeed stay.
func (c *Computer) SetHeight(h units.Length) error {
	next := *c
	next.height = h
	return c.take(next)
}

// SetTemperature sets the temperature of the air.
func (c *Computer) SetTemperature(t units.Temperature) error {
	next := *c
	next.deviation = (t - isa.Temperature(c.height)).Kelvins()
	return c.take(next)
}

// Turn turns the brass ring by so many degrees clockwise: another height, at which the
// calibrated airspeed stands against another true airspeed. It stops at the ends.
func (c *Computer) Turn(degrees float64) { c.reach(c.TAS() * units.Speed(math.Pow(10, degrees/360))) }

// StepTAS turns the brass ring until the cursor reads so many knots more.
func (c *Computer) StepTAS(by float64) {
	c.reach(units.Speed(math.Round(c.TAS().Knots())+by) * units.Knot)
}

// reach finds the height at which the calibrated airspeed gives a true one, or that
// end of the ring's way that comes nearest. True airspeed and Mach grow with height.
func (c *Computer) reach(tas units.Speed) {
	tas = max(RingLow*units.Knot, min(tas, RingHigh*units.Knot))
	low, high := lowestFeet, highestFeet
	switch {
	case c.at(low).over(tas):
		high = low
	case !c.at(high).over(tas):
		low = high
	}
	for range 60 { // to less than a billionth of a foot
		if middle := (low + high) / 2; c.at(middle).over(tas) {
			high = middle
		} else {
			low = middle
		}
	}
	if next := c.at(low); next.check() == nil {
		*c = *next
	}
}

// over says whether the true airspeed is above one, or Mach 1.
func (c *Computer) over(tas units.Speed) bool { return c.TAS() > tas || c.mach() > 1 }

func (c *Computer) mach() float64 { return isa.Mach(isa.ImpactPressure(c.cas), isa.Pressure(c.height)) }

// at is the computer at another height.
func (c *Computer) at(feet float64) *Computer {
	next := *c
	next.height = units.Length(feet) * units.Foot
	return &next
}

// Take takes up what the dials show: the airspeed indicator (taken as calibrated),
// the altimeter and the thermometer.
func (c *Computer) Take(v *aboard.View) error {
	next := *c
	next.cas, next.height = v.IAS, v.PressureAltitude
	next.deviation = (v.AirTemperature - isa.Temperature(v.PressureAltitude)).Kelvins()
	next.top = next.TAS()
	return c.take(next)
}
