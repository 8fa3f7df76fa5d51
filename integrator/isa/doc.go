// Package isa holds the standard atmosphere and the airspeed relations as pure
// formulas: no state, no error, no allocation.
//
// # Notation
//
//	symbol  meaning                                  unit
//	H       geopotential altitude; pressure altitude m
//	Z       geometric altitude                       m
//	T       static air temperature                   K
//	p       static pressure                          Pa
//	rho     density                                  kg/m3
//	a       speed of sound                           m/s
//	qc      impact pressure, total less static       Pa
//	q       dynamic pressure rho V^2/2               Pa
//	M       Mach number                              1
//	Vc, Ve  calibrated, equivalent airspeed          m/s
//	V       true airspeed                            m/s
//
// The atmosphere is that of ICAO Doc 7488/3 and ISO 2533:1975 (the US Standard
// Atmosphere 1976 is the same below 32 km but for a gas constant that differs
// by 7e-7): three layers from -5 to 32 km of geopotential altitude,
//
//	layer               H_b (m)   T_b (K)   beta (K/m)
//	troposphere         0         288.15    -0.0065
//	lower stratosphere  11000     216.65     0
//	next                20000     216.65    +0.001
//
//	beta != 0:  T = T_b + beta (H - H_b),  p = p_b (T/T_b)^(-g0/(beta R))
//	beta  = 0:  p = p_b exp(-g0 (H - H_b)/(R T_b))
//	rho = p/(R T),  a = sqrt(gamma R T)
//
// The airspeed relations are those of isentropic flow (NASA RP-1046):
//
//	qc = p ((1 + M^2/5)^(7/2) - 1),   M = sqrt(5 ((qc/p + 1)^(2/7) - 1))
//	Vc = M a0 with sea-level p0 for p;  V = M a(T);  Ve = V sqrt(rho/rho0)
//
// # Ends of the ranges
//
// Nothing here refuses a value. Below -5 km the troposphere's law and above
// 32 km the third layer's law are carried on; [InRange] tells where the
// standard ends, for callers that reject. A pressure of zero or below has the
// altitude +Inf. An impact pressure below zero reads as no airspeed: 0, and so
// does an airspeed below zero. Above Mach 1, where a real tube stands behind a
// shock wave, the isentropic relations are carried on, so that every relation
// and its inverse stay inverse to each other; callers that must refuse compare
// with 1. NaN gives NaN.
//
// # Accuracy
//
// Pressure and density agree with the printed tables to 1e-5 of the value, the
// tables' own last digit. Forms without cancellation (Expm1, Log1p, the
// factored power of [ImpactPressureAtMach]) keep a relative error of a few
// 1e-16 down to the lowest airspeed.
package isa
