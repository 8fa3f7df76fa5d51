package aboard

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

func TestReadingsAsTheyAreWritten(t *testing.T) {
	deg := units.Degree
	for want, r := range map[string]Reading{
		"6.0 R":     {Aim: Aim{Aid: DriftSight}, Angle: 6.04 * deg},
		"5.6 L":     {Aim: Aim{Aid: DriftSight}, Angle: -5.55001 * deg},
		"0.0":       {Aim: Aim{Aid: DriftSight}, Angle: -0.04 * deg},
		"43 35.6":   {Aim: Aim{Aid: Sextant}, Angle: 43*deg + 35.6*units.ArcMinute},
		"09 00.0":   {Aim: Aim{Aid: Sextant}, Angle: 8*deg + 59.96*units.ArcMinute},
		"144R":      {Aim: Aim{Aid: Loop}, Angle: 143.6 * deg},
		"1828.5 us": {Aim: Aim{Aid: PulseReceiver}, Delay: 1828.52},
		"000.0T":    {Aim: Aim{Aid: HeadingCheck}, Angle: 359.97 * deg},
		"028.4T":    {Aim: Aim{Aid: HeadingCheck}, Angle: 28.4 * deg},
		"":          {Aim: Aim{Aid: Pinpoint}},
	} {
		assert.Equal(t, want, r.Value())
	}
}

func TestAims(t *testing.T) {
	for _, name := range AidNames() {
		a, ok := ParseAim(" " + name + "  Cape Linnet ")
		require.True(t, ok)
		assert.Equal(t, name+" Cape Linnet", a.String())
	}
	_, ok := ParseAim("telescope Sun")
	assert.False(t, ok)
	assert.Empty(t, Had.String())
	for m := TooFar; m <= OverCloud; m++ {
		assert.NotEmpty(t, m.String())
	}
}

// TestATimedDriftIsWritten: drift and groundspeed; the tangent of 20 degrees is 0.36397
// (from memory).
func TestATimedDriftIsWritten(t *testing.T) {
	assert.InDelta(t, 2*0.36397, TimingSpan, 1e-5)
	r := Reading{Aim: Aim{Aid: DriftSight}, Angle: -3.2 * units.Degree, Timing: Timing{On: true, Groundspeed: 181.6 * units.Knot}}
	assert.Equal(t, "3.2 L, 182 kt", r.Value())
	r.Timing.On = false
	assert.Equal(t, "3.2 L", r.Value())
	assert.Empty(t, r.Timing.GroundspeedText())
}

// TestTheNeedle: to the side of the station, a sine worked by hand: of 10 degrees 0.17365,
// of 20 degrees 0.34202 (from memory); dead where nothing is heard.
func TestTheNeedle(t *testing.T) {
	at := func(null, floor float64) float64 {
		s := Scene{Aim: Aim{Aid: Loop}, Null: units.Angle(null) * units.Degree, Floor: floor}
		side, alive := s.Needle()
		require.True(t, alive)
		return side
	}
	assert.InDelta(t, 0.17365/0.34202, at(10, 0), 1e-4)
	assert.InDelta(t, -0.17365/0.34202, at(350, 0), 1e-4)
	assert.InDelta(t, 0.9*0.17365/0.34202, at(10, 0.1), 1e-4, "weaker")
	assert.InDelta(t, 0, at(0, 0), 1e-12)
	for null, want := range map[float64]float64{45: 1, 135: 1, 225: -1, 315: -1} {
		assert.Equal(t, want, at(null, 0), "%v", null)
	}
	assert.InDelta(t, 0, at(180, 0), 1e-12, "astern it does not tell")
	dead := Scene{Aim: Aim{Aid: Loop}, Null: 1, Missing: TooFar}
	side, alive := dead.Needle()
	assert.Zero(t, side)
	assert.False(t, alive)
	other := Scene{Aim: Aim{Aid: DriftSight}}
	_, alive = other.Needle()
	assert.False(t, alive)
}
