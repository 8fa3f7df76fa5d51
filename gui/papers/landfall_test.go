package papers

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim"
)

// The rings are 5, 10, 15 and 20 NM of 1852 m at 1:500,000, so 18.52 mm apart,
// measured in the file. A Mercator chart is true at the port alone: within 20 NM
// its scale goes by up to 20' x tan(47) of arc, 0.63 percent.
func TestRingsAreMiles(t *testing.T) {
	pages, err := Landfall(plan(t, "first-look"), "Skerrow")
	require.NoError(t, err)
	page := printed(t, A4, pages...)[0]
	mid := paint.R(margin+13, portTop, portSide, A4.H-portTop-portFoot).Centre()
	n := [rings + 1]int{}
	for _, s := range page {
		if math.Abs(s.width-0.22) > 0.004 {
			continue
		}
		r := mid.Dist(s.a) / (5 * 1852.0 / landfallScale * 1000)
		k := int(math.Round(r))
		require.True(t, k >= 1 && k <= rings, "%v", r)
		assert.InEpsilon(t, float64(k), r, 0.0064)
		n[k]++
	}
	bar := slices.ContainsFunc(page, func(s segment) bool { // ten miles of 1852 m at 1:500,000
		return s.horizontal() && math.Abs(s.length()-37.04) < 0.01 && s.width > 0.3
	})
	assert.True(t, bar)
	assert.Equal(t, [rings + 1]int{0, 119, 119, 119, 119}, n, "a point each 3 degrees, closed")
}

// Without a place asked for it is the one the flight is bound for; without one of
// those, the end of the required track; and a flight without waters has a chart
// of its end.
func TestWhichLandfall(t *testing.T) {
	named := func(p *sim.Plan) string {
		pages, err := Landfall(p, "")
		require.NoError(t, err)
		return pages[0].(LandfallPage).Name
	}
	assert.Equal(t, "Skerrow", named(plan(t, "first-look")))
	assert.Equal(t, "Port Aldous", named(plan(t, "weather-triangle")))
	p := *plan(t, "first-look")
	p.Waters, p.Legs = "", p.Legs[:1]
	name := named(&p)
	assert.Regexp(t, `^\d\d \d\d\.\d S 17\d \d\d\.\d E$`, name)
	_, err := Landfall(&p, "Skerrow")
	assert.ErrorContains(t, err, "no waters")
	_, err = Landfall(plan(t, "first-look"), "Nowhere")
	assert.ErrorContains(t, err, "Port Aldous")
}

// Near a pole there is no chart to be made, and it is said so.
func TestNoChartsOfThePole(t *testing.T) {
	p := *plan(t, "first-look")
	p.Waters, p.Aircraft.Position, p.Legs = "", units.At(85, 10), p.Legs[:1]
	_, err := Landfall(&p, "")
	assert.ErrorContains(t, err, "80 S to 80 N")
	_, err = Sheets(&p, A4, SheetOrder{})
	assert.NoError(t, err, "14 minutes of flight")
	p.Legs[0].Ticks *= 9 // to 89.8 N
	_, err = Sheets(&p, A4, SheetOrder{})
	assert.ErrorContains(t, err, "200 sheets")
}
