package work

import (
	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// sightTopic reduces a sight: what the altitude should have been, and how far
// the position line lies from the place.
func sightTopic() Topic {
	return Topic{
		Name: "sight",
		Help: "computed altitude and azimuth of a body from a place, and the intercept of an observed altitude (toward +)",
		Example: "lat_deg,lon_deg,gha_deg,declination_deg,observed_altitude_deg\n" +
			"26.45,-130.45,89.8233,-21.6066,27.8317\n",
		Forms: []Form{{
			Reads: []Column{Latitude("lat_deg"), Longitude("lon_deg"), Number("gha_deg"),
				Between("declination_deg", -90, 90), Between("observed_altitude_deg", -90, 90)},
			Adds: []string{"computed_altitude_deg", "azimuth_deg", "intercept_nm"},
			Work: reduceSight,
		}},
	}
}

func reduceSight(in, out []float64) error {
	at := units.At(in[0], units.WrapHalfDegrees(in[1]))
	gha := units.Angle(units.WrapDegrees(in[2])) * units.Degree
	computed, azimuth := sight.Reduce(at, gha, units.Angle(in[3])*units.Degree)
	out[0], out[1] = computed.Degrees(), units.WrapDegrees(azimuth.Degrees())
	out[2] = sight.Intercept(units.Angle(in[4])*units.Degree, computed).NM()
	return nil
}
