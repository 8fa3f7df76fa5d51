package work

import "stillair/integrator/airplot"

// deviationTopic is the compass swing.
func deviationTopic() Topic {
	return Topic{
		Name: "deviation",
		Help: "coefficients of the deviation by least squares: rows with the same case make one swing; " +
			"readings that do not determine five (the four cardinal points) give A, B and C, with D and E 0",
		Example: "case,compass_heading_deg,deviation_deg\n" +
			"1,0,2.5\n1,45,1\n1,90,-0.5\n1,135,-1\n1,180,-2\n1,225,-1.5\n1,270,0.5\n1,315,2\n",
		Forms: []Form{{
			Reads: []Column{Name("case"), Direction("compass_heading_deg"), Between("deviation_deg", -180, 180)},
			Adds:  []string{"a_deg", "b_deg", "c_deg", "d_deg", "e_deg"},
			Group: deviation,
		}},
	}
}

func deviation(in, out [][]float64) error {
	readings := make([]airplot.Reading, len(in))
	for i, row := range in {
		readings[i] = airplot.Reading{On: degrees(row[1]), Found: degrees(row[2])}
	}
	k, _, err := airplot.Swing(readings)
	if err != nil {
		return BadTogether([]string{"case", "compass_heading_deg"}, "%v", err)
	}
	for _, row := range out {
		copy(row, []float64{k.A.Degrees(), k.B.Degrees(), k.C.Degrees(), k.D.Degrees(), k.E.Degrees()})
	}
	return nil
}
