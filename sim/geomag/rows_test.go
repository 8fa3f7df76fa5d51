package geomag

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

func place(r rows.Row, lat, lon string) units.Position {
	return units.At(r.Float(lat), r.Float(lon))
}

// sameAngle compares degrees round the circle.
func sameAngle(t *testing.T, r rows.Row, column string, got units.Angle, tol float64) {
	t.Helper()
	off := units.WrapHalfDegrees(got.Degrees() - r.Float(column))
	assert.InDelta(t, 0, off, tol, "%s: %s is %v, want %s", r, column, got.Degrees(), r.Text(column))
}

// sameFigures compares the named columns that the row has.
func sameFigures(t *testing.T, r rows.Row, tol float64, got map[string]float64) {
	t.Helper()
	for column, v := range got {
		assert.InDelta(t, r.Float(column), v, tol, "%s: %s", r, column)
	}
}

func intensities(f Field) map[string]float64 {
	return map[string]float64{"X_nT": f.X, "Y_nT": f.Y, "Z_nT": f.Z, "H_nT": f.H, "F_nT": f.F}
}

func igrfAt(t *testing.T, r rows.Row) *Model {
	m, err := New(r.Float("decimal_year"))
	require.NoError(t, err, "%s", r)
	return m
}

// Printed by the official IGRF-14 Fortran program, 1900.5 to 2029.5, one place
// at the geographic pole. Tolerance of the rows: 0.6 nT; 0.006 degrees, and
// 0.015 in D where H is below 300 nT ('within 300 nT of a pole').
func TestIGRFOfficialProgram(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mag_igrf14_fortran.csv") {
		h := units.Length(r.Float("height_km")) * units.Kilometre
		f := igrfAt(t, r).At(place(r, "lat_geodetic_deg", "lon_deg"), h)
		sameFigures(t, r, 0.6, intensities(f))
		sameAngle(t, r, "I_deg", f.I, 0.006)
		tol := 0.006
		if r.Float("H_nT") < 300 {
			tol = 0.015
		}
		sameAngle(t, r, "D_deg", units.Angle(f.D), tol)
	}
}

// Printed by the NOAA NCEI calculator for the definitive field of 2010, which
// IGRF-14 keeps. Tolerance 0.06 nT; D is derived from X and Y in the file.
func TestDefinitiveField2010(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mag_dgrf2010_ncei.csv") {
		h := units.Length(r.Float("height_km")) * units.Kilometre
		f := igrfAt(t, r).At(place(r, "lat_deg", "lon_deg"), h)
		sameFigures(t, r, 0.06, map[string]float64{"X_nT": f.X, "Y_nT": f.Y, "Z_nT": f.Z})
		sameAngle(t, r, "D_deg", units.Angle(f.D), 0.0005+0.06/f.H*180/math.Pi)
	}
}

// Computed with GeographicLib 2.1.2 from the same coefficients. Tolerance
// 0.001 degrees and 0.1 nT.
func TestComputedIndependently(t *testing.T) {
	wmm := readWMM(t, "testdata/WMM2025.COF")
	check := func(r rows.Row, m *Model) {
		f := m.At(place(r, "lat_deg", "lon_deg"), units.Length(r.Float("height_m")))
		sameFigures(t, r, 0.1, intensities(f))
		sameAngle(t, r, "D_deg", units.Angle(f.D), 0.001)
		sameAngle(t, r, "I_deg", f.I, 0.001)
	}
	for _, r := range rows.Read(t, "testdata/mag_igrf14_computed.csv") {
		check(r, igrfAt(t, r))
	}
	for _, r := range rows.Read(t, "testdata/mag_wmm2025_computed.csv") {
		check(r, wmm.modelAt(r.Float("decimal_year")))
	}
}

// The official WMM2025 test values: the table of the technical report
// (tolerance 0.05 nT, 0.005 degrees; rates to their last printed digit).
func TestWMMReportTable(t *testing.T) {
	wmm := readWMM(t, "testdata/WMM2025.COF")
	for _, r := range rows.Read(t, "testdata/mag_wmm2025_report_table.csv") {
		f, rate := wmmRow(t, wmm, r)
		sameFigures(t, r, 0.0501, intensities(f))
		sameAngle(t, r, "D_deg", units.Angle(f.D), 0.00501)
		sameAngle(t, r, "I_deg", f.I, 0.00501)
		sameFigures(t, r, 0.0501, rate.intensities)
		sameFigures(t, r, 0.00501, rate.angles)
		if r.Text("GV_deg") != "NaN" { // grid variation, shown poleward of 55
			gv := units.Angle(f.D).Degrees() - math.Copysign(r.Float("lon_deg"), r.Float("lat_deg"))
			sameAngle(t, r, "GV_deg", units.Angle(gv)*units.Degree, 0.00501)
		}
	}
}

// The official WMM2025 test values of high precision (tolerance 0.01 nT, 0.005
// degrees, rates 1e-5).
func TestWMMTestValues(t *testing.T) {
	wmm := readWMM(t, "testdata/WMM2025.COF")
	for _, r := range rows.Read(t, "testdata/mag_wmm2025_testvalues.csv") {
		f, rate := wmmRow(t, wmm, r)
		sameFigures(t, r, 0.01, intensities(f))
		sameAngle(t, r, "D_deg", units.Angle(f.D), 0.00501)
		sameAngle(t, r, "I_deg", f.I, 0.00501)
		sameFigures(t, r, 1e-5, rate.intensities)
		sameFigures(t, r, 1e-5, rate.angles)
	}
}

// rates is the yearly change, by the names of the columns.
type rates struct{ intensities, angles map[string]float64 }

// wmmRow gives the field of a row and its yearly change: X, Y and Z are linear
// in the coefficients, the others follow by differentiating.
func wmmRow(t *testing.T, wmm *table, r rows.Row) (Field, rates) {
	h := units.Length(r.Float("height_above_ellipsoid_km")) * units.Kilometre
	at := place(r, "lat_deg", "lon_deg")
	f := wmm.modelAt(r.Float("decimal_year")).At(at, h)
	d := wmm.rate().At(at, h)
	hDot := (f.X*d.X + f.Y*d.Y) / f.H
	const perDegree = 180 / math.Pi
	return f, rates{
		map[string]float64{
			"Xdot": d.X, "Ydot": d.Y, "Zdot": d.Z,
			"Hdot": hDot, "Fdot": (f.H*hDot + f.Z*d.Z) / f.F,
		},
		map[string]float64{
			"Ddot_deg_yr": (f.X*d.Y - f.Y*d.X) / (f.H * f.H) * perDegree,
			"Idot_deg_yr": (f.H*d.Z - f.Z*hDot) / (f.F * f.F) * perDegree,
		},
	}
}
