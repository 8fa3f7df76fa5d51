package geodesy

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

const (
	// quarter of the meridian of WGS-84, m: GeographicLib 2.1.2 (physics note 4.1)
	quarterMeridian = 10001965.729313
	// half of the equator: pi a, a defining
	halfEquator = math.Pi * 6378137
)

func TestRhumbInverseEdges(t *testing.T) {
	for name, c := range map[string]struct {
		from         endpoints
		course, want float64
	}{
		"coincident":             {endpoints{50, 5, 50, 5}, 0, 0},
		"coincident, a turn off": {endpoints{50, 5, 50, 365}, 0, 0},
		"north pole twice":       {endpoints{90, 0, 90, 50}, 0, 0},
		"to the north pole":      {endpoints{0, 0, 90, 30}, 0, quarterMeridian},
		"from the north pole":    {endpoints{90, 30, 0, -77}, 180, quarterMeridian},
		"to the south pole":      {endpoints{0, 10, -90, 30}, 180, quarterMeridian},
		"pole to pole":           {endpoints{-90, 10, 90, 30}, 0, 2 * quarterMeridian},
		"half round eastward":    {endpoints{0, 0, 0, 180}, 90, halfEquator},
		"half round westward":    {endpoints{0, 180, 0, 0}, 270, halfEquator},
		"half round, from -180":  {endpoints{0, -180, 0, 0}, 90, halfEquator},
		"over the date line":     {endpoints{0, 179, 0, -179}, 90, halfEquator / 90},
		"longitudes of any size": {endpoints{0, 360 + 179, 0, -720 + 181}, 90, halfEquator / 90},
		"minus zero":             {endpoints{math.Copysign(0, -1), 0, 0, 0}, 0, 0},
		"along a meridian":       {endpoints{0, 77, 90, 77}, 0, quarterMeridian},
	} {
		course, s := RhumbInverseDegrees(c.from[0], c.from[1], c.from[2], c.from[3])
		assert.InDelta(t, c.course, course, 1e-12, name)
		assert.InDelta(t, c.want, s, 1e-6, name)
	}
}

func TestRhumbDirectEdges(t *testing.T) {
	for name, c := range map[string]struct{ lat, lon, course, metres, lat2, lon2 float64 }{
		"nothing run":           {50, 190, 33, 0, 50, -170},
		"nothing from the pole": {90, 190, 33, 0, 90, -170},
		"east on a parallel":    {50, 179, 90, 1e6, 50, -167.0521725}, // RhumbSolve
		"round the equator":     {0, 10, 90, 2 * halfEquator, 0, 10},
		"to the date line":      {0, 0, 90, halfEquator, 0, -180},
		"up to the pole":        {0, 7, 0, quarterMeridian - 1e-6, 90, 7},
		"down from the pole":    {90, 7, 180, quarterMeridian, 0, 7},
		"up from the south":     {-90, 7, 0, quarterMeridian, 0, 7},
		"backwards":             {0, 7, 180, -quarterMeridian + 1e-6, 90, 7},
		"a course below 0":      {0, 0, -270, halfEquator / 2, 0, 90},
	} {
		lat, lon, err := RhumbDirectDegrees(c.lat, c.lon, c.course, c.metres)
		assert.NoError(t, err, name)
		assert.InDelta(t, c.lat2, lat, 1e-10, name)
		assert.InDelta(t, 0, math.Remainder(lon-c.lon2, 360), 1e-6, name)
		assert.True(t, lon >= -180 && lon < 180, name)
	}
}

func TestRhumbDirectKeepsTheParallelExactly(t *testing.T) {
	for lat := -89.0; lat <= 89; lat += 0.7 {
		for _, course := range []float64{90, 270, -90} {
			got, _, err := RhumbDirectDegrees(lat, 11, course, 1e5)
			assert.NoError(t, err)
			assert.Equal(t, lat, got)
		}
	}
}

func TestRhumbDirectRefusals(t *testing.T) {
	for name, c := range map[string][4]float64{
		"over the pole":           {80, 0, 0, 2e6},
		"over it on a slant":      {80, 0, 60, 5e6},
		"over the south pole":     {-80, 0, 180, 2e6},
		"over it backwards":       {80, 0, 180, -2e6},
		"round the pole itself":   {90, 0, 90, 1},
		"leaving it on a slant":   {90, 0, 135, 1000},
		"north from the pole":     {90, 0, 0, 1},
		"south from the other":    {-90, 0, 180, 1},
		"just over, on a slant":   {89, 0, 60, 2 * 111694},
		"a distance out of reach": {0, 0, 10, 1e300},
	} {
		lat, lon, err := RhumbDirectDegrees(c[0], c[1], c[2], c[3])
		assert.ErrorIs(t, err, ErrPole, name)
		assert.True(t, math.IsNaN(lat) && math.IsNaN(lon), name)
	}
}

func TestInvalidArgumentsGiveNaN(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range [][2]float64{{nan, 0}, {0, nan}, {inf, 0}, {0, inf}, {0, -inf}, {90.0001, 0}, {-91, 0}} {
		for _, l := range []endpoints{{bad[0], bad[1], 1, 1}, {1, 1, bad[0], bad[1]}} {
			c, s := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
			assert.True(t, math.IsNaN(c) && math.IsNaN(s), l)
			z1, z2, s := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
			assert.True(t, math.IsNaN(z1) && math.IsNaN(z2) && math.IsNaN(s), l)
		}
		_, _, err := RhumbDirectDegrees(bad[0], bad[1], 10, 10)
		assert.ErrorIs(t, err, ErrInvalid, bad)
		lat, _, _ := GeodesicDirectDegrees(bad[0], bad[1], 10, 10)
		assert.True(t, math.IsNaN(lat), bad)
	}
	for _, bad := range []float64{nan, inf, -inf} {
		_, _, err := RhumbDirectDegrees(1, 1, bad, 10)
		assert.ErrorIs(t, err, ErrInvalid)
		_, _, err = RhumbDirectDegrees(1, 1, 10, bad)
		assert.ErrorIs(t, err, ErrInvalid)
		lat, _, _ := GeodesicDirectDegrees(1, 1, bad, 10)
		assert.True(t, math.IsNaN(lat))
		lat, _, _ = GeodesicDirectDegrees(1, 1, 10, bad)
		assert.True(t, math.IsNaN(lat))
	}
	assert.True(t, math.IsNaN(MeridionalParts(91*units.Degree)))
	assert.True(t, math.IsNaN(LatitudeOfArc(10002000).Radians()))
	assert.True(t, math.IsNaN(LatitudeOfArc(units.Length(nan)).Radians()))
}

// The expected lengths are GeodSolve's (GeographicLib 2.1.2), to 1e-9 m, the
// azimuths too, except where any azimuth is as good.
func TestGeodesicEdges(t *testing.T) {
	any := math.NaN()
	for name, c := range map[string]struct {
		l      endpoints
		z1, z2 float64
		metres float64
	}{
		"coincident":               {endpoints{50, 5, 50, 5}, any, any, 0},
		"coincident at the pole":   {endpoints{90, 0, 90, 50}, any, any, 0},
		"antipodes on the equator": {endpoints{0, 0, 0, 180}, 0, 180, 20003931.458625447},
		"antipodes the other way":  {endpoints{0, 180, 0, 0}, 0, 180, 20003931.458625447},
		"antipodes":                {endpoints{10, 0, -10, 180}, 0, 180, 20003931.458625447},
		"pole to pole":             {endpoints{90, 0, -90, 30}, 150, 180, 20003931.458625447},
		"nearly half the equator":  {endpoints{0, 0, 0, 179.5}, 55.96649514015864, 124.03350485984137, 19980861.908890963},
		"more of it":               {endpoints{0, 0, 0, 179.4}, 83.82629047240657, 96.17370952759343, 19970715.516595997},
		"nearly antipodal":         {endpoints{0, 0, 0.5, 179.5}, 25.67187286829188, 154.32708546994161, 19936288.578965314},
		"opposite parallels":       {endpoints{30, 0, -30, 179.9}, 11.03029653263397, 168.96970346736603, 20003008.421509411},
		"from the pole":            {endpoints{90, 10, 50, 20}, 170, 180, 4461118.687628573},
		"to the pole":              {endpoints{50, 20, 90, 10}, 0, 350, 4461118.687628573},
		"over the pole":            {endpoints{30, 0, 80, 180}, 0, 180, 7798678.188748191},
		"down a meridian":          {endpoints{40, 0, 30, 0}, 180, 180, 1109415.632410133},
		"up a meridian":            {endpoints{30, 0, 40, 0}, 0, 0, 1109415.632410133},
	} {
		z1, z2, s := GeodesicInverseDegrees(c.l[0], c.l[1], c.l[2], c.l[3])
		assert.InDelta(t, c.metres, s, 1e-8, name)
		if !math.IsNaN(c.z1) {
			assertBearing(t, c.z1, z1, 1e-9, name)
			assertBearing(t, c.z2, z2, 1e-9, name)
		}
		assert.True(t, z1 >= 0 && z1 < 360 && z2 >= 0 && z2 < 360, name)
	}
}

func TestLatitudeTablesAtTheEnds(t *testing.T) {
	pole := 90 * units.Degree
	assert.InDelta(t, quarterMeridian, MeridianArc(pole).Metres(), 1e-6)
	assert.InDelta(t, 90, LatitudeOfArc(quarterMeridian-1e-6).Degrees(), 1e-10)
	assert.True(t, math.IsInf(IsometricLatitude(pole), 1))
	assert.True(t, math.IsInf(MeridionalParts(-pole), -1))
	assert.Equal(t, pole, LatitudeOfIsometric(math.Inf(1)))
	assert.Equal(t, -pole, LatitudeOfIsometric(-1e6))
	assert.Zero(t, MeridianArc(0))
	assert.Zero(t, IsometricLatitude(0))
	// at the pole both radii are a/sqrt(1-e2) = a^2/b, at the equator M = b^2/a
	a, b := 6378137.0, 6356752.314245179
	assert.InDelta(t, a*a/b, MeridianRadius(pole).Metres(), 1e-6)
	assert.InDelta(t, a*a/b, PrimeVerticalRadius(-pole).Metres(), 1e-6)
	assert.InDelta(t, b*b/a, MeridianRadius(0).Metres(), 1e-6)
	assert.InDelta(t, a, PrimeVerticalRadius(0).Metres(), 1e-9)
}

func TestSheetsThatCannotBe(t *testing.T) {
	for _, m := range []Mercator{
		NewMercator(units.At(0, 0), 90*units.Degree, 1e6),
		NewMercator(units.At(0, 0), 50*units.Degree, 0),
		NewMercator(units.At(0, 0), 50*units.Degree, -5),
		NewMercator(units.At(0, 0), units.Angle(math.NaN()), 1e6),
	} {
		x, y := m.Forward(units.At(10, 10))
		assert.True(t, math.IsNaN(x.Metres()) && math.IsNaN(y.Metres()))
	}
	_, y := NewMercator(units.At(0, 0), 0, 1e6).Forward(units.At(90, 0))
	assert.True(t, math.IsInf(y.Metres(), 1), "the pole is at infinity")
}

func TestGreatCircleEdges(t *testing.T) {
	arc, course := GreatCircle(units.At(10, 20), units.At(10, 20))
	assert.InDelta(t, 0, arc.Degrees(), 1e-12)
	assert.False(t, math.IsNaN(course.Degrees()))
	arc, _ = GreatCircle(units.At(10, 20), units.At(-10, -160))
	assert.InDelta(t, 180, arc.Degrees(), 1e-12)
	arc, course = GreatCircle(units.At(0, 179), units.At(0, -179))
	assert.InDelta(t, 120, arc.Minutes(), 1e-9)
	assert.InDelta(t, 90, course.Degrees(), 1e-12)
	arc, course = GreatCircle(units.At(90, 0), units.At(0, 30))
	assert.InDelta(t, 90, arc.Degrees(), 1e-12)
	assert.InDelta(t, 150, course.Degrees(), 1e-12)
	off, along := CrossTrack(units.At(0, 0), units.At(0, 10), units.At(-1, 5))
	assert.InDelta(t, 60, off.Minutes(), 1e-9, "south of an eastward line is right")
	assert.InDelta(t, 300, along.Minutes(), 1e-9)
}
