package integrator

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

var leverDesign = Config{Longitude: HemisphereLever}

// east turns the air shafts east on the equator by minutes of longitude, a
// hundredth at a time.
func east(s *State, minutes float64) {
	n := int(minutes*100 + 0.5)
	for range n {
		s.Air.Turn(0, minutes/float64(n), &s.Wrong.Train)
	}
}

// shown is the reading of the longitude counter: its letter and its minutes,
// cut to a tenth.
func shown(t *testing.T, s *State) (letter string, minutes float64) {
	t.Helper()
	f := strings.Fields(s.LongitudeCounter(&leverDesign, s.Air.Lon.Total).Arc())
	require.Len(t, f, 3)
	degrees, err := strconv.ParseFloat(f[1], 64)
	require.NoError(t, err)
	m, err := strconv.ParseFloat(f[2], 64)
	require.NoError(t, err)
	return f[0], 60*degrees + m
}

// The lever thrown some minutes of longitude after 180, every row: the counter
// ran on to 180 and those minutes, and counts down from where it stood. Digits
// are tenths, so 1e-9 of the rows is an exact reading here.
func TestLeverThrownLate(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_lever_late.csv") {
		late, past := r.Float("lever_late_min"), r.Float("minutes_past_180")
		var s State
		s.Start(sense(0, 90), 0, units.Wind{}, units.At(0, 179), Imperfections{})
		require.True(t, s.LeverEast)
		east(&s, 60+late)
		letter, before := shown(t, &s)
		assert.Equal(t, "E", letter, "%v", r)
		assert.InDelta(t, 10800+late, before, 1e-9, "%v: the reading goes on past 180", r)
		s.ThrowLever(false)
		_, after := shown(t, &s)
		assert.InDelta(t, before, after, 1e-9, "%v: the drums stand where they stood", r)
		east(&s, past-late)
		letter, end := shown(t, &s)
		assert.Equal(t, "W", letter, "%v", r)
		assert.InDelta(t, r.Float("shown_west_min"), end, 1e-9, "%v", r)
		assert.InDelta(t, r.Float("error_min"), end-r.Float("true_west_min"), 1e-9, "%v", r)
	}
}

// At 0 the reading runs back through 359 59.9, and a lever x minutes late makes
// it 2 x too small (arithmetic, the same law).
func TestLeverThrownLateAtZero(t *testing.T) {
	var s State
	s.Start(sense(0, 270), 0, units.Wind{}, units.At(0, 1), Imperfections{})
	for range 6400 {
		s.Air.Turn(0, -0.01, &s.Wrong.Train)
	}
	reading := s.LongitudeCounter(&leverDesign, s.Air.Lon.Total)
	assert.Equal(t, "E 359 56.0", reading.Arc())
	s.ThrowLever(false)
	for range 3600 {
		s.Air.Turn(0, -0.01, &s.Wrong.Train)
	}
	letter, minutes := shown(t, &s)
	assert.Equal(t, "W", letter)
	assert.InDelta(t, 40-2*4, minutes, 1e-9, "40 minutes west; the lever was 4 late")
}

// Thrown to and fro without moving, nothing has changed, to the last bit.
func TestLeverToAndFro(t *testing.T) {
	var s State
	s.Start(sense(200, 75), 0, units.Wind{}, units.At(33, 179.9), Imperfections{})
	for range 2000 {
		s.Step(sense(200, 75), dt)
	}
	before := s
	s.ThrowLever(false)
	assert.NotEqual(t, before.Air.Lon, s.Air.Lon)
	s.ThrowLever(true)
	assert.Equal(t, before, s)
}
