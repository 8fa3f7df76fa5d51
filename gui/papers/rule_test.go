package papers

import (
	"math"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// A mile on the edge of a rule is as long as the table says it is on the sheet,
// measured over a hundred of them in the file. Source: PROJ on WGS-84 (the
// table's detail column, to four decimals of a millimetre).
func TestRuleMilesAreThoseOfTheSheet(t *testing.T) {
	said := regexp.MustCompile(`1 NM \(1852 m\) there = (\d+\.\d+) mm`)
	n := 0
	for _, row := range rows.Read(t, "testdata/nav_mercator_sheet.csv") {
		m := said.FindStringSubmatch(row.Text("detail"))
		if m == nil {
			continue
		}
		lat := units.Angle(row.Float("lat1")) * units.Degree
		page := printed(t, A4, RulePage{Latitude: units.Angle(row.Float("standard_lat")) * units.Degree, Latitudes: []units.Angle{lat, lat, lat, lat}})[0]
		var tens []float64 // the long ticks of the first edge
		for _, s := range page {
			if s.vertical() && math.Abs(s.length()-3.4) < 0.01 && s.a.Y < s.z.Y {
				tens = append(tens, s.a.X)
			}
		}
		slices.Sort(tens)
		tens = slices.CompactFunc(tens, func(a, b float64) bool { return math.Abs(b-a) < 0.02 })
		require.Greater(t, len(tens), 10)
		assert.InDelta(t, number(t, m[1]), (tens[10]-tens[0])/100, 0.00005+0.00004, "%v", row)
		n++
	}
	assert.Equal(t, 7, n)
}

// Rings and rays of the grid: 1 kt is 1 mm, and a ray of d degrees rises by the
// tangent of d.
func TestGridIsTrue(t *testing.T) {
	page := GridPage{}
	o := paint.Pt(margin+gridLead, gridTop+(A4.H-gridTop-gridFoot)/2)
	for _, c := range record(A4, page).Texts() {
		if c.Text == "50" || c.Text == "100" || c.Text == "250" {
			assert.InDelta(t, number(t, c.Text), c.At.X-o.X, 1e-9)
		}
	}
	strokes := printed(t, A4, page)[0]
	for deg := -40; deg <= 40; deg++ {
		tan := math.Tan(float64(deg) * math.Pi / 180)
		assert.True(t, slices.ContainsFunc(strokes, func(s segment) bool {
			return s.length() > 30 && math.Abs((s.z.Y-o.Y)-tan*(s.z.X-o.X)) < 0.02 && math.Abs((s.a.Y-o.Y)-tan*(s.a.X-o.X)) < 0.02
		}), "the ray of %d degrees", deg)
	}
}

// The protractor has a tick at each degree, none longer than 3.6 mm, and longer
// ones at the tens.
func TestProtractorHasEachDegree(t *testing.T) {
	at := paint.Pt(margin+protractor+7, 22+protractor+7)
	found := map[int]float64{}
	for _, s := range printed(t, A4, RulePage{Latitude: StandardLatitude, Latitudes: make([]units.Angle, 4)})[0] {
		if math.Abs(at.Dist(s.z)-protractor) > 0.01 || s.length() > 4 {
			continue
		}
		bearing := units.WrapDegrees(math.Atan2(s.z.X-at.X, at.Y-s.z.Y) * 180 / math.Pi)
		deg := int(math.Round(bearing)) % 360
		assert.InDelta(t, 0, units.WrapHalfDegrees(bearing-float64(deg)), 0.01)
		found[deg] = s.length()
	}
	require.Len(t, found, 360)
	for deg, length := range found {
		assert.Equal(t, deg%10 == 0, length > 3, "%d", deg)
	}
}
