package calc

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

var numberPattern = regexp.MustCompile(`[-+]?[0-9]+(?:\.[0-9]+)?`)

// numbersIn finds the numbers in a text cell.
func numbersIn(t *testing.T, text string) (all []float64) {
	t.Helper()
	for _, s := range numberPattern.FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		all = append(all, v)
	}
	return all
}

// near compares directions in degrees, whatever turn they are in.
func near(t require.TestingT, want, got, tolerance float64, msg ...any) {
	require.InDelta(t, 0, math.Remainder(got-want, 360), tolerance, msg...)
}

// columns are the file's names of the quantities.
var columns = [Quantities]string{Heading: "heading_true_deg", TAS: "TAS", WindFrom: "wind_from_deg", WindSpeed: "wind_speed",
	Track: "track_true_deg", Groundspeed: "groundspeed"}

// asked names, for a kind of row of nav_wind_triangle.csv, the two that are wanted.
var asked = map[string][2]Quantity{"wind": {WindFrom, WindSpeed}, "track_gs": {Track, Groundspeed}, "heading_gs": {Heading, Groundspeed}}

// given makes a triangle with four quantities given by hand, the others left alone.
func given(t require.TestingT, values map[Quantity]float64) *Triangle {
	tri := NewTriangle()
	tri.LetAllGo()
	for q := range Quantities {
		if v, ok := values[Quantity(q)]; ok {
			require.NoError(t, tri.Set(Quantity(q), v))
		}
	}
	return tri
}

// All 27 rows of nav_wind_triangle.csv (published problems, and vector sums by numpy
// and scipy), each within its own tolerance, and to 4 decimals as worked again there.
// A row in mph is worked in knots: the figure is the same.
func TestTrianglesOfTheNavigationNote(t *testing.T) {
	all := rows.Read(t, "testdata/nav_wind_triangle.csv")
	require.Len(t, all, 27)
	for _, r := range all {
		want, ok := asked[r.Text("asked")]
		require.True(t, ok, r)
		values := map[Quantity]float64{}
		for q, c := range columns {
			if Quantity(q) != want[0] && Quantity(q) != want[1] {
				values[Quantity(q)] = r.Float(c)
			}
		}
		tri := given(t, values)
		require.Empty(t, tri.Problem(), r)
		tolerance := numbersIn(t, r.Text("tolerance"))
		tolerance = append(tolerance, tolerance[0])
		near(t, r.Float(columns[want[0]]), tri.Value(want[0]), tolerance[0], r)
		assert.InDelta(t, r.Float(columns[want[1]]), tri.Value(want[1]), tolerance[1], r)
		exact := numbersIn(t, r.Text("recomputed_unrounded"))
		near(t, exact[0], tri.Value(want[0]), 1e-4, r)
		assert.InDelta(t, exact[1], tri.Value(want[1]), 1e-4, r)
		assert.Equal(t, [2]State{Answer, Answer}, [2]State{tri.State(want[0]), tri.State(want[1])}, r)
	}
}

// All rows of wind_triangle.csv: plain vector addition, and the components of one
// wind of the Aviation Formulary.
func TestTrianglesOfThePhysicsNote(t *testing.T) {
	all := rows.Read(t, "testdata/wind_triangle.csv")
	require.Len(t, all, 7)
	require.Equal(t, "wind 060/20 on direction 030", all[0].Text("input"))
	tri := given(t, map[Quantity]float64{Heading: 30, TAS: 100, WindFrom: 60, WindSpeed: 20})
	north, east := tri.At(GroundCorner)
	s, c := math.Sincos(math.Pi / 6)
	assert.InDelta(t, 17.32, 100-(north*c+east*s), 0.01, "head wind")
	assert.InDelta(t, -10, east*c-north*s, 0.01, "from the right, so it drifts to the left")
	for _, r := range all[1:] {
		in, want := numbersIn(t, r.Text("input")), numbersIn(t, r.Text("answer"))
		require.Len(t, in, 4, r)
		tri := given(t, map[Quantity]float64{TAS: in[0], Heading: in[1], WindFrom: in[2], WindSpeed: in[3]})
		assert.InDelta(t, want[0], tri.Value(Groundspeed), 1e-3, r)
		near(t, want[1], tri.Value(Track), 1e-3, r)
	}
}

// All 15 rows of airspeed_chain.csv: a worked example of the Aviation Formulary, and
// values cross-checked with another library.
func TestTrueAirspeeds(t *testing.T) {
	all := rows.Read(t, "testdata/airspeed_chain.csv")
	require.Len(t, all, 15)
	for _, r := range all {
		oat := numbersIn(t, r.Text("OAT"))
		temperature := oat[1] // "ISA-10 (-24.72 C)"
		if r.Text("OAT") == "IAT +2 C, recovery 0.8 (OAT -6.72 C)" {
			temperature = oat[2]
		} else {
			require.Len(t, oat, 2, r)
		}
		c := NewComputer()
		require.NoError(t, c.SetHeight(units.Length(r.Float("pressure_altitude_ft"))*units.Foot), r)
		require.NoError(t, c.SetTemperature(units.Celsius(temperature)), r)
		require.NoError(t, c.SetCAS(units.Speed(r.Float("CAS_kt"))*units.Knot), r)
		assert.InDelta(t, r.Float("TAS_kt"), c.TAS().Knots(), numbersIn(t, r.Text("tolerance"))[0], r)
		assert.Equal(t, c.TAS(), c.Top(), "what is put under the cursor stands at the top")
	}
}

// All 5 rows of airspeed_rule_of_thumb.csv: the rule, the exact value (by the file's
// own calculation) and the difference.
func TestTheRule(t *testing.T) {
	all := rows.Read(t, "testdata/airspeed_rule_of_thumb.csv")
	require.Len(t, all, 5)
	for _, r := range all {
		c := NewComputer()
		require.NoError(t, c.SetCAS(units.Speed(r.Float("CAS_kt"))*units.Knot), r)
		require.NoError(t, c.SetHeight(units.Length(r.Float("PA_ft"))*units.Foot), r)
		assert.InDelta(t, r.Float("TAS_exact_ISA_kt"), c.TAS().Knots(), 0.05, r)
		assert.InDelta(t, r.Float("TAS_rule_2pct_kt"), c.Rule().Knots(), 0.05, r)
		assert.InDelta(t, r.Float("rule_error_kt"), (c.Rule() - c.TAS()).Knots(), 0.05, r)
	}
}
