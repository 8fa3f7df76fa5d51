package work

import (
	"stillair/integrator/geodesy"
)

const metresPerNM = 1852 // exact (Monaco, 1929)

func rhumbTopic() Topic {
	return Topic{
		Name: "rhumb",
		Help: "rhumb line on WGS-84: where it ends, or its course and distance",
		Example: "lat1_deg,lon1_deg,lat2_deg,lon2_deg\n" +
			"-47.1667,178.5,-46.8833,-178.4133\n",
		Forms: []Form{
			{
				Reads: []Column{Latitude("lat1_deg"), Longitude("lon1_deg"),
					Direction("course_deg"), AtLeast("distance_nm", 0)},
				Adds: []string{"lat2_deg", "lon2_deg"},
				Work: rhumbDirect,
			},
			{
				Reads: []Column{Latitude("lat1_deg"), Longitude("lon1_deg"),
					Latitude("lat2_deg"), Longitude("lon2_deg")},
				Adds: []string{"course_deg", "distance_nm"},
				Work: rhumbInverse,
			},
		},
	}
}

func rhumbDirect(in, out []float64) (err error) {
	out[0], out[1], err = geodesy.RhumbDirectDegrees(in[0], in[1], in[2], in[3]*metresPerNM)
	if err != nil {
		return BadTogether([]string{"course_deg", "distance_nm"}, "%v", err)
	}
	return nil
}

func rhumbInverse(in, out []float64) error {
	course, metres := geodesy.RhumbInverseDegrees(in[0], in[1], in[2], in[3])
	out[0], out[1] = course, metres/metresPerNM
	return nil
}
