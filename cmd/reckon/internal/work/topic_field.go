package work

import (
	"stillair/integrator/units"
	"stillair/sim/geomag"
)

// fieldTopic is the earth's magnetic field by IGRF-14.
func fieldTopic() Topic {
	return Topic{
		Name:    "field",
		Help:    "the earth's magnetic field by IGRF-14, 1900 to 2030; height above the WGS-84 ellipsoid",
		Example: "decimal_year,lat_deg,lon_deg,height_km\n1957.6,-47.1667,178.5,3\n",
		Forms: []Form{{
			Reads: []Column{
				Between("decimal_year", geomag.FirstYear, geomag.LastYear),
				Latitude("lat_deg"), Longitude("lon_deg"),
				Between("height_km", -10, 1000), // inside the crust to low orbit
			},
			Adds: []string{"declination_deg", "inclination_deg", "h_nt", "x_nt", "y_nt", "z_nt", "f_nt"},
			Work: field,
		}},
	}
}

func field(in, out []float64) error {
	m, err := geomag.New(in[0])
	if err != nil {
		return Bad("decimal_year", "%v", err)
	}
	f := m.At(units.At(in[1], units.WrapHalfDegrees(in[2])), units.Length(in[3])*units.Kilometre)
	out[0], out[1] = units.WrapHalfDegrees(f.D.Degrees()), f.I.Degrees()
	out[2], out[3], out[4], out[5], out[6] = f.H, f.X, f.Y, f.Z, f.F
	return nil
}
