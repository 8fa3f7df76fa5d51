package units

import (
	"math"
	"strconv"
	"time"
)

// This file is the one place where figures become text for people, the way the
// trade writes them (trade practice, from memory; common practice, no source):
//
//	headings, tracks, bearings   268T  280M  245C  330R
//	wind                         295/27   300/05   270/105
//	time, clock, date            1012Z   10:12:40   14 Aug 1957
//	position                     46 53.0 S 178 24.8 E
//	graticule                    47 00 S   179 30 E   180
//	altitude of a body           43 35.6   -00 05.0   on plates 43°35.6′   42°30′
//	variation                    24 E   23.5 E
//	distance, speed, height      12.3 NM   165 kt   8000 ft
//	temperature                  -1 C
//
// Rounding is half away from zero, as on paper, and done once, on whole units
// of the last figure, so that a carry runs through (46 59.95 is 47 00.0) and
// nothing reads -0, 60.0 or 360. A value that is not a number prints as Blank.

// Blank stands where there is no figure: for NaN and infinities.
const Blank = "---"

// tie is how near to a half a value counts as a half, in units of the last
// figure: 59.95 minutes comes back from radians a last bit low.
const tie = 1e-7

// toUnits rounds x to whole units of its last decimal; ok is false where there
// is no figure or one too long to be one (above 1e15 units).
func toUnits(x float64, decimals int) (n int64, ok bool) {
	v := x * math.Pow10(decimals)
	r := math.Round(v + math.Copysign(tie, v))
	if math.IsNaN(r) || math.Abs(r) > 1e15 {
		return 0, false
	}
	return int64(r), true
}

// fixed writes n units of the last decimal, n >= 0, padded with zeros to at
// least width figures before the point.
func fixed(n int64, decimals, width int) string {
	digits := pad(n, width+decimals)
	if decimals == 0 {
		return digits
	}
	cut := len(digits) - decimals
	return digits[:cut] + "." + digits[cut:]
}

// pad writes n >= 0 with at least width figures.
func pad(n int64, width int) string {
	s := strconv.FormatInt(n, 10)
	for len(s) < width {
		s = "0" + s
	}
	return s
}

// signed writes n units of the last decimal with a minus sign where needed.
func signed(n int64, decimals int) string {
	if n < 0 {
		return "-" + fixed(-n, decimals, 1)
	}
	return fixed(n, decimals, 1)
}

// Figure writes a bare number with so many decimals (0 to 9): "12.3", "-1",
// never "-0".
func Figure(x float64, decimals int) string {
	n, ok := toUnits(x, decimals)
	if !ok {
		return Blank
	}
	return signed(n, decimals)
}

// withUnit writes a figure and its unit.
func withUnit(x float64, decimals int, unit string) string {
	return Figure(x, decimals) + " " + unit
}

// DistanceText writes a distance in nautical miles to a tenth: "12.3 NM".
func DistanceText(l Length) string { return withUnit(l.NM(), 1, "NM") }

// SpeedText writes a speed in whole knots: "165 kt".
func SpeedText(v Speed) string { return withUnit(v.Knots(), 0, "kt") }

// HeightText writes a height in whole feet: "8000 ft".
func HeightText(h Length) string { return withUnit(h.Feet(), 0, "ft") }

// TemperatureText writes a temperature in whole degrees Celsius: "-1 C".
func TemperatureText(t Temperature) string { return withUnit(t.Celsius(), 0, "C") }

// Degrees3 writes a direction in three figures, 000 to 359.
func Degrees3(a Angle) string {
	n, ok := wholeDegrees(a)
	if !ok {
		return Blank
	}
	return pad(n, 3)
}

// wholeDegrees rounds a direction to whole degrees, 0 to 359.
func wholeDegrees(a Angle) (int64, bool) {
	n, ok := toUnits(Wrap(a).Degrees(), 0)
	return n % 360, ok
}

// TrueText writes a true heading, track or bearing: "268T".
func TrueText(a Angle) string { return Degrees3(a) + "T" }

// MagneticText writes a magnetic heading, track or bearing: "280M".
func MagneticText(a Angle) string { return Degrees3(a) + "M" }

// CompassText writes a compass heading: "245C".
func CompassText(a Angle) string { return Degrees3(a) + "C" }

// RelativeText writes a bearing measured from the nose, clockwise: "330R".
func RelativeText(a Angle) string { return Degrees3(a) + "R" }

// String writes "268T".
func (h TrueHeading) String() string { return TrueText(Angle(h)) }

// String writes "280M".
func (h MagneticHeading) String() string { return MagneticText(Angle(h)) }

// String writes "245C".
func (h CompassHeading) String() string { return CompassText(Angle(h)) }

// String writes the wind as from/knots, "295/27", "300/05"; the speed has at
// least two figures.
func (w Wind) String() string {
	n, ok := toUnits(w.Speed.Knots(), 0)
	if !ok || n < 0 {
		return Degrees3(w.From) + "/" + Blank
	}
	return Degrees3(w.From) + "/" + pad(n, 2)
}

// String writes the variation in whole degrees: "24 E", "3 W", "0".
func (v Variation) String() string { return eastWest(Angle(v).Degrees(), 0) }

// Tenths writes the variation to a tenth of a degree: "23.5 E", "0.0".
func (v Variation) Tenths() string { return eastWest(Angle(v).Degrees(), 1) }

// String writes the deviation in whole degrees: "2 E", "1 W", "0".
func (d Deviation) String() string { return eastWest(Angle(d).Degrees(), 0) }

// Tenths writes the deviation to a tenth of a degree: "1.5 W".
func (d Deviation) Tenths() string { return eastWest(Angle(d).Degrees(), 1) }

// eastWest writes degrees with E for + and W for -; nought has no letter.
func eastWest(degrees float64, decimals int) string {
	n, ok := toUnits(degrees, decimals)
	switch {
	case !ok:
		return Blank
	case n > 0:
		return fixed(n, decimals, 1) + " E"
	case n < 0:
		return fixed(-n, decimals, 1) + " W"
	}
	return fixed(0, decimals, 1)
}

// TimeText writes a time of day in four figures, "1012Z": the whole minutes
// that have passed, as a clock shows them.
func TimeText(t time.Time) string { return t.UTC().Format("1504") + "Z" }

// ClockText writes a time of day as the clock's drums show it: "10:12:40".
func ClockText(t time.Time) string { return t.UTC().Format("15:04:05") }

// DateText writes a date: "14 Aug 1957".
func DateText(t time.Time) string { return t.UTC().Format("2 Jan 2006") }
