package counter

// MaxDrums is the largest number of drums of one counter.
const MaxDrums = 6

// Reading is what one counter shows.
type Reading struct {
	// Letter is N, S, E or W, or 0 where the design has no letter drum.
	Letter byte
	// LetterTurn is how far the letter drum stands over towards its other
	// letter, 0 at rest to 1.
	LetterTurn float64
	// Drums holds the position of each drum, lowest first, in digits: 3.25 is
	// a quarter of the way from 3 to 4. N of them are in use.
	Drums [MaxDrums]float64
	N     int
	// Over is true beyond the end of the scale (lever design past 180 00.0).
	Over bool
}
