package navigator

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// TestHomingIsFlownFromTheSeat: the keys of the homing loop turn the aircraft toward the
// needle until it stands in the middle; the beacon is then on the nose but for the loop's
// errors (eight degrees are far beyond them), and the wind is the flight's own as before.
func TestHomingIsFlownFromTheSeat(t *testing.T) {
	s := seated(t, "weather-triangle", 62*time.Minute)
	test.Tap(s.shelf[aboard.Loop-aboard.DriftSight])
	test.Tap(s.picks[0])
	s.pull()
	require.False(t, s.keys[leftKey].Visible())
	s.key(fyne.KeyDelete)
	s.pull()
	require.True(t, s.keys[leftKey].Visible())
	require.False(t, s.keys[readKey].Visible())
	truth := func() sim.Truth {
		got := make(chan sim.Truth)
		s.helm.Aside(func(e *sim.Engine, _ int) { got <- e.Snapshot().Truth })
		return <-got
	}
	before := truth()
	for range 60 {
		side, alive := s.moment.Scene.Needle()
		require.True(t, alive)
		switch {
		case side > 0.15:
			test.Tap(s.keys[rightKey])
		case side < -0.15:
			s.key(fyne.KeyLeft)
		}
		s.fly(3 * time.Second)
	}
	side, _ := s.moment.Scene.Needle()
	assert.InDelta(t, 0, side, 0.4)
	off := units.WrapHalf(s.moment.Scene.Null)
	assert.InDelta(t, 0, off.Degrees(), 8, "ahead, not astern")
	after := truth()
	assert.InDelta(t, before.TAS.Knots(), after.TAS.Knots(), 3)
	assert.InDelta(t, before.Wind.Speed.Knots(), after.Wind.Speed.Knots(), 3, "the wind is the flight's own")
	s.key(fyne.KeyDelete)
	assert.False(t, s.keys[leftKey].Visible())
	assert.True(t, s.keys[readKey].Visible())
}

// TestPressesInATurnAddUp: three at once are fifteen degrees.
func TestPressesInATurnAddUp(t *testing.T) {
	s := seated(t, "weather-triangle", 62*time.Minute)
	test.Tap(s.shelf[aboard.Loop-aboard.DriftSight])
	test.Tap(s.picks[0])
	s.pull()
	s.key(fyne.KeyDelete)
	from := units.Angle(s.moment.View.Heading)
	for range 3 {
		test.Tap(s.keys[rightKey])
	}
	s.pull()
	s.fly(30 * time.Second)
	assert.InDelta(t, 15, units.WrapHalf(units.Angle(s.moment.View.Heading)-from).Degrees(), 1)
}
