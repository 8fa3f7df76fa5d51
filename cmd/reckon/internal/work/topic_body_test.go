package work

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

const (
	bodyHeader  = "utc,lat_deg,lon_deg,body"
	sightHeader = "lat_deg,lon_deg,gha_deg,declination_deg,observed_altitude_deg"
)

// around compares two directions in degrees.
func around(t *testing.T, r rows.Row, want, got, tol float64, what string) {
	t.Helper()
	assert.InDelta(t, 0, units.WrapHalfDegrees(got-want), tol, "%s: %s", r, what)
}

// Computed with ERFA 2.0.0.1: 0.0005 deg, on the sky. The longitude is given a
// turn further on: any size is accepted.
func TestBodyRows(t *testing.T) {
	q := question{header: bodyHeader}
	for _, r := range rows.Read(t, skyFolder+"astro_altaz.csv") {
		q.ask(r, r.Text("UT1_date")+"T"+r.Text("UT1_time")+"Z", r.Text("lat_deg"),
			fmt.Sprint(r.Float("lon_deg_E")-360), r.Text("body"))
	}
	for i, a := range q.answer(t, "body") {
		r := q.rows[i]
		const tol = 0.0005
		cos := func(column string) float64 { return math.Cos(r.Float(column) * math.Pi / 180) }
		around(t, r, r.Float("GHA_body_deg"), a["gha_deg"], tol/cos("apparent_Dec_deg"), "GHA")
		within(t, r, "apparent_Dec_deg", 1, a["declination_deg"], 0, tol)
		within(t, r, "Hc_geocentric_deg", 1, a["altitude_deg"], 0, tol)
		around(t, r, r.Float("Zn_deg"), a["azimuth_deg"], tol/cos("Hc_geocentric_deg"), "azimuth")
	}
}

// All bodies from 1900 to 2030: stars and Sun by ERFA 2.0.0, 0.0005 deg, the
// Moon by the full ELP-2000/82, 0.003 deg.
func TestBodyOverTheSpan(t *testing.T) {
	q := question{header: bodyHeader}
	for _, r := range rows.Read(t, skyFolder+"apparent_computed.csv") {
		q.ask(r, r.Text("utc"), "0", "0", r.Text("body"))
	}
	for i, a := range q.answer(t, "body") {
		r, tol := q.rows[i], 0.0005
		if r.Text("body") == "Moon" {
			tol = 0.003
		}
		around(t, r, r.Float("gha_deg"), a["gha_deg"], tol/math.Cos(r.Float("dec_deg")*math.Pi/180), "GHA")
		within(t, r, "dec_deg", 1, a["declination_deg"], 0, tol)
	}
}

// Times are written in many ways; the same instant has the same sky.
func TestBodyTimes(t *testing.T) {
	ask := func(utc, body string) string {
		out, err := run(bodyTopic(), bodyHeader+"\n"+utc+",-47,178.5,"+body+"\n")
		require.NoError(t, err, utc)
		_, row, _ := strings.Cut(out, "\n")
		_, results, found := strings.Cut(row, ","+body+",")
		require.True(t, found, row)
		return results
	}
	want := ask("1957-08-14T09:30:00Z", "Sun")
	for _, same := range []string{"1957-08-14T21:30:00+12:00", "1957-08-14t09:30:00z", "1957-08-14T09:30:00.000Z", "1957-08-13T23:30:00-10:00"} {
		assert.Equal(t, want, ask(same, "Sun"), same)
	}
	assert.NotEqual(t, want, ask("1957-08-14T09:30:00.5Z", "Sun"), "a half second counts")
	assert.Equal(t, ask("1999-01-01T00:00:00Z", "Moon"), ask("1998-12-31T23:59:60Z", "Moon"), "a leap second")
	assert.Equal(t, ask("1999-01-01T00:00:00Z", "Moon"), ask("1999-01-01T11:59:60+12:00", "Moon"), "in another zone")
	assert.Equal(t, want, ask("1957-08-14T09:30:00Z", " sun"), "capitals and blanks do not count")
	ask("1900-01-01T00:00:00Z", "Rigil Kentaurus")
	ask("2030-12-31T23:59:59.999999Z", "Polaris")
}

func TestBodyRefuses(t *testing.T) {
	const place = ",-47,178.5,Sun\n"
	for in, want := range map[string]string{
		"1899-12-31T23:59:59Z" + place:               "row 1 (line 2), column utc: 1899-12-31T23:59:59Z is outside 1900 to 2030",
		"2031-01-01T00:00:00Z" + place:               "column utc: 2031-01-01T00:00:00Z is outside 1900 to 2030",
		"1957-08-14T09:30:00" + place:                `column utc: "1957-08-14T09:30:00" is not a time`,
		"1957-08-14 09:30:00Z" + place:               "is not a time",
		"1957-02-29T09:30:00Z" + place:               "is not a time",
		"1957-08-14T9:30:00Z" + place:                "is not a time",
		"1957-08-14T09:30:60Z" + place:               "is not a time", // no leap second there
		"1957-08-14T24:00:00Z" + place:               "is not a time",
		place:                                        "column utc: the cell is empty; it must be a time as RFC 3339 writes it",
		"1957-08-14T09:30:00Z,-47,178.5,\n":          "column body: the cell is empty; it must be Sun, Moon or a star's name",
		"1957-08-14T09:30:00Z,-47,178.5,Vulcan\n":    `column body: "Vulcan" is no body of the sky`,
		"1957-08-14T09:30:00Z,-90.1,178.5,Sun\n":     "column lat_deg: -90.1 is outside -90 to 90",
		"1957-08-14T09:30:00Z,-47,east,Sun\n":        `column lon_deg: "east" is not a number`,
		"1957-08-14T09:30:00Z,-47,1,no body\n":       "is no body of the sky",
		strings.Repeat("9", 1000) + ",-47,1,Sun\n":   `column utc: "9999999999999999999999999999999999999999..." is not a time`,
		"1957-08-14T09:30:00Z,-47,1,Sun\nx" + place:  "row 2 (line 3), column utc",
		"0001-01-01T00:00:00Z,-47,1,Moon\n":          "is outside 1900 to 2030",
		"9999-12-31T23:59:59Z,-47,1,Moon\n":          "is outside 1900 to 2030",
		"1900-01-01T00:00:00+00:01,-47,1,Moon\n":     "is outside 1900 to 2030", // before, in UTC
		"1957-08-14T09:30:00Z,-47,1,Sun,more cells,": "6 cells, the header has 4 columns",
	} {
		_, err := run(bodyTopic(), bodyHeader+"\n"+in)
		assert.ErrorContains(t, err, want, "%q", in)
	}
}

// Published and computed intercepts. The tolerances are those of the rows: 0.15'
// and 0.2 NM, azimuth as printed, for the licence problem and the training
// sheets; 0.0001 deg, 0.001 deg and 0.01 NM for what is computed.
func TestSightRows(t *testing.T) {
	q := question{header: sightHeader}
	for _, r := range rows.Read(t, sightFolder+"nav_celestial_lop.csv") {
		gha := r.Float("LHA_deg") - r.Float("assumed_lon") // one row prints no GHA
		if r.Has("GHA_deg") {
			gha = r.Float("GHA_deg")
		}
		q.ask(r, r.Text("assumed_lat"), r.Text("assumed_lon"), fmt.Sprint(gha), r.Text("dec_deg"), r.Text("Ho_deg"))
	}
	for i, a := range q.answer(t, "sight") {
		r := q.rows[i]
		altitude, azimuth, intercept := 0.0001, 0.001, 0.01
		switch words := r.Text("tolerance"); {
		case strings.HasPrefix(words, "0.15' altitude"):
			altitude, azimuth, intercept = 0.15/60, 0.15, 0.2
			if strings.Contains(words, "0.05 deg azimuth") {
				azimuth = 0.05
			}
		case strings.HasPrefix(words, "0.2' altitude and intercept"):
			altitude, azimuth, intercept = 0.2/60, 0.00005, 0.2
		case strings.HasPrefix(words, "0.1' ; 0.05 deg"):
			altitude, azimuth, intercept = 0.1/60, 0.05, 0.1
		}
		within(t, r, "Hc_deg", 1, a["computed_altitude_deg"], 0, altitude)
		around(t, r, r.Float("Zn_deg"), a["azimuth_deg"], azimuth, "azimuth")
		within(t, r, "intercept_NM(+=toward)", 1, a["intercept_nm"], 0, intercept)
	}
}

func TestSightRefuses(t *testing.T) {
	for in, want := range map[string]string{
		"0,0,0,0,90.1\n":  "column observed_altitude_deg: 90.1 is outside -90 to 90",
		"0,0,0,-91,0\n":   "column declination_deg: -91 is outside -90 to 90",
		"91,0,0,0,0\n":    "column lat_deg: 91 is outside -90 to 90",
		"0,0,,0,0\n":      "column gha_deg: the cell is empty",
		"0,0,0,0,12 30\n": `column observed_altitude_deg: "12 30" is not a number`,
	} {
		_, err := run(sightTopic(), sightHeader+"\n"+in)
		assert.ErrorContains(t, err, want, "%q", in)
	}
}

// The corners have an answer; geometry, no source needed.
func TestSightAtTheCorners(t *testing.T) {
	out, err := run(sightTopic(), sightHeader+"\n90,0,0,40,41\n-90,720,0,-40,40\n0,0,360,0,90\n0,0,-90,0,-0.5\n")
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(out), "\n")[1:]
	for i, want := range [][3]float64{{40, 180, 60}, {40, 0, 0}, {90, 0, 0}, {0, 90, -30}} {
		var got [3]float64
		cells := strings.Split(lines[i], ",")[5:]
		for k := range got {
			_, err := fmt.Sscan(cells[k], &got[k])
			require.NoError(t, err)
			assert.InDelta(t, want[k], got[k], 1e-9, "%s", lines[i])
		}
	}
}
