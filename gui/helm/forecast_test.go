package helm

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// A forecast says what then comes, and leaves the flight alone.
func TestForecastIsWhatComes(t *testing.T) {
	plan, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	twin := e.Fork()
	h := New(e)
	defer h.Stop()
	entry, _ := fault.Lookup("drive-slip")
	o := fault.Order{ID: entry.ID, Params: entry.Defaults(), Trigger: fault.Trigger{Kind: fault.BySignal, Signal: 3}}
	seen := make(chan Outlook, 1)
	h.Forecast(o, 20*time.Minute, func(l Outlook) { seen <- l })
	l := <-seen
	assert.Zero(t, h.Moment().View.Tick)
	assert.Empty(t, h.Moment().Ordered)

	o.Trigger = fault.Trigger{}
	require.NoError(t, twin.Break(o))
	twin.Advance(sim.TicksOf(20 * time.Minute))
	assert.Equal(t, twin.View().Air, l.Broken.Air)
	assert.Equal(t, twin.View().AirLog, l.Sound.AirLog, "a slipping drive leaves the air log alone")
	assert.NotEqual(t, l.Sound.Air, l.Broken.Air)
}
