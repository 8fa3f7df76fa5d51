package integrator

import (
	"math"

	"stillair/integrator/units"
)

// ResolverImperfection is what is wrong with the resolver and the two discs;
// the zero value is ideal.
//
//	Zero                       the resolver is turned on its shaft by this much
//	Skew                       the axes are not at right angles: E = sin(H + skew)
//	NorthCrossed, EastCrossed  quadrants in which the contacts of the output are
//	                           crossed and turn its sign
//	Stiction                   an output below this does not move its disc
//	NorthGain, EastGain        relative errors of the two outputs
//	NorthCentre, EastCentre    the ball rests this far off the centre of the disc,
//	                           as a part of full output
//	NorthSlip, EastSlip        part of the motion of the disc that slips away
type ResolverImperfection struct {
	Zero, Skew                units.Angle
	NorthCrossed, EastCrossed Quadrants
	Stiction                  float64
	NorthGain, EastGain       float64
	NorthCentre, EastCentre   float64
	NorthSlip, EastSlip       float64
}

// Quadrants is a set of the four quadrants of heading, numbered from 1:
// 000-090, 090-180, 180-270, 270-360.
type Quadrants uint8

// Quadrant is the set of one quadrant, 1 to 4; of others the empty set.
func Quadrant(n int) Quadrants {
	if n < 1 || n > 4 {
		return 0
	}
	return 1 << (n - 1)
}

// resolve splits the run of one step by the heading at its middle. A steady
// turn makes the chord shorter than the arc by 1 - x^2/6, x half the change of
// heading; a sudden change (over 0.1 rad) is no turn.
func resolve(miles float64, from, to units.TrueHeading, w *ResolverImperfection) (north, east float64) {
	x := 0.5 * float64(units.WrapHalf(units.Angle(to)-units.Angle(from)))
	mid := float64(from) + x + float64(w.Zero)
	if math.Abs(x) < 0.05 {
		miles *= 1 - x*x/6
	}
	sin, cos := math.Sincos(mid)
	if *w != (ResolverImperfection{Zero: w.Zero}) {
		cos, sin = w.discs(mid, cos, sin)
	}
	return float64(miles * cos), float64(miles * sin)
}

// discs is what the two discs make of the outputs, from the contacts of the
// resolver (crossed, stuck) to the balls on the discs.
func (w *ResolverImperfection) discs(heading, north, east float64) (float64, float64) {
	if w.Skew != 0 {
		east = math.Sin(heading + float64(w.Skew))
	}
	if w.NorthCrossed|w.EastCrossed != 0 {
		here := Quadrant(1 + int(units.Wrap(units.Angle(heading))/(90*units.Degree)))
		north, east = crossed(north, w.NorthCrossed&here), crossed(east, w.EastCrossed&here)
	}
	north, east = stuck(north, w.Stiction), stuck(east, w.Stiction)
	north = (north*(1+w.NorthGain) + w.NorthCentre) * (1 - w.NorthSlip)
	east = (east*(1+w.EastGain) + w.EastCentre) * (1 - w.EastSlip)
	return north, east
}

func crossed(x float64, here Quadrants) float64 {
	if here != 0 {
		return -x
	}
	return x
}

func stuck(x, threshold float64) float64 {
	if math.Abs(x) < threshold {
		return 0
	}
	return x
}
