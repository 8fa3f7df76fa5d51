package papers

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// lines are the graticule of a page: the x of its meridians, the y of its
// parallels, sorted; those that reach across the whole frame and are no edge of
// it.
func graticuleOf(page []segment, on Paper) (xs, ys []float64) {
	box := frameOf(on)
	for _, s := range page {
		switch {
		case s.vertical() && math.Abs(s.length()-box.H) < 0.01 && s.width < heavy-0.01:
			xs = append(xs, s.a.X)
		case s.horizontal() && math.Abs(s.length()-box.W) < 0.01 && s.width < heavy-0.01:
			ys = append(ys, s.a.Y)
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	return xs, ys
}

// Every row of the table that gives a length is measured in the file itself, on
// a paper large enough for it. Tolerance of the table: 0.005 mm (the file's
// coordinates have steps of 0.0035 mm). Source: PROJ on WGS-84.
func TestGraticuleIsTrueToScale(t *testing.T) {
	const tolerance = 0.005
	lengths := 0
	for _, row := range rows.Read(t, "testdata/nav_mercator_sheet.csv") {
		scale, asked := strings.CutPrefix(row.Text("natural_scale"), "1:")
		if !asked {
			continue
		}
		denominator, err := strconv.ParseFloat(scale, 64)
		require.NoError(t, err)
		side := 300.0
		if row.Has("length_mm") { // from the middle of the frame to its edge, and something over
			side += 2 * row.Float("length_mm")
		}
		on := Paper{"test", side, side}
		sheet := Sheet{Latitude: units.Angle(row.Float("standard_lat")) * units.Degree, Denominator: denominator}
		switch row.Text("case") {
		case "paper length of 1 deg of longitude":
			sheet.Keep = nil
			xs, _ := graticuleOf(printed(t, on, sheet)[0], on)
			require.Greater(t, len(xs), 6)
			for i := 6; i < len(xs); i++ { // ten-minute lines: six to a degree
				assert.InDelta(t, row.Float("length_mm"), xs[i]-xs[i-6], tolerance)
			}
			lengths++
		case "paper distance between parallels":
			from, to := int(row.Float("lat1")), int(row.Float("lat2"))
			sheet.Centre = units.At(float64(from), 0)
			_, ys := graticuleOf(printed(t, on, sheet)[0], on)
			i := slices.IndexFunc(ys, func(y float64) bool { return math.Abs(y-frameOf(on).Centre().Y) < 0.01 })
			require.GreaterOrEqual(t, i, 6*(to-from), "the parallel in the middle of the frame and those north of it")
			assert.InDelta(t, row.Float("length_mm"), ys[i]-ys[i-6*(to-from)], tolerance)
			lengths++
		}
	}
	assert.Equal(t, 11, lengths)
}

// The scale factor of a latitude is paper over ground, here of a thousandth of a
// degree of the parallel; the ground by the geodesic, which is the chord of the
// parallel to 1e-10.
func TestScaleFactors(t *testing.T) {
	n := 0
	for _, row := range rows.Read(t, "testdata/nav_mercator_sheet.csv") {
		if row.Text("case") != "scale factor relative to the standard latitude" {
			continue
		}
		lat := row.Float("lat1")
		c := newChart(frameOf(A4), units.At(lat, 0), units.Angle(row.Float("standard_lat"))*units.Degree, 1e6)
		paper := c.at(units.At(lat, 0.001)).X - c.at(units.At(lat, 0)).X
		_, _, ground := geodesy.GeodesicInverse(units.At(lat, 0), units.At(lat, 0.001))
		assert.InDelta(t, row.Float("scale_factor"), paper/mm(ground)*1e6, 1e-6)
		n++
	}
	assert.Equal(t, 7, n)
}

// Published examination question: meridians a degree apart are 7.45 cm apart,
// the scale at 48 degrees is 1:1,000,000; 1 percent, as the row says.
func TestPublishedQuestion(t *testing.T) {
	s := Sheet{Latitude: 48 * units.Degree, Denominator: StandardScale, Centre: units.At(48, 0)}
	xs, _ := graticuleOf(printed(t, A4, s)[0], A4)
	require.Greater(t, len(xs), 6)
	assert.InEpsilon(t, 74.5, xs[6]-xs[0], 0.01)
}

// bars are the level strokes of the check bar's weight that are as long.
func bars(page []segment) (out []segment) {
	for _, s := range page {
		if s.horizontal() && math.Abs(s.length()-barLength) < 1 {
			out = append(out, s)
		}
	}
	return out
}

func TestCheckBarIsAHundredMillimetres(t *testing.T) {
	pages, err := Sheets(plan(t, "first-look"), A4, SheetOrder{Latitude: StandardLatitude})
	require.NoError(t, err)
	for _, page := range printed(t, A4, pages...) {
		found := bars(page)
		require.Len(t, found, 1)
		assert.InDelta(t, 100.0, found[0].length(), 0.01, "asked: 0.1 mm")
		for i := range 11 { // a tick at each centimetre, 3 mm high
			x := found[0].a.X + 10*float64(i)
			assert.True(t, slices.ContainsFunc(page, func(s segment) bool {
				return s.vertical() && math.Abs(s.a.X-x) < 0.01 && math.Abs(s.length()-3) < 0.01
			}), "tick at %d mm", 10*i)
		}
	}
}

// The whole flight lies on its sheets, a centimetre inside a frame.
func TestFlightsFitOnTheirSheets(t *testing.T) {
	for _, name := range []string{"first-look", "weather-triangle", "far-south", "every-mile"} {
		for _, lat := range []float64{0, 47, 56, 70} {
			p := plan(t, name)
			all, err := sheets(p, A4, SheetOrder{Latitude: units.Angle(lat) * units.Degree})
			require.NoError(t, err)
			for _, line := range all[0].Keep {
				for _, at := range line {
					ok := slices.ContainsFunc(all, func(s Sheet) bool {
						c := newChart(frameOf(A4), s.Centre, s.Latitude, s.Denominator)
						return c.box.Inset(tileEdge - 1.01).Contains(c.at(at))
					})
					assert.True(t, ok, "%s at %g: %v", name, lat, at)
				}
			}
		}
	}
}

// A sheet about a centre has it in the middle, on the side of the earth asked for.
func TestSheetAboutACentre(t *testing.T) {
	centre := units.At(50, 0)
	pages, err := Sheets(plan(t, "first-look"), A4, SheetOrder{Latitude: StandardLatitude, Centre: &centre, Plain: true})
	require.NoError(t, err)
	require.Len(t, pages, 1)
	xs, ys := graticuleOf(printed(t, A4, pages...)[0], A4)
	mid := frameOf(A4).Centre()
	near := func(all []float64, x float64) bool {
		return slices.ContainsFunc(all, func(y float64) bool { return math.Abs(x-y) < 0.01 })
	}
	assert.True(t, near(xs, mid.X) && near(ys, mid.Y))
	words := texts(A4, pages[0])
	assert.Contains(t, words, "50 00 N")
	assert.Contains(t, words, "1:1,000,000 on 56 N")
	assert.NotContains(t, words, "Skerrow")
}

// Roses carry the variation of the flight's place and year, whole degrees:
// IGRF-14 gives 22.7 to 24.4 E over these waters in 1957.6, computed from the
// published coefficients for the look of the program.
func TestRosesHaveTheVariation(t *testing.T) {
	pages, err := Sheets(plan(t, "first-look"), A4, SheetOrder{Latitude: StandardLatitude})
	require.NoError(t, err)
	for _, p := range pages {
		n := 0
		for _, s := range texts(A4, p) {
			if regexp.MustCompile(`^2[34] E, 1957$`).MatchString(s) {
				n++
			}
		}
		assert.Positive(t, n)
	}
}
