package geodesy

import (
	"errors"
	"math"

	"stillair/integrator/units"
)

// Errors of the direct problems.
var (
	ErrPole    = errors.New("a rhumb line that is not a meridian never reaches the pole, and none goes beyond it")
	ErrInvalid = errors.New("not a position, a course or a distance")
)

// RhumbInverse finds the course and length of the rhumb line from a to b, the
// shorter way round.
func RhumbInverse(a, b units.Position) (course units.Angle, distance units.Length) {
	lat1, lon1 := degrees(a)
	lat2, lon2 := degrees(b)
	c, s := RhumbInverseDegrees(lat1, lon1, lat2, lon2)
	return units.Angle(c) * units.Degree, units.Length(s)
}

// RhumbDirect finds where a rhumb line from a ends. A negative distance runs
// backwards.
func RhumbDirect(a units.Position, course units.Angle, distance units.Length) (units.Position, error) {
	lat1, lon1 := degrees(a)
	lat2, lon2, err := RhumbDirectDegrees(lat1, lon1, course.Degrees(), distance.Metres())
	return units.At(lat2, lon2), err
}

// RhumbInverseDegrees is RhumbInverse in degrees and metres.
func RhumbInverseDegrees(lat1, lon1, lat2, lon2 float64) (course, metres float64) {
	if !valid(lat1, lon1) || !valid(lat2, lon2) {
		return math.NaN(), math.NaN()
	}
	dLon := lonDifference(lon1, lon2) * perDegree
	if math.Abs(lat1) == 90 || math.Abs(lat2) == 90 {
		dLon = 0
	}
	p := parallels(lat1, (lat2-lat1)*perDegree, lat2)
	if dLon == 0 { // not by the ratio below: psi may be infinite
		return meridianCourse(lat2 - lat1), math.Abs(p.arc)
	}
	return bearingDegrees(dLon, p.psi), math.Hypot(dLon, p.psi) * p.ratio
}

// meridianCourse is the course along a meridian; 0 when nothing is run.
func meridianCourse(dLat float64) float64 {
	if dLat < 0 {
		return 180
	}
	return 0
}

// RhumbDirectDegrees is RhumbDirect in degrees and metres.
func RhumbDirectDegrees(lat1, lon1, course, metres float64) (lat2, lon2 float64, err error) {
	if !valid(lat1, lon1) || !valid(0, course) || !valid(0, metres) {
		return math.NaN(), math.NaN(), ErrInvalid
	}
	if metres == 0 {
		return lat1, units.WrapHalfDegrees(lon1), nil
	}
	sinC, cosC := SinCosDegrees(course)
	dPhi, err := latitudeRun(lat1, metres*cosC/rectifyingRadius, sinC == 0)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	lat2 = math.Max(-90, math.Min(90, lat1+dPhi/perDegree))
	dLon := 0.0
	if run := metres * sinC; run != 0 {
		dLon = run / parallels(lat1, dPhi, lat2).ratio / perDegree
	}
	// the longitude is wrapped first, so that a run in it keeps its digits
	return lat2, units.WrapHalfDegrees(units.WrapHalfDegrees(lon1) + dLon), nil
}

// latitudeRun is the change of latitude, in radians, for a change dMu of
// rectifying latitude.
func latitudeRun(lat1, dMu float64, meridian bool) (dPhi float64, err error) {
	s, c := SinCosDegrees(lat1)
	mu := lat1*perDegree + toRectifying.sum(s, c)
	const ulps = 4e-16 // of the pole, granted to a meridian that ends there
	over := math.Abs(mu+dMu) - math.Pi/2
	if over > ulps || !meridian && (over > -ulps || math.Abs(lat1) == 90) {
		return 0, ErrPole
	}
	sMid, cMid := math.Sincos(mu + dMu/2)
	return dMu + toGeographic.difference(sMid, cMid, dMu), nil
}

// between holds the differences between two parallels.
type between struct {
	arc   float64 // of the meridian, m
	psi   float64 // of isometric latitude
	ratio float64 // arc/psi, m; its limit N cos phi if the parallels are one
}

// parallels works out the differences from lat1 to lat2 (degrees), dPhi
// (radians) apart. Nothing is lost when dPhi is small: with D = sin phi2 - sin
// phi1, the differences of asinh(tan phi) and of atanh(e sin phi) are
// asinh(D/(cos phi1 cos phi2)) and atanh(e D/(1 - e2 sin phi1 sin phi2)).
func parallels(lat1, dPhi, lat2 float64) between {
	s1, c1 := SinCosDegrees(lat1)
	if math.Abs(dPhi) < 1e-30 {
		return between{ratio: primeVertical(s1) * c1}
	}
	s2, c2 := SinCosDegrees(lat2)
	sMid, cMid := SinCosDegrees(lat1 + dPhi/(2*perDegree))
	d := 2 * math.Sin(dPhi/2) * cMid
	psi := math.Asinh(d/(c1*c2)) - eccentricity*math.Atanh(eccentricity*d/(1-e2*s1*s2))
	arc := rectifyingRadius * (dPhi + toRectifying.difference(sMid, cMid, dPhi))
	return between{arc, psi, arc / psi}
}
