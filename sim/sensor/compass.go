package sensor

import (
	"math"

	"stillair/integrator/units"
)

// weakForce is the horizontal force of the earth's field, nT, below which a
// compass grows unsure; the caution zone of the World Magnetic Model begins
// there and its blackout zone at a third of that (from memory).
const weakForce = 6000.0

// weakness is how many times less than ordinary the needle is held: 1 where the
// horizontal force is 6000 nT or more, or not known; 3 at 2000 nT and below.
// That the effects below go with it is an engineering choice: deviations B and
// C, which are the ship's iron against the earth's force, and the dead band of
// the slaving are so many times greater, its rate so many times smaller.
func weakness(force float64) float64 {
	if force <= 0 || force >= weakForce {
		return 1
	}
	return math.Min(3, weakForce/force)
}

// mostDeviation bounds B and C together, in a weak field, so that each magnetic
// heading has one reading.
const mostDeviation = 25 * units.Degree

// bounded is the weakness that keeps B and C below the most there may be.
func (c *Compass) bounded(weak float64) float64 {
	if weak == 1 {
		return 1
	}
	if b := math.Hypot(float64(c.B), float64(c.C)) * weak; b > float64(mostDeviation) {
		return math.Max(1, weak*float64(mostDeviation)/b)
	}
	return weak
}

// Deviation is that at a compass heading.
func (c *Compass) Deviation(h units.CompassHeading, weak float64) units.Deviation {
	weak = c.bounded(weak)
	sin, cos := math.Sincos(float64(h))
	return units.Deviation(float64(c.A) + weak*(float64(c.B)*sin+float64(c.C)*cos) +
		2*float64(c.D)*sin*cos + float64(c.E)*(cos*cos-sin*sin))
}

// slope is that of the deviation, above -1: the step of Newton's rule is held
// to five times the plain one.
func (c *Compass) slope(h units.CompassHeading, weak float64) float64 {
	weak = c.bounded(weak)
	sin, cos := math.Sincos(float64(h))
	dev := weak*(float64(c.B)*cos-float64(c.C)*sin) + 2*float64(c.D)*(cos*cos-sin*sin) - 4*float64(c.E)*sin*cos
	return math.Max(-0.8, dev)
}

// reading solves Hc + dev(Hc) = Hm: by Newton's rule, for it is three rounds in
// flight, and if that does not come to rest by Hc = Hm - dev(Hc), which converges
// as the slope of the deviation is below 1.
func (c *Compass) reading(h units.MagneticHeading, weak float64) units.CompassHeading {
	if *c == (Compass{}) {
		return h.Compass(0)
	}
	const most, newton = 200, 6 // rounds: a slope of 0.8 gives 18 digits
	hc := h.Compass(c.Deviation(units.CompassHeading(h), weak))
	for i := range most {
		next := h.Compass(c.Deviation(hc, weak))
		if i < newton {
			off := units.WrapHalf(units.Angle(next) - units.Angle(hc))
			next = units.CompassHeading(units.Wrap(units.Angle(hc) + off/units.Angle(1+c.slope(hc, weak))))
		}
		moved := units.WrapHalf(units.Angle(next) - units.Angle(hc))
		hc = next
		if math.Abs(float64(moved)) < 1e-15 {
			break
		}
	}
	return hc
}

// CompassOffset is how much the compass reads above the true heading when it
// reads so much.
func (s *State) CompassOffset(reads units.Angle, v units.Variation) units.Angle {
	off := -units.Angle(v)
	if s.Wrong.Compass != (Compass{}) {
		off -= units.Angle(s.Wrong.Compass.Deviation(units.CompassHeading(reads), weakness(s.Last.Force)))
	}
	return off
}
