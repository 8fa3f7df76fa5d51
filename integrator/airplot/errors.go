package airplot

import (
	"errors"
	"fmt"

	"stillair/integrator/units"
)

// LeastCut is the smallest angle at which two lines may cut and be called a fix
// (common practice asks for 30 degrees and more, no source; a long range of
// hyperbolas gives 7 and is used).
const LeastCut = 2 * units.Degree

// Errors of fixes.
var (
	ErrTooFew  = errors.New("a fix takes two position lines at least")
	ErrNoSigma = errors.New("a position line must have a standard deviation above 0")
	ErrNoMeet  = errors.New("the two position lines do not meet")
	ErrNoFix   = errors.New("no place was found that the readings agree on")
)

// ParallelError is the error for lines that are nearly parallel where they meet.
type ParallelError struct{ Cut units.Angle }

// Error names the angle.
func (e *ParallelError) Error() string {
	return fmt.Sprintf("the position lines cut at %.2g degrees only; a fix takes %.2g at least",
		e.Cut.Degrees(), LeastCut.Degrees())
}

// ChainError is the error for a time difference that its pair of stations
// cannot give.
type ChainError struct{ Got, Low, High TimeDifference }

// Error names the legal interval.
func (e *ChainError) Error() string {
	return fmt.Sprintf("a time difference of %.6g us cannot be received; this pair gives %.6g to %.6g us",
		e.Got.Microseconds(), e.Low.Microseconds(), e.High.Microseconds())
}
