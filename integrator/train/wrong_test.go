package train

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// The play operator by its other definition: the driven part stands between the
// two flanks of the driver, x and x + b, and is pushed by the one it meets.
func TestPlayIsTwoFlanks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(0.001, 3).Draw(t, "b")
		var p Play
		var x, y, driven float64
		for range rapid.IntRange(1, 100).Draw(t, "n") {
			dx := rapid.Float64Range(-2, 2).Draw(t, "dx")
			x += dx
			y = max(x, min(x+b, y))
			driven += p.Follow(dx, b)
			require.InDelta(t, y, driven, 1e-12)
		}
	})
}

// minutesOf runs a counter from one latitude or longitude to another, in
// hundredths, with a drum that does not move.
func minutesOf(from, to float64, w Imperfection) *State {
	s := &State{Lat: units.SumOf(from)}
	for range 100 {
		s.turnLat((to-from)/100, &w)
	}
	return s
}

// What a missed carry leaves: one digit of the drum that did not move, for each
// carry missed, as the reading goes up or down, north or south. By hand.
func TestMissedCarries(t *testing.T) {
	for name, c := range map[string]struct {
		from, to float64
		carry    Carry
		left     float64
		missed   int
	}{
		"minutes up":               {3000.5, 3001.5, Carry{Minutes, 1}, -1, 1},
		"tens up":                  {3005, 3015, Carry{TensOfMinutes, 1}, -10, 1},
		"degrees up":               {3005, 3065, Carry{Degrees, 1}, -60, 1},
		"degrees down past 51":     {3065, 3055, Carry{Degrees, 1}, 60, 1},
		"degrees down past tens":   {3055, 3005.01, Carry{Degrees, 1}, 0, 0},
		"degrees down past 50":     {3005, 2995, Carry{Degrees, 1}, 60, 1},
		"south up":                 {-3005, -3015, Carry{TensOfMinutes, 1}, 10, 1},
		"south down":               {-3005, -2995, Carry{TensOfMinutes, 1}, -10, 1},
		"two, then it moves":       {3005, 3055, Carry{TensOfMinutes, 2}, -20, 2},
		"none yet":                 {3001, 3009, Carry{TensOfMinutes, 1}, 0, 0},
		"the equator is no carry":  {5, -5, Carry{TensOfMinutes, 1}, 0, 0},
		"from a carry upwards":     {3000, 3005, Carry{TensOfMinutes, 1}, 0, 0},
		"from a carry downwards":   {3000, 2995, Carry{TensOfMinutes, 1}, 10, 1},
		"a tenth but for rounding": {3000 - 4e-13, 3005, Carry{TensOfMinutes, 1}, 0, 0},
	} {
		s := minutesOf(c.from, c.to, Imperfection{LatCarry: c.carry})
		assert.InDelta(t, c.to+c.left, s.Lat.Total, 1e-9, name)
		assert.Equal(t, c.missed, s.LatDrums.Missed, name)
	}
}

// An opposite miss undoes the offset; mended, the drum can fail anew.
func TestMissedCarryUndone(t *testing.T) {
	w := Imperfection{LatCarry: Carry{Degrees, 1}}
	s := minutesOf(3055, 3065, w)
	assert.InDelta(t, 3005, s.Lat.Total, 1e-9)
	s.turnLat(1, &Imperfection{})
	assert.InDelta(t, 3006, s.Lat.Total, 1e-9, "the offset stands")
	for range 100 {
		s.turnLat(-0.1, &w)
	}
	assert.InDelta(t, 3056, s.Lat.Total, 1e-9, "3056 without a miss on the way up or down")
}

func TestLongitudeDrumsMissTheirOwn(t *testing.T) {
	s := At(units.At(0, 10))
	w := Imperfection{LonCarry: Carry{TensOfMinutes, 1}, LatCarry: Carry{Minutes, 3}}
	for range 150 {
		s.Turn(0, 0.1, &w)
	}
	assert.InDelta(t, 605, s.Lon.Total, 1e-9)
	assert.Zero(t, s.Lat.Total)
}

// Beyond its limit the gear drops out: longitude stops, and runs again below.
func TestDisengaged(t *testing.T) {
	w := Imperfection{SecantLimit: 70 * units.Degree, Disengages: true}
	for _, lat := range []float64{75, -75} {
		s := At(units.At(lat, 0))
		s.Turn(0, 10, &w)
		assert.Zero(t, s.Lon.Total)
		_, out := s.Gear(&w)
		assert.True(t, out)
		s.Set(units.At(lat*0.8, 0)) // 60
		s.Turn(0, 10, &w)
		assert.InDelta(t, 20, s.Lon.Total, 1e-9)
		at, out := s.Gear(&w)
		assert.False(t, out)
		assert.InDelta(t, 60, math.Abs(at.Degrees()), 1e-9)
	}
}

// The latitude counter has stops at the poles.
func TestStops(t *testing.T) {
	s := At(units.At(-89.9, 0))
	s.Turn(-10, 0, &Imperfection{})
	assert.InDelta(t, -5400, s.Lat.Total, 1e-9)
	s.Turn(3, 0, &Imperfection{})
	assert.InDelta(t, -5397, s.Lat.Total, 1e-9)
	s.Knob(20000, 0)
	assert.InDelta(t, 5400, s.Lat.Total, 1e-9)
}
