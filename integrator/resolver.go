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
	north, east = w.discs(mid)
	return float64(miles * north), float64(miles * east)
}

// Balls is where the two balls stand when the resolver is fed with a heading:
// their distance from the middle of their discs, as a part of full output.
func (w *ResolverImperfection) Balls(h units.TrueHeading) (north, east float64) {
	return w.balls(float64(h) + float64(w.Zero))
}

// Discs is what the two discs give for each mile that the drive turns them,
// their slip taken off.
func (w *ResolverImperfection) Discs(h units.TrueHeading) (north, east float64) {
	return w.discs(float64(h) + float64(w.Zero))
}

// discs takes the heading that the resolver stands at.
func (w *ResolverImperfection) discs(heading float64) (north, east float64) {
	north, east = w.balls(heading)
	return north * (1 - w.NorthSlip), east * (1 - w.EastSlip)
}

func (w *ResolverImperfection) balls(heading float64) (north, east float64) {
	east, north = math.Sincos(heading)
	if *w != (ResolverImperfection{Zero: w.Zero}) {
		north, east = w.outputs(heading, north, east)
	}
	return north, east
}

// outputs is what becomes of cosine and sine between the resolver's axes and the
// balls: its contacts (crossed, stuck), the gains, the places of rest.
func (w *ResolverImperfection) outputs(heading, north, east float64) (float64, float64) {
	if w.Skew != 0 {
		east = math.Sin(heading + float64(w.Skew))
	}
	if w.NorthCrossed|w.EastCrossed != 0 {
		here := Quadrant(1 + int(units.Wrap(units.Angle(heading))/(90*units.Degree)))
		north, east = crossed(north, w.NorthCrossed&here), crossed(east, w.EastCrossed&here)
	}
	north, east = stuck(north, w.Stiction), stuck(east, w.Stiction)
	return north*(1+w.NorthGain) + w.NorthCentre, east*(1+w.EastGain) + w.EastCentre
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
