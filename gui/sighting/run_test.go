package sighting

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/aboard"
	"stillair/sim"
)

// TestTheSeaKeepsUpWithTheClock: in however few looks it is seen, in 20 s at 0.04 heights a
// second it runs 0.8 heights, which is 1.6 radii of a view that spans half a height.
func TestTheSeaKeepsUpWithTheClock(t *testing.T) {
	for _, looks := range []int64{1, 7, 320} {
		h, s := handAt(t, aboard.DriftSight)
		d := h.(*drift)
		at := d.run
		for i := int64(1); i <= looks; i++ {
			s.Tick = 20 * sim.TicksPerSecond * i / looks
			h.See(&s, &aboard.View{})
		}
		assert.InDelta(t, 1.6, d.run-at, 1e-9, "%d looks", looks)
	}
}
