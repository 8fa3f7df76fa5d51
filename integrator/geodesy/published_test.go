package geodesy

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// The tolerances are those of the rows, in their column `tolerance`.

// assertBearing compares directions in degrees, whatever turn they are in.
func assertBearing(t *testing.T, want, got, tolerance float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, 0, math.Remainder(got-want, 360), tolerance, msg...)
}

func TestAirPositions(t *testing.T) {
	for _, r := range table(t, "air_position_rhumb_direct.csv", 14) {
		require.Equal(t, "1e-9 deg", r.Text("tolerance"))
		from := units.At(r.Float("lat1"), r.Float("lon1"))
		run := units.Length(r.Float("TAS_kt") * r.Float("hours") * 1852)
		got, err := RhumbDirect(from, units.Angle(r.Float("true_heading_deg"))*units.Degree, run)
		require.NoError(t, err)
		assert.InDelta(t, r.Float("lat2"), got.Lat.Degrees(), 1e-9, r)
		assertBearing(t, r.Float("lon2"), got.Lon.Degrees(), 1e-9, r)
	}
}

func TestRhumbInverseRows(t *testing.T) {
	for _, r := range table(t, "rhumb_inverse.csv", 8) {
		require.Equal(t, "1e-3 m ; 1e-9 deg", r.Text("tolerance"))
		course, s := RhumbInverse(units.At(r.Float("lat1"), r.Float("lon1")),
			units.At(r.Float("lat2"), r.Float("lon2")))
		assertBearing(t, r.Float("course_deg"), course.Degrees(), 1e-9, r)
		assert.InDelta(t, r.Float("s12_m"), s.Metres(), 1e-6, r) // last printed digit
		assert.InDelta(t, r.Float("s12_NM"), s.NM(), 1e-6, r)
	}
}

func TestStandardGeodesics(t *testing.T) {
	for _, r := range table(t, "geodesic_geodtest.csv", 11) {
		lat1, lon1, z1 := r.Float("lat1"), r.Float("lon1"), r.Float("azi1")
		lat2, lon2, z2, s := r.Float("lat2"), r.Float("lon2"), r.Float("azi2"), r.Float("s12_m")
		gotZ1, gotZ2, gotS := GeodesicInverseDegrees(lat1, lon1, lat2, lon2)
		assert.InDelta(t, s, gotS, 1e-8, r) // the reference library's own
		assertBearing(t, z1, gotZ1, 1e-9, r)
		assertBearing(t, z2, gotZ2, 1e-9, r)
		gotLat, gotLon, gotZ := GeodesicDirectDegrees(lat1, lon1, z1, s)
		assert.InDelta(t, lat2, gotLat, 1e-9, r)
		assertBearing(t, lon2, gotLon, 1e-9, r)
		assertBearing(t, z2, gotZ, 1e-9, r)
	}
}

func TestComputedGeodesics(t *testing.T) {
	for _, r := range table(t, "geodesic_computed.csv", 8) {
		require.Equal(t, "1e-3 m", r.Text("tolerance"))
		z1, z2, s := GeodesicInverse(units.At(r.Float("lat1"), r.Float("lon1")),
			units.At(r.Float("lat2"), r.Float("lon2")))
		assert.InDelta(t, r.Float("s12_m"), s.Metres(), 1e-6, r) // last printed digit
		assert.InDelta(t, r.Float("s12_NM"), s.NM(), 1e-6, r)
		// the azimuth of a line of s metres is known to nanometres across it
		tolerance := 1e-10 + 5e-9/s.Metres()/perDegree
		assertBearing(t, r.Float("azi1_deg"), z1.Degrees(), tolerance, r)
		assertBearing(t, r.Float("azi2_deg"), z2.Degrees(), tolerance, r)
	}
}

func TestMeridianTable(t *testing.T) {
	for _, r := range table(t, "geodesy_meridian.csv", 12) {
		require.Equal(t, "1e-6 m; 1e-5 arcmin", r.Text("tolerance"))
		lat := units.Angle(r.Float("lat_deg")) * units.Degree
		m, n := MeridianRadius(lat), PrimeVerticalRadius(lat)
		assert.InDelta(t, r.Float("M_m"), m.Metres(), 1e-6, r)
		assert.InDelta(t, r.Float("N_m"), n.Metres(), 1e-6, r)
		assert.InDelta(t, r.Float("meridian_arc_from_equator_m"), MeridianArc(lat).Metres(), 1e-6, r)
		assert.InDelta(t, r.Float("meridional_parts_arcmin(isometric_lat*60)"), MeridionalParts(lat), 1e-5, r)
		minute := m.Metres() * units.ArcMinute.Radians()
		assert.InDelta(t, r.Float("one_min_lat_m(=M*pi/10800)"), minute, 1e-6, r)
		assert.InDelta(t, r.Float("one_min_lon_m"),
			n.Metres()*math.Cos(lat.Radians())*units.ArcMinute.Radians(), 1e-6, r)
		assert.InDelta(t, r.Float("one_min_lat_in_NM1852"), minute/1852, 1e-6, r)
		assert.InDelta(t, r.Float("one_min_lat_ft"), minute/0.3048, 0.005, r)
	}
}

func TestPublishedMeridionalParts(t *testing.T) {
	// a handbook statement that conforms with the table of the American
	// Practical Navigator (physics note 4.2): 3013.648 at 45 degrees
	assert.InDelta(t, 3013.648, MeridionalParts(45*units.Degree), 0.0005)
	// quarter meridian of WGS-84, GeographicLib 2.1.2 (physics note 4.1)
	assert.InDelta(t, 10001965.729313, MeridianArc(90*units.Degree).Metres(), 1e-6)
}

func TestMercatorSheets(t *testing.T) {
	for _, r := range table(t, "nav_mercator_sheet.csv", 19) {
		if r.Text("natural_scale") == "asked" {
			assertAskedScale(t, r)
			continue
		}
		_, scale, found := strings.Cut(r.Text("natural_scale"), "1:")
		require.True(t, found, r)
		denominator, err := strconv.ParseFloat(scale, 64)
		require.NoError(t, err)
		standard := units.Angle(r.Float("standard_lat")) * units.Degree
		sheet := NewMercator(units.At(0, 0), standard, denominator)
		assertSheet(t, r, sheet)
	}
}

const sheetTolerance = "0.005 mm; 1e-6 scale factor"

func assertSheet(t *testing.T, r rows.Row, sheet Mercator) {
	require.Equal(t, sheetTolerance, r.Text("tolerance"))
	switch r.Text("case") {
	case "paper length of 1 deg of longitude":
		assert.InDelta(t, r.Float("length_mm"), sheet.Degree().Metres()*1e3, 0.005, r)
		x, _ := sheet.Forward(units.At(17, 1))
		assert.InDelta(t, r.Float("length_mm"), x.Metres()*1e3, 0.005, r)
	case "scale factor relative to the standard latitude":
		lat := units.Angle(r.Float("lat1")) * units.Degree
		assert.InDelta(t, r.Float("scale_factor"), sheet.ScaleFactor(lat), 1e-6, r)
		nm := regexp.MustCompile(`= ([0-9.]+) mm`).FindStringSubmatch(r.Text("detail"))
		require.Len(t, nm, 2, r)
		assert.Equal(t, nm[1], fmt.Sprintf("%.4f", sheet.PaperLength(lat, units.NM).Metres()*1e3), r)
	case "paper distance between parallels":
		_, y1 := sheet.Forward(units.At(r.Float("lat1"), 0))
		_, y2 := sheet.Forward(units.At(r.Float("lat2"), 0))
		assert.InDelta(t, r.Float("length_mm"), (y2-y1).Metres()*1e3, 0.005, r)
	default:
		t.Errorf("a case the test does not know: %v", r)
	}
}

// assertAskedScale answers the examination question: which scale has meridians
// a degree apart 7.45 cm apart, if it holds at 48 degrees? The source says 1:1
// 000 000 and is rounded to 1 %.
func assertAskedScale(t *testing.T, r rows.Row) {
	require.True(t, strings.HasPrefix(r.Text("tolerance"), "1 %"), r)
	full := NewMercator(units.At(0, 0), units.Angle(r.Float("lat1"))*units.Degree, 1)
	denominator := full.Degree().Metres() / (r.Float("length_mm") / 1e3)
	assert.InEpsilon(t, 1e6, denominator, 0.01)
	assert.InDelta(t, 1001683, denominator, 0.5, "the row's WGS-84 answer")
}

func TestSailings(t *testing.T) {
	all := table(t, "sailings_worked_examples.csv", 7)
	from, to := units.At(33+57./60, -(118+24./60)), units.At(40+38./60, -(73+47./60))
	arc, course := GreatCircle(from, to)

	require.Equal(t, "0.623585 rad = 2144 NM", all[0].Text("published_answer"))
	assert.InDelta(t, 0.623585, arc.Radians(), 1e-6)
	assert.InDelta(t, 2144, arc.Minutes(), 0.5)

	require.Equal(t, "1.150035 rad = 66 deg (65.8922)", all[1].Text("published_answer"))
	assert.InDelta(t, 1.150035, course.Radians(), 1e-6)

	require.Equal(t, "7.4512 NM right (unrounded arithmetic gives 7.4523) ; 99.588 NM", all[2].Text("published_answer"))
	off, along := CrossTrack(from, to, units.At(34.5, -116.5))
	assert.InDelta(t, 7.4512, off.Minutes(), 0.002)
	assert.InDelta(t, 99.588, along.Minutes(), 0.002)

	require.Equal(t, "38 40.167 N 101 37.570 W", all[3].Text("published_answer"))
	p := GreatCirclePoint(from, course, 0.4*arc)
	assert.InDelta(t, 38*60+40.167, p.Lat.Minutes(), 0.001)
	assert.InDelta(t, -(101*60 + 37.570), p.Lon.Minutes(), 0.001)

	// on GRS-80: its axes differ from those of WGS-84 by 0.1 mm at most, which
	// over this line is far below the tolerance of 1 mm
	require.Equal(t, "54972.271 m, 306 52 05.37, 127 10 25.07", all[4].Text("published_answer"))
	z1, z2, s := GeodesicInverse(units.At(-dms(37, 57, 3.72030), dms(144, 25, 29.52440)),
		units.At(-dms(37, 39, 10.15610), dms(143, 55, 35.38390)))
	assert.InDelta(t, 54972.271, s.Metres(), 0.001)
	assert.InDelta(t, dms(306, 52, 5.37), z1.Degrees(), 0.01/3600)
	assertBearing(t, dms(127, 10, 25.07), z2.Degrees()+180, 0.01/3600)

	// JFK to Changi by the manual page RhumbSolve(1), whose course is printed
	// as 103 34 58.2
	inverse, _ := RhumbInverse(units.At(dms(40, 38, 23), -dms(73, 46, 44)), units.At(dms(1, 21, 33), dms(103, 59, 22)))
	assert.InDelta(t, dms(103, 34, 58.2), inverse.Degrees(), 0.05/3600)
	assertWaypoint(t, all[5], "32 10 26.8 N 030 20 57.3 W", 4e6, dms(32, 10, 26.8), -dms(30, 20, 57.3))
	assertWaypoint(t, all[6], "23 41 50.1 N 009 12 45.5 E", 8e6, dms(23, 41, 50.1), dms(9, 12, 45.5))
}

func dms(d, m, s float64) float64 { return d + m/60 + s/3600 }

func assertWaypoint(t *testing.T, r rows.Row, published string, metres, lat, lon float64) {
	t.Helper()
	require.Equal(t, published, r.Text("published_answer"))
	p, err := RhumbDirect(units.At(dms(40, 38, 23), -dms(73, 46, 44)), units.Angle(dms(103, 34, 58.2))*units.Degree, units.Length(metres))
	require.NoError(t, err)
	assert.InDelta(t, lat, p.Lat.Degrees(), 0.1/3600)
	assert.InDelta(t, lon, p.Lon.Degrees(), 0.1/3600)
}
