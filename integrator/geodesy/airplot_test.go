package geodesy

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// TestAirPlots flies the legs of nav_air_plot.csv as rhumb lines and finds the
// wind from the end points (navigation note 1.2). The ground position of a row
// was made by rhumb lines too, one a leg.
func TestAirPlots(t *testing.T) {
	for _, r := range table(t, "nav_air_plot.csv", 11) {
		if strings.HasPrefix(r.Text("case"), "published, plane vectors") {
			assertPlaneAirPlot(t, r)
			continue
		}
		require.True(t, strings.HasPrefix(r.Text("tolerance"), "1e-6 deg position; 0.001 deg, 0.001 kt rhumb wind"), r)
		start := units.At(r.Float("start_lat"), r.Float("start_lon"))
		wind := units.Wind{From: units.Angle(r.Float("wind_from_deg")) * units.Degree,
			Speed: units.Speed(r.Float("wind_kt")) * units.Knot}
		air, ground := start, start
		for _, l := range legsOf(t, r) {
			air = l.run(t, air, units.Wind{})
			ground = l.run(t, ground, wind)
		}
		assertPosition(t, r, "air", air, 1e-6)
		assertPosition(t, r, "ground", ground, 1e-6)
		// the printed positions, of 7 decimals, are the input of the printed wind
		from, speed := windFound(air, ground, r.Float("elapsed_h"))
		assertBearing(t, r.Float("wind_found_from_deg"), from.Degrees(), 0.001, r)
		assert.InDelta(t, r.Float("wind_found_kt"), speed.Knots(), 0.001, r)
	}
}

// assertPlaneAirPlot: air vector 052/62.5 NM and fix vector 045/55 NM in 15
// minutes from one departure. On the equator, where parallels are straight, the
// chart is as good as plane over 60 NM.
func assertPlaneAirPlot(t *testing.T, r rows.Row) {
	require.Equal(t, "0.05 deg; 0.05 kt", r.Text("tolerance"))
	air, err := RhumbDirect(units.At(0, 0), 52*units.Degree, 62.5*units.NM)
	require.NoError(t, err)
	fix, err := RhumbDirect(units.At(0, 0), 45*units.Degree, 55*units.NM)
	require.NoError(t, err)
	from, speed := windFound(air, fix, r.Float("elapsed_h"))
	assertBearing(t, r.Float("wind_from_deg"), from.Degrees(), 0.05)
	assert.InDelta(t, r.Float("wind_kt"), speed.Knots(), 0.05)
}

func windFound(air, fix units.Position, hours float64) (from units.Angle, speed units.Speed) {
	toward, distance := RhumbInverse(air, fix)
	return toward + 180*units.Degree, units.Speed(distance.Metres() / (hours * 3600))
}

func assertPosition(t *testing.T, r rows.Row, what string, p units.Position, tolerance float64) {
	t.Helper()
	assert.InDelta(t, r.Float(what+"_lat"), p.Lat.Degrees(), tolerance, r)
	assertBearing(t, r.Float(what+"_lon"), p.Lon.Degrees(), tolerance, r)
}

// planLeg is HEADING@SPEEDxHOURS of the file.
type planLeg struct{ heading, knots, hours float64 }

func legsOf(t *testing.T, r rows.Row) []planLeg {
	var legs []planLeg
	for _, text := range strings.Split(r.Text("legs(true_heading_deg@TAS_kt for hours)"), " + ") {
		parts := strings.FieldsFunc(text, func(c rune) bool { return c == '@' || c == 'x' })
		require.Len(t, parts, 3, text)
		var v [3]float64
		for i, part := range parts {
			var err error
			v[i], err = strconv.ParseFloat(part, 64)
			require.NoError(t, err)
		}
		legs = append(legs, planLeg{v[0], v[1], v[2]})
	}
	return legs
}

// run gives the end of the leg in a wind: air and wind vectors are constant, so
// their sum is one rhumb line.
func (l planLeg) run(t *testing.T, from units.Position, w units.Wind) units.Position {
	air := units.Wind{From: units.Angle(l.heading+180) * units.Degree, Speed: units.Speed(l.knots) * units.Knot}
	aN, aE := air.Velocity()
	wN, wE := w.Velocity()
	ground := units.WindOf(aN+wN, aE+wE)
	to, err := RhumbDirect(from, ground.From+180*units.Degree,
		units.Length(ground.Speed.MetresPerSecond()*l.hours*3600))
	require.NoError(t, err)
	return to
}
