package units

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// MaxWindSpeed is the strongest wind that can be set or flown in.
const MaxWindSpeed = maxWindKnots * Knot

const maxWindKnots = 250

// ParseError says which part of a text is wrong and what would be right.
type ParseError struct {
	Part  string // "latitude minutes"
	Text  string // the offending text
	Legal string // "0 to below 60"
}

// Error writes part, text and legal range.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%s %q: want %s", e.Part, e.Text, e.Legal)
}

const positionForm = `a position like "47 10.0 S 178 30.0 E" or "47 S 178 E"`

// ParsePosition reads a latitude and a longitude as in "47 10.0 S 178 30.0 E",
// "47 S 178 E" or "47.5 S 178.25 E": whole degrees and minutes, or degrees
// alone, the hemisphere after the figures. The longitude W 180 reads as -180.
func ParsePosition(s string) (Position, error) {
	fields := strings.Fields(s)
	cut := 0
	for i, f := range fields {
		if isLetter(f, "NS") {
			cut = i + 1
			break
		}
	}
	if cut == 0 || cut == len(fields) {
		return Position{}, &ParseError{"position", s, positionForm}
	}
	lat, err := parseAngle("latitude", fields[:cut], "NS", 90)
	if err != nil {
		return Position{}, err
	}
	lon, err := parseAngle("longitude", fields[cut:], "EW", 180)
	if err != nil {
		return Position{}, err
	}
	return Position{lat, lon}, nil
}

// ParseLatitude reads "47 10.0 S" or "47.5 S".
func ParseLatitude(s string) (Angle, error) {
	return parseAngle("latitude", strings.Fields(s), "NS", 90)
}

// ParseLongitude reads "178 30.0 E" or "178.5 E".
func ParseLongitude(s string) (Angle, error) {
	return parseAngle("longitude", strings.Fields(s), "EW", 180)
}

// parseAngle reads degrees, perhaps minutes, and one of two letters, the first
// of them positive. The most degrees are limit.
func parseAngle(what string, fields []string, letters string, limit float64) (Angle, error) {
	n := len(fields)
	if n < 2 || n > 3 || !isLetter(fields[n-1], letters) {
		return 0, &ParseError{what, strings.Join(fields, " "),
			fmt.Sprintf("degrees, minutes and %c or %c", letters[0], letters[1])}
	}
	degrees, err := number(what+" degrees", fields[0], limit)
	if err != nil {
		return 0, err
	}
	if n == 3 {
		if degrees, err = addMinutes(what, fields, degrees, limit); err != nil {
			return 0, err
		}
	}
	if isLetter(fields[n-1], letters[1:]) {
		degrees = 0 - degrees // not -degrees: nought stays +0
	}
	return Angle(degrees) * Degree, nil
}

// addMinutes adds the minutes in fields[1] to whole degrees.
func addMinutes(what string, fields []string, degrees, limit float64) (float64, error) {
	if strings.Contains(fields[0], ".") {
		return 0, &ParseError{what + " degrees", fields[0], "whole degrees before minutes"}
	}
	minutes, ok := plainNumber(fields[1])
	if !ok || minutes >= 60 {
		return 0, &ParseError{what + " minutes", fields[1], "0 to below 60"}
	}
	degrees += minutes / 60
	if degrees > limit {
		return 0, &ParseError{what, strings.Join(fields[:2], " "), fmt.Sprintf("0 to %g degrees", limit)}
	}
	return degrees, nil
}

// isLetter tells whether s is one of the letters, in either case.
func isLetter(s, letters string) bool {
	return len(s) == 1 && strings.Contains(letters, strings.ToUpper(s))
}

// number reads a plain number from 0 to limit.
func number(part, s string, limit float64) (float64, error) {
	v, ok := plainNumber(s)
	if !ok || v > limit {
		return 0, &ParseError{part, s, fmt.Sprintf("0 to %g", limit)}
	}
	return v, nil
}

// plainNumber reads figures with at most one point among them. Signs,
// exponents, underscores, infinities and hexadecimal are not how the trade
// writes.
func plainNumber(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" || s[0] == '.' || strings.HasSuffix(s, ".") {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// ParseWind reads "295/27": degrees true that it comes from, 0 to 360, and
// knots, 0 to 250. 360 reads as 0.
func ParseWind(s string) (Wind, error) {
	from, speed, ok := strings.Cut(strings.TrimSpace(s), "/")
	if !ok {
		return Wind{}, &ParseError{"wind", s, `direction from / knots, like "295/27"`}
	}
	degrees, err := number("wind direction", from, 360)
	if err != nil {
		return Wind{}, err
	}
	knots, err := number("wind speed", speed, maxWindKnots)
	if err != nil {
		return Wind{}, err
	}
	return Wind{Angle(WrapDegrees(degrees)) * Degree, Speed(knots) * Knot}, nil
}

// ParseVariation reads "24 E", "23.5 W" or "0": 0 to 180 degrees and a letter,
// which nought may lack.
func ParseVariation(s string) (Variation, error) {
	fields := strings.Fields(s)
	if len(fields) == 0 || len(fields) > 2 {
		return 0, &ParseError{"variation", s, `degrees and E or W, like "24 E"`}
	}
	degrees, err := number("variation", fields[0], 180)
	if err != nil {
		return 0, err
	}
	switch {
	case len(fields) == 1 && degrees == 0:
		return 0, nil
	case len(fields) == 2 && isLetter(fields[1], "E"):
		return Variation(Angle(degrees) * Degree), nil
	case len(fields) == 2 && isLetter(fields[1], "W"):
		return Variation(Angle(0-degrees) * Degree), nil
	}
	return 0, &ParseError{"variation letter", s, `E or W, like "24 E"`}
}

// ParseDuration reads a duration of nought or more as Go writes it: "1h30m",
// "45s".
func ParseDuration(s string) (time.Duration, error) {
	d, err := time.ParseDuration(s)
	if err != nil || d < 0 {
		return 0, &ParseError{"duration", s, `hours, minutes and seconds from 0s up, like "1h30m" or "45s"`}
	}
	return d, nil
}
