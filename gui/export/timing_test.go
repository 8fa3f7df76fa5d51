package export

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// TestATimedDriftHasItsGroundspeed: drift, time, the height it was worked with and the
// groundspeed go out; of a drift alone the drift.
func TestATimedDriftHasItsGroundspeed(t *testing.T) {
	r := aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: -3.2 * units.Degree, Timing: aboard.Timing{
		On: true, Took: 19200 * time.Millisecond, Height: 8000 * units.Foot, Groundspeed: 179.7 * units.Knot}}
	assert.Equal(t, []Fact{
		{"action", "take"}, {"aid", "drift"}, {"reading_deg", -3.2},
		{"timed_s", 19.2}, {"by_pressure_altitude_ft", 8000.0}, {"groundspeed_kt", 179.7},
	}, readingFacts(&r))
	r.Timing = aboard.Timing{}
	assert.Len(t, readingFacts(&r), 3)
	r.Missing = aboard.OverCloud
	assert.Equal(t, Fact{"taken", false}, readingFacts(&r)[2])
}
