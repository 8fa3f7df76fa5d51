package work

import (
	"math"

	"stillair/integrator/units"
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
	figure, err := determine([3]side{
		{in[0], in[1]},
		{in[2], in[3] + 180}, // toward
		{in[4], in[5] + 180}, // reversed
	})
	if err != nil {
		return BadTogether(given, "%v", err)
	}
	return report(in, figure, out)
}

// determine closes the triangle and takes the figure with the greater
// groundspeed where there are two.
func determine(s [3]side) ([3]side, error) {
	figures, n, err := closeTriangle(s)
	if err != nil {
		return s, err
	}
	figure := figures[0]
	if n == 2 {
		if figures[1][2].size == figure[2].size {
			return s, errTwo
		}
		if figures[1][2].size > figure[2].size {
			figure = figures[1]
		}
	}
	if math.IsNaN(figure[0].dir) || math.IsNaN(figure[2].dir) {
		return s, errNothing
	}
	return figure, nil
}

// report gives the results in the order of Adds: what was given as it was
// given, the rest in its range.
func report(in []float64, s [3]side, out []float64) error {
	from := s[1].dir - 180
	if math.IsNaN(from) {
		from = 0 // still air comes from 0, as everywhere in stillair
	}
	found := [6]float64{s[0].size, units.WrapDegrees(s[0].dir), s[1].size, units.WrapDegrees(from),
		s[2].size, units.WrapDegrees(s[2].dir - 180)}
	for i, v := range in {
		if !math.IsNaN(v) {
			found[i] = v
		}
	}
	drift := math.Remainder(found[5]-found[1], 360)
	copy(out, []float64{found[0], found[1], found[3], found[2], found[5], found[4], drift})
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
