package geodesy

import (
	"math"

	"stillair/integrator/units"
)

// Mercator is a plotting sheet of WGS-84 on the Mercator projection: natural
// scale 1:Denominator at the standard latitude. Lengths are paper lengths,
// from the origin, x to the east and y to the north.
//
//	x = R (lambda - lambda0)   y = R (psi - psi0)   R = N cos(standard)/Denominator
type Mercator struct {
	origin   units.Position
	psi0     float64
	standard units.Angle
	radius   float64 // R, metres of paper
}

// NewMercator makes a sheet. The standard latitude must be short of the poles
// and the denominator above 0, otherwise every place on it is NaN.
func NewMercator(origin units.Position, standard units.Angle, denominator float64) Mercator {
	radius := parallelRadius(standard) / denominator
	if !(radius > 0) || math.IsInf(radius, 0) || math.Abs(standard.Radians()) >= math.Pi/2 {
		radius = math.NaN()
	}
	return Mercator{origin, IsometricLatitude(origin.Lat), standard, radius}
}

// parallelRadius is the radius of a parallel of latitude, in metres.
func parallelRadius(lat units.Angle) float64 {
	s, c := math.Sincos(lat.Radians())
	return primeVertical(s) * c
}

// Forward gives the place of a position on the paper, by the shorter way round
// from the origin. The poles are at infinity.
func (m Mercator) Forward(p units.Position) (x, y units.Length) {
	dLon := units.WrapHalf(p.Lon - m.origin.Lon).Radians()
	return units.Length(m.radius * dLon), units.Length(m.radius * (IsometricLatitude(p.Lat) - m.psi0))
}

// Inverse gives the position of a place on the paper, its longitude in
// [-180, 180).
func (m Mercator) Inverse(x, y units.Length) units.Position {
	return units.Position{
		Lat: LatitudeOfIsometric(m.psi0 + y.Metres()/m.radius),
		Lon: units.WrapHalf(m.origin.Lon + units.Angle(x.Metres()/m.radius)),
	}
}

// ScaleFactor is the scale at a latitude relative to that at the standard
// latitude; infinite at the poles.
func (m Mercator) ScaleFactor(lat units.Angle) float64 {
	if math.Abs(lat.Radians()) >= math.Pi/2 {
		return math.Inf(1)
	}
	return parallelRadius(m.standard) / parallelRadius(lat)
}

// PaperLength is the length on paper of a short line at a latitude.
func (m Mercator) PaperLength(lat units.Angle, ground units.Length) units.Length {
	return units.Length(ground.Metres() * m.radius / parallelRadius(lat))
}

// Degree is the paper length of a degree of longitude, the same everywhere.
func (m Mercator) Degree() units.Length { return units.Length(m.radius * perDegree) }
