package work

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/internal/rows"
)

const fieldHeader = "decimal_year,lat_deg,lon_deg,height_km"

// checkField compares the seven results with a row that has their columns.
func checkField(t *testing.T, r rows.Row, a map[string]float64, nT, degrees, dDegrees float64) {
	t.Helper()
	for result, column := range map[string]string{
		"h_nt": "H_nT", "x_nt": "X_nT", "y_nt": "Y_nT", "z_nt": "Z_nT", "f_nt": "F_nT",
	} {
		within(t, r, column, 1, a[result], 0, nT)
	}
	within(t, r, "I_deg", 1, a["inclination_deg"], 0, degrees)
	within(t, r, "D_deg", 1, a["declination_deg"], 0, dDegrees)
}

// Printed by the official IGRF-14 Fortran program: 0.6 nT; 0.006 degrees, 0.015
// in D where H is below 300 nT.
func TestFieldOfficialProgram(t *testing.T) {
	q := question{header: fieldHeader}
	for _, r := range rows.Read(t, fieldFolder+"mag_igrf14_fortran.csv") {
		q.ask(r, r.Text("decimal_year"), r.Text("lat_geodetic_deg"), r.Text("lon_deg"), r.Text("height_km"))
	}
	for i, a := range q.answer(t, "field") {
		tol := 0.006
		if q.rows[i].Float("H_nT") < 300 {
			tol = 0.015
		}
		checkField(t, q.rows[i], a, 0.6, 0.006, tol)
	}
}

// Computed with GeographicLib 2.1.2: 0.1 nT, 0.001 degrees. The longitude is
// given a turn further on: any size is accepted.
func TestFieldComputed(t *testing.T) {
	q := question{header: fieldHeader}
	for _, r := range rows.Read(t, fieldFolder+"mag_igrf14_computed.csv") {
		q.ask(r, r.Text("decimal_year"), r.Text("lat_deg"), fmt.Sprint(r.Float("lon_deg")+360),
			fmt.Sprint(r.Float("height_m")/1000))
	}
	for i, a := range q.answer(t, "field") {
		checkField(t, q.rows[i], a, 0.1, 0.001, 0.001)
	}
}

// Printed by the NOAA NCEI calculator for 2010: 0.06 nT.
func TestField2010(t *testing.T) {
	q := question{header: fieldHeader}
	for _, r := range rows.Read(t, fieldFolder+"mag_dgrf2010_ncei.csv") {
		q.ask(r, r.Text("decimal_year"), r.Text("lat_deg"), r.Text("lon_deg"), r.Text("height_km"))
	}
	for i, a := range q.answer(t, "field") {
		r := q.rows[i]
		within(t, r, "X_nT", 1, a["x_nt"], 0, 0.06)
		within(t, r, "Y_nT", 1, a["y_nt"], 0, 0.06)
		within(t, r, "Z_nT", 1, a["z_nt"], 0, 0.06)
		within(t, r, "D_deg", 1, a["declination_deg"], 0, 0.0005+0.06/a["h_nt"]*57.3)
	}
}

func TestFieldRefuses(t *testing.T) {
	for in, want := range map[string]string{
		"1899.9,0,0,0\n":             "column decimal_year: 1899.9 is outside 1900 to 2030",
		"1900,0,0,0\n2030.1,0,0,0\n": "row 2 (line 3), column decimal_year: 2030.1 is outside 1900 to 2030",
		"1957,90.5,0,0\n":            "column lat_deg: 90.5 is outside -90 to 90",
		"1957,0,x,0\n":               `column lon_deg: "x" is not a number`,
		"1957,0,0,1001\n":            "column height_km: 1001 is outside -10 to 1000",
		"1957,0,0,\n":                "column height_km: the cell is empty",
	} {
		_, err := run(fieldTopic(), fieldHeader+"\n"+in)
		assert.ErrorContains(t, err, want, "%q", in)
	}
}
