package fault

import (
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func readTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("data/" + name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = row[i]
		}
		out = append(out, m)
	}
	return out
}

// The hashes stand in data/PROVENANCE.md: the tables are embedded unedited.
func TestTheTablesAreUnedited(t *testing.T) {
	note, err := os.ReadFile("data/PROVENANCE.md")
	require.NoError(t, err)
	for _, name := range []string{"mech_faults.csv", "mech_fault_parameters.csv", "mech_service.csv"} {
		b, err := os.ReadFile("data/" + name)
		require.NoError(t, err)
		sum := sha256.Sum256(b)
		assert.Contains(t, string(note), hex.EncodeToString(sum[:])+"  "+name)
	}
}

// Source: mech_faults.csv, every row.
func TestEveryRowOfTheCatalogue(t *testing.T) {
	rows := readTable(t, "mech_faults.csv")
	require.Len(t, rows, 65) // the count given in the provenance of the table
	require.Len(t, Catalogue(), 65)
	kinds := map[Kind]int{}
	for _, r := range rows {
		e, ok := Lookup(r["id"])
		require.True(t, ok, r["id"])
		kinds[e.Kind]++
		assert.Equal(t, r["title"], e.Title)
		assert.Equal(t, r["link"], e.Link)
		assert.Equal(t, r["law"], e.Law)
		assert.Equal(t, r["viewer_sees"], e.ViewerSees)
		assert.Equal(t, r["navigator_check"], e.NavigatorCheck)
		assert.True(t, e.Accepts(Step), "step is accepted for every id")
		assert.Equal(t, strings.Contains(r["onset_shapes"], "ramp"), e.Accepts(Ramp), e.ID)
		assert.Equal(t, strings.Contains(r["onset_shapes"], "intermittent"), e.Accepts(Intermittent), e.ID)
		assert.Equal(t, r["kind"] == "explanation", e.Refusal() != "", e.ID)
	}
	// The five kinds of mechanism note section 1a, and no sixth.
	assert.Len(t, kinds, 5)
	assert.Equal(t, 65, kinds[Breakage]+kinds[WrongSetting]+kinds[CrewError]+kinds[Construction]+kinds[Explanation])
}

// Source: mech_fault_parameters.csv, every row.
func TestEveryRowOfTheParameters(t *testing.T) {
	rows := readTable(t, "mech_fault_parameters.csv")
	n := 0
	for _, r := range rows {
		e, ok := Lookup(r["fault_id"])
		require.True(t, ok)
		i, ok := e.Param(r["name"])
		require.True(t, ok, r["name"])
		p := e.Params[i]
		assert.Equal(t, r["type"], string(p.Type))
		assert.Equal(t, r["unit"], p.Unit)
		assert.Equal(t, r["default"], p.Format(e.Defaults()[i]), "%s %s", e.ID, p.Name)
		assert.NoError(t, p.Check(p.Default))
		if r["min"] != "" {
			lo, err := strconv.ParseFloat(r["min"], 64)
			require.NoError(t, err)
			hi, err := strconv.ParseFloat(r["max"], 64)
			require.NoError(t, err)
			assert.NoError(t, p.Check(lo))
			assert.NoError(t, p.Check(hi))
			assert.Error(t, p.Check(math.Nextafter(lo, -1e9)))
			assert.Error(t, p.Check(math.Nextafter(hi, 1e9)))
		} else if r["choices"] != "" {
			assert.Equal(t, strings.Fields(r["choices"]), p.Choices)
			assert.Error(t, p.Check(float64(len(p.Choices))))
			assert.Error(t, p.Check(-1))
			assert.Error(t, p.Check(0.5))
		}
		assert.Error(t, p.Check(math.NaN()))
	}
	for _, e := range Catalogue() {
		n += len(e.Params)
	}
	assert.Equal(t, len(rows), n)
}

// Source: mech_service.csv, every row.
func TestEveryRowOfTheServiceTable(t *testing.T) {
	rows := readTable(t, "mech_service.csv")
	require.Len(t, Service(), len(rows))
	for i, r := range rows {
		v := Service()[i]
		assert.Equal(t, r["name"], v.Name)
		assert.Equal(t, r["unit"], v.Unit)
		if v.Word != "" {
			assert.Equal(t, r["value"], v.Word)
			assert.Contains(t, v.Choices, v.Word)
			continue
		}
		x, err := strconv.ParseFloat(r["value"], 64)
		require.NoError(t, err)
		assert.Equal(t, x, v.Value)
		assert.True(t, v.Min <= x && x <= v.Max, v.Name)
	}
}

// A ramp runs from the healthy value, 1 for ratios and factors (design
// section 5): known amounts, by hand.
func TestRamps(t *testing.T) {
	ramps := func(id string) []string {
		e, ok := Lookup(id)
		require.True(t, ok)
		var names []string
		for _, p := range e.Params {
			if p.Ramps {
				names = append(names, p.Name)
			}
		}
		assert.Equal(t, len(names) > 0, e.CanRamp())
		return names
	}
	assert.Equal(t, []string{"slip"}, ramps("drive-slip"))
	assert.Equal(t, []string{"slip"}, ramps("disc-slip"))
	assert.Equal(t, []string{"leak_fraction"}, ramps("static-leak"))
	assert.Equal(t, []string{"drift_deg_h"}, ramps("gyro-drift-unslaved"))
	assert.Equal(t, []string{"lag_s"}, ramps("capsule-lag"))
	assert.Empty(t, ramps("drive-broken"))
	assert.Empty(t, ramps("variation-left-at-old-value"), "it has no amount to bring on")
	e, _ := Lookup("wind-speed-mis-set")
	assert.Equal(t, 1.0, e.Params[0].Healthy)
	e, _ = Lookup("tas-scale")
	assert.Equal(t, 0.0, e.Params[0].Healthy)
}

func TestOrderCheck(t *testing.T) {
	e, _ := Lookup("drive-slip")
	good := Order{ID: "drive-slip", Shape: Ramp, Params: e.Defaults()}
	require.NoError(t, good.Check())
	for name, c := range map[string]struct {
		o    Order
		says string
	}{
		"unknown":     {Order{ID: "drive-slop"}, `no fault "drive-slop"`},
		"explanation": {Order{ID: "earth-model"}, "is an explanation"},
		"shape":       {Order{ID: "drive-broken", Shape: Ramp}, "cannot come on as ramp"},
		"no amount":   {Order{ID: "variation-left-at-old-value", Shape: Ramp}, "cannot come on as ramp"},
		"too few":     {Order{ID: "drive-slip"}, "has 1 parameters, not 0"},
		"range":       {Order{ID: "drive-slip", Params: []float64{1.5}}, "slip = 1.5: must be 0 to 1"},
		"NaN":         {Order{ID: "drive-slip", Params: []float64{math.NaN()}}, "must be 0 to 1"},
	} {
		t.Run(name, func(t *testing.T) { assert.ErrorContains(t, c.o.Check(), c.says) })
	}
}

func TestOnlyOneNeedsThePlottedDesign(t *testing.T) {
	for _, e := range Catalogue() {
		assert.Equal(t, e.ID == "wind-clock-not-reset", e.NeedsPlotted(), e.ID)
	}
}

func TestNearest(t *testing.T) {
	assert.Equal(t, "drive-slip", Nearest("drive-slp")[0])
	assert.Equal(t, "drive-slip", Nearest("Drive Slip")[0])
	assert.Equal(t, "capsule-lag", Nearest("capsul-lag")[0])
	assert.Equal(t, "repeater-stuck", Nearest("repeater-stcuk")[0])
	assert.Empty(t, Nearest("zzzzzz"))
	assert.Empty(t, Nearest(""))
	assert.LessOrEqual(t, len(Nearest("pitot")), 3)
	assert.NotEmpty(t, Nearest("pitot"), "a word inside an id")
	assert.Equal(t, []string{"heading_true_deg"}, NearestOf("heading_deg_true", []string{"heading_true_deg", "title"})[:1])
}

// slowDistance is the definition, without a table.
func slowDistance(a, b []rune) int {
	if len(a) == 0 || len(b) == 0 {
		return len(a) + len(b)
	}
	c := 1
	if a[len(a)-1] == b[len(b)-1] {
		c = 0
	}
	d := min(slowDistance(a[:len(a)-1], b)+1, slowDistance(a, b[:len(b)-1])+1,
		slowDistance(a[:len(a)-1], b[:len(b)-1])+c)
	if len(a) > 1 && len(b) > 1 && a[len(a)-1] == b[len(b)-2] && a[len(a)-2] == b[len(b)-1] {
		d = min(d, slowDistance(a[:len(a)-2], b[:len(b)-2])+1)
	}
	return d
}

func TestDistance(t *testing.T) {
	// Textbook pairs, from memory: Levenshtein's 3, and the pair that tells
	// optimal string alignment (3) from the unrestricted distance (2).
	assert.Equal(t, 3, Distance("kitten", "sitting"))
	assert.Equal(t, 3, Distance("ca", "abc"))
	assert.Equal(t, 1, Distance("setp", "step"))
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abcé")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		if got, want := Distance(a, b), slowDistance([]rune(a), []rune(b)); got != want {
			t.Fatalf("%q %q: %d, not %d", a, b, got, want)
		}
	})
}
