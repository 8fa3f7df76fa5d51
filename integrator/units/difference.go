package units

// Where two values and their difference stand together, the difference printed
// is that of the printed values: a reader who subtracts must not find us out.

// Compared is two values as printed and the first less the second, worked from
// the printed figures and signed: "+0.4", "-3", "0.0".
type Compared struct{ A, B, Difference string }

// Compare writes two numbers and their difference with the same decimals.
func Compare(a, b float64, decimals int) Compared {
	na, okA := toUnits(a, decimals)
	nb, okB := toUnits(b, decimals)
	return compared(Figure(a, decimals), Figure(b, decimals), na-nb, okA && okB, decimals)
}

// CompareDirections writes two directions in three figures and the turn from b
// to a in degrees, -179 to +180: 002 and 358 differ by "+4".
func CompareDirections(a, b Angle) Compared {
	na, okA := wholeDegrees(a)
	nb, okB := wholeDegrees(b)
	return compared(Degrees3(a), Degrees3(b), shortWay(na-nb, 360), okA && okB, 0)
}

// CompareLatitudes writes two latitudes and their difference in minutes, N +.
func CompareLatitudes(a, b Angle) Compared {
	na, okA := tenthsOfMinute(a)
	nb, okB := tenthsOfMinute(b)
	return compared(LatitudeText(a), LatitudeText(b), na-nb, okA && okB, 1)
}

// CompareLongitudes writes two longitudes and their difference in minutes the
// short way round, E +.
func CompareLongitudes(a, b Angle) Compared {
	na, okA := tenthsOfMinuteLon(a)
	nb, okB := tenthsOfMinuteLon(b)
	return compared(LongitudeText(a), LongitudeText(b), shortWay(na-nb, 360*600), okA && okB, 1)
}

// shortWay brings a difference within two circles into (-circle/2, circle/2].
func shortWay(n, circle int64) int64 {
	n = (n%circle + circle) % circle
	if n > circle/2 {
		n -= circle
	}
	return n
}

func compared(a, b string, n int64, ok bool, decimals int) Compared {
	diff := Blank
	if ok {
		diff = signed(n, decimals)
		if n > 0 {
			diff = "+" + diff
		}
	}
	return Compared{a, b, diff}
}
