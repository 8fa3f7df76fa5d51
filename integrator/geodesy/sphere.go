package geodesy

import (
	"math"

	"stillair/integrator/units"
)

// The sphere of these functions is the one of most printed problems: an arc of
// one minute is one nautical mile, so distances are angles (Angle.Minutes is
// the distance in NM).

// GreatCircle finds the arc and the initial course from a to b on a sphere.
// Between coincident points both are 0; between antipodes any course will do
// and the one given is along the meridian.
func GreatCircle(a, b units.Position) (arc, course units.Angle) {
	s1, c1 := math.Sincos(a.Lat.Radians())
	s2, c2 := math.Sincos(b.Lat.Radians())
	sLon, cLon := math.Sincos((b.Lon - a.Lon).Radians())
	east, north := c2*sLon, c1*s2-s1*c2*cLon
	arc = units.Angle(math.Atan2(math.Hypot(east, north), s1*s2+c1*c2*cLon))
	return arc, units.Wrap(units.Angle(math.Atan2(east, north)))
}

// GreatCirclePoint is the point of the great circle from a at an initial
// course, an arc away.
func GreatCirclePoint(a units.Position, course, arc units.Angle) units.Position {
	s1, c1 := math.Sincos(a.Lat.Radians())
	sD, cD := math.Sincos(arc.Radians())
	sC, cC := math.Sincos(course.Radians())
	toward, across := c1*cD-s1*sD*cC, sD*sC // in the plane of the equator, from a's meridian
	lat := math.Atan2(s1*cD+c1*sD*cC, math.Hypot(toward, across))
	lon := a.Lon.Radians() + math.Atan2(across, toward)
	return units.Position{Lat: units.Angle(lat), Lon: units.WrapHalf(units.Angle(lon))}
}

// CrossTrack finds how far p is off the great circle from a through b (right
// +), and how far along it from a the foot of the perpendicular lies.
func CrossTrack(a, b, p units.Position) (off, along units.Angle) {
	_, course := GreatCircle(a, b)
	arc, toP := GreatCircle(a, p)
	sD, cD := math.Sincos(arc.Radians())
	sA, cA := math.Sincos((toP - course).Radians())
	off = units.Angle(math.Atan2(sD*sA, math.Hypot(cD, sD*cA)))
	return off, units.Angle(math.Atan2(sD*cA, cD))
}
