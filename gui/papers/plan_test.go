package papers

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/atlas"
	"stillair/integrator/units"
	"stillair/sim"
)

func number(t *testing.T, s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

// Each line of a plan is a wind triangle that closes, by plane vectors from the
// printed figures alone: half a unit in each of heading, airspeed and wind.
func TestPlanLinesAreWindTriangles(t *testing.T) {
	for _, name := range []string{"first-look", "weather-triangle", "old-variation", "warm-air"} {
		p := plan(t, name)
		legs, err := planRows(p)
		require.NoError(t, err)
		require.Len(t, legs, len(p.Legs))
		sum, minutes := 0.0, 0.0
		for i := range legs {
			c := legs[i].cells(p)
			from, kt, _ := strings.Cut(c[6], "/")
			x, y := polar(number(t, c[9]), number(t, c[7]))
			wx, wy := polar(number(t, from)+180, number(t, kt))
			gs := math.Hypot(x+wx, y+wy)
			assert.InDelta(t, gs, number(t, c[12]), 1.5, "%s %v", name, c)
			assert.InDelta(t, 0, units.WrapHalfDegrees(math.Atan2(x+wx, y+wy)*180/math.Pi-number(t, c[4])), 1.2, "%s %v", name, c)
			// Time is distance over groundspeed; the printed ones are rounded.
			at := number(t, c[5]) / number(t, c[12]) * 60
			assert.InDelta(t, at, number(t, c[13]), 1+at*0.5/gs, "%s %v", name, c)
			// Variation east, compass least: the printed three add up.
			v := number(t, strings.Fields(c[10])[0])
			assert.InDelta(t, 0, units.WrapHalfDegrees(number(t, c[9])-v-number(t, c[11])), 1e-9, "%s %v", name, c)
			sum, minutes = sum+number(t, c[5]), minutes+number(t, c[13])
		}
		last := total(legs)
		assert.InDelta(t, sum, number(t, last[5]), 1e-6)
		assert.InDelta(t, minutes, number(t, last[13]), 1e-9)
	}
}

// The engine itself, flown as planned in the forecast wind, is over the turning
// points at the times of the plan. Turns take time there and none here: 3 degrees
// a second, 180 at most, so a minute for each turn and a mile for each.
func TestPlanIsFlown(t *testing.T) {
	p := *plan(t, "first-look")
	p.Crew, p.Faults = nil, nil
	p.Air.Winds = []sim.WindEntry{{Wind: p.Setting.Wind}}
	p.Pilot = sim.AsPlanned
	legs, err := planRows(&p)
	require.NoError(t, err)
	e, err := sim.New(&p)
	require.NoError(t, err)
	for i := range legs {
		e.Advance(sim.TicksOf(time.Duration(legs[i].leg.Ends)) - e.Tick())
		off := sim.OffsetOf(e.Snapshot().Truth.Position, legs[i].leg.To)
		assert.Less(t, off.NM(), 1.5*float64(i+1), "%s", legs[i].point)
		assert.InDelta(t, legs[i].leg.Ends.Minutes(), float64(legs[i].eta), 1)
	}
}

// A plan that cannot be held says where it stops.
func TestPlanThatCannotBeHeld(t *testing.T) {
	p := *plan(t, "first-look")
	p.Setting.Wind = units.Wind{From: 90 * units.Degree, Speed: 240 * units.Knot}
	require.Less(t, len(atlas.Planned(&p)), len(p.Legs))
	pages, err := Plan(&p, A4)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(texts(A4, pages[0]), " "), "Leg 5 cannot be held")
}
