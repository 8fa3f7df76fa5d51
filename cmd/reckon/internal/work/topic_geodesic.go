package work

import "stillair/integrator/geodesy"

func geodesicTopic() Topic {
	return Topic{
		Name: "geodesic",
		Help: "shortest line on WGS-84: azimuths (both in the direction of travel) and length",
		Example: "lat1_deg,lon1_deg,lat2_deg,lon2_deg\n" +
			"-47.1667,178.5,-46.8833,-178.4133\n",
		Forms: []Form{{
			Reads: []Column{Latitude("lat1_deg"), Longitude("lon1_deg"),
				Latitude("lat2_deg"), Longitude("lon2_deg")},
			Adds: []string{"azimuth1_deg", "azimuth2_deg", "distance_m"},
			Work: func(in, out []float64) error {
				out[0], out[1], out[2] = geodesy.GeodesicInverseDegrees(in[0], in[1], in[2], in[3])
				return nil
			},
		}},
	}
}
