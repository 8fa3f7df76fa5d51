package integrator

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// parts are the errors of the sets, in the order of their runs "on=010": what
// each makes wrong, or sets wrong.
var parts = map[string][]func(w *Imperfections, set *float64){
	"A": {
		func(w *Imperfections, _ *float64) { w.AirLog.Scale = -0.04 },
		func(_ *Imperfections, set *float64) { *set = 5 },
		func(w *Imperfections, _ *float64) { w.Train.SecantHeld, w.Train.HeldLatitude = true, 50*units.Degree },
	},
	"B": {
		func(w *Imperfections, _ *float64) { w.AirLog.Scale = 0.02 },
		func(w *Imperfections, _ *float64) { w.Drive.Slip = 0.03 },
		func(w *Imperfections, _ *float64) { w.Resolver.Zero = -3 * units.Degree },
		func(w *Imperfections, _ *float64) { w.Train.SecantHeld, w.Train.HeldLatitude = true, 45*units.Degree },
	},
}

// Several errors at once, every row of a run: errors in NM at the true latitude
// of the end.
func TestErrorsTogether(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_combination.csv") {
		if r.Text("kind") != "run" {
			continue // attributions are sums of runs
		}
		set := r.Text("set")
		seen[set]++
		var lat, heading, miles, variation float64
		_, err := fmt.Sscanf(r.Text("inputs"), "lat1=%f;heading=%f;D=%f;", &lat, &heading, &miles)
		require.NoError(t, err, "%v", r)
		on := strings.TrimPrefix(r.Text("item"), "on=")
		require.Len(t, on, len(parts[set]), "%v", r)
		var w Imperfections
		for i, spoil := range parts[set] {
			if on[i] == '1' {
				spoil(&w, &variation)
			}
		}
		legs := []straight{{miles / 200 * 3600, 200, 200, heading}}
		right := units.Position(flyTrial(lat, legs, trial{}).AirPosition())
		got := units.Position(flyTrial(lat, legs, trial{wrong: always(w), set: variation}).AirPosition())
		assert.InDelta(t, r.Float("err_north_nm"), (got.Lat - right.Lat).Minutes(), 1.5e-6, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), (got.Lon-right.Lon).Minutes()*math.Cos(float64(right.Lat)), 1.5e-6, "%v", r)
	}
	assert.Equal(t, map[string]int{"A": 8, "B": 16}, seen)
}
