package film

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Rate is how many frames a second of film has: Num / Den, exactly.
type Rate struct{ Num, Den int64 }

// The lowest and the highest rate.
const leastRate, mostRate = 1, 120

// ParseRate reads 25 or 24000/1001.
func ParseRate(text string) (Rate, error) {
	num, den, broken := strings.Cut(text, "/")
	n, err := strconv.ParseInt(num, 10, 64)
	d := int64(1)
	if broken && err == nil {
		d, err = strconv.ParseInt(den, 10, 64)
	}
	if err != nil || n < 1 || d < 1 || n > 1_000_000 || n < leastRate*d || n > mostRate*d {
		return Rate{}, fmt.Errorf("%s: must be %d to %d frames a second, whole (25) or as a fraction (24000/1001)", text, leastRate, mostRate)
	}
	return Rate{n, d}, nil
}

// String writes the rate as ParseRate reads it.
func (r Rate) String() string {
	if r.Den == 1 {
		return strconv.FormatInt(r.Num, 10)
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

// Time is the film time of a frame, seconds; frames count from 0.
func (r Rate) Time(frame int) *big.Rat { return big.NewRat(int64(frame)*r.Den, r.Num) }

// Centiseconds is how long a frame stands where time is counted in hundredths of
// a second; the sum over all frames is right to one.
func (r Rate) Centiseconds(frame int) int {
	at := func(n int64) int64 { return (200*n*r.Den + r.Num) / (2 * r.Num) }
	return int(at(int64(frame)+1) - at(int64(frame)))
}
