package isa_test

import (
	"testing"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// Every row of altimetry.csv: 14 CFR part 43 appendix E tables I and IV (from
// memory, reproduced by computation), worked examples of the Aviation Formulary
// V1.46, and truth values of an independent program. Tolerances of the rows.
func TestAltimetry(t *testing.T) {
	cases := map[string]func(rows.Row) (got, tol float64){
		"altimeter setting inHg -> pressure-altitude difference ft (indicated minus pressure altitude)": func(r rows.Row) (float64, float64) {
			return isa.AltimeterOffset(units.Pressure(r.Float("in1")) * units.InchOfMercury).Feet(), 1.5
		},
		"altitude ft -> equivalent pressure inHg": func(r rows.Row) (float64, float64) {
			return isa.Pressure(feet(r, "in1")).InchesOfMercury(), 0.001
		},
		"density altitude ft from (PA ft, OAT C)": func(r rows.Row) (float64, float64) {
			return isa.DensityAltitude(feet(r, "in1"), units.Celsius(r.Float("in2"))).Feet(), 2
		},
		"density altitude ft, approximation PA+118.6*(T-Ts)": func(r rows.Row) (float64, float64) {
			h := feet(r, "in1")
			return h.Feet() + 118.6*(r.Float("in2")-isa.Temperature(h).Celsius()), 2
		},
		"density altitude ft, dry air, from (indicated alt ft, OAT degC, setting inHg/hPa)": func(r rows.Row) (float64, float64) {
			h := feet(r, "in1") - isa.AltimeterOffset(setting(r))
			return isa.DensityAltitude(h, units.Celsius(r.Float("in2"))).Feet(), 2
		},
		"pressure altitude ft from (indicated alt ft, setting inHg/hPa)": func(r rows.Row) (float64, float64) {
			return (feet(r, "in1") - isa.AltimeterOffset(setting(r))).Feet(), 1
		},
		"density altitude ft from (PA ft, ISA deviation C) [exact, via density2alt]": func(r rows.Row) (float64, float64) {
			h := feet(r, "in1")
			return isa.DensityAltitude(h, isa.Temperature(h)+units.Temperature(r.Float("in2"))).Feet(), 3
		},
	}
	for _, r := range rows.Read(t, "testdata/altimetry.csv") {
		work, ok := cases[r.Text("case")]
		if !ok {
			t.Errorf("%s: unknown case %q", r, r.Text("case"))
			continue
		}
		got, tol := work(r)
		near(t, r, r.Text("case"), r.Float("expected"), got, tol)
	}
}

func feet(r rows.Row, column string) units.Length {
	return units.Length(r.Float(column)) * units.Foot
}

// setting reads an altimeter setting: above 100 it is in hectopascals, else in
// inches of mercury.
func setting(r rows.Row) units.Pressure {
	if s := r.Float("in3"); s > 100 {
		return units.Pressure(s) * units.Hectopascal
	}
	return units.Pressure(r.Float("in3")) * units.InchOfMercury
}
