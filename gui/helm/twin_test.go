package helm

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// still is an hour north from the equator at 180 kt in still air.
func still(t testing.TB) *sim.Engine {
	t.Helper()
	plan, _, err := scenarios.Load("still", strings.NewReader(`schema = 1
title = "an hour north"
start = 1957-08-14T09:30:00Z
seed = 7
[aircraft]
position = [0, 10]
heading_true_deg = 0
pressure_altitude_ft = 10000
tas_kt = 180
[[leg]]
heading_true_deg = 0
duration = "1h"
`))
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	return e
}

func slip(share float64) fault.Order {
	return fault.Order{ID: "drive-slip", Params: []float64{share}}
}

func twinAt(t *testing.T, h *Helm, tick int64) *Moment {
	return until(t, h, "the twin there", func(m *Moment) bool { return m.Twin != nil && m.View.Tick == tick })
}

func TestNoGapWhereNothingIsWrong(t *testing.T) {
	h := New(still(t))
	defer h.Stop()
	h.Twin(sim.Twin{Kind: sim.WithoutFaults}, "nothing")
	h.GoTo(hour / 2)
	m := twinAt(t, h, hour/2)
	assert.Zero(t, m.Twin.Gap)
	assert.Equal(t, m.View, m.Twin.View)
	h.NoTwin()
	until(t, h, "it gone", func(m *Moment) bool { return m.Twin == nil })
}

// A drive that slips by 2 in 100 loses 1.8 NM of the 90 flown in 30 minutes: by
// arithmetic. The flight lies south of its twin. A minute of latitude at the
// equator is 1843 m, 0.995 of a mile.
func TestGapOfASlippingDrive(t *testing.T) {
	h := New(still(t))
	defer h.Stop()
	h.Break(slip(0.02))
	h.GoTo(hour / 2) // asked for late: what the fault has done is in the gap
	h.Twin(sim.Twin{Kind: sim.WithoutFault}, "the slip")
	m := twinAt(t, h, hour/2)
	assert.InDelta(t, 1.8*0.995, m.Twin.Gap.NM(), 1e-3)
	assert.InDelta(t, 180, m.Twin.Bearing.Degrees(), 1e-9)
	assert.Equal(t, "the slip", m.Twin.Name)

	h.GoTo(7)
	assert.Zero(t, twinAt(t, h, 7).Twin.Gap)
	h.GoTo(hour / 2)
	h.Step(-480)
	h.Step(480)
	assert.Equal(t, m.Twin.View, twinAt(t, h, hour/2).Twin.View, "back and forth")

	h.GoTo(hour / 6)
	twinAt(t, h, hour/6)
	h.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 0, Speed: 20 * units.Knot}})
	h.GoTo(hour / 2)
	again := twinAt(t, h, hour/2)
	assert.InDelta(t, 20, again.Twin.View.WindSet.Speed.Knots(), 1e-9, "what is done is done to both")
	assert.InDelta(t, m.Twin.Gap.NM(), again.Twin.Gap.NM(), 0.11, "the same wind for both; both are printed to 0.1'")
}

func TestTwinThatCannotBe(t *testing.T) {
	h := New(still(t))
	defer h.Stop()
	h.Twin(sim.Twin{Kind: sim.WithoutFault, Fault: 3}, "")
	m := until(t, h, "a refusal", func(m *Moment) bool { return m.Refusal != "" })
	assert.Nil(t, m.Twin)
}

// The twin's part of a moment has what a crew can see and the choice, nothing
// of the world.
func TestTwinShowsNoTruth(t *testing.T) {
	var names []string
	for f := range reflect.TypeFor[TwinMoment]().Fields() {
		names = append(names, f.Name+" "+f.Type.String())
	}
	assert.Equal(t, []string{"View aboard.View", "Lacks sim.Twin", "Name string", "Gap units.Length", "Bearing units.Angle"}, names)
}
