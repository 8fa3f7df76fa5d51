package navigator

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/sim"
)

func (s *seat) key(name fyne.KeyName) { s.eye.TypedKey(&fyne.KeyEvent{Name: name}) }

// TestAStreakIsTimedAndTheWindSet: the wires are laid along the sea, the watch is pressed by
// its key at the wire ahead and by its button at the wire astern; drift and groundspeed give
// the wind, and that is set.
func TestAStreakIsTimedAndTheWindSet(t *testing.T) {
	s := seated(t, "weather-triangle", time.Hour)
	test.Tap(s.shelf[0])
	s.pull()
	scene := s.moment.Scene
	require.NotNil(t, scene)
	s.eye.turn(math.Round(10 * scene.Along.Degrees()))
	assert.Equal(t, look.Text(look.DriftTime), s.keys[secondKey].Word)
	s.key(fyne.KeyBackspace)
	assert.Equal(t, look.Text(look.DriftStop), s.keys[secondKey].Word)
	s.fly(time.Duration(aboard.TimingSpan / scene.Rate * float64(time.Second)))
	test.Tap(s.keys[secondKey])
	test.Tap(s.keys[readKey])
	s.pull()
	require.Len(t, s.rows, 1)
	log := s.moment.View.Log
	last := log[len(log)-1]
	r := last.Action.Reading
	require.True(t, r.Timing.Gives())
	assert.Equal(t, last.Height, r.Timing.Height)
	got := make(chan sim.Truth)
	s.helm.Aside(func(e *sim.Engine, _ int) { got <- e.Snapshot().Truth })
	truth := <-got
	assert.InEpsilon(t, float64(truth.Groundspeed), float64(r.Timing.Groundspeed), 0.05, "the wires' own error is left")
	assert.Contains(t, s.rows[0].Moved, r.Timing.GroundspeedText())
	assert.Empty(t, s.card.Fix)
	require.NotEmpty(t, s.card.Wind)
	test.Tap(s.keys[windKey])
	s.pull()
	set := s.moment.View.WindSet
	assert.Equal(t, s.card.Wind, set.String())
	n, e := set.Velocity()
	tn, te := truth.Wind.Velocity()
	// A degree of drift is 3 kt across at 190 kt; five in a hundred of groundspeed 10 kt along.
	assert.Less(t, math.Hypot(float64(n-tn), float64(e-te))/0.5144, 12.0)
}

// TestTheOneReadLastIsGoneBy: by drift on two headings, or by drift and groundspeed; the
// other one stands beside it.
func TestTheOneReadLastIsGoneBy(t *testing.T) {
	s := seated(t, "weather-triangle", time.Hour)
	drift := func(timed bool) {
		r := aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, ByCrew: true, Timing: aboard.Timing{On: timed}}
		s.helm.Do(aboard.Action{Kind: aboard.TakeAid, Reading: r})
		s.pull()
	}
	drift(true)
	first := s.card.Wind
	require.NotEmpty(t, first)
	s.fly(35 * time.Minute) // another heading
	drift(false)
	assert.Equal(t, [][2]string{{look.Text(look.PlotByTime), first}}, s.card.Rows)
	wind, ok := s.book.Wind()
	require.True(t, ok)
	assert.Equal(t, wind.String(), s.card.Wind)
	drift(true)
	require.Len(t, s.card.Rows, 1)
	assert.Equal(t, look.Text(look.PlotWind), s.card.Rows[0][0])
	wind, _ = s.book.Wind()
	assert.Equal(t, wind.String(), s.card.Wind)
}

// TestHomingGoesOnWhenTheEyeIsTakenAway: the small needle follows the station while the loop
// is no longer looked through, and while another aid was; it stops when it is let go.
func TestHomingGoesOnWhenTheEyeIsTakenAway(t *testing.T) {
	s := seated(t, "weather-triangle", 50*time.Minute)
	open := func() {
		test.Tap(s.shelf[aboard.Loop-aboard.DriftSight])
		test.Tap(s.picks[0])
		s.pull()
	}
	open()
	beacon := s.aim
	assert.False(t, s.needle.Visible())
	test.Tap(s.keys[thirdKey])
	assert.NotEmpty(t, s.keys[readKey].Reason, "a needle is no bearing")
	require.True(t, s.Shut())
	s.pull()
	assert.True(t, s.needle.Visible())
	require.NotNil(t, s.moment.Scene)
	assert.Equal(t, beacon, s.moment.Scene.Aim)
	side, alive := s.moment.Scene.Needle()
	require.True(t, alive)
	assert.Equal(t, side, s.needle.is.Side)

	test.Tap(s.shelf[0])
	s.pull()
	assert.Equal(t, aboard.DriftSight, s.moment.Scene.Aid)
	s.Shut()
	s.pull()
	assert.Equal(t, beacon, s.moment.Scene.Aim)
	s.Bring(false)
	s.pull()
	assert.Nil(t, s.moment.Scene, "nothing is asked out of sight")
	s.Bring(true)
	s.pull()
	assert.Equal(t, beacon, s.moment.Scene.Aim)

	open()
	assert.True(t, s.hand.Homing(), "as it was left")
	s.key(fyne.KeyDelete)
	s.Shut()
	s.pull()
	assert.False(t, s.needle.Visible())
	assert.Nil(t, s.moment.Scene)
}

// TestAnEyepieceKeepsClearOfItsFrame: in any room the box of the eyepiece lies within.
func TestAnEyepieceKeepsClearOfItsFrame(t *testing.T) {
	for _, room := range [][2]float64{{380, 280}, {580, 575}, {300, 900}} {
		x, y, r := place(room[0], room[1])
		assert.GreaterOrEqual(t, x-1.40*r, 3.0)
		assert.LessOrEqual(t, x+1.40*r, room[0]-3)
		assert.GreaterOrEqual(t, y-1.29*r, 2.0)
		assert.LessOrEqual(t, y+1.23*r, room[1]-2)
	}
}
