package airplot

import (
	"math"

	"stillair/integrator/units"
)

// AltitudeAzimuth is where a body stands, seen from p: its computed altitude,
// geocentric and without refraction, and its azimuth in [0, 360). At a zenith
// the azimuth is that of no difference, 0.
func AltitudeAzimuth(p units.Position, gha, declination units.Angle) (altitude, azimuth units.Angle) {
	sPhi, cPhi := math.Sincos(p.Lat.Radians())
	sDec, cDec := math.Sincos(declination.Radians())
	sLHA, cLHA := math.Sincos((gha + p.Lon).Radians())
	east := -cDec * sLHA
	north := cPhi*sDec - sPhi*cDec*cLHA
	up := sPhi*sDec + cPhi*cDec*cLHA
	return units.Angle(math.Atan2(up, math.Hypot(east, north))),
		units.Wrap(units.Angle(math.Atan2(east, north)))
}

// Intercept compares an observed altitude with the one computed for an assumed
// position: the distance of the position line from there, + toward the body,
// and the body's azimuth.
func Intercept(assumed units.Position, gha, declination, observed units.Angle) (intercept units.Length, azimuth units.Angle) {
	hc, zn := AltitudeAzimuth(assumed, gha, declination)
	return units.Length((observed - hc).Minutes()) * units.NM, zn
}
