package sensor

import "stillair/integrator/units"

// Imperfection is what is wrong with the senses; the zero value is ideal.
// Whoever writes it may change it at any tick: what the senses remember lives
// in State and goes on.
type Imperfection struct {
	Pitot       Pitot
	Static      Static
	Thermometer Thermometer
	Compass     Compass
	Gyro        Gyro

	// LineLag is how late both pressures are at the unit and the dials:
	// seconds of a first-order lag.
	LineLag float64
}

// Pitot is what is wrong with the pitot head and its line.
type Pitot struct {
	// RamBlocked: the ram hole is blocked and the drain open, so that the
	// pressure in the line falls to that of the air: with Decay seconds as the
	// time constant (0: at once).
	RamBlocked bool
	Decay      float64
	// Trapped: ram hole and drain are blocked, the pressure stays.
	Trapped bool
	Leak    float64 // part of the impact pressure lost, 0 to 1
	Surge   Surge
	// WaterHead is a standing head of water, metres of water: 9806.65 Pa per
	// metre off the impact pressure; below 0: on.
	WaterHead units.Length
}

// Surge is water surging in the pitot line: qc (1 + Amplitude sin(2 pi t/Period)).
type Surge struct {
	Amplitude float64 // 0: none
	Period    float64 // seconds, above 0
	Since     float64 // seconds since its onset at the beginning of the step
}

// Static is what is wrong with the static vents and line.
type Static struct {
	Trapped bool // the line is blocked, the pressure stays
	// PositionError is by how much the pressure at the vents is too high, as a
	// part of the impact pressure.
	PositionError float64
	// Leak: the line is open to the cabin, where the pressure is above that of
	// the air by CabinOverQc times the impact pressure; the part Leak of that
	// comes in, settling with Settle seconds as the time constant (0: at once).
	Leak, CabinOverQc, Settle float64
}

// Thermometer is what is wrong with the bulb.
type Thermometer struct {
	Error float64 // kelvins too high
	// Recovery is the part of the rise by ramming that is not taken off the
	// reading, 0 to 1: T (1 + 0.2 Recovery M^2).
	Recovery float64
}

// Compass is the deviation of the magnetic element, E +, by compass heading:
//
//	dev(Hc) = A + B sin Hc + C cos Hc + D sin 2Hc + E cos 2Hc
//
// B and C are those in an earth's field of ordinary strength; where it is weak
// they are greater (see weakness).
type Compass struct {
	A, B, C, D, E units.Angle
}

// Gyro is what is wrong with the master gyro, which is slaved to the element.
type Gyro struct {
	// Slaving is the rate at which it is led to the element, rad/s; 0: at once.
	// It is not led while they differ by less than DeadBand.
	Slaving  float64
	DeadBand units.Angle
	Residual units.Angle // where it is led to is so much too far clockwise
	// Free: the slaving is off. The gyro keeps its direction in space, and its
	// reading wanders by Drift (rad/s, + clockwise), by the turning of the earth
	// if EarthRate, by the motion over it if Transport. With a Slaving above 0
	// it wanders slaved too. LatitudeNut is the latitude for which earth rate
	// is corrected; 0: not.
	Free                 bool
	Drift                float64
	EarthRate, Transport bool
	LatitudeNut          units.Angle
	// Drag is the rate, rad/s, + clockwise, at which the tilted element drags
	// the gyro in turns of more than CutOut (rad/s), where the slaving should
	// have been cut out and is not. After the turn it comes back at that rate.
	Drag, CutOut float64
}

// Set gives a healthy imperfection by its name in the table of the service
// class and says whether the name is one of the senses.
func (w *Imperfection) Set(name string, x float64) bool {
	switch name {
	case "line_lag_s":
		w.LineLag = x
	case "deviation_b_deg":
		w.Compass.B = units.Angle(x) * units.Degree
	case "deviation_c_deg":
		w.Compass.C = units.Angle(x) * units.Degree
	case "slaving_deg_min":
		w.Gyro.Slaving = x * DegreePerMinute
		w.Gyro.EarthRate, w.Gyro.Transport = x > 0, x > 0 // a gyro that is led is a real one
	case "slaving_dead_band_deg":
		w.Gyro.DeadBand = units.Angle(x) * units.Degree
	default:
		return false
	}
	return true
}

// Rates of gyros, rad/s.
const (
	DegreePerSecond = float64(units.Degree)
	DegreePerMinute = DegreePerSecond / 60
	DegreePerHour   = DegreePerSecond / 3600
)
