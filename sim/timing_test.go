package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// timedBy has the crew time something on the sea.
func timedBy(t require.TestingT, e *Engine, off float64) aboard.Reading {
	drift := aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, ByCrew: true, Timing: aboard.Timing{On: true, Error: off}}
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.TakeAid, Reading: drift}))
	log := e.View().Log
	return log[len(log)-1].Action.Reading
}

// wiresError is the error of the wires of a flight, of one: how much faster the sea seems
// to run.
func wiresError(e *Engine) float64 {
	truth := e.Snapshot().Truth
	return e.Scene(aboard.Aim{Aid: aboard.DriftSight}).Rate*float64(truth.Height)/float64(truth.Groundspeed) - 1
}

// TestTimingWithoutErrorGivesTheTrueGroundspeed: for any speed, height and wind, to what
// half a tick is of the time; the groundspeed is worked by hand from the time: the sea runs
// 2 tan 20 heights.
func TestTimingWithoutErrorGivesTheTrueGroundspeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kt := rapid.Float64Range(120, 300).Draw(t, "tas")
		p := plan(-47, 179, rapid.Float64Range(0, 359).Draw(t, "heading"), kt, time.Hour)
		p.Seed = rapid.Uint64Range(0, 1<<40).Draw(t, "seed")
		p.Aircraft.PressureAltitude = units.Length(rapid.Float64Range(1000, 25000).Draw(t, "height")) * units.Foot
		p.Air.Winds = []WindEntry{{Wind: wind(rapid.Float64Range(0, 359).Draw(t, "from"), rapid.Float64Range(0, 60).Draw(t, "wind"))}}
		e, err := New(p)
		require.NoError(t, err)
		p.Aids.Timing = 1/(1+wiresError(e)) - 1 // the wires are put right
		e.Advance(160)
		r := timedBy(t, e, 0)
		truth := e.Snapshot().Truth
		require.True(t, r.Timing.On)
		share := 0.5 / TicksPerSecond / r.Timing.Took.Seconds()
		require.InEpsilon(t, float64(truth.Groundspeed), float64(r.Timing.Groundspeed), 1.01*share+1e-6)
		byHand := truth.Height.Feet() * 2 * math.Tan(20*math.Pi/180) * 0.592484 / r.Timing.Took.Seconds()
		require.InEpsilon(t, byHand, r.Timing.Groundspeed.Knots(), 1e-4)
	})
}

// TestTimingIsWorkedByTheAltimeter: what is stated is added to the time; a static line that
// is blocked in the climb leaves the altimeter low, and the groundspeed with it; over cloud
// nothing is timed.
func TestTimingIsWorkedByTheAltimeter(t *testing.T) {
	e := navigated(t)
	e.Advance(TicksOf(10 * time.Minute))
	a, b := timedBy(t, e, 0), timedBy(t, e, 1.5)
	assert.Equal(t, 1500*time.Millisecond, b.Timing.Took-a.Timing.Took)
	assert.Less(t, b.Timing.Groundspeed, a.Timing.Groundspeed)
	assert.InDelta(t, 8000, a.Timing.Height.Feet(), 1)
	assert.InEpsilon(t, float64(e.Snapshot().Truth.Groundspeed), float64(a.Timing.Groundspeed), 5*0.01+0.005)

	p := *e.Plan()
	up := 16000 * units.Foot
	p.Legs = append([]Leg(nil), p.Legs...)
	p.Legs[0].Altitude = &up
	p.Faults = []fault.Order{{ID: "static-blocked", At: MinuteTicks}}
	p.Pilot = AsPlanned
	climbing := engine(t, &p)
	climbing.Advance(TicksOf(20 * time.Minute))
	r := timedBy(t, climbing, 0)
	truth := climbing.Snapshot().Truth
	require.Greater(t, truth.Height.Feet(), 15000.0)
	assert.InDelta(t, climbing.View().PressureAltitude.Feet(), r.Timing.Height.Feet(), 1e-9)
	assert.InEpsilon(t, float64(r.Timing.Height)/float64(truth.Height), float64(r.Timing.Groundspeed)/float64(truth.Groundspeed), 5*0.01+0.005)
	assert.Less(t, r.Timing.Height.Feet(), 10000.0)

	e.course.plan.Undercast = []Span{{}}
	r = timedBy(t, e, 0)
	assert.Equal(t, aboard.OverCloud, r.Missing)
	assert.Zero(t, r.Timing.Groundspeed)
}

// TestWhatHangsInTheAirIsNotTimed: in a headwind as strong as the airspeed the sea stands.
func TestWhatHangsInTheAirIsNotTimed(t *testing.T) {
	p := plan(-47, 179, 270, 120, time.Hour)
	p.Air.Winds = []WindEntry{{Wind: wind(270, 120)}}
	e := engine(t, p)
	e.Advance(160)
	r := timedBy(t, e, 0)
	assert.False(t, r.Timing.Gives())
	assert.Equal(t, aboard.Had, r.Missing)
}
