package helm

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim"
	"stillair/sim/fault"
)

func TestFaultsAreSeenByThoseWhoMay(t *testing.T) {
	h := New(engine(t))
	defer h.Stop()
	h.Break(fault.Order{ID: "drive-slip", Params: []float64{0.2}})
	h.Step(16)
	assert.Nil(t, until(t, h, "a second", func(m *Moment) bool { return m.View.Tick == 16 }).Revealed)
	h.Reveal(true)
	m := until(t, h, "the fault", func(m *Moment) bool { return m.Revealed != nil })
	require.Len(t, m.Revealed.Faults, 1)
	assert.Equal(t, sim.FaultInForce, m.Revealed.Faults[0].Stands)
	h.Mend(0)
	m = until(t, h, "it mended", func(m *Moment) bool { return m.Revealed.Faults[0].Stands == sim.FaultMended })
	require.Len(t, m.Revealed.Breaks, 2)
	assert.Equal(t, Break{Tick: 0, Words: "flexible drive or clutch slips"}, m.Revealed.Breaks[0])
	assert.Equal(t, Break{Tick: 16, Words: "flexible drive or clutch slips", Mended: true}, m.Revealed.Breaks[1])
	h.Mend(7)
	m = until(t, h, "a refusal", func(m *Moment) bool { return m.Refusal != "" })
	assert.Contains(t, m.Refusal, "7")
}
