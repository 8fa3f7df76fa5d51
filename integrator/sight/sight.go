// Package sight is the navigator's arithmetic of a sight: where a body should
// stand in the sky of a place, and what to do to an observed altitude before
// the two are compared. It knows no truth and no almanac: the place of the body
// (GHA and declination) is handed in.
//
//	H    altitude above the horizon of the place     Hc computed, Ho observed
//	Zn   azimuth, clockwise from true north, [0, 360)
//	GHA  Greenwich hour angle, westward +            LHA = GHA + longitude (E +)
//	d    declination, N +
//	a    intercept Ho - Hc, one minute of arc to the nautical mile, toward +
//
// The place is taken on the sphere of the sky: its latitude is the direction of
// the vertical, which is the geodetic latitude but for deflections of a few
// seconds of arc.
package sight

import (
	"math"

	"stillair/integrator/units"
)

// Reduce gives the altitude and the azimuth, from a place, of a body at a
// Greenwich hour angle and declination:
//
//	sin Hc = sin phi sin d + cos phi cos d cos LHA
//	tan Zn = -cos d sin LHA / (sin d cos phi - cos d cos LHA sin phi)
//
// The altitude is found from all three components, so that it keeps its digits
// near the zenith, where the azimuth has no meaning. At a pole the azimuth is
// that of a place of the same longitude beside it.
func Reduce(at units.Position, gha, declination units.Angle) (altitude, azimuth units.Angle) {
	sinLat, cosLat := math.Sincos(at.Lat.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	sinLHA, cosLHA := math.Sincos(gha.Radians() + at.Lon.Radians())
	up := float64(sinLat*sinDec) + float64(cosLat*cosDec*cosLHA)
	north := float64(sinDec*cosLat) - float64(cosDec*cosLHA*sinLat)
	east := -float64(cosDec * sinLHA)
	return units.Angle(math.Atan2(up, math.Hypot(north, east))),
		units.Wrap(units.Angle(math.Atan2(east, north)))
}

// Toward is the inverse of Reduce: the Greenwich hour angle, in [0, 360), and
// the declination of what stands at an altitude and azimuth from a place.
func Toward(at units.Position, altitude, azimuth units.Angle) (gha, declination units.Angle) {
	// The figure is symmetrical: pole and zenith change places, hour angle and
	// azimuth both open from the meridian, one westward, the other eastward.
	declination, lha := Reduce(units.Position{Lat: at.Lat, Lon: 0}, -azimuth, altitude)
	return units.Wrap(-lha - at.Lon), declination
}

// Intercept is how far the position line lies from the place the altitude was
// computed for, along the azimuth, toward the body +: one nautical mile for
// each minute of arc.
func Intercept(observed, computed units.Angle) units.Length {
	return units.Length((observed - computed).Minutes()) * units.NM
}

// ParallaxInAltitude is how much lower a body stands from the surface than from
// the centre of a round earth; horizontal is its horizontal parallax, altitude
// the one from the centre. It is 0.15' cos H for the Sun and up to a degree for
// the Moon; the flattening of the earth, up to 0.2' for the Moon, is left out.
func ParallaxInAltitude(horizontal, altitude units.Angle) units.Angle {
	sinH, cosH := math.Sincos(altitude.Radians())
	sinP := math.Sin(horizontal.Radians())
	return altitude - units.Angle(math.Atan2(sinH-sinP, cosH))
}
