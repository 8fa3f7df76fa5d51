package helm

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim/fault"
)

// A moment always has what the links pass on; what they would pass on in order
// is truth.
func TestWorksOfAMoment(t *testing.T) {
	e := still(t)
	require.NoError(t, e.Break(fault.Order{ID: "drive-slip", Params: []float64{0.05}}))
	h := New(e)
	defer h.Stop()
	h.GoTo(hour / 2)
	m := until(t, h, "half an hour", func(m *Moment) bool { return m.View.Tick == hour/2 })
	assert.Nil(t, m.Revealed)
	assert.InDelta(t, 180, m.Works.TAS.Knots(), 1e-9)
	assert.InDelta(t, 171, m.Works.Drive.Knots(), 1e-9)
	assert.Equal(t, m.View.Air, m.Works.Air)
	h.Reveal(true)
	m = until(t, h, "the truth", func(m *Moment) bool { return m.Revealed != nil })
	assert.InDelta(t, 180, m.Revealed.Works.Drive.Knots(), 1e-9)
	assert.Equal(t, m.Revealed.Now.Truth.Air, units.Position(m.Revealed.Works.Air))
}
