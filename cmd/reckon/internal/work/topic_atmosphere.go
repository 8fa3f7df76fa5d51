package work

import (
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// The standard atmosphere, and the departures from it that a flight may have.
var (
	lowestFeet   = isa.Lowest.Feet()
	highestFeet  = isa.Highest.Feet()
	isaDeviation = Between("isa_deviation_c", -60, 60)
)

// atmosphereTopic reads one of three figures for the height, each from -5 to
// 32 km as it stands. A deviation changes the temperature, and with it density
// and speed of sound, not the pressure: the height is one of the standard.
func atmosphereTopic() Topic {
	form := func(column string, low, high float64, altitude func(float64) units.Length) Form {
		return Form{
			Reads: []Column{Between(column, low, high), isaDeviation.Or(0)},
			Adds:  []string{"temperature_k", "pressure_pa", "density_kg_m3", "speed_of_sound_m_s"},
			Work: func(in, out []float64) error {
				h := altitude(in[0])
				p, t := isa.Pressure(h), isa.Temperature(h)+units.Temperature(in[1])
				out[0], out[1] = t.Kelvins(), p.Pascals()
				out[2], out[3] = isa.Density(p, t), isa.SpeedOfSound(t).MetresPerSecond()
				return nil
			},
		}
	}
	low, high := isa.Lowest.Metres(), isa.Highest.Metres()
	return Topic{
		Name:    "atmosphere",
		Help:    "standard atmosphere, -5 to 32 km; a deviation from it warms or cools the air at the same pressure",
		Example: "pressure_altitude_ft,isa_deviation_c\n10000,10\n",
		Forms: []Form{
			form("pressure_altitude_ft", lowestFeet, highestFeet,
				func(x float64) units.Length { return units.Length(x) * units.Foot }),
			form("geopotential_m", low, high,
				func(x float64) units.Length { return units.Length(x) }),
			form("geometric_m", low, high,
				func(x float64) units.Length { return isa.Geopotential(units.Length(x)) }),
		},
	}
}
