package work

import (
	"math"

	"stillair/integrator/airplot"
)

// triangleColumns are the six figures of a wind triangle, as the contract names
// them, in the order of the sides (air, wind, ground).
var triangleColumns = []string{"tas_kt", "heading_true_deg", "wind_kt", "wind_from_deg_true",
	"groundspeed_kt", "track_true_deg"}

// windTriangleTopic takes any four of the six. The header may have more than
// four of them; each row must then have exactly four filled in, and the results
// go into the empty cells. Columns that the header lacks are appended.
func windTriangleTopic() Topic {
	form := Form{Least: 4, Adds: []string{"tas_kt", "heading_true_deg", "wind_from_deg_true", "wind_kt",
		"track_true_deg", "groundspeed_kt", "drift_deg"}, Work: windTriangle}
	for i, name := range triangleColumns {
		column := AtLeast(name, 0)
		if i%2 == 1 {
			column = Direction(name)
		}
		form.Reads = append(form.Reads, column.Or(math.NaN()))
	}
	return Topic{
		Name:    "wind-triangle",
		Help:    "wind triangle from any four of its six figures",
		Example: "tas_kt,heading_true_deg,wind_from_deg_true,wind_kt\n180,90,0,30\n",
		Forms:   []Form{form},
	}
}

// windTriangle works one row: in as triangleColumns.
func windTriangle(in, out []float64) error {
	given, empty := known(in)
	switch {
	case len(given) < 4:
		return BadTogether(empty, "%d of the six figures are given; it must be four", len(given))
	case len(given) > 4:
		return BadTogether(given, "%d of the six figures are given; it must be four, the others left empty", len(given))
	}
	figure, err := airplot.Triangle{TASKnots: in[0], HeadingDegrees: in[1], WindKnots: in[2], WindFromDegrees: in[3],
		GroundspeedKnots: in[4], TrackDegrees: in[5]}.Solve()
	if err != nil {
		return BadTogether(given, "%v", err)
	}
	copy(out, []float64{figure.TASKnots, figure.HeadingDegrees, figure.WindFromDegrees, figure.WindKnots,
		figure.TrackDegrees, figure.GroundspeedKnots, figure.DriftDegrees()})
	return nil
}

// known names the figures of a row that are given, and those that are not.
func known(in []float64) (given, empty []string) {
	for i, v := range in {
		if math.IsNaN(v) {
			empty = append(empty, triangleColumns[i])
			continue
		}
		given = append(given, triangleColumns[i])
	}
	return given, empty
}
