package counter

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/internal/rows"
)

func TestCounters(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_counters.csv") {
		m := r.Float("lon_minutes_unwrapped_east")
		assert.Equal(t, r.Text("east360"), East360(m).Arc(), "%v", r)
		assert.Equal(t, r.Text("hemisphere_auto"), Hemisphere(m).Arc(), "%v", r)
		for i, cell := range strings.Fields(r.Text("drum_positions_tenths_units_tens_deg1_deg10_deg100")) {
			want, err := strconv.ParseFloat(cell, 64)
			require.NoError(t, err)
			assert.InDelta(t, want, East360(m).Drums[i], 1e-3, "%v drum %d", r, i)
		}
	}
}

// The lever is thrown some minutes after 180; the reading stays twice as much
// too large. The longitude is mirrored when the lever is thrown.
func TestLeverLate(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_lever_late.csv") {
		late, past := r.Float("lever_late_min"), r.Float("minutes_past_180")
		east := 10800 + late // where the lever is thrown
		lon := -east + (past - late)
		got := Lever(lon, false)
		assert.Equal(t, byte('W'), got.Letter)
		shown := value(got)
		assert.InDelta(t, r.Float("shown_west_min"), shown, 0.1, "%v", r)
		assert.InDelta(t, r.Float("error_min"), shown-r.Float("true_west_min"), 0.1, "%v", r)
	}
	assert.True(t, Lever(10800.1, true).Over)
	assert.Equal(t, "E 180 00.1", Lever(10800.1, true).Arc())
	assert.False(t, Lever(10800, true).Over)
}

// value is a reading in minutes, cut to a tenth.
func value(r Reading) float64 {
	deg, _ := strconv.Atoi(strings.Fields(r.Arc())[1])
	m, _ := strconv.ParseFloat(strings.Fields(r.Arc())[2], 64)
	return float64(60*deg) + m
}

func TestLatitude(t *testing.T) {
	for m, want := range map[float64]string{
		0: "N 00 00.0", -0.04: "S 00 00.0", -2848.55: "S 47 28.5", 5399.99: "N 89 59.9", -60: "S 01 00.0",
	} {
		assert.Equal(t, want, Latitude(m).Arc())
	}
	assert.InDelta(t, 0.5, Latitude(0).LetterTurn, 1e-12, "the letter drum stands half-way at the equator")
	assert.Zero(t, Latitude(1).LetterTurn)
	assert.InDelta(t, 0.5, Hemisphere(10800).LetterTurn, 1e-9)
}

func TestClockAndMiles(t *testing.T) {
	c := Clock(10*3600 + 51*60 + 20)
	assert.Equal(t, []int{0, 2, 1, 5, 0, 1}, []int{c.Digit(0), c.Digit(1), c.Digit(2), c.Digit(3), c.Digit(4), c.Digit(5)})
	m := Miles(10241.37)
	assert.Equal(t, []int{3, 1, 4, 2, 0}, []int{m.Digit(0), m.Digit(1), m.Digit(2), m.Digit(3), m.Digit(4)}, "rolls over at 10 000")
}

// No drum jumps: a small change of the value moves each drum by no more.
func TestDrumsAreContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.Float64Range(-30000, 30000).Draw(t, "minutes")
		const d = 1e-4
		a, b := East360(m), East360(m+d)
		if math.Floor(m/circle) != math.Floor((m+d)/circle) {
			return // from 359 59.9 to 0 the degrees run on to 0 in one go
		}
		for i, base := range longitudeDrums {
			step := math.Abs(math.Remainder(b.Drums[i]-a.Drums[i], base))
			require.LessOrEqual(t, step, 10*d+1e-6, "drum %d at %v", i, m)
		}
	})
}
