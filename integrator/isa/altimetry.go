package isa

import (
	"math"

	"stillair/integrator/units"
)

// AltimeterOffset returns what an altimeter with the setting s on its
// subscale indicates above the pressure altitude: negative below the standard
// setting. It is the same at every height of the troposphere.
func AltimeterOffset(s units.Pressure) units.Length { return -PressureAltitude(s) }

// DensityAltitude returns the altitude at which the standard density is that
// of air of temperature t at the pressure altitude h.
func DensityAltitude(h units.Length, t units.Temperature) units.Length {
	rho := Density(Pressure(h), t)
	switch {
	case rho >= density1:
		rho0 := p0 / (gasConstant * t0)
		return units.Length(-t0OverLap0 * math.Expm1(math.Log(rho/rho0)/(exponent0-1)))
	case rho >= density2:
		return units.Length(base1 - scale1*math.Log(rho/density1))
	}
	return units.Length(base2 + t1OverLap2*math.Expm1(-math.Log(rho/density2)/(exponent2+1)))
}

// StaticTemperature returns the temperature of the undisturbed air from a
// thermometer of recovery factor k (0 to 1) at Mach m: T/(1 + 0.2 k M^2).
func StaticTemperature(indicated units.Temperature, k, m float64) units.Temperature {
	return indicated / units.Temperature(1+0.2*k*m*m)
}

// IndicatedTemperature is the inverse of StaticTemperature: what a thermometer
// of recovery factor k shows in air of temperature t at Mach m.
func IndicatedTemperature(t units.Temperature, k, m float64) units.Temperature {
	return t * units.Temperature(1+0.2*k*m*m)
}
