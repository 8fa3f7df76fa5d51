// Package units holds the quantities that cross package borders: angles,
// lengths, speeds, pressures, temperatures, three kinds of heading, positions
// and winds; and the one formatter that writes them as the trade does.
//
// A quantity is a float64 with a type. It is entered by multiplying with a
// constant (8000 * units.Foot) and left by a method (h.Feet()), so that the
// unit stands in the text at both ends.
//
//	quantity     held in       sign
//	Angle        radians       latitude N +, longitude E +, bearings clockwise from north
//	Length       metres
//	Speed        metres/second
//	Pressure     pascals
//	Temperature  kelvins
//
// Constants: the international nautical mile is 1852 m exactly (Monaco, 1929),
// the foot 0.3048 m exactly; see testdata/units.csv for the checked list.
package units

import "math"

// Angle is an angle in radians.
type Angle float64

// Angles are entered with these constants.
const (
	Radian    Angle = 1
	Degree    Angle = math.Pi / 180
	ArcMinute Angle = math.Pi / 10800
)

// Radians returns the angle in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Degrees returns the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * (180 / math.Pi) }

// Minutes returns the angle in minutes of arc.
func (a Angle) Minutes() float64 { return float64(a) * (10800 / math.Pi) }

// Length is a length in metres.
type Length float64

// Lengths are entered with these constants. All are exact but the nautical mile
// of the United States before July 1954 (6080.20 survey feet; from memory).
const (
	Metre          Length = 1
	Kilometre      Length = 1000
	NM             Length = 1852   // international nautical mile
	Foot           Length = 0.3048 // international foot
	AdmiraltyNM    Length = 6080 * Foot
	USNMBefore1954 Length = 1853.248
	StatuteMile    Length = 1609.344
)

// Metres returns the length in metres.
func (l Length) Metres() float64 { return float64(l) }

// NM returns the length in international nautical miles.
func (l Length) NM() float64 { return float64(l) / 1852 }

// Feet returns the length in feet.
func (l Length) Feet() float64 { return float64(l) / 0.3048 }

// Kilometres returns the length in kilometres.
func (l Length) Kilometres() float64 { return float64(l) / 1000 }

// Speed is a speed in metres per second.
type Speed float64

// Speeds are entered with these constants, both exact.
const (
	MetrePerSecond Speed = 1
	Knot           Speed = 1852.0 / 3600
)

// MetresPerSecond returns the speed in metres per second.
func (v Speed) MetresPerSecond() float64 { return float64(v) }

// Knots returns the speed in international knots.
func (v Speed) Knots() float64 { return float64(v) * (3600.0 / 1852) }

// Pressure is a pressure in pascals.
type Pressure float64

// Pressures are entered with these constants. The inch of mercury is the
// conventional one, 13.5951 g/cm3 x 9.80665 m/s2 (units.csv).
const (
	Pascal        Pressure = 1
	Hectopascal   Pressure = 100
	InchOfMercury Pressure = 3386.38864
	MillimetreHg  Pressure = 133.322387415
	InchOfWater   Pressure = 249.08891 // conventional, at 4 C
)

// Pascals returns the pressure in pascals.
func (p Pressure) Pascals() float64 { return float64(p) }

// Hectopascals returns the pressure in hectopascals.
func (p Pressure) Hectopascals() float64 { return float64(p) / 100 }

// InchesOfMercury returns the pressure in conventional inches of mercury.
func (p Pressure) InchesOfMercury() float64 { return float64(p) / float64(InchOfMercury) }

// Temperature is a thermodynamic temperature in kelvins.
type Temperature float64

// Temperatures are entered with these constants, both exact.
const (
	Kelvin        Temperature = 1
	DegreeRankine Temperature = 5.0 / 9
)

// Celsius makes a temperature from degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c + 273.15) }

// Kelvins returns the temperature in kelvins.
func (t Temperature) Kelvins() float64 { return float64(t) }

// Celsius returns the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }

// Wrap brings an angle into [0, 2 pi). NaN and infinities give NaN.
func Wrap(a Angle) Angle {
	if a >= 0 && a < 2*math.Pi {
		return a + 0 // the sum turns -0 into +0
	}
	r := math.Mod(float64(a), 2*math.Pi)
	if r < 0 {
		r += 2 * math.Pi
	}
	if r >= 2*math.Pi { // a tiny negative remainder rounds up to the full circle
		r = 0
	}
	return Angle(r) + 0
}

// WrapHalf brings an angle into [-pi, pi). NaN and infinities give NaN.
func WrapHalf(a Angle) Angle {
	if a >= -math.Pi && a < math.Pi {
		return a + 0
	}
	r := math.Remainder(float64(a), 2*math.Pi)
	if r >= math.Pi {
		r = -math.Pi
	}
	return Angle(r) + 0
}

// WrapDegrees brings a figure in degrees into [0, 360). It and WrapHalfDegrees
// serve files and print, where degrees are the unit and a whole number must
// stay whole. NaN and infinities give NaN.
func WrapDegrees(d float64) float64 {
	r := math.Mod(d, 360)
	if r < 0 {
		r += 360
	}
	if r >= 360 {
		r = 0
	}
	return r + 0
}

// WrapHalfDegrees brings a figure in degrees into [-180, 180). NaN and
// infinities give NaN.
func WrapHalfDegrees(d float64) float64 {
	if d >= -180 && d < 180 {
		return d + 0
	}
	r := math.Remainder(d, 360)
	if r >= 180 {
		r = -180
	}
	return r + 0
}

// TrueHeading, MagneticHeading and CompassHeading are clockwise from true
// north, magnetic north and the compass needle; mixing them does not compile.
type (
	TrueHeading     Angle
	MagneticHeading Angle
	CompassHeading  Angle
)

// Variation is the angle from true to magnetic north, E positive; Deviation
// the angle from magnetic north to the needle, E positive.
type (
	Variation Angle
	Deviation Angle
)

// Magnetic gives the magnetic heading: true less variation, wrapped.
func (h TrueHeading) Magnetic(v Variation) MagneticHeading {
	return MagneticHeading(Wrap(Angle(h) - Angle(v)))
}

// True gives the true heading: magnetic plus variation, wrapped.
func (h MagneticHeading) True(v Variation) TrueHeading {
	return TrueHeading(Wrap(Angle(h) + Angle(v)))
}

// Compass gives the compass heading: magnetic less deviation, wrapped.
func (h MagneticHeading) Compass(d Deviation) CompassHeading {
	return CompassHeading(Wrap(Angle(h) - Angle(d)))
}

// Magnetic gives the magnetic heading: compass plus deviation, wrapped.
func (h CompassHeading) Magnetic(d Deviation) MagneticHeading {
	return MagneticHeading(Wrap(Angle(h) + Angle(d)))
}

// Degrees returns the heading in degrees.
func (h TrueHeading) Degrees() float64 { return Angle(h).Degrees() }

// Degrees returns the heading in degrees.
func (h MagneticHeading) Degrees() float64 { return Angle(h).Degrees() }

// Degrees returns the heading in degrees.
func (h CompassHeading) Degrees() float64 { return Angle(h).Degrees() }

// Degrees returns the variation in degrees, E positive.
func (v Variation) Degrees() float64 { return Angle(v).Degrees() }

// Degrees returns the deviation in degrees, E positive.
func (d Deviation) Degrees() float64 { return Angle(d).Degrees() }

// Position is a latitude (N +) and a longitude (E +, of any size).
type Position struct{ Lat, Lon Angle }

// At makes a position from degrees.
func At(latDegrees, lonDegrees float64) Position {
	return Position{Angle(latDegrees) * Degree, Angle(lonDegrees) * Degree}
}

// AirPosition is where the aircraft would be if the air stood still;
// GroundPosition where it is over the earth. Mixing them does not compile.
type (
	AirPosition    Position
	GroundPosition Position
)

// Wind is the direction it comes FROM, clockwise from true north, and its speed.
type Wind struct {
	From  Angle
	Speed Speed
}

// Velocity gives the northward and eastward parts of the moving air.
func (w Wind) Velocity() (north, east Speed) {
	s, c := math.Sincos(float64(w.From))
	return -Speed(float64(w.Speed) * c), -Speed(float64(w.Speed) * s)
}

// WindOf is the inverse of Velocity; still air comes from 0.
func WindOf(north, east Speed) Wind {
	if north == 0 && east == 0 {
		return Wind{}
	}
	return Wind{
		From:  Wrap(Angle(math.Atan2(-float64(east), -float64(north)))),
		Speed: Speed(math.Hypot(float64(north), float64(east))),
	}
}
