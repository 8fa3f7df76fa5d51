package sky

import (
	"math"

	"stillair/integrator/units"
)

// vector is a direction or a place in space; matrix turns one by its rows.
type (
	vector [3]float64
	matrix [3]vector
)

func (v vector) dot(w vector) float64 {
	return float64(v[0]*w[0]) + float64(v[1]*w[1]) + float64(v[2]*w[2])
}

// plus is v + k w.
func (v vector) plus(k float64, w vector) vector {
	return vector{v[0] + float64(k*w[0]), v[1] + float64(k*w[1]), v[2] + float64(k*w[2])}
}

// unit is v drawn to length 1.
func (v vector) unit() vector {
	n := 1 / math.Sqrt(v.dot(v))
	return vector{v[0] * n, v[1] * n, v[2] * n}
}

// spherical is the direction at a longitude and latitude (or RA and dec).
func spherical(lon, lat units.Angle) vector {
	sinLon, cosLon := math.Sincos(lon.Radians())
	sinLat, cosLat := math.Sincos(lat.Radians())
	return vector{cosLat * cosLon, cosLat * sinLon, sinLat}
}

// angles is the inverse of spherical, the longitude in [0, 2 pi).
func (v vector) angles() (lon, lat units.Angle) {
	return units.Wrap(units.Angle(math.Atan2(v[1], v[0]))),
		units.Angle(math.Atan2(v[2], math.Hypot(v[0], v[1])))
}

func (m matrix) turn(v vector) vector {
	return vector{m[0].dot(v), m[1].dot(v), m[2].dot(v)}
}

// after is the matrix that turns by n first and then by m.
func (m matrix) after(n matrix) (p matrix) {
	for i := range p {
		for j := range p[i] {
			p[i][j] = m[i].dot(vector{n[0][j], n[1][j], n[2][j]})
		}
	}
	return p
}

// aboutX, aboutY and aboutZ turn the axes by an angle, counterclockwise as seen
// from the end of the axis named.
func aboutX(a units.Angle) matrix {
	s, c := math.Sincos(a.Radians())
	return matrix{{1, 0, 0}, {0, c, s}, {0, -s, c}}
}

func aboutY(a units.Angle) matrix {
	s, c := math.Sincos(a.Radians())
	return matrix{{c, 0, -s}, {0, 1, 0}, {s, 0, c}}
}

func aboutZ(a units.Angle) matrix {
	s, c := math.Sincos(a.Radians())
	return matrix{{c, s, 0}, {-s, c, 0}, {0, 0, 1}}
}

// precession turns from the mean equator and equinox of J2000.0 to those of
// date by the three angles of IAU 1976 (reference note on astronomy, 5.3).
func precession(t float64) matrix {
	zeta := units.Angle(t*(2306.2181+t*(0.30188+t*0.017998))) * arcSecond
	z := units.Angle(t*(2306.2181+t*(1.09468+t*0.018203))) * arcSecond
	theta := units.Angle(t*(2004.3109-t*(0.42665+t*0.041833))) * arcSecond
	return aboutZ(-z).after(aboutY(theta)).after(aboutZ(-zeta))
}

// toTrue turns from the mean equator and equinox of date to the true ones.
func toTrue(eps, dpsi, deps units.Angle) matrix {
	return aboutX(-eps - deps).after(aboutZ(-dpsi)).after(aboutX(eps))
}
