package work

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

const plotFolder = "../../../../integrator/airplot/testdata/"

// TestCelestialFixesOfTheNavigationNote puts every row of nav_celestial_fix.csv
// through the CSV, with the rows of all cases shuffled together.
func TestCelestialFixesOfTheNavigationNote(t *testing.T) {
	all := rows.Read(t, plotFolder+"nav_celestial_fix.csv")
	require.Len(t, all, 12)
	q := question{header: "case,dr_lat_deg,dr_lon_deg,gha_deg,declination_deg,observed_altitude_deg,minutes_before_fix,track_deg,groundspeed_kt"}
	for place := range 4 { // the first sight of each case, then the second ...
		for i, r := range all {
			sights := strings.Split(r.Text("sights(time; GHA; dec; Ho)"), "|")
			if place >= len(sights) {
				continue
			}
			track, knots := 0.0, 0.0
			if r.Text("motion") != "stationary" {
				v := numbersIn(t, r.Text("motion"))
				require.Len(t, v, 2)
				track, knots = v[0], v[1]
			}
			s := numbersIn(t, sights[place])
			require.Len(t, s, 4, r)
			minutes := 60 * (numbersIn(t, r.Text("fix_time"))[0] - s[0])
			q.ask(r, fmt.Sprint("case ", i), fmt.Sprint(r.Float("fix_lat")+0.3), fmt.Sprint(r.Float("fix_lon")-0.3),
				fmt.Sprint(s[1]), fmt.Sprint(s[2]), fmt.Sprint(s[3]), fmt.Sprint(minutes), fmt.Sprint(track), fmt.Sprint(knots))
		}
	}
	degrees := map[string]float64{"0.4'": 0.4 / 60, "1.5'": 1.5 / 60, "0.001 deg": 0.001, "0.0025 deg": 0.0025, "0.0005 deg": 0.0005}
	for i, a := range q.answer(t, "fix") {
		r := q.rows[i]
		tol, known := degrees[r.Text("tolerance")]
		require.True(t, known, r)
		assert.InDelta(t, r.Float("fix_lat"), a["fix_lat_deg"], tol, r)
		near(t, r.Float("fix_lon"), a["fix_lon_deg"], tol, r)
	}
}

// TestBearingFixesOfTheNavigationNote: the fixes of nav_radio_bearings.csv.
func TestBearingFixesOfTheNavigationNote(t *testing.T) {
	q := question{header: "case,dr_lat_deg,dr_lon_deg,station_lat_deg,station_lon_deg,true_bearing_deg"}
	var want [][]float64
	for i, r := range rows.Read(t, plotFolder+"nav_radio_bearings.csv") {
		if r.Text("case") != "fix from bearings taken in the aircraft" {
			continue
		}
		require.Equal(t, "0.0005 deg position; 0.1 NM", r.Text("tolerance"))
		v, p := numbersIn(t, r.Text("input")), numbersIn(t, r.Text("answer"))
		for k := 0; k < 6; k += 3 {
			q.ask(r, fmt.Sprint(i), fmt.Sprint(p[0]+0.2), fmt.Sprint(p[1]+0.3), fmt.Sprint(v[k]), fmt.Sprint(v[k+1]), fmt.Sprint(v[k+2]))
			want = append(want, p)
		}
	}
	require.Len(t, want, 4)
	for i, a := range q.answer(t, "fix") {
		assert.InDelta(t, want[i][0], a["fix_lat_deg"], 0.0005)
		near(t, want[i][1], a["fix_lon_deg"], 0.0005)
	}
}

// TestHyperbolicFixesOfTheNavigationNote: every row of nav_hyperbolic_fix.csv,
// and the other solution from a place near that.
func TestHyperbolicFixesOfTheNavigationNote(t *testing.T) {
	all := rows.Read(t, plotFolder+"nav_hyperbolic_fix.csv")
	require.Len(t, all, 12)
	q := question{header: "master_lat_deg,master_lon_deg,a_lat_deg,a_lon_deg,b_lat_deg,b_lon_deg,td_a_us,td_b_us," +
		"near_lat_deg,near_lon_deg,delay_a_us,delay_b_us,refractive_index"}
	var want [][]float64
	ask := func(r rows.Row, lat, lon float64) {
		var cells []string
		add := func(v ...float64) {
			for _, x := range v {
				cells = append(cells, fmt.Sprint(x))
			}
		}
		for _, c := range []string{"master", "secondary_A", "secondary_B"} {
			add(numbersIn(t, r.Text(c))...)
		}
		add(r.Float("TD_A_us"), r.Float("TD_B_us"), lat+0.2, lon-0.2)
		add(numbersIn(t, r.Text("coding_delay_us(A;B)"))...)
		add(r.Float("refractive_index"))
		q.ask(r, cells...)
		want = append(want, []float64{lat, lon})
	}
	others := 0
	for _, r := range all {
		ask(r, r.Float("lat"), r.Float("lon"))
		if other := numbersIn(t, r.Text("other_solution")); len(other) == 2 {
			ask(r, other[0], other[1])
			others++
		}
	}
	assert.Equal(t, 3, others)
	for i, a := range q.answer(t, "hyperbolic") {
		lat, lon := want[i][0], want[i][1]
		main := lat == q.rows[i].Float("lat")
		tol := 0.0005
		if beyond := numbersIn(t, q.rows[i].Text("detail"))[0] > 300; main && beyond {
			tol = 0.03 / 60 / math.Cos(lat*math.Pi/180)
		}
		assert.InDelta(t, lat, a["lat_deg"], tol, q.rows[i])
		near(t, lon, a["lon_deg"], tol, q.rows[i])
		if !main {
			continue
		}
		_, ellipse, found := strings.Cut(q.rows[i].Text("detail"), "errors ")
		require.True(t, found)
		axes := numbersIn(t, ellipse)
		assert.InEpsilon(t, axes[0], a["ellipse_major_nm"], 0.005, q.rows[i])
		assert.InEpsilon(t, axes[1], a["ellipse_minor_nm"], 0.005, q.rows[i])
	}
}

// TestSwingsOfTheNavigationNote: the swings of nav_compass.csv, those of four
// cardinal points included.
func TestSwingsOfTheNavigationNote(t *testing.T) {
	q := question{header: "case,compass_heading_deg,deviation_deg"}
	swings := 0
	for i, r := range rows.Read(t, plotFolder+"nav_compass.csv") {
		pairs := strings.Fields(r.Text("readings(heading:deviation, E+)"))
		if strings.HasPrefix(r.Text("case"), "heading check") || strings.Contains(r.Text("case"), "approximate coefficients") {
			continue // no swing, or worked otherwise: see the airplot package
		}
		swings++
		for _, p := range pairs {
			h, d, found := strings.Cut(p, ":")
			require.True(t, found, r)
			q.ask(r, fmt.Sprint(i), h, d)
		}
	}
	assert.Equal(t, 7, swings)
	for i, a := range q.answer(t, "deviation") {
		r := q.rows[i]
		for _, part := range strings.Fields(strings.Split(r.Text("answer"), ";")[0]) {
			name, value, _ := strings.Cut(part, "=")
			tol := 0.001
			if r.Text("tolerance") == "exact" {
				tol = 1e-9
			}
			assert.InDelta(t, numbersIn(t, value)[0], a[strings.ToLower(name)+"_deg"], tol, "%s %s", r, name)
		}
	}
}

func fixRun(in string) (string, error) {
	var out bytes.Buffer
	err := Run("fix", strings.NewReader(in), &out)
	return out.String(), err
}

// TestABadRowSpoilsItsCaseOnly: the other cases come out in their order.
func TestABadRowSpoilsItsCaseOnly(t *testing.T) {
	const header = "case,dr_lat_deg,dr_lon_deg,station_lat_deg,station_lon_deg,true_bearing_deg,n\n"
	out, err := fixRun(header +
		"x,0,0,1,0,0,a\n" + "y,0,0,1,0,0,b\n" + "y,0,0,0,1,north,c\n" + "x,0,0,0,1,90,d\n" + ",0,0,0,1,90,e\n" + "z,0,0,0,1,90,f\n")
	var bad *RowErrors
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, strings.Join([]string{
		`row 2 (line 3): row 3, of the same case, is bad`,
		`row 3 (line 4), column true_bearing_deg: "north" is not a number; it must be -360 to 360`,
		`row 5 (line 6), column case: the cell is empty; it must be a name`,
		`row 6 (line 7), column case: a fix takes two position lines at least`,
	}, "\n"), err.Error())
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 3)
	assert.Contains(t, lines[1], "x,0,0,1,0,0,a,")
	assert.Contains(t, lines[2], "x,0,0,0,1,90,d,")
}

func TestFixRowsRefused(t *testing.T) {
	const header = "case,dr_lat_deg,dr_lon_deg,gha_deg,declination_deg,observed_altitude_deg,station_lat_deg,station_lon_deg,true_bearing_deg,minutes_before_fix,track_deg,groundspeed_kt,sigma_nm\n"
	for row, reason := range map[string]string{
		"1,0,0,,,,,,,,,,":                                "0 of the three are given",
		"1,0,0,20,,40,,,,,,,":                            "2 of the three are given; a row needs all, or a station",
		"1,0,0,,,,50,3,,,,,":                             "2 of the three are given; a row needs all",
		"1,0,0,20,10,40,50,3,90,,,,":                     "not both",
		"1,0,0,20,10,40,,,,12,,200,":                     "with a track and a groundspeed",
		"1,0,0,20,10,40,,,,,,,0":                         "sigma_nm: 0 is outside",
		"1,0,0,20,10,95,,,,,,,":                          "observed_altitude_deg: 95 is outside",
		"1,91,0,20,10,40,,,,,,,":                         "dr_lat_deg: 91 is outside",
		"1,0,0,20,10,40,,,,,,,\n1,0,0,20.5,10,40,,,,,,,": "cut at",
		"1,0,0,20,10,80,,,,,,,\n1,0,0,100,10,80,,,,,,,":  "do not meet",
	} {
		out, err := fixRun(header + row + "\n")
		assert.ErrorContains(t, err, reason, row)
		assert.Equal(t, 1, strings.Count(out, "\n"), row)
	}
}

// TestAMixedFix: an altitude and a bearing, both error-free at 40 N 10 W: a body
// overhead at 20 N 10 W stands 70 degrees high in the south; a station on the
// same meridian would not cut it, one due east on the equator's side does.
func TestAMixedFix(t *testing.T) {
	out, err := fixRun("case,dr_lat_deg,dr_lon_deg,gha_deg,declination_deg,observed_altitude_deg,station_lat_deg,station_lon_deg,true_bearing_deg\n" +
		"1,40.4,-9.7,10,20,70,,,\n1,40.4,-9.7,,,,43,350,0\n")
	require.NoError(t, err)
	v := strings.Split(strings.Split(out, "\n")[1], ",")
	lat, lon := numbersIn(t, v[9])[0], numbersIn(t, v[10])[0]
	assert.InDelta(t, 40, lat, 1e-9)
	assert.InDelta(t, -10, lon, 1e-9)
}

// TestHalfAnInputIsNoCase: nothing is worked from what an input that broke off
// gave.
func TestHalfAnInputIsNoCase(t *testing.T) {
	broken := errors.New("broken")
	in := strings.NewReader("case,compass_heading_deg,deviation_deg\n1,0,1\n1,90,2\n1,180,3\n1,270,4\n")
	var out bytes.Buffer
	err := Run("deviation", io.MultiReader(in, iotest.ErrReader(broken)), &out)
	assert.ErrorIs(t, err, broken)
	assert.Equal(t, 1, strings.Count(out.String(), "\n"))
}
