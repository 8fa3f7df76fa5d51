package airplot

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// TestIntercepts works nav_celestial_lop.csv: altitude, azimuth and intercept
// with the row's tolerances.
func TestIntercepts(t *testing.T) {
	const minute = 1. / 60
	tolerances := map[string][3]float64{ // altitude deg, azimuth deg, intercept NM
		"0.15' altitude; 0.05 deg azimuth; 0.2 NM":             {0.15 * minute, 0.05, 0.2},
		"0.15' altitude; 0.15 deg azimuth; 0.2 NM":             {0.15 * minute, 0.15, 0.2},
		"0.2' altitude and intercept; azimuth column computed": {0.2 * minute, 5e-5 + 1e-9, 0.2},
		"0.1' ; 0.05 deg": {0.1 * minute, 0.05, 0.1},
		"0.0001 deg altitude; 0.001 deg azimuth; 0.01 NM": {1e-4, 1e-3, 0.01},
	}
	for _, r := range table(t, "nav_celestial_lop.csv", 11) {
		tol, known := tolerances[r.Text("tolerance")]
		require.True(t, known, r)
		at := units.At(r.Float("assumed_lat"), r.Float("assumed_lon"))
		gha := r.Float("LHA_deg") - r.Float("assumed_lon")
		if r.Has("GHA_deg") {
			assert.InDelta(t, 0, math.Remainder(gha-r.Float("GHA_deg"), 360), 1e-4, r)
			gha = r.Float("GHA_deg")
		}
		hc, _ := sight.Reduce(at, angle(gha), angle(r.Float("dec_deg")))
		assert.InDelta(t, r.Float("Hc_deg"), hc.Degrees(), tol[0], r)
		hc2, zn := sight.Reduce(at, angle(gha), angle(r.Float("dec_deg")))
		a := sight.Intercept(angle(r.Float("Ho_deg")), hc2)
		assertDirection(t, r.Float("Zn_deg"), zn, tol[1], r)
		assert.InDelta(t, r.Float("intercept_NM(+=toward)"), a.NM(), tol[2], r)
	}
}

// celestialCase is a row of nav_celestial_fix.csv.
type celestialCase struct {
	lines    []Line
	fix      units.Position
	lat, lon float64
	tol      float64 // degrees
}

func readCelestial(t testing.TB, r rows.Row) celestialCase {
	t.Helper()
	motion := []float64{0, 0}
	if r.Text("motion") != "stationary" {
		motion = figures(t, r.Text("motion"), 2)
	}
	when := figures(t, r.Text("fix_time"), 1)[0]
	var c celestialCase
	for _, s := range strings.Split(r.Text("sights(time; GHA; dec; Ho)"), "|") {
		v := figures(t, s, 4)
		c.lines = append(c.lines, Line{
			Locus: Altitude{angle(v[1]), angle(v[2]), angle(v[3]), units.ArcMinute},
			Run:   Run{angle(motion[0]), miles(motion[1] * (when - v[0]))},
		})
	}
	c.lat, c.lon = r.Float("fix_lat"), r.Float("fix_lon")
	c.fix = units.At(c.lat, c.lon)
	tolerances := map[string]float64{"0.4'": 0.4 / 60, "1.5'": 1.5 / 60, "0.001 deg": 0.001,
		"0.0025 deg": 0.0025, "0.0005 deg": 0.0005}
	var known bool
	c.tol, known = tolerances[r.Text("tolerance")]
	require.True(t, known, r)
	return c
}

// TestCelestialFixes solves nav_celestial_fix.csv from DR positions 30 miles
// off on four sides; the printed residuals are compared as well.
func TestCelestialFixes(t *testing.T) {
	for _, r := range table(t, "nav_celestial_fix.csv", 12) {
		c := readCelestial(t, r)
		for side := range 4 {
			dr := byArc.moved(c.fix, toward(angle(float64(side)*90+20), 30*1852))
			found, err := Solve(dr, c.lines)
			require.NoError(t, err, r)
			assertPlace(t, c.lat, c.lon, found[0].Position, c.tol, r)
			assertResiduals(t, r, found[0])
		}
	}
}

// assertResiduals: the file's are observed less computed altitude, minutes.
func assertResiduals(t testing.TB, r rows.Row, f Fix) {
	t.Helper()
	_, list, _ := strings.Cut(r.Text("detail"), "residuals Ho-Hc at the fix (arcmin) ")
	list, _, _ = strings.Cut(list, ";")
	for i, want := range figures(t, list, len(f.Residuals)) {
		assert.InDelta(t, want, f.Residuals[i], 0.0051, r)
	}
}

// TestBothCrossingsAreOffered: the third exercise of the list has its two
// solutions in two rows.
func TestBothCrossingsAreOffered(t *testing.T) {
	var both []celestialCase
	for _, r := range table(t, "nav_celestial_fix.csv", 12) {
		if strings.HasPrefix(r.Text("case"), "published two-body fix Moon and Sun") {
			both = append(both, readCelestial(t, r))
		}
	}
	require.Len(t, both, 2)
	for i, c := range both {
		other := both[1-i]
		found, err := Solve(c.fix, c.lines)
		require.NoError(t, err)
		require.Len(t, found, 2)
		assertPlace(t, c.lat, c.lon, found[0].Position, c.tol)
		assertPlace(t, other.lat, other.lon, found[1].Position, c.tol)
	}
}
