package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// eastward is half an hour due east at 200 kt in a wind that was set wrong.
const eastward = `schema = 1
title = "East"
start = 1957-08-14T09:30:00Z
seed = 1
pilot = "as-planned"
[aircraft]
position = [10, 20]
heading_true_deg = 90
pressure_altitude_ft = 8000
tas_kt = 200
[[leg]]
heading_true_deg = 90
duration = "30m"
[field]
variation_deg = 5
[air]
[[air.wind]]
from_deg_true = 180
speed_kt = 30
[setting]
variation_deg = 5
wind_from_deg_true = 200
wind_kt = 20
`

// Each figure of the JSON is the one its name says: worked by hand from the
// radii of curvature of WGS-84 at 10 degrees (M 6337.40 km, N 6378.79 km, both
// with the height of 2.438 km added), the mechanism's sphere and the standard
// atmosphere at 8000 ft (752.62 hPa, -0.85 C by ICAO's table; qc by NASA
// RP-1046's formula at Mach 0.3110).
func TestEachFigureIsTheOneNamed(t *testing.T) {
	status, out, errs := call(eastward, "fly", "-", "--json")
	assert.Equal(t, exitDone, status, errs)
	got := decode(t, out)
	for part, figures := range map[string]map[string][2]float64{ // value, tolerance
		"truth": {
			"lat_deg": {10.25106, 1e-4}, "lon_deg": {21.6892, 3e-4}, "air_lat_deg": {10, 1e-9}, "air_lon_deg": {21.68853, 1e-4},
			"heading_true_deg": {90, 1e-9}, "tas_kt": {200, 1e-9}, "track_true_deg": {math.Atan2(200, 30) * 180 / math.Pi, 1e-9},
			"groundspeed_kt": {math.Hypot(200, 30), 1e-9}, "wind_from_deg_true": {180, 1e-9}, "wind_kt": {30, 1e-9},
			"pressure_altitude_ft": {8000, 1e-6}, "variation_deg": {5, 1e-9},
		},
		"sensed": {
			"pitot_pa": {80483, 4}, "static_pa": {75262, 1}, "air_temperature_c": {-0.85, 0.005}, "heading_magnetic_deg": {85, 1e-9},
		},
		"shown": {
			"northing_nm": {0, 1e-9}, "easting_nm": {100, 1e-6}, "air_lat_deg": {10, 1e-9}, "air_lon_deg": {21.69238, 1e-5},
			"ground_lat_deg": {10.15662, 1e-5}, "ground_lon_deg": {21.75068, 1e-4}, "marker_lat_deg": {10.15662, 1e-5},
			"marker_lon_deg": {21.75068, 1e-4}, "air_distance_nm": {100, 1e-6}, "heading_true_deg": {90, 1e-9}, "tas_kt": {200, 1e-6},
			"wind_from_deg_true": {200, 1e-9}, "wind_kt": {20, 1e-9}, "variation_deg": {5, 1e-9},
		},
		"error": {"air_nm": {0.2276, 0.005}, "ground_nm": {6.730, 0.02}},
	} {
		values := got[part].(map[string]any)
		assert.Len(t, values, len(figures), part)
		for name, want := range figures {
			assert.InDelta(t, want[0], values[name], want[1], "%s.%s", part, name)
		}
	}
}
