package airplot

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// readings reads "000.0:+10.5 045.0:+20".
func readings(t testing.TB, text string) (all []Reading) {
	t.Helper()
	for _, s := range strings.Fields(text) {
		v := figures(t, s, 2)
		all = append(all, Reading{angle(v[0]), angle(v[1])})
	}
	return all
}

// assertCoefficients compares with those of "A=+1.00 B=+12.00 ...".
func assertCoefficients(t testing.TB, want string, got Coefficients, tolerance float64, msg ...any) {
	t.Helper()
	n := 0
	for name, value := range map[string]units.Angle{"A": got.A, "B": got.B, "C": got.C, "D": got.D, "E": got.E} {
		if strings.Contains(want, name+"=") {
			assert.InDelta(t, first(t, want, name+"="), value.Degrees(), tolerance, append(msg, name)...)
			n++
		}
	}
	require.Greater(t, n, 1)
}

// TestCompass: every row of nav_compass.csv.
func TestCompass(t *testing.T) {
	for _, r := range table(t, "nav_compass.csv", 11) {
		list := readings(t, "")
		if text := r.Text("readings(heading:deviation, E+)"); !strings.Contains(text, "relative") {
			list = readings(t, text)
		}
		switch kind := r.Text("case"); {
		case strings.Contains(kind, "approximate coefficients"):
			require.Equal(t, "0.005", r.Text("tolerance"))
			var d [8]units.Angle
			for i := range d {
				d[i] = list[i].Found
			}
			assertCoefficients(t, r.Text("answer"), SwingByEight(d), 0.005, r)
		case strings.HasPrefix(kind, "published correction swing"):
			assertCorrectionSwing(t, r, list)
		case strings.HasPrefix(kind, "heading check"):
			assertHeadingCheck(t, r)
		default:
			assertSwing(t, r, list)
		}
	}
}

// assertSwing: least squares, what is left, and fitted deviations.
func assertSwing(t *testing.T, r rows.Row, list []Reading) {
	t.Helper()
	require.True(t, strings.HasPrefix(r.Text("tolerance"), "0.001"), r)
	k, rms, err := Swing(list)
	require.NoError(t, err)
	assertCoefficients(t, r.Text("answer"), k, 0.001, r)
	detail := r.Text("detail")
	if strings.Contains(detail, "rms residual") {
		assert.InDelta(t, first(t, detail, "rms residual"), rms.Degrees(), 0.001, r)
	}
	for _, on := range []string{"022.5", "202.5", "077", "248"} {
		if strings.Contains(detail, on+": ") {
			h := units.CompassHeading(angle(first(t, on, "")))
			assert.InDelta(t, first(t, detail, on+": "), units.Angle(k.Deviation(h)).Degrees(), 0.001, r)
		}
	}
}

// assertCorrectionSwing: B and C from the cardinals of the correction swing, A
// as the mean of the check swing; least squares of the four agrees in B and C.
func assertCorrectionSwing(t *testing.T, r rows.Row, list []Reading) {
	t.Helper()
	require.Equal(t, "exact", r.Text("tolerance"))
	var d, check [4]units.Angle
	for i := range d {
		d[i] = list[i].Found
	}
	for i, v := range figures(t, after(t, r.Text("answer"), "cardinals"), 4) {
		check[i] = angle(v)
	}
	k := SwingByFour(d)
	assertCoefficients(t, strings.Split(r.Text("answer"), ";")[0], k, 1e-12, r)
	assert.InDelta(t, first(t, r.Text("answer"), "A="), SwingByFour(check).A.Degrees(), 1e-12, r)
	fitted, _, err := Swing(list)
	require.NoError(t, err)
	for i, pair := range [][2]units.Angle{{k.A, fitted.A}, {k.B, fitted.B}, {k.C, fitted.C}, {0, fitted.D}, {0, fitted.E}} {
		assert.InDelta(t, float64(pair[0]), float64(pair[1]), 1e-14, i)
	}
}

// assertHeadingCheck: "Sun 1943-04-02 07:30:00 UT at 53 -2; relative bearing
// 201.4; variation -11; compass 270.0".
func assertHeadingCheck(t *testing.T, r rows.Row) {
	t.Helper()
	require.Equal(t, "0.01 deg", r.Text("tolerance"))
	text, answer := r.Text("readings(heading:deviation, E+)"), r.Text("answer")
	at := figures(t, strings.Split(after(t, text, " at "), ";")[0], 2)
	sky := figures(t, strings.Split(r.Text("detail"), ";")[0], 2)
	_, zn := sight.Reduce(units.At(at[0], at[1]), angle(sky[0]), angle(sky[1]))
	assertDirection(t, first(t, answer, "azimuth"), zn, 0.01, r)
	heading := HeadingByBody(zn, angle(first(t, text, "relative bearing")))
	assertDirection(t, first(t, answer, "true heading"), units.Angle(heading), 0.01, r)
	variation := units.Variation(angle(first(t, text, "variation")))
	compass := units.CompassHeading(angle(first(t, text, "compass")))
	d := DeviationFound(heading, variation, compass)
	assert.InDelta(t, first(t, answer, "deviation"), units.Angle(d).Degrees(), 0.01, r)
	assert.InDelta(t, first(t, answer, "compass error"), units.Angle(d).Degrees()+units.Angle(variation).Degrees(), 0.01, r)
}

func TestSwingRefused(t *testing.T) {
	for _, text := range []string{"", "0:1 90:2", "0:1 90:2 360:1 90:3", "10:1 11:1 12:1", "0:1 120:2"} {
		_, _, err := Swing(readings(t, text))
		assert.ErrorIs(t, err, ErrSwing, text)
	}
}

// TestCard: what is steered, with its deviation, makes the heading asked for.
func TestCard(t *testing.T) {
	k := Coefficients{A: -1 * deg, B: 4 * deg, C: -3 * deg, D: 2 * deg, E: deg / 2}
	card := k.Card(30 * deg)
	require.Len(t, card, 12)
	for i, row := range card {
		assert.InDelta(t, 30*float64(i), row.For.Degrees(), 1e-9)
		back := row.Steer.Magnetic(k.Deviation(row.Steer))
		assert.InDelta(t, 0, units.WrapHalf(units.Angle(back)-units.Angle(row.For)).Degrees(), 1e-9)
	}
}

// TestRadioBearings: every row of nav_radio_bearings.csv but the two fixes,
// which are in TestBearingFixes.
func TestRadioBearings(t *testing.T) {
	counts := map[string]int{}
	for _, r := range table(t, "nav_radio_bearings.csv", 23) {
		kind, input, answer := r.Text("case"), r.Text("input"), r.Text("answer")
		counts[kind]++
		switch kind {
		case "relative to true":
			require.Equal(t, "exact", r.Text("tolerance"))
			v := figures(t, input, 2)
			got := TrueBearing(units.TrueHeading(angle(v[0])), angle(v[1]), 0)
			assertDirection(t, first(t, answer, ""), got, 1e-9, r)
			if _, back, has := strings.Cut(answer+" "+r.Text("detail"), "plots as "); has {
				assertDirection(t, first(t, back, ""), Reciprocal(got), 1e-9, r)
			} else {
				assertDirection(t, first(t, r.Text("detail"), "reciprocal"), Reciprocal(got), 1e-9, r)
			}
		case "compass to true bearing":
			require.Equal(t, "exact", r.Text("tolerance"))
			v := figures(t, strings.Replace(input, "(E+)", "", 1), 4)
			heading := units.CompassHeading(angle(v[0])).Magnetic(units.Deviation(angle(v[1]))).True(units.Variation(angle(v[2])))
			assertDirection(t, first(t, r.Text("detail"), "true heading"), units.Angle(heading), 1e-9, r)
			assertDirection(t, first(t, answer, ""), TrueBearing(heading, angle(v[3]), 0), 1e-9, r)
		case "conversion angle":
			assertConversion(t, r)
		case "convergency":
			require.Equal(t, "exact", r.Text("tolerance"))
			v := figures(t, input, 2)
			got := Convergency(units.At(v[1], 0), units.At(v[1], v[0]))
			assert.InDelta(t, first(t, answer, ""), got.Degrees(), 1e-9, r)
		case "quadrantal error coefficients":
			require.Equal(t, "0.005 deg", r.Text("tolerance"))
			k, _, err := Swing(readings(t, input))
			require.NoError(t, err)
			assertCoefficients(t, answer, k, 0.005, r)
		}
	}
	assert.Equal(t, 23, counts["relative to true"]+counts["compass to true bearing"]+counts["conversion angle"]+
		counts["convergency"]+counts["quadrantal error coefficients"]+counts["fix from bearings taken in the aircraft"], counts)
}

// assertConversion: the rule, the spherical half convergency, and the two lines
// themselves.
func assertConversion(t *testing.T, r rows.Row) {
	t.Helper()
	if strings.HasPrefix(r.Text("input"), "great-circle bearing of A from B") {
		require.Equal(t, "exact", r.Text("tolerance"))
		v := figures(t, r.Text("input"), 2)
		c := ConversionAngleOf(angle(v[1]), angle(v[0]))
		assert.InDelta(t, first(t, r.Text("answer"), "conversion angle"), c.Degrees(), 1e-9, r)
		assertDirection(t, first(t, r.Text("answer"), "B from A"), angle(v[1])+c, 1e-9, r)
		return
	}
	tol, known := map[string]float64{"0.1 deg": 0.1, "0.001 deg for the exact columns; 0.001 for the rule": 0.001}[r.Text("tolerance")]
	require.True(t, known, r)
	v := figures(t, r.Text("input"), 4)
	a, b := units.At(v[0], v[1]), units.At(v[2], v[3])
	answer, detail := r.Text("answer"), r.Text("detail")
	assert.InDelta(t, first(t, answer, "sin mean lat"), ConversionAngle(a, b).Degrees(), math.Min(tol, 0.001), r)
	assert.InDelta(t, first(t, detail, "exact"), HalfConvergency(a, b).Degrees(), math.Min(tol, 0.001), r)
	// the rule against the geodesic and the rhumb line of the tables
	great, _, _ := geodesy.GeodesicInverse(a, b)
	rhumb, _ := geodesy.RhumbInverse(a, b)
	assertDirection(t, first(t, answer, "great-circle bearing"), great, tol, r)
	assertDirection(t, first(t, answer, "(rhumb) bearing"), rhumb, tol, r)
	off := units.WrapHalf(MercatorBearing(great, a, b) - rhumb).Degrees()
	assert.InDelta(t, first(t, detail, "error of the rule"), off, math.Min(tol, 0.001), r)
}
