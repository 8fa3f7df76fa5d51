package sky

import (
	"math"
	"time"

	"stillair/integrator/units"
)

const (
	daysInCentury = 36525
	secondsInDay  = 86400
	j2000Unix     = 946728000 // 2000-01-01 12:00:00 in seconds of Unix time
	arcSecond     = units.Degree / 3600
)

// moment is an instant: days of UT1 from J2000.0, whole and the fraction kept
// apart so that the turning of the earth keeps its digits, and T in TT.
type moment struct {
	whole, fraction float64
	centuries       float64
}

func momentOf(t time.Time) moment {
	s := t.Unix() - j2000Unix
	whole := math.Floor(float64(s) / secondsInDay)
	m := moment{
		whole:    whole,
		fraction: (float64(s) - whole*secondsInDay + float64(t.Nanosecond())*1e-9) / secondsInDay,
	}
	ut := m.whole + m.fraction
	m.centuries = (ut + deltaT(ut/365.25+2000)/secondsInDay) / daysInCentury
	return m
}

// deltaTTable is TT - UT1 in seconds every fifth year from 1900, from memory of
// the almanacs' tables; 2030 is a forecast. Between them straight lines serve:
// half a second, which is 0.3" of the Moon and nothing elsewhere.
var deltaTTable = [...]float64{
	-2.7, 3.9, 10.5, 17.2, 21.2, 23.6, 24.0, 23.9, 24.3, 26.8, // 1900 to 1945
	29.1, 31.1, 33.2, 35.7, 40.2, 45.5, 50.5, 54.3, 56.9, 60.8, // 1950 to 1995
	63.8, 64.7, 66.1, 67.6, 69.4, 69.1, 69.5, // 2000 to 2030
}

// deltaT is TT - UT1 in seconds in a year; before 1900 and after 2030 it is
// held.
func deltaT(year float64) float64 {
	const last = len(deltaTTable) - 1
	x := math.Min(math.Max((year-1900)/5, 0), float64(last))
	i := min(int(x), last-1)
	return deltaTTable[i] + (deltaTTable[i+1]-deltaTTable[i])*(x-float64(i))
}

// meanSidereal is Greenwich mean sidereal time by IAU 1982, as an angle: in
// seconds of time
//
//	67310.54841 + (876600 h + 8640184.812866) T + 0.093104 T^2 - 6.2e-6 T^3
//
// with T centuries of UT1 (from memory; in degrees it is the expression of the
// reference note on astronomy, 5.2). Whole turns are left out before they cost
// digits.
func (m moment) meanSidereal() units.Angle {
	const (
		inDegree = 240 // seconds of time
		gain     = 8640184.812866 / (daysInCentury * inDegree)
	)
	c := (m.whole + m.fraction) / daysInCentury
	deg := 67310.54841/inDegree + 360*m.fraction + gain*m.fraction + math.Mod(gain*m.whole, 360) +
		c*c*(0.093104-c*6.2e-6)/inDegree
	return units.Wrap(units.Angle(deg) * units.Degree)
}
