package papers

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// TestATimedDriftInTheLog: with what the groundspeed was worked from; the figures are the
// hand figure of the navigation note, 2.2: 8000 x 0.72794 x 0.592484 / 19.2 = 179.7.
func TestATimedDriftInTheLog(t *testing.T) {
	n := &aboard.Entry{Event: aboard.Observed, Action: aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
		Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: 6 * units.Degree,
		Timing: aboard.Timing{On: true, Took: 19200 * time.Millisecond, Height: 8000 * units.Foot, Groundspeed: 179.7 * units.Knot},
	}}}
	assert.Equal(t, "Drift 6.0 R, 180 kt (19.2 s at 8000 ft)", readingRemark(&sim.Plan{}, n))
	n.Action.Reading.Timing = aboard.Timing{}
	assert.Equal(t, "Drift 6.0 R", readingRemark(&sim.Plan{}, n))
}
