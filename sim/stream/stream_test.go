package stream

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// Against the complementary error function of the standard library and the
// quantile of gonum, two codes of other hands.
func TestNormalQuantile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(1e-16, 1-1e-16).Draw(t, "p")
		z := normalQuantile(p)
		back := 0.5 * math.Erfc(-z/math.Sqrt2)
		require.InDelta(t, p, back, 4e-16+2e-15*p)
		require.InDelta(t, distuv.UnitNormal.Quantile(p), z, 1e-9*(1+math.Abs(z)))
	})
	// Percentage points of printed tables (from memory): 97.5 and 99.5 percent.
	assert.InDelta(t, 1.959963985, normalQuantile(0.975), 5e-10)
	assert.InDelta(t, 2.575829304, normalQuantile(0.995), 5e-10)
	assert.Zero(t, normalQuantile(0.5))
}

// Seeding is the stated rule, worked here a second time.
func TestSeed(t *testing.T) {
	text := append([]byte{7, 0, 0, 0, 0, 0, 0, 0}, "compass"...)
	sum := sha256.Sum256(text)
	want := rand.NewPCG(binary.LittleEndian.Uint64(sum[:8]), binary.LittleEndian.Uint64(sum[8:16]))
	s := New(7, "compass")
	for range 100 {
		require.Equal(t, want.Uint64(), s.last)
		s.Draw()
	}
}

func TestStreamsAreTheirOwn(t *testing.T) {
	a, b, c := New(7, "pitot"), New(7, "static"), New(8, "pitot")
	assert.NotEqual(t, a.last, b.last)
	assert.NotEqual(t, a.last, c.last)
	kept := a
	for range 10 {
		a.Draw()
		_ = a.Normal() // reading draws nothing
		_ = a.Normal()
	}
	for range 10 {
		kept.Draw()
	}
	assert.Equal(t, a, kept)
}

func TestMeanAndVariance(t *testing.T) {
	const n = 200_000
	s := New(1957, "thermometer")
	var sum, squares float64
	for range n {
		s.Draw()
		z := s.Normal()
		sum += z
		squares += z * z
	}
	assert.InDelta(t, 0, sum/n, 4/math.Sqrt(n), "four standard errors")
	assert.InDelta(t, 1, squares/n, 4*math.Sqrt(2.0/n), "four standard errors")
}
