package work

import (
	"math"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// airspeedTopic is the chain from calibrated to true airspeed. The temperature
// comes as it is or as a deviation from the standard; a row without either is
// in standard air, a row with both is refused.
func airspeedTopic() Topic {
	absent := math.NaN() // no cell can hold it
	return Topic{
		Name:    "airspeed",
		Help:    "impact pressure, Mach, equivalent and true airspeed from calibrated airspeed; up to Mach 1",
		Example: "cas_kt,pressure_altitude_ft,isa_deviation_c\n150,10000,5\n",
		Forms: []Form{{
			Reads: []Column{
				AtLeast("cas_kt", 0),
				Between("pressure_altitude_ft", lowestFeet, highestFeet),
				// From 60 below the coldest to 60 above the warmest standard air.
				Between("oat_c", -117, 108).Or(absent),
				isaDeviation.Or(absent),
			},
			Adds: []string{"impact_pressure_pa", "mach", "eas_kt", "tas_kt"},
			Work: airspeed,
		}},
	}
}

func airspeed(in, out []float64) error {
	cas, h := units.Speed(in[0])*units.Knot, units.Length(in[1])*units.Foot
	t, err := outsideAir(h, in[2], in[3])
	if err != nil {
		return err
	}
	if cas > isa.SpeedOfSoundAtSeaLevel {
		return Bad("cas_kt", "%v kt is above the speed of sound at sea level, %.2f kt",
			in[0], isa.SpeedOfSoundAtSeaLevel.Knots())
	}
	qc, p := isa.ImpactPressure(cas), isa.Pressure(h)
	m := isa.Mach(qc, p)
	if m > 1 {
		return BadTogether([]string{"cas_kt", "pressure_altitude_ft"}, "Mach %.4f is above 1", m)
	}
	out[0], out[1] = qc.Pascals(), m
	out[2], out[3] = isa.EAS(m, p).Knots(), isa.TAS(m, t).Knots()
	return nil
}

// outsideAir gives the temperature at a pressure altitude from the two columns,
// of which one or both are absent (NaN).
func outsideAir(h units.Length, oat, deviation float64) (units.Temperature, error) {
	switch {
	case math.IsNaN(oat) && math.IsNaN(deviation):
		return isa.Temperature(h), nil
	case math.IsNaN(oat):
		return isa.Temperature(h) + units.Temperature(deviation), nil
	case math.IsNaN(deviation):
		return units.Celsius(oat), nil
	}
	return 0, BadTogether([]string{"oat_c", "isa_deviation_c"}, "both are given; give one of them")
}
