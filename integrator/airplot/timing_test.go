package airplot

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// The hand figure of the navigation note, section 2.2: knots are h[ft] (tan a1 - tan a2) x
// 0.592484 / t[s]. At 8000 ft, wires 20 degrees ahead and astern, 19.2 s: 8000 x 0.72794 x
// 0.592484 / 19.2 = 179.7.
func ExampleGroundspeedByTiming() {
	gs, err := GroundspeedByTiming(8000*units.Foot, aboard.TimingWire, -aboard.TimingWire, 19200*time.Millisecond)
	fmt.Printf("%.1f kt %v\n", gs.Knots(), err)
	// Output: 179.7 kt <nil>
}

// timedDrift is a reading of the drift sight in the log, on heading 265 at 175 kt; the
// groundspeed 0 is none.
func timedDrift(at time.Duration, drift, groundspeed float64) aboard.Entry {
	r := aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: angle(drift)}
	if groundspeed > 0 {
		r.Timing = aboard.Timing{On: true, Groundspeed: knots(groundspeed)}
	}
	return aboard.Entry{Elapsed: at, Event: aboard.Observed, Heading: units.TrueHeading(angle(265)), TAS: knots(175),
		Action: aboard.Action{Kind: aboard.TakeAid, Reading: r}}
}

// TestWindByTiming: the first row of drift and groundspeed of nav_drift_wind.csv, wind
// 322.8069/25.1410 from heading 265, drift -7.5, groundspeed 163, as two readings in a log;
// the newest one that is used and was timed gives the wind.
func TestWindByTiming(t *testing.T) {
	v := &aboard.View{Log: []aboard.Entry{timedDrift(0, -7.5, 163), timedDrift(time.Minute, -6, 150), timedDrift(2*time.Minute, -7, 0)}}
	w, ok := Work(v, []bool{true, false, false}).WindByTiming()
	require.True(t, ok)
	assert.InDelta(t, 322.8069, w.From.Degrees(), 0.001)
	assert.InDelta(t, 25.1410, w.Speed.Knots(), 0.001)
	assert.True(t, w.Newest)
	w, ok = Work(v, []bool{true, true, true}).WindByTiming()
	require.True(t, ok)
	assert.Equal(t, 1, w.Reading)
	assert.False(t, w.Newest, "a drift was read later")
	_, ok = Work(v, []bool{false, false, true}).WindByTiming()
	assert.False(t, ok, "that one was not timed")
	_, ok = Work(v, nil).WindByTiming()
	assert.False(t, ok)
	v.Log[0].Action.Reading.Missing = aboard.OverCloud
	_, ok = Work(v, []bool{true, false, false}).WindByTiming()
	assert.False(t, ok)
}
