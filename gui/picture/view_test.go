package picture

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/paint"
	"stillair/integrator/units"
)

var testBox = paint.R(20, 30, 1300, 760)

// Mercator lengths: nav_mercator_sheet.csv (PROJ through pyproj, see the
// provenance beside it), kept with the navigator's tables. A pixel here is a
// millimetre of paper; the tolerance is the file's, 0.005 mm and 1e-6.
func TestProjectionAgainstTheSheetTable(t *testing.T) {
	f, err := os.Open("../../integrator/geodesy/testdata/nav_mercator_sheet.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	checked := map[string]int{}
	for _, r := range rows[1:] {
		switch checked[r[0]]++; r[0] {
		case "paper length of 1 deg of longitude":
			// A metre of ground at the standard latitude is 1000/denominator mm.
			mm := milesToDegree(units.Angle(number(r[4]))*units.Degree) * 1852 * 1000 / number(r[3][2:])
			assert.InDelta(t, number(r[5]), mm, 0.005, r[4])
		case "scale factor relative to the standard latitude":
			k := milesToDegree(units.Angle(number(r[4]))*units.Degree) / milesToDegree(units.Angle(number(r[1]))*units.Degree)
			assert.InDelta(t, number(r[6]), k, 1e-6, r[1])
		case "paper distance between parallels":
			scale := milesToDegree(units.Angle(number(r[4]))*units.Degree) * 1852 * 1000 / number(r[3][2:])
			v := View{Centre: units.At(number(r[1]), 10), Scale: scale, Box: testBox}
			a, b := v.ToPixel(units.At(number(r[1]), 10)), v.ToPixel(units.At(number(r[2]), 10))
			assert.InDelta(t, number(r[5]), a.Y-b.Y, 0.005, "%s to %s", r[1], r[2])
		}
	}
	assert.Equal(t, 5, checked["paper length of 1 deg of longitude"])
	assert.Equal(t, 7, checked["scale factor relative to the standard latitude"])
	assert.Equal(t, 6, checked["paper distance between parallels"])
}

func drawView(t *rapid.T) View {
	return View{
		Centre: units.At(rapid.Float64Range(-75, 75).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")),
		Scale:  rapid.Float64Range(10, 20000).Draw(t, "scale"),
		Box:    testBox,
	}
}

func drawPoint(t *rapid.T) paint.Point {
	return paint.Pt(rapid.Float64Range(20, 1320).Draw(t, "x"), rapid.Float64Range(30, 790).Draw(t, "y"))
}

func TestPixelsAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, p := drawView(t), drawPoint(t)
		q := v.ToPixel(v.FromPixel(p))
		if p.Dist(q) > 1e-4 {
			t.Fatalf("%v came back as %v", p, q)
		}
	})
}

// What the hand holds stays under it.
func TestZoomKeepsThePlaceUnderTheHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, p := drawView(t), drawPoint(t)
		held := v.FromPixel(p)
		z := v.ZoomAt(p, rapid.Float64Range(0.5, 3).Draw(t, "factor"))
		if math.Abs(z.Centre.Lat.Degrees()) > maxLatDeg-0.001 {
			return // at its limit the chart may not follow
		}
		if q := z.ToPixel(held); p.Dist(q) > 1e-3 {
			t.Fatalf("zoom moved %v to %v", p, q)
		}
		d := v.Shift(7, -11)
		if math.Abs(d.Centre.Lat.Degrees()) > maxLatDeg-0.001 {
			return
		}
		if q := d.ToPixel(held); p.Add(7, -11).Dist(q) > 1e-3 {
			t.Fatalf("the drag moved %v to %v", p, q)
		}
	})
}

func TestFitShowsEverythingTheShortWayRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		lat, lon := rapid.Float64Range(-55, 55).Draw(t, "lat0"), rapid.Float64Range(-180, 180).Draw(t, "lon0")
		pts := make([]units.Position, n)
		for i := range pts {
			pts[i] = units.At(lat+rapid.Float64Range(-5, 5).Draw(t, "dlat"), units.WrapHalfDegrees(lon+rapid.Float64Range(-20, 20).Draw(t, "dlon")))
		}
		v := Fit(testBox, 40, pts...)
		for _, p := range pts {
			if q := v.ToPixel(p); !testBox.Inset(39.9).Contains(q) {
				t.Fatalf("%v lies at %v", p, q)
			}
		}
		if v.Scale < 1220/40.0-1e-6 {
			t.Fatalf("scale %v: the long way round", v.Scale)
		}
	})
	assert.True(t, testBox.Contains(Fit(testBox, 40).ToPixel(units.At(-47, -180))))
}

func TestALineAcross180IsUnbroken(t *testing.T) {
	v := View{Centre: units.At(-47, 179.9), Scale: 200, Box: testBox}
	pts := v.ToPixels([]units.Position{units.At(-47, 179), units.At(-47, -179.5), units.At(-47, -178)})
	assert.InDelta(t, 300, pts[1].X-pts[0].X, 1e-6)
	assert.InDelta(t, 300, pts[2].X-pts[1].X, 1e-6)
	assert.InDelta(t, 670-0.9*200, pts[0].X, 1e-6)
	w := View{Centre: units.At(-47, -179.9), Scale: 200, Box: testBox}
	assert.InDelta(t, 670-1.1*200, w.ToPixel(units.At(-47, 179)).X, 1e-6)
}

func TestViewLimits(t *testing.T) {
	v := View{Centre: units.At(-47, 180), Scale: 200, Box: testBox}
	assert.InDelta(t, 1300/360.0, v.ZoomAt(paint.Pt(300, 300), 1e-9).Scale, 1e-9)
	assert.InDelta(t, maxMinute*60, v.ZoomAt(paint.Pt(300, 300), 1e9).Scale, 1e-9)
	assert.InDelta(t, maxLatDeg, v.Shift(0, 1e7).Centre.Lat.Degrees(), 1e-9)
	assert.InDelta(t, -maxLatDeg, v.Shift(0, -1e7).Centre.Lat.Degrees(), 1e-9)
	assert.InDelta(t, 100, v.WithBox(paint.R(0, 0, 650, 760)).Scale, 1e-9)
}
