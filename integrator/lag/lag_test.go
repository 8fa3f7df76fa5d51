package lag

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// An input at a constant rate from rest leaves the output behind by
// rate tau (1 - exp(-t/tau)); a jump dies away as exp(-t/tau).
func TestRampAndJump(t *testing.T) {
	const tau, rate = 1.7, 4.0
	for _, dt := range []float64{2, 0.5, 1.0 / 16} {
		var y, u float64
		for range int(6 / dt) {
			y, u = Follow(y, u, u+rate*dt, dt, tau), u+rate*dt
		}
		behind := rate * tau * (1 - math.Exp(-6/tau))
		assert.InDelta(t, behind, u-y, 1e-12)
		b := Behind(behind, 10, 0, tau)
		assert.InDelta(t, behind+10, b, 1e-15)
		assert.InDelta(t, (behind+10)*math.Exp(-dt/tau), Behind(b, 0, dt, tau), 1e-12)
	}
}

// No lag is none, and a step in two parts is the step.
func TestParts(t *testing.T) {
	assert.Zero(t, Behind(3, 4, 1, 0))
	assert.InDelta(t, 7, Follow(1, 2, 7, 1, 0), 0)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		b, moved, dt, tau, part := draw("b", -5, 5), draw("moved", -5, 5), draw("dt", 0.01, 9), draw("tau", 0.05, 30), draw("part", 0.1, 0.9)
		whole := Behind(b, moved, dt, tau)
		halves := Behind(Behind(b, moved*part, dt*part, tau), moved*(1-part), dt*(1-part), tau)
		require.InDelta(t, whole, halves, 1e-12)
	})
}
