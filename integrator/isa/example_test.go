package isa_test

import (
	"fmt"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Aviation Formulary V1.46, section 'Mach numbers, true vs calibrated
// airspeeds': CAS 250 kt at pressure altitude 10000 ft, thermometer +2 C with
// recovery factor 0.8. Printed there: 3.1001 inHg, 20.577 inHg, Mach 0.4523,
// -6.72 C, 636.1 kt, TAS 287.7 kt.
func ExampleMach() {
	h := 10000 * units.Foot
	qc, p := isa.ImpactPressure(250*units.Knot), isa.Pressure(h)
	m := isa.Mach(qc, p)
	t := isa.StaticTemperature(units.Celsius(2), 0.8, m)
	fmt.Printf("qc %.4f inHg, p %.3f inHg, Mach %.4f\n", qc.InchesOfMercury(), p.InchesOfMercury(), m)
	fmt.Printf("air %.2f C, sound %.1f kt, TAS %.1f kt\n",
		t.Celsius(), isa.SpeedOfSound(t).Knots(), isa.TAS(m, t).Knots())
	// Output:
	// qc 3.1001 inHg, p 20.577 inHg, Mach 0.4523
	// air -6.72 C, sound 636.1 kt, TAS 287.7 kt
}

// NASA RP-1046: calibrated airspeed 400 kt at 30000 ft in standard air is a
// true airspeed of 602.6 kt. That is Mach 1.02, just beyond the range: so near
// to 1 the shock wave does not yet show in the printed digits.
func ExampleTASFromCAS() {
	h := 30000 * units.Foot
	fmt.Printf("%.1f kt\n", isa.TASFromCAS(400*units.Knot, h, isa.Temperature(h)).Knots())
	// Output: 602.6 kt
}

// Aviation Formulary V1.46, section 'Standard atmosphere and altimetry':
// pressure altitude 8000 ft and 18 C make a density altitude of 10145 ft.
func ExampleDensityAltitude() {
	fmt.Printf("%.0f ft\n", isa.DensityAltitude(8000*units.Foot, units.Celsius(18)).Feet())
	// Output: 10145 ft
}

// 14 CFR part 43 appendix E, table IV (from memory): with 29.50 inches set the
// altimeter indicates 392 ft below the pressure altitude.
func ExampleAltimeterOffset() {
	fmt.Printf("%.0f ft\n", isa.AltimeterOffset(29.5*units.InchOfMercury).Feet())
	// Output: -392 ft
}
