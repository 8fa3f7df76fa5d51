package atlas

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/geomag"
)

// A plane: its lines of equal value are straight, x + 2 y = value.
func TestContoursOfAPlane(t *testing.T) {
	r := region{-3, 178, 3, 184}
	lines := isogonals(r, func(lat, lon float64) float64 { return (lon - 181) + 2*lat })
	require.NotEmpty(t, lines)
	values := map[float64]int{}
	for _, l := range lines {
		values[math.Round(l.Value.Degrees()*2)/2]++
		for _, p := range l.Points {
			lon := units.WrapDegrees(p.Lon.Degrees())
			assert.InDelta(t, l.Value.Degrees(), lon-181+2*p.Lat.Degrees(), 1e-9)
		}
	}
	for v := -8.5; v <= 8.5; v += 0.5 {
		assert.Equal(t, 1, values[v], "the line of %v is one piece", v)
	}
}

// A hill: its line is a ring and comes back to where it began.
func TestContourOfAHillIsClosed(t *testing.T) {
	r := region{-5, -5, 5, 5}
	for _, l := range isogonals(r, func(lat, lon float64) float64 { return 10 - lat*lat - lon*lon }) {
		if v := l.Value.Degrees(); v > 0 && v < 9.5 {
			assert.Equal(t, l.Points[0], l.Points[len(l.Points)-1], "%v", v)
			for _, p := range l.Points {
				// Linear between grid points: out by less than an eighth of the
				// square of the step times the second derivative, 2 x 0.0625.
				assert.InDelta(t, v, 10-math.Pow(p.Lat.Degrees(), 2)-math.Pow(p.Lon.Degrees(), 2), 0.13)
			}
		}
	}
}

// The lines carry the variation of the year: the model, tested against printed
// values in its own package, gives the same at their points.
func TestIsogonalsOfTheTernIslands(t *testing.T) {
	plan, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	w, err := Of(plan)
	require.NoError(t, err)
	assert.Equal(t, 1957, w.Year)
	assert.Equal(t, "Tern Islands", w.Title)
	assert.NotEmpty(t, w.Coasts)
	require.NotNil(t, w.Rose)
	model, err := geomag.New(geomag.DecimalYear(plan.Start))
	require.NoError(t, err)
	require.NotEmpty(t, w.Isogonals)
	for _, l := range w.Isogonals {
		for _, p := range l.Points {
			assert.InDelta(t, l.Value.Degrees(), model.At(p, 0).D.Degrees(), 0.005)
		}
	}
	seen := map[string]bool{}
	for _, p := range w.Places {
		assert.False(t, seen[p.Name])
		seen[p.Name] = true
	}
	assert.True(t, seen["Skerrow"] && seen["Gannet Rock"])
}

func TestOtherFlights(t *testing.T) {
	v := units.Variation(15 * units.Degree)
	p := &sim.Plan{Start: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC), Field: &v}
	p.Aircraft.Position = units.At(60, -179)
	w, err := Of(p)
	require.NoError(t, err)
	assert.Equal(t, v, *w.Rose)
	assert.Empty(t, w.Isogonals, "one uniform variation has no lines")
	p.Field = nil
	w, err = Of(p)
	require.NoError(t, err)
	assert.NotEmpty(t, w.Isogonals)
	p.Aircraft.Position = units.At(-64, 136) // by the south magnetic pole, where all lines meet
	w, err = Of(p)
	require.NoError(t, err)
	assert.Empty(t, w.Isogonals)
	p.Waters = "nowhere"
	_, err = Of(p)
	assert.ErrorContains(t, err, "nowhere")
}

func TestEveryKindOfPlaceHasARank(t *testing.T) {
	w, err := scenarios.Waters("tern-islands")
	require.NoError(t, err)
	for _, p := range w.Places {
		_, ok := ranks[p.Kind]
		assert.True(t, ok, "%s: %s", p.Name, p.Kind)
	}
}
