// Package lag is the first-order lag of lines, dials and follow-ups:
//
//	dy/dt = (u - y)/tau
//
// With the input u moving uniformly within a step, the answer is exact for any
// step; with b = u - y, what y is behind,
//
//	b1 = b0 exp(-a) + (u1 - u0)(1 - exp(-a))/a,   a = dt/tau
package lag

import "math"

// Behind is how far the output is behind at the end of a step of dt in which
// the input moved uniformly by so much, having been behind so much at its
// beginning. A tau of 0 is no lag: 0. A step of 0 is a jump of the input.
func Behind(behind, moved, dt, tau float64) float64 {
	if tau <= 0 {
		return 0
	}
	a := dt / tau
	if a == 0 {
		return behind + moved
	}
	gone := -math.Expm1(-a) // 1 - exp(-a)
	return behind - float64(behind*gone) + float64(moved*(gone/a))
}

// Follow is the output at the end of a step in which the input went uniformly
// from one value to another.
func Follow(y, from, to, dt, tau float64) float64 {
	if tau <= 0 {
		return to
	}
	return to - Behind(from-y, to-from, dt, tau)
}
