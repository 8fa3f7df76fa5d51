package airplot

import (
	"math"

	"stillair/integrator/units"
)

// TrueBearing is the true bearing of a station from the aircraft: true heading,
// relative bearing (clockwise from the nose) and the correction for quadrantal
// error, which is the error reversed.
func TrueBearing(heading units.TrueHeading, relative, correction units.Angle) units.Angle {
	return units.Wrap(units.Angle(heading) + relative + correction)
}

// Reciprocal is the opposite direction.
func Reciprocal(a units.Angle) units.Angle { return units.Wrap(a + math.Pi) }

// Convergency is the angle between the meridians of two places along the
// geodesic between them, by the rule: difference of longitude times the sine of
// the mean latitude; + where the great circle turns right on its way from a to
// b.
func Convergency(a, b units.Position) units.Angle {
	return units.WrapHalf(b.Lon-a.Lon) * units.Angle(math.Sin(float64(a.Lat+b.Lat)/2))
}

// ConversionAngle is half the convergency: what is added to a great-circle
// bearing taken at a, of b, to have the rhumb line, always toward the equator.
// A bearing taken at the station is corrected there: exchange the two. The rule
// errs by 0.01 degree at 180 NM, 0.1 at 400 to 900 NM, up to 0.7 beyond 1000 NM
// where the latitudes differ much, and wholly where the two straddle the
// equator (navigation note, section 3).
func ConversionAngle(a, b units.Position) units.Angle { return Convergency(a, b) / 2 }

// HalfConvergency is half the convergency as it is on a sphere:
// tan c = tan(dlong/2) sin(mean lat)/cos(dlat/2).
func HalfConvergency(a, b units.Position) units.Angle {
	half := float64(units.WrapHalf(b.Lon-a.Lon)) / 2
	mean, dLat := float64(a.Lat+b.Lat)/2, float64(b.Lat-a.Lat)
	return units.Angle(math.Atan2(math.Sin(half)*math.Sin(mean), math.Cos(half)*math.Cos(dLat/2)))
}

// MercatorBearing is the bearing to lay off on a Mercator chart for a
// great-circle bearing of a station taken in the aircraft, by the rule, with
// the aircraft at its DR position.
func MercatorBearing(bearing units.Angle, dr, station units.Position) units.Angle {
	return units.Wrap(bearing + ConversionAngle(dr, station))
}

// ConversionAngleOf is the conversion angle from the great-circle bearings of
// each other at two places, with its sign at the first one.
func ConversionAngleOf(atFirst, atSecond units.Angle) units.Angle {
	return units.WrapHalf(Reciprocal(atSecond)-atFirst) / 2
}
