package geodesy

import (
	"math"

	"stillair/integrator/units"
)

const perDegree = math.Pi / 180

// SinCosDegrees gives sine and cosine of an angle in degrees, exact at quarter
// turns and as good at 89.999999 as at 0.000001.
func SinCosDegrees(d float64) (s, c float64) {
	d = math.Remainder(d, 360)
	quarter := math.Round(d / 90)
	s, c = math.Sincos((d - 90*quarter) * perDegree)
	switch int(quarter) & 3 {
	case 1:
		s, c = c, -s
	case 2:
		s, c = -s, -c
	case 3:
		s, c = -c, s
	}
	return s + 0, c + 0
}

// bearingDegrees is the direction of a vector in [0, 360).
func bearingDegrees(east, north float64) float64 {
	return units.WrapDegrees(math.Atan2(east, north) / perDegree)
}

// lonDifference is the change of longitude from lon1 to lon2 the shorter way,
// in [-180, 180]; half round has the sign of the plain difference.
func lonDifference(lon1, lon2 float64) float64 {
	d := math.Remainder(lon2, 360) - math.Remainder(lon1, 360)
	if d < -180 || d > 180 {
		d = math.Remainder(d, 360)
	}
	if math.Abs(d) == 180 {
		d = math.Copysign(180, lon2-lon1)
	}
	return d
}

// valid says whether figures in degrees are a position.
func valid(lat, lon float64) bool {
	return math.Abs(lat) <= 90 && !math.IsInf(lon, 0) && !math.IsNaN(lon)
}

// degrees gives a position in degrees. Rounding may have carried a latitude of
// 90 degrees in radians over the pole by an ulp.
func degrees(p units.Position) (lat, lon float64) {
	lat = p.Lat.Degrees()
	if size := math.Abs(lat); size > 90 && size < 90+1e-13 {
		lat = math.Copysign(90, lat)
	}
	return lat, p.Lon.Degrees()
}

func squared(x float64) float64 { return x * x }
