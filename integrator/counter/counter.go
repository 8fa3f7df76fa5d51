// Package counter turns a value into the digits on a row of drums: rollover,
// half-turned digits, hemisphere letters, the equator, and the 180th meridian
// in three designs. It draws nothing.
//
//	m     minutes of arc, latitude N +, longitude E +, unwrapped
//	x     the reading in tenths of a minute
//	p_i   position of drum i, lowest first; base_i its number of digits
//
// The lowest drum runs on continuously, p_0 = x mod 10. A higher drum stands on
// its digit and turns only while the one below goes from its last digit to 0:
//
//	p_i = floor(x/B_i) + max(0, p_(i-1) - (base_(i-1) - 1))   mod base_i
//
// Drums show the digit they have passed, so 60.0 minutes can never appear.
// Source: this project's own design (testdata/mech_counters.csv).
package counter

import (
	"fmt"
	"math"
)

// Lowest drum first. A circle of longitude is 21600 minutes.
var (
	latitudeDrums  = []float64{10, 10, 6, 10, 10}
	longitudeDrums = []float64{10, 10, 6, 10, 10, 10}
	milesDrums     = []float64{10, 10, 10, 10, 10}
	clockDrums     = []float64{10, 6, 10, 6, 10, 3}
)

const (
	circle = 21600.0
	half   = 10800.0
	// nudge is added before a digit is cut off, so that a value that is a tenth
	// but for rounding shows that tenth (1e-9 of a tenth).
	nudge = 1e-9
	// letterBand is how far on either side of the equator or a change-over
	// meridian, in minutes, the letter drum is seen to turn.
	letterBand = 0.05
)

// Latitude is the latitude counter: letter N or S, degrees, minutes and tenths.
// It reverses by itself at the equator; exactly 0 reads N.
func Latitude(minutes float64) Reading {
	r := drums(math.Abs(minutes)*10, latitudeDrums)
	r.Letter, r.LetterTurn = 'N', turning(minutes)
	if minutes < 0 {
		r.Letter = 'S'
	}
	return r
}

// East360 is the longitude counter that always counts east, 000 00.0 to
// 359 59.9.
func East360(minutes float64) Reading {
	return drums(floorMod(minutes)*10, longitudeDrums)
}

// Hemisphere is the longitude counter with a letter drum that reverses by
// itself: exactly 0 reads E, exactly 180 reads W.
func Hemisphere(minutes float64) Reading {
	w := floorMod(minutes)
	if w >= half {
		w -= circle
	}
	r := drums(math.Abs(w)*10, longitudeDrums)
	r.Letter, r.LetterTurn = 'E', max(turning(w), turning(half-math.Abs(w)))
	if w < 0 {
		r.Letter = 'W'
	}
	return r
}

// Lever is the longitude counter whose sense the crew sets with a lever. Left
// alone past 180 it reads on, 180 00.1 and so forth, and is Over.
func Lever(minutes float64, east bool) Reading {
	letter := byte('E')
	if !east {
		letter, minutes = 'W', -minutes
	}
	reading := floorMod(minutes)
	r := drums(reading*10, longitudeDrums)
	r.Letter, r.Over = letter, reading > half
	return r
}

// Miles is the air log counter: four digits and a tenth, rolling over at
// 10 000.
func Miles(nm float64) Reading { return drums(math.Abs(nm)*10, milesDrums) }

// Clock is the clock's drums, seconds of the day; its lowest drum is seconds.
func Clock(seconds float64) Reading {
	return drums(math.Mod(seconds, 86400), clockDrums)
}

// turning is how far the letter drum stands over at a value whose letter
// changes at 0: half-way at 0, at rest beyond the band.
func turning(m float64) float64 { return max(0, 0.5-0.5*math.Abs(m)/letterBand) }

func floorMod(minutes float64) float64 {
	m := math.Mod(minutes, circle)
	if m < 0 {
		m += circle
	}
	if m >= circle {
		m = 0
	}
	return m
}

func drums(x float64, bases []float64) Reading {
	r := Reading{N: len(bases)}
	x += nudge
	size, carry := 1.0, 0.0
	for i, base := range bases {
		whole := x / size
		p := math.Mod(whole, base)
		if i > 0 {
			p = math.Mod(math.Floor(whole)+carry, base)
		}
		r.Drums[i] = p
		carry = max(0, p-(base-1))
		size *= base
	}
	return r
}

// Digit is the digit that drum i shows (0 lowest).
func (r Reading) Digit(i int) int { return int(r.Drums[i]) }

// Arc is the reading of a position counter in words, "S 47 28.5" or "180 00.3".
func (r Reading) Arc() string {
	deg, width := 0, 2
	for i := r.N - 1; i >= 3; i-- {
		deg = deg*10 + r.Digit(i)
	}
	if r.N == len(longitudeDrums) {
		width = 3
	}
	s := fmt.Sprintf("%0*d %d%d.%d", width, deg, r.Digit(2), r.Digit(1), r.Digit(0))
	if r.Letter != 0 {
		s = string(r.Letter) + " " + s
	}
	return s
}
