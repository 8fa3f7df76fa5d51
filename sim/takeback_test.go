package sim

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/sim/fault"
)

// What is taken back leaves no trace: the flight goes on as one in which it was
// never done, to the last bit, in plot and log too.
func TestTakeBackLeavesNoTrace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tick := rapid.SampledFrom([]int64{0, 1, 959, 960, 961, 3000}).Draw(t, "tick")
		before := rapid.Bool().Draw(t, "something done before")
		on := rapid.Int64Range(0, 3000).Draw(t, "ticks flown on")
		fly := func() *Engine {
			e, err := New(straight(40))
			require.NoError(t, err)
			if before && tick > 0 {
				e.Advance(tick / 2)
				require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(200, 15)}))
			}
			e.GoTo(tick)
			return e
		}
		never, e := fly(), fly()
		require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(90, 44)}))
		require.NoError(t, e.Break(fault.Order{ID: "drive-slip", Params: []float64{0.05}}))
		e.Advance(on)
		require.NoError(t, e.Hold(heldHeading(200)))
		require.NoError(t, e.TakeBack(tick))
		assert.Equal(t, never.Hash(), e.Hash())
		assert.Empty(t, e.LiveFaults())
		never.Advance(2000)
		e.Advance(2000)
		assert.Equal(t, never.Hash(), e.Hash())
		assert.Equal(t, never.View(), e.View())
		assert.Equal(t, never.TrueTrack(), e.TrueTrack())
		require.NoError(t, e.Break(fault.Order{ID: "drive-slip", Params: []float64{0.05}}), "others can be given")
	})
}

// A tick ahead is flown to, and what was done stays.
func TestTakeBackAheadFlies(t *testing.T) {
	e := engine(t, straight(40))
	briefed := e.View().WindSet
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(90, 44)}))
	require.NoError(t, e.TakeBack(500))
	assert.Equal(t, int64(500), e.Tick())
	assert.InDelta(t, 44, e.View().WindSet.Speed.Knots(), 1e-9)
	require.NoError(t, e.TakeBack(-3))
	assert.Equal(t, briefed, e.View().WindSet)
	assert.NotEqual(t, 44.0, briefed.Speed.Knots())
}
