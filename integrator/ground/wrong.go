package ground

import (
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// Imperfection is how the ground side departs from the ideal one; the zero
// value is ideal. What is wrong with the wind acts on top of what is set.
//
//	Design        the make: summed by shafts, or plotted
//	Wind          the setting of the wind
//	ClockRate     relative error of the wind clock
//	ClockLate     s, the clock stands this long before it starts, after a reset
//	              or from when this appears
//	ClockOld      s, old run that a reset leaves on the clock (plotted design)
//	Marker        drive and place of the marker
//	Train         the second pair of trains
type Imperfection struct {
	Design    Design
	Wind      WindError
	ClockRate float64
	ClockLate float64
	ClockOld  float64
	Marker    MarkerError
	Train     train.Imperfection
}

// WindError is what is wrong with the wind set: taken as blowing toward, turned
// (clockwise +), its speed too large by a part Speed (factor - 1).
type WindError struct {
	Reversed bool
	Turn     units.Angle
	Speed    float64
}

// MarkerError is what is wrong with the marker. Scale is the relative error of
// its drive (factor - 1); with Fixed the drive has the scale, in mm a mile, of
// one latitude, ScaleLatitude, on a Mercator chart. North and East (NM) are how
// far from its place it was put down.
type MarkerError struct {
	Scale         float64
	Fixed         bool
	ScaleLatitude units.Angle
	North, East   float64
}

// of is the wind that is in force when w is set.
func (e WindError) of(w units.Wind) units.Wind {
	if e == (WindError{}) {
		return w
	}
	if e.Reversed {
		w.From += 180 * units.Degree
	}
	w.From = units.Wrap(w.From + e.Turn)
	w.Speed *= units.Speed(1 + e.Speed)
	return w
}

// Driven tells whether the drive of the marker is wrong: then the marker moves
// otherwise than the ground counters.
func (e *MarkerError) Driven() bool { return e.Scale != 0 || e.Fixed }
