package work

import (
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// hyperbolicTopic is the fix of two time differences.
func hyperbolicTopic() Topic {
	return Topic{
		Name: "hyperbolic",
		Help: "fix of two time differences from a master and two secondaries: the place nearest to near; ellipse for 1 microsecond in each",
		Example: "master_lat_deg,master_lon_deg,a_lat_deg,a_lon_deg,b_lat_deg,b_lon_deg,td_a_us,td_b_us,near_lat_deg,near_lon_deg\n" +
			"-47.2,179.5,-46.0,178.2,-46.1,-179.1,500,700,-45,180\n",
		Forms: []Form{{
			Reads: []Column{
				Latitude("master_lat_deg"), Longitude("master_lon_deg"),
				Latitude("a_lat_deg"), Longitude("a_lon_deg"), Latitude("b_lat_deg"), Longitude("b_lon_deg"),
				Between("td_a_us", -1e9, 1e9), Between("td_b_us", -1e9, 1e9),
				Latitude("near_lat_deg"), Longitude("near_lon_deg"),
				Between("delay_a_us", -1e9, 1e9).Or(0), Between("delay_b_us", -1e9, 1e9).Or(0),
				Between("refractive_index", 1, 2).Or(1),
			},
			Adds: []string{"lat_deg", "lon_deg", "ellipse_major_nm", "ellipse_minor_nm"},
			Work: hyperbolic,
		}},
	}
}

func hyperbolic(in, out []float64) error {
	us := func(v float64) airplot.TimeDifference { return airplot.TimeDifference(v) * airplot.Microsecond }
	chain := airplot.Chain{
		Master: place(in[0], in[1]), A: place(in[2], in[3]), B: place(in[4], in[5]),
		DelayA: us(in[10]), DelayB: us(in[11]), Index: in[12],
	}
	found, err := chain.Fix(place(in[8], in[9]), us(in[6]), us(in[7]), airplot.Microsecond)
	if err != nil {
		return BadTogether([]string{"td_a_us", "td_b_us"}, "%v", err)
	}
	f := found[0]
	out[0], out[1] = f.Position.Lat.Degrees(), units.WrapHalfDegrees(f.Position.Lon.Degrees())
	out[2], out[3] = f.Ellipse.Major.NM(), f.Ellipse.Minor.NM()
	return nil
}
