package debrief

import (
	"math"
	"sort"
)

// Tenths are parts in whole tenths, as they are printed: they add up to the sum as
// it is printed. All are rounded down, and the tenths that are missing go to the
// largest remainders, of equal ones to the first.
func Tenths(parts []float64) []int {
	sum, left := 0.0, 0
	out, rest := make([]int, len(parts)), make([]int, len(parts))
	for i, p := range parts {
		sum += p
		out[i] = int(math.Floor(10 * p))
		left -= out[i]
		rest[i] = i
	}
	left += int(math.Round(10 * sum))
	over := func(i int) float64 { return 10*parts[i] - float64(out[i]) }
	sort.SliceStable(rest, func(a, b int) bool { return over(rest[a]) > over(rest[b]) })
	for i := 0; i < left && i < len(rest); i++ {
		out[rest[i]]++
	}
	return out
}
