package helm

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
)

// An order of the helm is carried out, one that cannot be is refused and says so.
func TestSteer(t *testing.T) {
	none := units.Variation(0)
	e, err := sim.New(&sim.Plan{
		Field: &none, Aircraft: sim.Aircraft{Position: units.At(-47, 178), PressureAltitude: 8000 * units.Foot, Speed: sim.SpeedOrder{Speed: 180 * units.Knot}},
		Legs: []sim.Leg{{Ticks: 100000, TurnRate: 3}},
	})
	require.NoError(t, err)
	h := New(e)
	defer h.Stop()
	h.Steer(sim.HelmOrder{Heading: units.TrueHeading(90 * units.Degree), TAS: 200 * units.Knot})
	h.Step(120 * sim.TicksPerSecond)
	at := func(ok func(*Moment) bool) {
		t.Helper()
		require.Eventually(t, func() bool { return ok(h.Moment()) }, 20*time.Second, time.Millisecond)
	}
	at(func(m *Moment) bool { return m.View.Tick > 100*sim.TicksPerSecond })
	assert.InDelta(t, 90, h.Moment().View.Heading.Degrees(), 1e-6)
	assert.InDelta(t, 200, h.Moment().View.TAS.Knots(), 0.01)
	h.Steer(sim.HelmOrder{TAS: 900 * units.Knot})
	at(func(m *Moment) bool { return m.Refusal != "" })
	h.MendAll("drive-slip")
	at(func(m *Moment) bool {
		return m.Refusal == "nothing to mend: no fault drive-slip is planned or in force"
	})
}
