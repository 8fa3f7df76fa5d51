package units

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// exact adds without any rounding; the magnitude is the sum of the absolute
// values, by which the error of a compensated sum is bounded.
func exact(start float64, addends []float64) (total *big.Float, magnitude float64) {
	total = new(big.Float).SetPrec(4000).SetFloat64(start)
	magnitude = math.Abs(start)
	for _, x := range addends {
		total.Add(total, new(big.Float).SetFloat64(x))
		magnitude += math.Abs(x)
	}
	return total, magnitude
}

func off(s Sum, total *big.Float) float64 {
	d := new(big.Float).SetPrec(4000).SetFloat64(s.Total)
	f, _ := d.Sub(d, total).Float64()
	return math.Abs(f)
}

// The bound of compensated summation: 2 u + O(n u^2) of the sum of the absolute
// values, u = 2^-53, whatever the number of addends (from memory: the textbook
// bound of Kahan's method).
func TestSumIsWithinItsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := rapid.Float64Range(-1e5, 1e5).Draw(t, "start")
		addends := rapid.SliceOfN(rapid.Float64Range(-1, 1), 0, 400).Draw(t, "addends")
		s := SumOf(start)
		for _, x := range addends {
			s.Add(x)
		}
		total, magnitude := exact(start, addends)
		require.LessOrEqual(t, off(s, total), 0x1p-52*magnitude*(1+1e-9))
	})
}

// Ten hours of sixteenths of a second at 200 kt on a counter of 10 800 minutes:
// what a plain sum loses here, the compensated one keeps.
func TestSumOfALongFlight(t *testing.T) {
	const steps = 10 * 3600 * 16
	const step = 200.0 / 3600 / 16
	s, plain := SumOf(10800), 10800.0
	for range steps {
		s.Add(step)
		plain += step
	}
	total := new(big.Float).SetPrec(200).SetFloat64(step)
	total.Mul(total, big.NewFloat(steps)).Add(total, big.NewFloat(10800))
	assert.LessOrEqual(t, off(s, total), 0x1p-39, "half a unit in the last place of 12 800, rounded up")
	assert.Greater(t, off(SumOf(plain), total), 1e-9, "or the compensation is for nothing")
}

func TestSumStartsAtZero(t *testing.T) {
	var s Sum
	assert.Equal(t, SumOf(0), s)
	s.Add(0.1)
	assert.Equal(t, 0.1, s.Total)
}
