package counter

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Exactly 0 reads N and E, exactly 180 reads W; a longitude may have gone round
// any number of times (this project's own design).
func TestLettersAtTheChangeOvers(t *testing.T) {
	assert.Equal(t, "N 00 00.0", Latitude(0).Arc())
	assert.Equal(t, "N 00 00.1", Latitude(0.1).Arc())
	assert.Equal(t, "S 00 00.1", Latitude(-0.1).Arc())
	for _, round := range []float64{-2 * circle, -circle, 0, circle, 3 * circle} {
		for m, want := range map[float64]string{
			0: "E 000 00.0", 0.1: "E 000 00.1", -0.1: "W 000 00.1",
			half: "W 180 00.0", half - 0.1: "E 179 59.9", half + 0.1: "W 179 59.9",
		} {
			assert.Equal(t, want, Hemisphere(m+round).Arc(), "%v", m+round)
		}
	}
	for _, r := range []Reading{Latitude(0), Hemisphere(0), Hemisphere(half), Hemisphere(-half)} {
		assert.InDelta(t, 0.5, r.LetterTurn, 1e-6, "half-way")
	}
	assert.Zero(t, East360(0).Letter)
}

// The lever design has no letter drum that turns by itself: the lever says it.
func TestLeverSaysTheLetter(t *testing.T) {
	for m, want := range map[float64]string{0: "E 000 00.0", half: "E 180 00.0", half + 0.3: "E 180 00.3", -0.1: "E 359 59.9"} {
		assert.Equal(t, want, Lever(m, true).Arc())
		assert.Equal(t, "W"+want[1:], Lever(-m, false).Arc())
		assert.Zero(t, Lever(m, true).LetterTurn)
	}
	assert.False(t, Lever(half, true).Over)
	assert.True(t, Lever(half+0.1, true).Over)
}

// The letter drum stands at 0 for the first letter and at 1 for the second; a
// small change of the value moves it little, whichever way it crosses.
func TestLetterDrumDoesNotJump(t *testing.T) {
	place := func(r Reading, first byte) float64 {
		if r.Letter == first {
			return r.LetterTurn
		}
		return 1 - r.LetterTurn
	}
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom([]float64{0, half, -half, circle}).Draw(t, "near") + rapid.Float64Range(-0.1, 0.1).Draw(t, "by")
		const d = 1e-4
		// The drum turns through half in letterBand minutes.
		const most = 0.5*d/letterBand + 1e-6
		require.InDelta(t, place(Hemisphere(m), 'E'), place(Hemisphere(m+d), 'E'), most)
		require.InDelta(t, place(Latitude(m), 'N'), place(Latitude(m+d), 'N'), most)
	})
}

// The reading and the drums are those of the minutes: a reading taken apart
// gives the value cut to a tenth.
func TestReadingIsTheValueCutToATenth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(-3*216000, 3*216000).Draw(t, "tenths")
		part := rapid.Float64Range(0.01, 0.99).Draw(t, "part")
		m := (float64(tenths) + part) / 10
		r := East360(m)
		got := 600*(100*r.Digit(5)+10*r.Digit(4)+r.Digit(3)) + 100*r.Digit(2) + 10*r.Digit(1) + r.Digit(0)
		require.Equal(t, ((tenths%216000)+216000)%216000, got)
	})
}
