package sky

import (
	"math"

	"stillair/integrator/units"
)

// nutationTerm is a term of IAU 1980: multiples of the arguments D, M, M', F and
// the node; coefficients of the sine in longitude and of the cosine in
// obliquity in 0.0001", with their change in a century.
type nutationTerm struct {
	d, m, mm, f, node              int8
	psi, psiChange, eps, epsChange float64
}

// nutationTerms are those of 0.0003" and more, as 'Astronomical Algorithms'
// table 22.A prints them (from memory).
var nutationTerms = [...]nutationTerm{
	{0, 0, 0, 0, 1, -171996, -174.2, 92025, 8.9}, {-2, 0, 0, 2, 2, -13187, -1.6, 5736, -3.1},
	{0, 0, 0, 2, 2, -2274, -0.2, 977, -0.5}, {0, 0, 0, 0, 2, 2062, 0.2, -895, 0.5},
	{0, 1, 0, 0, 0, 1426, -3.4, 54, -0.1}, {0, 0, 1, 0, 0, 712, 0.1, -7, 0},
	{-2, 1, 0, 2, 2, -517, 1.2, 224, -0.6}, {0, 0, 0, 2, 1, -386, -0.4, 200, 0},
	{0, 0, 1, 2, 2, -301, 0, 129, -0.1}, {-2, -1, 0, 2, 2, 217, -0.5, -95, 0.3},
	{-2, 0, 1, 0, 0, -158, 0, 0, 0}, {-2, 0, 0, 2, 1, 129, 0.1, -70, 0},
	{0, 0, -1, 2, 2, 123, 0, -53, 0}, {2, 0, 0, 0, 0, 63, 0, 0, 0},
	{0, 0, 1, 0, 1, 63, 0.1, -33, 0}, {2, 0, -1, 2, 2, -59, 0, 26, 0},
	{0, 0, -1, 0, 1, -58, -0.1, 32, 0}, {0, 0, 1, 2, 1, -51, 0, 27, 0},
	{-2, 0, 2, 0, 0, 48, 0, 0, 0}, {0, 0, -2, 2, 1, 46, 0, -24, 0},
	{2, 0, 0, 2, 2, -38, 0, 16, 0}, {0, 0, 2, 2, 2, -31, 0, 13, 0},
	{0, 0, 2, 0, 0, 29, 0, 0, 0}, {-2, 0, 1, 2, 2, 29, 0, -12, 0},
	{0, 0, 0, 2, 0, 26, 0, 0, 0}, {-2, 0, 0, 2, 0, -22, 0, 0, 0},
	{0, 0, -1, 2, 1, 21, 0, -10, 0}, {0, 2, 0, 0, 0, 17, -0.1, 0, 0},
	{2, 0, -1, 0, 1, 16, 0, -8, 0}, {-2, 2, 0, 2, 2, -16, 0.1, 7, 0},
	{0, 1, 0, 0, 1, -15, 0, 9, 0}, {-2, 0, 1, 0, 1, -13, 0, 7, 0},
	{0, -1, 0, 0, 1, -12, 0, 6, 0}, {0, 0, 2, -2, 0, 11, 0, 0, 0},
	{2, 0, -1, 2, 1, -10, 0, 5, 0}, {2, 0, 1, 2, 2, -8, 0, 3, 0},
	{0, 1, 0, 2, 2, 7, 0, -3, 0}, {-2, 1, 1, 0, 0, -7, 0, 0, 0},
	{0, -1, 0, 2, 2, -7, 0, 3, 0}, {2, 0, 0, 2, 1, -7, 0, 3, 0},
	{2, 0, 1, 0, 0, 6, 0, 0, 0}, {-2, 0, 2, 2, 2, 6, 0, -3, 0},
	{-2, 0, 1, 2, 1, 6, 0, -3, 0}, {2, 0, -2, 0, 1, -6, 0, 3, 0},
	{2, 0, 0, 0, 1, -6, 0, 3, 0}, {0, -1, 1, 0, 0, 5, 0, 0, 0},
	{-2, -1, 0, 2, 1, -5, 0, 3, 0}, {-2, 0, 0, 0, 1, -5, 0, 3, 0},
	{0, 0, 2, 2, 1, -5, 0, 3, 0}, {-2, 0, 2, 0, 1, 4, 0, 0, 0},
	{-2, 1, 0, 2, 1, 4, 0, 0, 0}, {0, 0, 1, -2, 0, 4, 0, 0, 0},
	{-1, 0, 1, 0, 0, -4, 0, 0, 0}, {-2, 1, 0, 0, 0, -4, 0, 0, 0},
	{1, 0, 0, 0, 0, -4, 0, 0, 0}, {0, 0, 1, 2, 0, 3, 0, 0, 0},
	{0, 0, -2, 2, 2, -3, 0, 0, 0}, {-1, -1, 1, 0, 0, -3, 0, 0, 0},
	{0, 1, 1, 0, 0, -3, 0, 0, 0}, {0, -1, 1, 2, 2, -3, 0, 0, 0},
	{2, -1, -1, 2, 2, -3, 0, 0, 0}, {0, 0, 3, 2, 2, -3, 0, 0, 0},
	{2, -1, 0, 2, 2, -3, 0, 0, 0},
}

// degrees brings a polynomial's value in degrees into a turn, in radians.
func degrees(d float64) float64 { return math.Mod(d, 360) * (math.Pi / 180) }

// nutation gives dpsi and deps for T (IAU 1980; its arguments from memory).
func nutation(t float64) (dpsi, deps units.Angle) {
	t2, t3 := t*t, t*t*t
	d := degrees(297.85036 + 445267.111480*t - 0.0019142*t2 + t3/189474)
	m := degrees(357.52772 + 35999.050340*t - 0.0001603*t2 - t3/300000)
	mm := degrees(134.96298 + 477198.867398*t + 0.0086972*t2 + t3/56250)
	f := degrees(93.27191 + 483202.017538*t - 0.0036825*t2 + t3/327270)
	node := degrees(125.04452 - 1934.136261*t + 0.0020708*t2 + t3/450000)
	var psi, eps float64
	for i := range nutationTerms {
		n := &nutationTerms[i]
		s, c := math.Sincos(float64(n.d)*d + float64(n.m)*m + float64(n.mm)*mm +
			float64(n.f)*f + float64(n.node)*node)
		psi += (n.psi + n.psiChange*t) * s
		eps += (n.eps + n.epsChange*t) * c
	}
	return units.Angle(psi*1e-4) * arcSecond, units.Angle(eps*1e-4) * arcSecond
}

// obliquity is the mean obliquity of the ecliptic (IAU 1980, from memory).
func obliquity(t float64) units.Angle {
	return units.Angle(84381.448-46.8150*t-0.00059*t*t+0.001813*t*t*t) * arcSecond
}
