package isa

import (
	"math"

	"stillair/integrator/units"
)

// Constants of the standard atmosphere. All but the derived ones are exact by
// definition (ICAO Doc 7488/3, section 2).
const (
	gravity     = 9.80665   // g0, m/s2
	gasConstant = 287.05287 // R of dry air, J/(kg K)
	gamma       = 1.4       // ratio of specific heats
	gammaR      = 401.874018
	earthRadius = 6356766.0 // m, for geopotential altitude

	// SeaLevelPressure, SeaLevelTemperature and SeaLevelDensity (kg/m3) are
	// p0, T0 and rho0.
	SeaLevelPressure    units.Pressure    = 101325
	SeaLevelTemperature units.Temperature = 288.15
	SeaLevelDensity                       = 1.225

	// SpeedOfSoundAtSeaLevel is a0 = sqrt(1.4 R T0): 340.294 m/s in print.
	SpeedOfSoundAtSeaLevel units.Speed = 340.29398802608899

	// Lowest and Highest are the ends of the standard used here,
	// geopotential.
	Lowest  units.Length = -5000
	Highest units.Length = 32000
)

// The three layers. The pressures and exponents are derived, worked with 30
// digits from the constants above.
const (
	lapse0     = 0.0065 // K/m, falling
	exponent0  = 5.2558798127166770
	base1      = 11000.0
	temp1      = 216.65
	pressure1  = 22632.040095007799
	scale1     = 6341.6155655091188 // R T/g0, m
	base2      = 20000.0
	lapse2     = 0.001 // K/m, rising
	pressure2  = 5474.8774242810459
	exponent2  = 34.163218782658400
	density1   = pressure1 / (gasConstant * temp1)
	density2   = pressure2 / (gasConstant * temp1)
	t0         = float64(SeaLevelTemperature)
	p0         = float64(SeaLevelPressure)
	t0OverLap0 = t0 / lapse0    // 44330.77 m
	t1OverLap2 = temp1 / lapse2 // 216650 m
)

// InRange tells whether the standard is defined at a geopotential altitude:
// -5 to 32 km, ends included. NaN is outside.
func InRange(h units.Length) bool { return h >= Lowest && h <= Highest }

// Temperature returns the standard temperature at a pressure altitude.
func Temperature(h units.Length) units.Temperature {
	switch {
	case h <= base1:
		return units.Temperature(t0 - lapse0*float64(h))
	case h <= base2:
		return temp1
	}
	return units.Temperature(temp1 + lapse2*(float64(h)-base2))
}

// Pressure returns the standard pressure at a pressure altitude.
func Pressure(h units.Length) units.Pressure {
	x := float64(h)
	switch {
	case x <= base1:
		return units.Pressure(p0 * math.Exp(exponent0*math.Log1p(-x/t0OverLap0)))
	case x <= base2:
		return units.Pressure(pressure1 * math.Exp((base1-x)/scale1))
	}
	return units.Pressure(pressure2 * math.Exp(-exponent2*math.Log1p((x-base2)/t1OverLap2)))
}

// PressureAltitude returns the altitude at which the standard pressure is p,
// the inverse of Pressure; +Inf if p is not above zero.
func PressureAltitude(p units.Pressure) units.Length {
	x := float64(p)
	switch {
	case x <= 0:
		return units.Length(math.Inf(1))
	case x >= pressure1:
		return units.Length(-t0OverLap0 * math.Expm1(math.Log1p((x-p0)/p0)/exponent0))
	case x >= pressure2:
		return units.Length(base1 - scale1*math.Log(x/pressure1))
	}
	return units.Length(base2 + t1OverLap2*math.Expm1(-math.Log(x/pressure2)/exponent2))
}

// Density returns the density p/(R T) of dry air, kg/m3.
func Density(p units.Pressure, t units.Temperature) float64 {
	return float64(p) / (gasConstant * float64(t))
}

// SpeedOfSound returns sqrt(1.4 R T).
func SpeedOfSound(t units.Temperature) units.Speed {
	return units.Speed(math.Sqrt(gammaR * float64(t)))
}

// Viscosity returns the dynamic viscosity by Sutherland's law, Pa s (US
// Standard Atmosphere 1976, equation 51).
func Viscosity(t units.Temperature) float64 {
	x := float64(t)
	return 1.458e-6 * x * math.Sqrt(x) / (x + 110.4)
}

// Geopotential returns H = r Z/(r + Z) of a geometric altitude Z.
func Geopotential(z units.Length) units.Length {
	return units.Length(earthRadius * float64(z) / (earthRadius + float64(z)))
}

// Geometric returns Z = r H/(r - H) of a geopotential altitude H, the inverse
// of Geopotential.
func Geometric(h units.Length) units.Length {
	return units.Length(earthRadius * float64(h) / (earthRadius - float64(h)))
}
