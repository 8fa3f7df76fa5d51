package geomag

import (
	"fmt"
	"math"
	"time"

	"stillair/integrator/units"
)

// WGS-84 (exact) and the reference radius of the model (exact).
const (
	semiMajor  = 6378137.0
	flattening = 1 / 298.257223563
	ecc2       = flattening * (2 - flattening) // e^2
	refRadius  = 6371200.0
)

// Model is the field of one moment. It does not change and may be shared.
type Model struct {
	year float64
	c    coefficients
}

// Field is the field at a place: intensities in nanotesla.
type Field struct {
	D units.Variation // E +
	I units.Angle     // down +

	H, X, Y, Z, F float64 // horizontal, north, east, down, total; nT
}

// New gives the field of a decimal year, 1900 to 2030.
func New(decimalYear float64) (*Model, error) {
	if !(decimalYear >= FirstYear && decimalYear <= LastYear) {
		return nil, fmt.Errorf("decimal year %v: want %g to %g", decimalYear, FirstYear, LastYear)
	}
	t, err := loadIGRF()
	if err != nil {
		return nil, err
	}
	return &Model{decimalYear, t.moment(decimalYear)}, nil
}

// Year returns the decimal year of the model.
func (m *Model) Year() float64 { return m.year }

// DecimalYear gives a moment as a year and the part of it that has passed, in
// universal time: noon of 2 July 1957 is 1957.5.
func DecimalYear(t time.Time) float64 {
	t = t.UTC()
	start := time.Date(t.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	end := time.Date(t.Year()+1, 1, 1, 0, 0, 0, 0, time.UTC)
	return float64(t.Year()) + t.Sub(start).Seconds()/end.Sub(start).Seconds()
}

// At evaluates the field at a geodetic position and a height above the
// ellipsoid. It allocates nothing.
func (m *Model) At(p units.Position, height units.Length) Field {
	x, y, z := m.vector(p, height)
	h := math.Hypot(x, y)
	return Field{
		D: units.Variation(math.Atan2(y, x)),
		I: units.Angle(math.Atan2(z, h)),
		H: h, X: x, Y: y, Z: z, F: math.Hypot(h, z),
	}
}

// vector gives the components north, east and down of the geodetic frame.
func (m *Model) vector(p units.Position, height units.Length) (x, y, z float64) {
	sinLat, cosLat := math.Sincos(float64(p.Lat))
	prime := semiMajor / math.Sqrt(1-ecc2*sinLat*sinLat)
	across := (prime + float64(height)) * cosLat
	along := (prime*(1-ecc2) + float64(height)) * sinLat
	r := math.Sqrt(across*across + along*along)
	cosTheta, sinTheta := along/r, across/r
	north, east, down := m.c.sum(refRadius/r, cosTheta, sinTheta, float64(p.Lon))

	sinTurn := cosTheta*cosLat - sinTheta*sinLat // sin(phi' - phi)
	cosTurn := sinTheta*cosLat + cosTheta*sinLat
	return north*cosTurn - down*sinTurn, east, north*sinTurn + down*cosTurn
}

// factors are the constants of the recursion in n for one pair n, m.
type factors struct{ a, b, root float64 }

// recursion holds A, B and sqrt(n^2 - m^2), in the order of index; seed the
// starting values Q_mm/sin^(m-1) theta.
var recursion, seed = recursionFactors()

func recursionFactors() (f [terms]factors, seed [maxDegree + 1]float64) {
	for m := range maxDegree + 1 {
		for n := m + 1; n <= maxDegree; n++ {
			root := math.Sqrt(float64(n*n - m*m))
			f[index(n, m)] = factors{
				a:    float64(2*n-1) / root,
				b:    math.Sqrt(float64((n-1)*(n-1)-m*m)) / root,
				root: root,
			}
		}
	}
	seed[1] = 1
	for m := 2; m <= maxDegree; m++ {
		seed[m] = seed[m-1] * math.Sqrt(float64(2*m-1)/float64(2*m))
	}
	return f, seed
}

// sum evaluates the three sums of the package comment; q is a/r.
func (c *coefficients) sum(q, cosTheta, sinTheta, lon float64) (north, east, down float64) {
	var rho [maxDegree + 1]float64
	rho[0] = q * q
	for n := 1; n <= maxDegree; n++ {
		rho[n] = rho[n-1] * q
	}
	north, down = c.zonal(&rho, cosTheta, sinTheta)
	sinLon, cosLon := math.Sincos(lon)
	sinM, cosM, power := sinLon, cosLon, 1.0
	for m := 1; m <= maxDegree; m++ {
		s := c.order(m, &rho, cosTheta, power*seed[m])
		north += cosM*s.north.g + sinM*s.north.h
		east += float64(m) * (sinM*s.east.g - cosM*s.east.h)
		down -= sinTheta * (cosM*s.down.g + sinM*s.down.h)
		sinM, cosM = sinM*cosLon+cosM*sinLon, cosM*cosLon-sinM*sinLon
		power *= sinTheta
	}
	return north, east, down
}

// zonal sums the terms of order 0, which do not depend on the longitude.
func (c *coefficients) zonal(rho *[maxDegree + 1]float64, cosTheta, sinTheta float64) (north, down float64) {
	p2, p1, d2, d1 := 0.0, 1.0, 0.0, 0.0 // P and dP/dtheta of n-2 and n-1
	for n := 1; n <= maxDegree; n++ {
		f := &recursion[n]
		p := f.a*cosTheta*p1 - f.b*p2
		d := f.a*(cosTheta*d1-sinTheta*p1) - f.b*d2
		g := rho[n] * c[n].g
		north += g * d
		down -= float64(n+1) * g * p
		p2, p1, d2, d1 = p1, p, d1, d
	}
	return north, down
}

// orderSums are the sums over n for one order, still without cos and sin of m
// lambda.
type orderSums struct{ north, east, down term }

// order sums the terms of one order m > 0 from n = m, where Q_mm is given.
func (c *coefficients) order(m int, rho *[maxDegree + 1]float64, cosTheta, qmm float64) (s orderSums) {
	q2, q1 := 0.0, 0.0 // Q of n-2 and n-1
	q := qmm
	base := index(m, m) - m
	for n := m; n <= maxDegree; n++ {
		f := &recursion[base+n]
		if n > m {
			q = f.a*cosTheta*q1 - f.b*q2
		}
		d := float64(n)*cosTheta*q - f.root*q1
		g, h := rho[n]*c[base+n].g, rho[n]*c[base+n].h
		s.north.g += g * d
		s.north.h += h * d
		s.east.g += g * q
		s.east.h += h * q
		s.down.g += float64(n+1) * g * q
		s.down.h += float64(n+1) * h * q
		q2, q1 = q1, q
	}
	return s
}
