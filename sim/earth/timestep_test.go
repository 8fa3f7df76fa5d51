package earth

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// flight is what joins a row of the error table to its end point.
type flight struct {
	kind                             string
	lat, heading, turn, tas, seconds float64
}

func flightOf(r rows.Row, seconds float64) flight {
	return flight{kind: r.Text("kind"), lat: r.Float("lat1_deg"), heading: r.Float("heading0_deg"),
		turn: r.Float("turn_deg_s"), tas: r.Float("tas_kt"), seconds: seconds}
}

// ends are the end points by their flight, worked at 34 digits.
func ends(t *testing.T) map[flight][2]float64 {
	all := map[flight][2]float64{}
	for _, r := range rows.Read(t, "testdata/mech_truth_endpoints.csv") {
		if r.Float("lon1_deg") == 0 {
			all[flightOf(r, r.Float("seconds"))] = [2]float64{r.Float("lat2_deg"), r.Float("lon2_deg_unwrapped")}
		}
	}
	return all
}

func seconds(t *testing.T, fraction string) float64 {
	top, foot, ok := strings.Cut(fraction, "/")
	require.True(t, ok, fraction)
	a, err := strconv.ParseFloat(top, 64)
	require.NoError(t, err)
	b, err := strconv.ParseFloat(foot, 64)
	require.NoError(t, err)
	return a / b
}

// readable is the least error, NM, that the end points, given to 1e-13 degree,
// and the rounding of half a million sums leave to be seen (factor 2 of it).
const readable = 2e-10

// The rule's error at 1, 1/4 and 1/16 s, straight and turning, is that of the
// table within its factor of two; where that is rounding, it stays rounding.
// Four times less step is sixteen times less error.
func TestErrorsAgainstTheEndPoints(t *testing.T) {
	end := ends(t)
	measured := map[flight]map[float64]float64{}
	compared := 0
	for _, r := range rows.Read(t, "testdata/mech_timestep.csv") {
		if r.Text("rule") != "chord-midpoint" {
			continue
		}
		f, dt := flightOf(r, 3600*r.Float("hours")), seconds(t, r.Text("dt_s"))
		at, ok := end[f]
		require.True(t, ok, "%v: no end point", r)
		p := At(units.At(f.lat, 0))
		fly(&p, f.heading, f.turn, f.tas, f.seconds, dt)
		got, want := missNM(&p, at[0], at[1]), r.Float("end_error_nm_compensated")
		if want < readable {
			assert.Less(t, got, 2*readable, "%v", r)
			continue
		}
		compared++
		assert.InDelta(t, 0, math.Log2(got/want), 1, "%v: %g for %g", r, got, want)
		if measured[f] == nil {
			measured[f] = map[float64]float64{}
		}
		measured[f][dt] = got
	}
	require.Greater(t, compared, 30)
	ratios := 0
	for f, m := range measured {
		if m[1] > 100*readable && m[0.25] > 100*readable {
			ratios++
			assert.InDelta(t, 16, m[1]/m[0.25], 2, "%+v", f)
		}
	}
	require.Greater(t, ratios, 5)
}
