package sim

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/sim/fault"
)

// Flown on, both are what an engine that was never forked is; what is done to
// one of them stays there.
func TestForkStandsAlone(t *testing.T) {
	slip := fault.Order{ID: "drive-slip", Params: []float64{0.2}}
	at, end := TicksOf(11*time.Minute)+7, TicksOf(25*time.Minute)
	plain := engine(t, busy())
	plain.Advance(end)

	e := engine(t, busy())
	e.Advance(at)
	f := e.Fork()
	assert.Equal(t, e.Hash(), f.Hash())

	f.Advance(end - at)
	assert.Equal(t, at, e.Tick(), "the original stands where it was")
	e.Advance(end - at)
	assert.Equal(t, plain.Hash(), e.Hash())
	assert.Equal(t, plain.Hash(), f.Hash())
	assert.Equal(t, plain.View(), e.View(), "and their records are whole")
	assert.Equal(t, plain.View(), f.View())

	for name, originalActs := range map[string]bool{"original": true, "fork": false} {
		acting := engine(t, busy())
		acting.Advance(at)
		other := acting.Fork()
		if !originalActs {
			acting, other = other, acting
		}
		require.NoError(t, acting.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(90, 60)}))
		require.NoError(t, acting.Break(slip))
		acting.Advance(960)
		other.Advance(end - at)
		acting.Advance(end - at - 960)
		assert.Equal(t, plain.Hash(), other.Hash(), "the %s acts", name)
		assert.Equal(t, plain.View(), other.View(), "the %s acts", name)
		assert.NotEqual(t, plain.Hash(), acting.Hash())
	}
}
