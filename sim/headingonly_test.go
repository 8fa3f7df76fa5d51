package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

// headingOnly is a navigator's order.
func headingOnly(deg float64) HelmOrder {
	return HelmOrder{Heading: units.TrueHeading(units.Angle(deg) * units.Degree), HeadingOnly: true}
}

// TestAHeadingAloneIsOrdered: the aircraft turns, and neither airspeed nor the wind of the
// flight changes; given anew or flown again it is the same flight.
func TestAHeadingAloneIsOrdered(t *testing.T) {
	e := helmFlight(t)
	e.Advance(100)
	before := e.Snapshot().Truth
	require.NoError(t, e.Steer(headingOnly(40)))
	e.Advance(3000)
	after := e.Snapshot().Truth
	assert.InDelta(t, 40, after.Heading.Degrees(), 1e-9)
	assert.InDelta(t, before.TAS.Knots(), after.TAS.Knots(), 1e-9)
	assert.Equal(t, before.Wind, after.Wind)
	want := e.Hash()
	e.GoTo(0)
	e.GoTo(3100)
	assert.Equal(t, want, e.Hash())
	require.Error(t, e.Steer(headingOnly(math.NaN())))
}

// TestAHeadingLeavesTheWindThatWasOrdered: at the same tick, too.
func TestAHeadingLeavesTheWindThatWasOrdered(t *testing.T) {
	e := helmFlight(t)
	e.Advance(100)
	require.NoError(t, e.Steer(wanted(90, 200, 0, 40)))
	require.NoError(t, e.Steer(headingOnly(120)))
	e.Advance(1600)
	require.NoError(t, e.Steer(headingOnly(130)))
	e.Advance(1600)
	now := e.Snapshot().Truth
	assert.InDelta(t, 130, now.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 200, now.TAS.Knots(), 1e-9)
	assert.InDelta(t, 40, now.Wind.Speed.Knots(), 1e-9)
}

// TestAWayOfOnesOwnDoesNotEndTheLegs: on a leg to a place an order away from it lets the
// flight go on; back on the way the place is passed, and the leg ends.
func TestAWayOfOnesOwnDoesNotEndTheLegs(t *testing.T) {
	p := plan(-47, 179, 90, 180, 0)
	p.Legs = []Leg{{Steer: ToPlace, Target: units.At(-47, 180), TurnRate: 3}, {Steer: ToPlace, Target: units.At(-46, 180), TurnRate: 3}}
	e := engine(t, p)
	e.Advance(MinuteTicks)
	require.NoError(t, e.Steer(headingOnly(270)))
	e.Advance(5 * MinuteTicks)
	require.False(t, e.state.Over)
	assert.Zero(t, e.state.Leg.Index)
	assert.InDelta(t, 270, e.Snapshot().Truth.Heading.Degrees(), 1e-6)
	require.NoError(t, e.Steer(headingOnly(90)))
	e.Advance(25 * MinuteTicks) // 41 NM to the place at 180 kt, and a few back
	assert.EqualValues(t, 1, e.state.Leg.Index)
}
