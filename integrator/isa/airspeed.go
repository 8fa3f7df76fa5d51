package isa

import (
	"math"

	"stillair/integrator/units"
)

const a0 = float64(SpeedOfSoundAtSeaLevel)

// ImpactPressureAtMach returns qc = p ((1 + M^2/5)^(7/2) - 1). With
// s = sqrt(1 + M^2/5) the bracket is s^7 - 1, written here as
// (s - 1)(1 + s + ... + s^6), which loses no digit at low speed.
func ImpactPressureAtMach(m float64, p units.Pressure) units.Pressure {
	if m <= 0 {
		return 0
	}
	x := m * m / 5
	s := math.Sqrt(1 + x)
	sum := 1 + s*(1+s*(1+s*(1+s*(1+s*(1+s)))))
	return units.Pressure(float64(p) * (x / (1 + s)) * sum)
}

// Mach returns the Mach number that makes the impact pressure qc in static
// pressure p, the inverse of ImpactPressureAtMach; 0 if qc is below zero.
func Mach(qc, p units.Pressure) float64 {
	if qc <= 0 {
		return 0
	}
	return math.Sqrt(5 * math.Expm1(2.0/7*math.Log1p(float64(qc)/float64(p))))
}

// ImpactPressure returns the impact pressure of a calibrated airspeed.
func ImpactPressure(cas units.Speed) units.Pressure {
	return ImpactPressureAtMach(float64(cas)/a0, SeaLevelPressure)
}

// CAS returns the calibrated airspeed of an impact pressure, the inverse of
// ImpactPressure; 0 if qc is below zero.
func CAS(qc units.Pressure) units.Speed {
	return units.Speed(a0 * Mach(qc, SeaLevelPressure))
}

// TAS returns the true airspeed M a(T).
func TAS(m float64, t units.Temperature) units.Speed {
	return units.Speed(m) * SpeedOfSound(t)
}

// EAS returns the equivalent airspeed a0 M sqrt(p/p0), which is TAS times the
// square root of the density ratio.
func EAS(m float64, p units.Pressure) units.Speed {
	return units.Speed(a0 * m * math.Sqrt(float64(p)/p0))
}

// TASFromCAS returns the true airspeed at a calibrated airspeed, a pressure
// altitude and the temperature of the air.
func TASFromCAS(cas units.Speed, h units.Length, t units.Temperature) units.Speed {
	return TAS(Mach(ImpactPressure(cas), Pressure(h)), t)
}

// CASFromTAS is the inverse of TASFromCAS.
func CASFromTAS(tas units.Speed, h units.Length, t units.Temperature) units.Speed {
	m := float64(tas) / float64(SpeedOfSound(t))
	return CAS(ImpactPressureAtMach(m, Pressure(h)))
}

// DynamicPressure returns q = rho V^2/2 = 0.7 p M^2.
func DynamicPressure(m float64, p units.Pressure) units.Pressure {
	return units.Pressure(0.7*m*m) * p
}

// IncompressibleTAS returns sqrt(2 qc/rho), the speed that a law without
// compressibility takes from an impact pressure: it reads high by
// sqrt(qc/q) = sqrt(1 + M^2/4 + M^4/40 + ...). 0 if qc is below zero.
func IncompressibleTAS(qc units.Pressure, rho float64) units.Speed {
	if qc <= 0 {
		return 0
	}
	return units.Speed(math.Sqrt(2 * float64(qc) / rho))
}
