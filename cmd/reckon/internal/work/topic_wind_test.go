package work

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

const geodesyFolder = "../../../../integrator/geodesy/testdata/"

var numberPattern = regexp.MustCompile(`[-+]?[0-9]+(?:\.[0-9]+)?`)

// numbersIn finds the numbers in a text cell.
func numbersIn(t *testing.T, text string) []float64 {
	t.Helper()
	var all []float64
	for _, s := range numberPattern.FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		all = append(all, v)
	}
	return all
}

// near compares directions in degrees, whatever turn they are in.
func near(t *testing.T, want, got, tolerance float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, 0, math.Remainder(got-want, 360), tolerance, msg...)
}

// sixHeader is all columns of a triangle; each row leaves two cells empty.
const sixHeader = "heading_true_deg,tas_kt,track_true_deg,groundspeed_kt,wind_from_deg_true,wind_kt"

// asked names, for a kind of row of nav_wind_triangle.csv, the file's columns
// that are the answer.
var asked = map[string][2]string{
	"wind":       {"wind_from_deg", "wind_speed"},
	"track_gs":   {"track_true_deg", "groundspeed"},
	"heading_gs": {"heading_true_deg", "groundspeed"},
}

func TestWindTrianglesOfTheNavigationNote(t *testing.T) {
	all := rows.Read(t, "testdata/nav_wind_triangle.csv")
	require.Len(t, all, 27)
	q := question{header: sixHeader}
	for _, r := range all {
		answer, known := asked[r.Text("asked")]
		require.True(t, known, r)
		require.Equal(t, answer[0]+";"+answer[1], r.Text("answer_columns"), r)
		var cells []string
		for _, c := range []string{"heading_true_deg", "TAS", "track_true_deg", "groundspeed", "wind_from_deg", "wind_speed"} {
			if c == answer[0] || c == answer[1] {
				cells = append(cells, "")
				continue
			}
			cells = append(cells, r.Text(c))
		}
		q.ask(r, cells...)
	}
	for i, got := range q.answer(t, "wind-triangle") {
		assertTriangle(t, all[i], got)
	}
}

// ours are our columns for the file's.
var ours = map[string]string{"heading_true_deg": "heading_true_deg", "track_true_deg": "track_true_deg",
	"groundspeed": "groundspeed_kt", "wind_from_deg": "wind_from_deg_true", "wind_speed": "wind_kt"}

func assertTriangle(t *testing.T, r rows.Row, got map[string]float64) {
	answer := asked[r.Text("asked")]
	tolerance := numbersIn(t, r.Text("tolerance"))
	forAngle, forSpeed := tolerance[0], tolerance[0]
	if len(tolerance) > 1 {
		forSpeed = tolerance[1]
	}
	near(t, r.Float(answer[0]), got[ours[answer[0]]], forAngle, r)
	assert.InDelta(t, r.Float(answer[1]), got[ours[answer[1]]], forSpeed, r)
	// and what exact arithmetic makes of the inputs, to 4 decimals; the third
	// number is the drift, or the correction, which is its negative
	exact := numbersIn(t, r.Text("recomputed_unrounded"))
	near(t, exact[0], got[ours[answer[0]]], 1e-4, r)
	assert.InDelta(t, exact[1], got[ours[answer[1]]], 1e-4, r)
	switch r.Text("asked") {
	case "track_gs":
		require.Contains(t, r.Text("recomputed_unrounded"), "drift")
		assert.InDelta(t, exact[2], got["drift_deg"], 1e-4, r)
	case "heading_gs":
		if strings.Contains(r.Text("recomputed_unrounded"), "correction") {
			assert.InDelta(t, -exact[2], got["drift_deg"], 1e-4, r)
		}
	}
}

func TestWindTrianglesOfThePhysicsNote(t *testing.T) {
	all := rows.Read(t, "testdata/wind_triangle.csv")
	require.Len(t, all, 7)
	q := question{header: "tas_kt,heading_true_deg,wind_from_deg_true,wind_kt"}
	// row 1: wind 060/20 on direction 030 gives components; any TAS shows them
	require.Equal(t, "HW 17.32 kt ; XW 10 kt from right", all[0].Text("answer"))
	q.ask(all[0], "100", "30", "60", "20")
	for _, r := range all[1:] {
		in := numbersIn(t, r.Text("input"))
		require.Len(t, in, 4, r)
		q.ask(r, strconv.Itoa(int(in[0])), strconv.Itoa(int(in[1])), strconv.Itoa(int(in[2])), strconv.Itoa(int(in[3])))
	}
	for i, got := range q.answer(t, "wind-triangle") {
		drift := got["drift_deg"] * math.Pi / 180
		if i == 0 {
			assert.InDelta(t, 17.32, 100-got["groundspeed_kt"]*math.Cos(drift), 0.01)
			assert.InDelta(t, -10, got["groundspeed_kt"]*math.Sin(drift), 0.01, "wind from the right drifts to the left")
			continue
		}
		want := numbersIn(t, all[i].Text("answer"))
		assert.InDelta(t, want[0], got["groundspeed_kt"], 1e-3, all[i])
		near(t, want[1], got["track_true_deg"], 1e-3, all[i])
		assert.InDelta(t, numbersIn(t, all[i].Text("extra"))[0], got["drift_deg"], 1e-3, all[i])
	}
}

// TestWindsFoundByAirPlot: the rows of nav_air_plot.csv, whose positions are
// printed to 1e-7 degrees.
func TestWindsFoundByAirPlot(t *testing.T) {
	q := question{header: "air_lat_deg,air_lon_deg,fix_lat_deg,fix_lon_deg,hours"}
	for _, r := range rows.Read(t, geodesyFolder+"nav_air_plot.csv") {
		if !r.Has("air_lat") {
			require.Contains(t, r.Text("case"), "plane vectors") // answered in integrator/geodesy
			continue
		}
		q.ask(r, r.Text("air_lat"), r.Text("air_lon"), r.Text("ground_lat"), r.Text("ground_lon"), r.Text("elapsed_h"))
	}
	require.Len(t, q.rows, 10)
	for i, got := range q.answer(t, "find-wind") {
		near(t, q.rows[i].Float("wind_found_from_deg"), got["wind_from_deg_true"], 0.001, q.rows[i])
		within(t, q.rows[i], "wind_found_kt", 1, got["wind_kt"], 0, 0.001)
	}
}

func TestRhumbRows(t *testing.T) {
	inverse := question{header: "lat1_deg,lon1_deg,lat2_deg,lon2_deg"}
	for _, r := range rows.Read(t, geodesyFolder+"rhumb_inverse.csv") {
		inverse.ask(r, r.Text("lat1"), r.Text("lon1"), r.Text("lat2"), r.Text("lon2"))
	}
	for i, got := range inverse.answer(t, "rhumb") {
		near(t, inverse.rows[i].Float("course_deg"), got["course_deg"], 1e-9, inverse.rows[i])
		within(t, inverse.rows[i], "s12_NM", 1, got["distance_nm"], 0, 1e-6)
	}

	direct := question{header: "lat1_deg,lon1_deg,course_deg,distance_nm"}
	for _, r := range rows.Read(t, geodesyFolder+"air_position_rhumb_direct.csv") {
		run := strconv.FormatFloat(r.Float("TAS_kt")*r.Float("hours"), 'g', -1, 64)
		direct.ask(r, r.Text("lat1"), r.Text("lon1"), r.Text("true_heading_deg"), run)
	}
	for i, got := range direct.answer(t, "rhumb") {
		within(t, direct.rows[i], "lat2", 1, got["lat2_deg"], 0, 1e-9)
		within(t, direct.rows[i], "lon2", 1, got["lon2_deg"], 0, 1e-9)
	}
}

func TestGeodesicRows(t *testing.T) {
	for file, columns := range map[string][2]string{
		"geodesic_geodtest.csv": {"azi1", "azi2"},
		"geodesic_computed.csv": {"azi1_deg", "azi2_deg"},
	} {
		q := question{header: "lat1_deg,lon1_deg,lat2_deg,lon2_deg"}
		for _, r := range rows.Read(t, geodesyFolder+file) {
			q.ask(r, r.Text("lat1"), r.Text("lon1"), r.Text("lat2"), r.Text("lon2"))
		}
		for i, got := range q.answer(t, "geodesic") {
			r := q.rows[i]
			within(t, r, "s12_m", 1, got["distance_m"], 0, 1e-6)
			// nanometres across the end of the line
			tolerance := 1e-10 + 5e-9/got["distance_m"]*(180/math.Pi)
			near(t, r.Float(columns[0]), got["azimuth1_deg"], tolerance, r)
			near(t, r.Float(columns[1]), got["azimuth2_deg"], tolerance, r)
		}
	}
}

// ask runs one row and returns its last cells as text, or the error.
func askOne(t *testing.T, topic, in string) (string, error) {
	t.Helper()
	var out strings.Builder
	err := Run(topic, strings.NewReader(in), &out)
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	return lines[len(lines)-1], err
}

func TestLinesAtTheEdges(t *testing.T) {
	for in, want := range map[string]string{
		"lat1_deg,lon1_deg,course_deg,distance_nm\n0,179,90,120.21477\n": "0,179,90,120.21477,0,-179.",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n50,539,90,0\n":        "50,539,90,0,50,179",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n50,180,0,0\n":         "50,180,0,0,50,-180",
		"lat1_deg,lon1_deg,lat2_deg,lon2_deg\n0,359,0,361\n":             "0,359,0,361,90,120.2",
		"lat1_deg,lon1_deg,lat2_deg,lon2_deg\n0,361,0,359\n":             "0,361,0,359,270,120.2",
		"lat1_deg,lon1_deg,lat2_deg,lon2_deg\n47,9,47,9\n":               "47,9,47,9,0,0",
	} {
		got, err := askOne(t, "rhumb", in)
		assert.NoError(t, err, in)
		assert.True(t, strings.HasPrefix(got, want), "%s gave %s", in, got)
	}
}

func TestLinesRefused(t *testing.T) {
	for in, reason := range map[string]string{
		"lat1_deg,lon1_deg,course_deg,distance_nm\n80,0,10,3000\n":   "row 1 (line 2), columns course_deg, distance_nm: a rhumb line that",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n91,0,10,3\n":      "row 1 (line 2), column lat1_deg: 91 is outside -90 to 90",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n1,0,361,3\n":      "row 1 (line 2), column course_deg: 361 is outside -360 to 360",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n1,0,36,-3\n":      "row 1 (line 2), column distance_nm: -3 is outside 0 or more",
		"lat1_deg,lon1_deg,course_deg,distance_nm\n1,0,36,1e308\n":   "row 1 (line 2), columns course_deg, distance_nm",
		"lat1_deg,lon1_deg,lat2_deg\n1,2,3\n":                        "rhumb reads lat1_deg, lon1_deg, course_deg, distance_nm, or lat1_deg, lon1_deg, lat2_deg, lon2_deg; the header has lat1_deg, lon1_deg, lat2_deg",
		"lat1_deg,lon1_deg,course_deg,distance_nm,lat2_deg\n":        "already has the column lat2_deg",
		"lat1_deg,lon1_deg,course_deg,distance_nm,lat2_deg,lon2_deg": "asks two things of rhumb",
	} {
		_, err := askOne(t, "rhumb", in)
		assert.ErrorContains(t, err, reason, in)
	}
	_, err := askOne(t, "find-wind", "air_lat_deg,air_lon_deg,fix_lat_deg,fix_lon_deg,hours\n1,2,3,4,0\n")
	assert.ErrorContains(t, err, "row 1 (line 2), column hours")
	got, err := askOne(t, "find-wind", "air_lat_deg,air_lon_deg,fix_lat_deg,fix_lon_deg,hours\n1,2,1,362,3\n")
	assert.NoError(t, err)
	assert.Equal(t, "1,2,1,362,3,0,0", got, "still air comes from 0")
}
