package sighting

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// watched is a hand at a drift sight before a sea that runs.
type watched struct {
	*drift
	scene aboard.Scene
	view  aboard.View
}

func watching(groundspeed units.Speed, height units.Length) *watched {
	w := &watched{drift: New(aboard.Aim{Aid: aboard.DriftSight}).(*drift)}
	w.scene = aboard.Scene{Aim: w.aim, Rate: float64(groundspeed) / float64(height)}
	w.view.PressureAltitude = height
	w.See(&w.scene, &w.view)
	return w
}

// tick lets a sixteenth of a second pass.
func (w *watched) on() {
	w.scene.Tick++
	w.See(&w.scene, &w.view)
}

// foam is how far down the patch of foam stands, parts of the view, and whether it is seen.
func (w *watched) foam() (y float64, seen bool) {
	s := picture.StreaksAt(w.run, 7)[0]
	return s.Y, s.Length > 0 && s.Y < 1
}

// passes lets the sea run until the foam has passed a place, and presses.
func (w *watched) passes(t require.TestingT, at float64) {
	last, _ := w.foam()
	for range 16 * 3600 {
		w.on()
		y, seen := w.foam()
		if seen && last < at && y >= at {
			w.Press(0)
			return
		}
		last = y
	}
	require.Fail(t, "the foam never passed")
}

// TestAStreakTimedGivesTheTrueGroundspeed: a press at the tick at which the foam that is
// drawn has passed the wire that is drawn, ahead and astern: the true groundspeed, to a tick
// of the time, for any speed and height.
func TestAStreakTimedGivesTheTrueGroundspeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gs := units.Speed(rapid.Float64Range(60, 350).Draw(t, "groundspeed")) * units.Knot
		w := watching(gs, units.Length(rapid.Float64Range(1000, 25000).Draw(t, "height"))*units.Foot)
		for range rapid.IntRange(0, 600).Draw(t, "wait") {
			w.on()
		}
		w.passes(t, -timingAt)
		require.True(t, w.Controls()[0].In)
		w.passes(t, timingAt)
		r := w.Reading()
		require.True(t, r.Timing.On)
		require.Zero(t, r.Timing.Groundspeed, "it is worked when it is entered")
		got := w.timed()
		tick := 1.0 / 16 / r.Timing.Took.Seconds()
		require.InEpsilon(t, float64(gs), float64(got.Groundspeed), tick/(1-tick)+1e-9)
	})
}

// TestTheStopWatch: two presses make a time, a third begins another; what it says; a hidden
// sea and a clock put back have no time.
func TestTheStopWatch(t *testing.T) {
	w := watching(180*units.Knot, 8000*units.Foot)
	w.Turn(60)
	assert.Empty(t, w.Under())
	assert.False(t, w.Reading().Timing.On)
	w.Press(0)
	w.Press(0)
	assert.False(t, w.Controls()[0].In, "no time has passed: none is taken")
	w.Press(0)
	idle := w.Told()
	for range 307 { // 19.1875 s
		w.on()
	}
	assert.Equal(t, "19.2 s", w.Under())
	assert.False(t, w.Reading().Timing.On, "it still runs")
	w.Press(0)
	// The hand figure of the navigation note, 2.2: 8000 x 0.72794 x 0.592484 / 19.1875 = 179.8.
	assert.Equal(t, "180 kt", w.Under())
	assert.Equal(t, "6.0 R", w.Value())
	assert.NotEqual(t, idle, w.Told())
	assert.Contains(t, w.Told(), "8000 ft")
	assert.Equal(t, aboard.Timing{On: true, Took: 19187500 * time.Microsecond}, w.Reading().Timing)
	w.Press(0)
	assert.True(t, w.Controls()[0].In)
	w.scene.Missing = aboard.OverCloud
	w.on()
	assert.Equal(t, w.Wanting(), w.Controls()[0].Off)
	w.Press(0)
	assert.False(t, w.Controls()[0].In, "over cloud nothing is timed")
	w.scene.Missing = aboard.Had
	w.on()
	w.Press(0)
	w.on()
	w.scene.Tick -= 100
	w.See(&w.scene, &w.view)
	assert.False(t, w.Controls()[0].In)
}

// TestTheCrewTimeToo: with an error of their own.
func TestTheCrewTimeToo(t *testing.T) {
	sum := 0.0
	for tick := range int64(400) {
		r := ByCrew(aboard.Aim{Aid: aboard.DriftSight}, tick)
		require.True(t, r.Timing.On)
		require.LessOrEqual(t, math.Abs(r.Timing.Error), 2.5*crewTiming)
		sum += r.Timing.Error * r.Timing.Error
	}
	assert.InDelta(t, crewTiming, math.Sqrt(sum/400), 0.05)
	assert.False(t, ByCrew(aboard.Aim{Aid: aboard.Loop}, 3).Timing.On)
}

// TestHomingLocksTheCoil: the needle lies to the side of the station; the ring does not turn,
// no bearing is read, and let go it stands where it stood.
func TestHomingLocksTheCoil(t *testing.T) {
	h, s := handAt(t, aboard.Loop) // the station at 143.8R
	before := h.Value()
	assert.False(t, h.Homing())
	h.Press(HomeControl)
	assert.True(t, h.Homing())
	assert.NotEmpty(t, h.Wanting())
	assert.NotEmpty(t, h.Controls()[senseControl].Off)
	right := h.Value()
	h.Turn(40)
	h.Press(senseControl)
	signal, lowest, ok := h.Bar()
	assert.True(t, ok)
	assert.InDelta(t, 0.95, signal, 1e-9)
	assert.True(t, math.IsNaN(lowest))
	said := map[string]bool{right: true}
	for _, null := range []float64{0, 330} {
		s.Null = units.Angle(null) * deg
		h.See(&s, &aboard.View{})
		said[h.Value()] = true
	}
	s.Missing = aboard.TooFar
	h.See(&s, &aboard.View{})
	said[h.Value()] = true
	assert.Len(t, said, 4, "right, middle, left, dead: %v", said)
	assert.Equal(t, MissingText(aboard.TooFar), h.Told())
	s.Missing = aboard.Had
	h.See(&s, &aboard.View{})
	h.Press(HomeControl)
	assert.Equal(t, before, h.Value())
	assert.Empty(t, h.Wanting())
}

// TestTheBarFallsToTheNull: as long as the signal, with the least so far; of no other aid.
func TestTheBarFallsToTheNull(t *testing.T) {
	h, s := handAt(t, aboard.Loop)
	l := h.(*loop)
	last, _, _ := h.Bar()
	for l.bearing > s.Null.Degrees()+1 {
		h.Turn(-1)
		signal, lowest, _ := h.Bar()
		require.Less(t, signal, last)
		require.Equal(t, signal, lowest)
		last = signal
	}
	assert.Less(t, last, 0.08)
	h.Turn(40)
	signal, lowest, _ := h.Bar()
	assert.Greater(t, signal, lowest)
	assert.InDelta(t, last, lowest, 0.02)
	for a := range scenes {
		other, _ := handAt(t, a)
		_, _, hears := other.Bar()
		assert.Equal(t, a == aboard.Loop, hears, "%v", a)
	}
}
