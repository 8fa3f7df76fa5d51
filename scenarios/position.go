package scenarios

import (
	"errors"
	"strings"

	"stillair/integrator/units"
)

const positionForm = `must be "47 10.0 S 178 30.0 E" (degrees and minutes, latitude first) or [latitude, longitude] in degrees, N and E +`

// positionOfText reads a position as the trade writes it. The second result
// says what is wrong, or "".
func positionOfText(s string) (units.Position, string) {
	p, err := units.ParsePosition(s)
	var bad *units.ParseError
	switch {
	case err == nil:
		return p, ""
	case errors.As(err, &bad) && bad.Part != "position":
		return p, bad.Part + " must be " + bad.Legal
	}
	return p, positionForm
}

// looksLikePosition tells a bad position from a misspelt name.
func looksLikePosition(s string) bool { return strings.ContainsAny(s, "0123456789") }

func positionOfPair(items []*node) (units.Position, string) {
	if len(items) != 2 {
		return units.Position{}, positionForm
	}
	for _, it := range items {
		if it.kind != wholeKind && it.kind != numberKind {
			return units.Position{}, positionForm
		}
	}
	return positionOf(items[0].num, items[1].num)
}

func positionOf(lat, lon float64) (units.Position, string) {
	if !(lat >= -90 && lat <= 90) {
		return units.Position{}, "latitude must be -90 to 90"
	}
	if !(lon >= -180 && lon <= 180) {
		return units.Position{}, "longitude must be -180 to 180"
	}
	return units.At(lat, lon), ""
}
