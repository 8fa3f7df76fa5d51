package sight

import (
	"math"

	"stillair/integrator/units"
)

// The air for which the formulas of refraction are printed: 1010 hPa, 10 C,
// which they write 283 kelvins.
const (
	RefractionPressure    = 1010 * units.Hectopascal
	RefractionTemperature = 283 * units.Kelvin
)

// lowestBent is the altitude, in degrees, below which refraction is held: the
// formulas serve down to the horizon and lose their sense soon below it.
const lowestBent = -1.0

// Refraction is how much a body at an apparent altitude is lifted, in air of
// 1010 hPa and 10 C: R = cot(h + 7.31/(h + 4.4)) minutes, h in degrees
// ('Astronomical Algorithms' eq. 16.3, from memory; within 0.07' of exact
// theory by that book). It is held below -1 degree and never below 0.
func Refraction(apparent units.Angle) units.Angle {
	return lift(apparent, 1, 7.31, 4.4)
}

// RefractionOfTrue is the same from the altitude without refraction:
// R = 1.02 cot(h + 10.3/(h + 5.11)) minutes (eq. 16.4, from memory). The two
// formulas agree within 0.1' above 5 degrees; on the horizon they stand 3
// minutes apart because their arguments do.
func RefractionOfTrue(altitude units.Angle) units.Angle {
	return lift(altitude, 1.02, 10.3, 5.11)
}

func lift(h units.Angle, scale, a, b float64) units.Angle {
	deg := math.Max(h.Degrees(), lowestBent)
	cot := math.Tan((90 - deg - a/(deg+b)) * (math.Pi / 180))
	return units.Angle(math.Max(0, scale*cot)) * units.ArcMinute
}

// ThinAir is what refraction is multiplied by at a pressure and temperature:
// 0.525 at 20,000 ft in standard air. It is an approximation for low altitudes.
func ThinAir(p units.Pressure, t units.Temperature) float64 {
	return float64(p/RefractionPressure) * float64(RefractionTemperature/t)
}

// Lifted is the apparent altitude of a body whose altitude without refraction
// is given, where refraction is thin times that of Refraction; it undoes
// exactly what a navigator does who subtracts the refraction of the apparent
// altitude.
func Lifted(altitude units.Angle, thin float64) units.Angle {
	apparent := altitude
	for range 60 { // near the horizon each round gains a factor of three at least
		next := altitude + Refraction(apparent)*units.Angle(thin)
		if math.Abs(float64(next-apparent)) < 1e-15 {
			return next
		}
		apparent = next
	}
	return apparent
}
