package units

import (
	"math"
	"strings"
)

// tenthsOfMinute rounds a latitude to tenths of a minute.
func tenthsOfMinute(a Angle) (int64, bool) { return toUnits(a.Minutes(), 1) }

// tenthsOfMinuteLon rounds a longitude of any size to tenths of a minute above
// -180 and up to +180 degrees: the 180th meridian is E, from whichever side the
// value came, so that one line on the earth has one name.
func tenthsOfMinuteLon(a Angle) (int64, bool) {
	n, ok := tenthsOfMinute(WrapHalf(a))
	if n <= -180*600 {
		n += 360 * 600
	}
	return n, ok
}

// degreesMinutes writes a count of tenths of a minute as "46 53.0 S".
func degreesMinutes(n int64, ok bool, width int, letters string) string {
	if !ok {
		return Blank
	}
	letter := letters[:1]
	if n < 0 {
		n, letter = -n, letters[1:]
	}
	return pad(n/600, width) + " " + fixed(n%600, 1, 2) + " " + letter
}

// LatitudeText writes a latitude, degrees in two figures and minutes with a
// tenth: "46 53.0 S". The equator is N.
func LatitudeText(lat Angle) string {
	n, ok := tenthsOfMinute(lat)
	return degreesMinutes(n, ok, 2, "NS")
}

// LongitudeText writes a longitude of any size, degrees in three figures and
// minutes with a tenth: "178 24.8 E". The meridians 0 and 180 are E.
func LongitudeText(lon Angle) string {
	n, ok := tenthsOfMinuteLon(lon)
	return degreesMinutes(n, ok, 3, "EW")
}

// String writes "46 53.0 S 178 24.8 E".
func (p Position) String() string { return LatitudeText(p.Lat) + " " + LongitudeText(p.Lon) }

// Printed is the position that is read where this one is printed, to a tenth of a
// minute; what is not a number stays as it is.
func (p Position) Printed() Position {
	q, err := ParsePosition(p.String())
	if err != nil {
		return p
	}
	return q
}

// String writes "46 53.0 S 178 24.8 E".
func (p AirPosition) String() string { return Position(p).String() }

// String writes "46 53.0 S 178 24.8 E".
func (p GroundPosition) String() string { return Position(p).String() }

// LatitudeLabel writes a parallel of the graticule in degrees and whole
// minutes: "47 00 S"; the equator is "0".
func LatitudeLabel(lat Angle) string { return graticule(lat, 2, "NS") }

// LongitudeLabel writes a meridian of the graticule in degrees and whole
// minutes: "179 30 E"; the meridians "0" and "180" have no letter.
func LongitudeLabel(lon Angle) string { return graticule(WrapHalf(lon), 3, "EW") }

// AltitudeText writes the altitude of a body, degrees in two figures and minutes
// with a tenth: "43 35.6", below the horizon "-00 05.0".
func AltitudeText(a Angle) string { return altitude(a, 1, " ", "") }

// AltitudePlate writes an altitude with its signs, to so many decimals of a
// minute: "42°22.5′", "42°30′".
func AltitudePlate(a Angle, decimals int) string { return altitude(a, decimals, "°", "′") }

// altitude writes degrees and minutes with what stands after each.
func altitude(a Angle, decimals int, degree, minute string) string {
	n, ok := toUnits(a.Minutes(), decimals)
	if !ok {
		return Blank
	}
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole := int64(60 * math.Pow10(decimals))
	return sign + pad(n/whole, 2) + degree + fixed(n%whole, decimals, 2) + minute
}

func graticule(a Angle, width int, letters string) string {
	n, ok := toUnits(a.Minutes(), 0)
	text := degreesMinutes(n*10, ok, width, letters)
	switch {
	case !ok:
		return Blank
	case n == 0:
		return "0"
	case n == 180*60 || n == -180*60:
		return "180"
	}
	return strings.Replace(text, ".0", "", 1)
}
