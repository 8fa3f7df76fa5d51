package work

import (
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// findWindTopic is the air plot's wind: the rhumb line from the air position to
// a fix is what the wind has done since the plot was begun.
func findWindTopic() Topic {
	return Topic{
		Name: "find-wind",
		Help: "wind found by air plot: rhumb line from air position to fix, over the hours since the last fix",
		Example: "air_lat_deg,air_lon_deg,fix_lat_deg,fix_lon_deg,hours\n" +
			"-47.1667,179.9,-47.0,-179.6,1.5\n",
		Forms: []Form{{
			Reads: []Column{Latitude("air_lat_deg"), Longitude("air_lon_deg"),
				Latitude("fix_lat_deg"), Longitude("fix_lon_deg"), AtLeast("hours", 0)},
			Adds: []string{"wind_from_deg_true", "wind_kt"},
			Work: findWind,
		}},
	}
}

func findWind(in, out []float64) error {
	hours := in[4]
	if hours == 0 {
		return Bad("hours", "0 hours give no wind; it must be above 0")
	}
	toward, metres := geodesy.RhumbInverseDegrees(in[0], in[1], in[2], in[3])
	if metres == 0 { // still air comes from 0, as everywhere in stillair
		out[0], out[1] = 0, 0
		return nil
	}
	out[0], out[1] = units.WrapDegrees(toward+180), metres/metresPerNM/hours
	return nil
}
