package aboard

import (
	"math"

	"stillair/integrator/units"
)

var missingWords = [...]string{
	TooFar: "too far", TooLow: "too low or too high", TooLight: "no stars by day", OutOfSight: "not in sight",
	NotThere: "not there", OnlyOneThere: "no pair of stations", OutOfOrder: "out of order", OverCloud: "cloud below",
}

// String is the reason in plain words, "" for none.
func (m Missing) String() string {
	if int(m) < len(missingWords) {
		return missingWords[m]
	}
	return ""
}

// Value is what was read, as it is written: 6.0 R, or 6.0 R, 182 kt where groundspeed was
// timed too; 43 35.6, 144R, 1828.5 us, 128.4T; nothing of a pinpoint.
func (r *Reading) Value() string {
	switch r.Aid {
	case DriftSight:
		if r.Timing.Gives() {
			return DriftText(r.Angle, 1) + ", " + r.Timing.GroundspeedText()
		}
		return DriftText(r.Angle, 1)
	case Sextant:
		return AltitudeText(r.Angle)
	case Loop:
		return units.RelativeText(r.Angle)
	case PulseReceiver:
		return units.Figure(r.Delay, 1) + " us"
	case HeadingCheck:
		return TenthsTrue(r.Angle)
	}
	return ""
}

// DriftText writes a drift to so many decimals: 6.0 R; nought has no side.
func DriftText(a units.Angle, decimals int) string {
	text := units.Figure(math.Abs(a.Degrees()), decimals)
	switch {
	case text == units.Figure(0, decimals):
		return text
	case a < 0:
		return text + " L"
	}
	return text + " R"
}

// AltitudeText writes an altitude to a tenth of a minute: 43 35.6.
func AltitudeText(a units.Angle) string { return units.AltitudeText(a) }

// TenthsTrue writes a true direction to a tenth of a degree: 128.4T.
func TenthsTrue(a units.Angle) string {
	s := units.Figure(units.Wrap(a).Degrees(), 1)
	if s == "360.0" {
		s = "0.0"
	}
	for len(s) < 5 {
		s = "0" + s
	}
	return s + "T"
}
