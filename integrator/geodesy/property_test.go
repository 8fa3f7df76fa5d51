package geodesy

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// Tolerances of this file: lengths are good to some nanometres and angles to
// that over the earth's radius, so 1e-7 m and 1e-12 degrees leave room for a
// round trip.
const (
	metresThere  = 1e-7
	degreesThere = 1e-12
)

func latitudes(most float64) *rapid.Generator[float64] { return rapid.Float64Range(-most, most) }

func longitudes() *rapid.Generator[float64] { return rapid.Float64Range(-720, 720) }

func drawLine(t *rapid.T, most float64) endpoints {
	return endpoints{latitudes(most).Draw(t, "lat1"), longitudes().Draw(t, "lon1"),
		latitudes(most).Draw(t, "lat2"), longitudes().Draw(t, "lon2")}
}

func TestRhumbRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 85)
		course, s := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
		require.True(t, course >= 0 && course < 360 && s >= 0)
		lat, lon, err := RhumbDirectDegrees(l[0], l[1], course, s)
		require.NoError(t, err)
		require.True(t, lon >= -180 && lon < 180)
		require.LessOrEqual(t, apart(lat, lon, l[2], l[3]), metresThere)
	})
}

func TestRhumbLinesReverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		course, s := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
		back, sBack := RhumbInverseDegrees(l[2], l[3], l[0], l[1])
		require.InDelta(t, s, sBack, metresThere)
		require.InDelta(t, 0, acrossBy(course, back+180, s), metresThere)
	})
}

func TestRhumbMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		course, s := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
		south, sSouth := RhumbInverseDegrees(-l[0], l[1], -l[2], l[3])
		west, sWest := RhumbInverseDegrees(l[0], -l[1], l[2], -l[3])
		require.InDelta(t, s, sSouth, metresThere)
		require.InDelta(t, s, sWest, metresThere)
		require.InDelta(t, 0, acrossBy(180-course, south, s), metresThere)
		require.InDelta(t, 0, acrossBy(-course, west, s), metresThere)
	})
}

func TestRhumbIsNotShorterThanGeodesic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		_, rhumb := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
		_, _, geodesic := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
		require.GreaterOrEqual(t, rhumb, geodesic-metresThere)
		require.LessOrEqual(t, geodesic, 20003931.4587, "no two places are further apart than the poles")
	})
}

func TestRhumbLegsAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := latitudes(60).Draw(t, "lat"), longitudes().Draw(t, "lon")
		course := rapid.Float64Range(0, 360).Draw(t, "course")
		s, part := rapid.Float64Range(0, 2e6).Draw(t, "s"), rapid.Float64Range(0, 1).Draw(t, "part")
		lat1, lon1, err := RhumbDirectDegrees(lat, lon, course, s)
		require.NoError(t, err)
		latA, lonA, err := RhumbDirectDegrees(lat, lon, course, s*part)
		require.NoError(t, err)
		lat2, lon2, err := RhumbDirectDegrees(latA, lonA, course, s-s*part)
		require.NoError(t, err)
		require.LessOrEqual(t, apart(lat1, lon1, lat2, lon2), metresThere)
	})
}

func TestGeodesicRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		if rapid.Bool().Draw(t, "near the antipode") {
			l[2] = math.Max(-90, math.Min(90, -l[0]+rapid.Float64Range(-1, 1).Draw(t, "dLat")))
			l[3] = l[1] + 180 + rapid.Float64Range(-1, 1).Draw(t, "dLon")
		}
		z1, z2, s := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
		lat, lon, _ := GeodesicDirectDegrees(l[0], l[1], z1, s)
		require.LessOrEqual(t, apart(lat, lon, l[2], l[3]), metresThere)
		lat, lon, _ = GeodesicDirectDegrees(l[2], l[3], z2, -s)
		require.LessOrEqual(t, apart(lat, lon, l[0], l[1]), metresThere, "and back")
	})
}

func TestGeodesicSymmetry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		_, _, s := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
		for _, m := range []endpoints{{l[2], l[3], l[0], l[1]}, {-l[0], l[1], -l[2], l[3]}, {l[0], -l[1], l[2], -l[3]}} {
			_, _, again := GeodesicInverseDegrees(m[0], m[1], m[2], m[3])
			require.InDelta(t, s, again, metresThere)
		}
	})
}

// TestGeodesicTriangle: no way round by a third place is shorter.
func TestGeodesicTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 90)
		lat, lon := latitudes(90).Draw(t, "lat3"), longitudes().Draw(t, "lon3")
		_, _, s := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
		_, _, a := GeodesicInverseDegrees(l[0], l[1], lat, lon)
		_, _, b := GeodesicInverseDegrees(lat, lon, l[2], l[3])
		require.LessOrEqual(t, s, a+b+metresThere)
	})
}

func TestLatitudesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := latitudes(90).Draw(t, "lat")
		phi := units.Angle(lat) * units.Degree
		require.InDelta(t, lat, LatitudeOfArc(MeridianArc(phi)).Degrees(), 100*degreesThere)
		require.InDelta(t, lat, LatitudeOfIsometric(IsometricLatitude(phi)).Degrees(), 100*degreesThere)
	})
}

func TestMercatorRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := units.At(latitudes(80).Draw(t, "lat0"), longitudes().Draw(t, "lon0"))
		sheet := NewMercator(origin, units.Angle(latitudes(80).Draw(t, "standard"))*units.Degree,
			rapid.Float64Range(1e4, 1e8).Draw(t, "scale"))
		lat, lon := latitudes(85).Draw(t, "lat"), longitudes().Draw(t, "lon")
		back := sheet.Inverse(sheet.Forward(units.At(lat, lon)))
		require.InDelta(t, lat, back.Lat.Degrees(), 100*degreesThere)
		require.InDelta(t, 0, math.Remainder(back.Lon.Degrees()-lon, 360), 1000*degreesThere)
		require.True(t, back.Lon >= -math.Pi && back.Lon < math.Pi)
	})
}

// TestRhumbLinesAreStraightOnTheSheet is what the projection is for.
func TestRhumbLinesAreStraightOnTheSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := units.At(latitudes(60).Draw(t, "lat"), longitudes().Draw(t, "lon"))
		course := units.Angle(rapid.Float64Range(0, 360).Draw(t, "course")) * units.Degree
		to, err := RhumbDirect(from, course, units.Length(rapid.Float64Range(1e3, 2e6).Draw(t, "s")))
		require.NoError(t, err)
		x, y := NewMercator(from, from.Lat, 1).Forward(to)
		sin, cos := math.Sincos(course.Radians())
		require.InDelta(t, 0, x.Metres()*cos-y.Metres()*sin, 10*metresThere)
	})
}

func TestGreatCircleRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t, 89)
		a, b := units.At(l[0], l[1]), units.At(l[2], l[3])
		arc, course := GreatCircle(a, b)
		p := GreatCirclePoint(a, course, arc)
		require.LessOrEqual(t, apart(p.Lat.Degrees(), p.Lon.Degrees(), l[2], l[3]), 1e-6)
		off, _ := CrossTrack(a, b, p)
		require.InDelta(t, 0, off.Radians()*math.Sin(arc.Radians()), 1e-12)
	})
}
