package work

import (
	"math"
	"time"

	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Columns of the fix, by their places in a row's numbers.
const (
	fixCase = iota
	fixDRLat
	fixDRLon
	fixGHA
	fixDeclination
	fixAltitude
	fixStationLat
	fixStationLon
	fixBearing
	fixMinutes
	fixTrack
	fixGroundspeed
	fixSigma
)

var (
	altitudeColumns = []string{"gha_deg", "declination_deg", "observed_altitude_deg"}
	bearingColumns  = []string{"station_lat_deg", "station_lon_deg", "true_bearing_deg"}
)

// fixTopic is the fix of altitudes and bearings, mixed at will.
func fixTopic() Topic {
	none := math.NaN()
	return Topic{
		Name: "fix",
		Help: "fix of position lines by least squares: rows with the same case make one; each row gives an " +
			"altitude (gha_deg, declination_deg, observed_altitude_deg) or the bearing of a station from the aircraft " +
			"(station_lat_deg, station_lon_deg, true_bearing_deg); an altitude and its run count a minute of arc for a mile",
		Example: "case,dr_lat_deg,dr_lon_deg,station_lat_deg,station_lon_deg,true_bearing_deg\n" +
			"1,-47.2,179.9,-46.9,-179.6,52\n1,-47.2,179.9,-47.8,179.7,190\n",
		Forms: []Form{{
			Reads: []Column{
				Name("case"), Latitude("dr_lat_deg"), Longitude("dr_lon_deg"),
				Longitude("gha_deg").Or(none), Latitude("declination_deg").Or(none), Latitude("observed_altitude_deg").Or(none),
				Latitude("station_lat_deg").Or(none), Longitude("station_lon_deg").Or(none), Direction("true_bearing_deg").Or(none),
				Between("minutes_before_fix", -2880, 2880).Or(0), Direction("track_deg").Or(none),
				AtLeast("groundspeed_kt", 0).Or(none), Between("sigma_nm", 1e-6, 1e4).Or(1),
			},
			Least: 6,
			Adds:  []string{"fix_lat_deg", "fix_lon_deg", "ellipse_major_nm", "ellipse_minor_nm", "ellipse_bearing_deg"},
			Check: checkSight,
			Group: fix,
		}},
	}
}

// checkSight makes sure that a row is one reading and knows its run.
func checkSight(in []float64) error {
	a := countKnown(in[fixGHA : fixAltitude+1])
	b := countKnown(in[fixStationLat : fixBearing+1])
	switch {
	case a > 0 && b > 0:
		return BadTogether(append(append([]string{}, altitudeColumns...), bearingColumns...),
			"a row gives an altitude or a bearing, not both")
	case b == 0 && a < 3:
		return BadTogether(altitudeColumns, "%d of the three are given; a row needs all, or a station and its bearing", a)
	case a == 0 && b < 3:
		return BadTogether(bearingColumns, "%d of the three are given; a row needs all", b)
	}
	if in[fixMinutes] != 0 && countKnown(in[fixTrack:fixGroundspeed+1]) < 2 {
		return BadTogether([]string{"minutes_before_fix", "track_deg", "groundspeed_kt"},
			"a line is run on with a track and a groundspeed")
	}
	return nil
}

func countKnown(in []float64) int {
	n := 0
	for _, v := range in {
		if !math.IsNaN(v) {
			n++
		}
	}
	return n
}

// fix works one case; the DR position is that of its first row.
func fix(in, out [][]float64) error {
	lines := make([]airplot.Line, len(in))
	for i, row := range in {
		lines[i] = sightLine(row)
	}
	found, err := airplot.Solve(place(in[0][fixDRLat], in[0][fixDRLon]), lines)
	if err != nil {
		return BadTogether([]string{"case"}, "%v", err)
	}
	f := found[0]
	for _, row := range out {
		copy(row, []float64{f.Position.Lat.Degrees(), units.WrapHalfDegrees(f.Position.Lon.Degrees()),
			f.Ellipse.Major.NM(), f.Ellipse.Minor.NM(), f.Ellipse.Bearing.Degrees()})
	}
	return nil
}

// sightLine is the position line of a row.
func sightLine(in []float64) airplot.Line {
	var l airplot.Line
	if math.IsNaN(in[fixGHA]) {
		l.Locus = airplot.Bearing{
			Station: place(in[fixStationLat], in[fixStationLon]),
			Bearing: degrees(in[fixBearing]),
			Across:  units.Length(in[fixSigma]) * units.NM,
		}
	} else {
		l.Locus = airplot.Altitude{
			GHA:         degrees(units.WrapHalfDegrees(in[fixGHA])),
			Declination: degrees(in[fixDeclination]),
			Observed:    degrees(in[fixAltitude]),
			Sigma:       units.Angle(in[fixSigma]) * units.ArcMinute,
		}
	}
	if in[fixMinutes] != 0 {
		elapsed := time.Duration(math.Round(in[fixMinutes] * float64(time.Minute)))
		l.Run = airplot.RunOver(degrees(in[fixTrack]), units.Speed(in[fixGroundspeed])*units.Knot, elapsed)
	}
	return l
}

func degrees(d float64) units.Angle { return units.Angle(d) * units.Degree }

// place takes a longitude of any size.
func place(lat, lon float64) units.Position { return units.At(lat, units.WrapHalfDegrees(lon)) }
