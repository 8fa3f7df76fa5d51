package conduct

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOpeningHours(t *testing.T) {
	s := machine(t, "[hours]\nwednesday = \"10:00-18:00\"\n")
	assert.Equal(t, Attract, s.Stage())
	s.Touch(Anywhere)
	s.wall = time.Date(2026, 11, 25, 18, 0, 0, 0, time.UTC)
	s.pass(0)
	assert.Equal(t, Playing, s.Stage(), "nobody is put out")
	s.pass(90 * time.Second)
	assert.Equal(t, Attract, s.Stage())
	s.pass(time.Second)
	assert.Equal(t, Shut, s.Stage())
	s.Touch(Anywhere)
	assert.Equal(t, Shut, s.Stage())
	s.wall = time.Date(2026, 12, 2, 10, 0, 0, 0, time.UTC)
	s.pass(0)
	assert.Equal(t, Attract, s.Stage(), "it wakes by itself")
	s.wall = time.Date(1970, 1, 1, 3, 0, 0, 0, time.UTC)
	s.pass(time.Second)
	assert.Equal(t, Attract, s.Stage(), "a clock that cannot be right shuts nothing")
}

// TestAWrongClockChangesNothingThatLasts: the wall clock leaps about for an hour; the
// idle time is that of the other clock.
func TestAWrongClockChangesNothingThatLasts(t *testing.T) {
	s := machine(t, twoFaults)
	s.Touch(Anywhere)
	for i := range 89 {
		s.at += time.Second
		s.Pass(s.at, wednesday.Add(time.Duration(i*7919-300000)*time.Hour))
		require.Equal(t, Playing, s.Stage(), "%d", i)
	}
	s.at += time.Second
	s.Pass(s.at, wednesday)
	assert.Equal(t, Attract, s.Stage())
	s.Pass(s.at-time.Hour, wednesday)
	assert.GreaterOrEqual(t, s.Since(), time.Duration(0), "time does not go back")
}

func TestKeeper(t *testing.T) {
	s := machine(t, twoFaults)
	s.Touch(Anywhere)
	press := func(keys string, hold time.Duration) {
		s.Key(keys[:1], true)
		s.pass(hold)
		for _, k := range keys[1:] {
			s.Key(string(k), true)
			s.Key(string(k), false)
		}
		s.Key(keys[:1], false)
	}
	press("KEY", time.Second)
	assert.Equal(t, Playing, s.Stage(), "not held for long enough")
	press("KYE", 3*time.Second)
	assert.Equal(t, Playing, s.Stage(), "another order")
	press("KXEY", 3*time.Second)
	assert.Equal(t, Playing, s.Stage(), "another key between")
	s.Key("E", true)
	s.Key("Y", true)
	assert.Equal(t, Playing, s.Stage(), "nothing is held")
	press("KEY", 2*time.Second)
	require.Equal(t, Keeper, s.Stage())
	s.Touch(KeeperTest)
	require.Equal(t, Test, s.Stage())
	assert.Equal(t, TestColumns*TestRows, s.Untouched())
	for c := range TestColumns {
		for r := range TestRows {
			s.TouchAt((float64(c)+0.5)/TestColumns, (float64(r)+0.5)/TestRows)
			assert.True(t, s.Tested(c, r))
		}
	}
	assert.Zero(t, s.Untouched())
	s.TouchAt(1, 1)
	s.TouchAt(0.5, 0.5)
	assert.Equal(t, Keeper, s.Stage())
	s.Touch(KeeperWipe)
	require.Equal(t, Wiping, s.Stage())
	s.pass(59 * time.Second)
	s.Touch(Anywhere)
	assert.Equal(t, Wiping, s.Stage(), "nothing answers for a minute")
	s.pass(time.Second)
	assert.Equal(t, Attract, s.Stage())
	press("KEY", 2*time.Second)
	s.Touch(KeeperBack)
	assert.Equal(t, Attract, s.Stage())
	press("KEY", 2*time.Second)
	s.pass(90 * time.Second)
	assert.Equal(t, Attract, s.Stage(), "forgotten, it goes back by itself")
	press("KEY", 2*time.Second)
	assert.False(t, s.Leaving())
	s.Touch(KeeperLeave)
	assert.True(t, s.Leaving())
}

func TestPicturesWander(t *testing.T) {
	s := machine(t, "shift_px = 3\nshift_every = \"10s\"\n")
	seen := map[[2]int]bool{}
	lastX, lastY := 0, 0
	for range 400 {
		x, y := s.Shift()
		assert.LessOrEqual(t, max(x, -x, y, -y), 3)
		assert.LessOrEqual(t, max(x-lastX, lastX-x, y-lastY, lastY-y), 1, "a pixel at a time")
		lastX, lastY = x, y
		seen[[2]int{x, y}] = true
		s.pass(10 * time.Second)
	}
	assert.Greater(t, len(seen), 20)
	x, y := machine(t, "shift_px = 0\n").Shift()
	assert.Zero(t, x)
	assert.Zero(t, y)
}
