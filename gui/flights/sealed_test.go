package flights

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/record"
)

// A sealed flight's text and record hold the seed and no fault, and fly again as they were
// flown.
func TestASealedFlight(t *testing.T) {
	f, err := OpenShipped(scenarios.Default)
	require.NoError(t, err)
	require.True(t, f.CanSeal())
	a, err := f.Seal(1234)
	require.NoError(t, err)
	b, err := f.Seal(1234)
	require.NoError(t, err)
	assert.Equal(t, a.Plan.Faults, b.Plan.Faults)
	require.NotEmpty(t, a.Plan.Faults)
	assert.Equal(t, f.Survey.Ticks, a.Survey.Ticks, "the chart of the way tells nothing")
	e, err := a.Engine()
	require.NoError(t, err)
	var out bytes.Buffer
	w, err := record.NewWriter(&out, record.Header{Name: a.Name, Seed: a.Plan.Seed, Flight: string(a.Source.Text)})
	require.NoError(t, err)
	for e.Advance(60*sim.TicksPerSecond) > 0 {
		require.NoError(t, w.Note(e))
	}
	require.NoError(t, w.Close(e))
	for _, o := range a.Plan.Faults {
		assert.NotContains(t, out.String(), o.ID)
	}
	assert.Contains(t, out.String(), "sealed = 1234")
	again, err := open("x.record", out.Bytes())
	require.NoError(t, err)
	g, err := again.Engine()
	require.NoError(t, err)
	g.GoTo(e.Tick())
	assert.Equal(t, e.Hash(), g.Hash())
}

func TestWhatCannotBeSealed(t *testing.T) {
	for _, name := range []string{"pitot-ice", "lesson-wind", "find-the-two"} {
		f, err := OpenShipped(name)
		require.NoError(t, err)
		assert.False(t, f.CanSeal(), name)
		_, err = f.Seal(1)
		assert.Error(t, err, name)
	}
}
