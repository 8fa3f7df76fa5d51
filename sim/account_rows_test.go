package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim"
	"stillair/sim/debrief"
)

// TestEveryFaultAloneIsAccountedFor: with one fault on, its line is the closed form,
// and every other line (but the earth's, which the table does not have) is nothing.
// Source: mech_flights.csv, every row whose flight can be flown.
func TestEveryFaultAloneIsAccountedFor(t *testing.T) {
	n, all := 0, 60
	if testing.Short() {
		all = 5
	}
	for i, r := range rows.Read(t, "testdata/mech_flights.csv") {
		p := sim.RowFlight(t, r)
		if p == nil || testing.Short() && i%10 != 0 {
			continue
		}
		e, err := sim.New(p)
		require.NoError(t, err)
		e.Advance(1 << 40)
		a := debrief.Of(e).Air
		blamed := debrief.LinkOf(p.Faults[0])
		// The errors of a row are those of its shafts, and of them only the northing is
		// that of the counters; most rows have those, too.
		north, east, counters := 0.0, 0.0, r.Has("ind_lat_deg")
		if !counters {
			north = r.Float("err_north_nm")
		} else {
			lat := r.Float("truth_lat_deg")
			north = 60 * (r.Float("ind_lat_deg") - lat)
			east = 60 * units.WrapHalfDegrees(r.Float("ind_lon_deg")-r.Float("truth_lon_deg")) * math.Cos(lat*math.Pi/180)
		}
		allowed := 0.01*math.Hypot(north, east) + 0.01
		for _, l := range a.Lines {
			switch l.ID {
			case "earth":
			case blamed:
				assert.InDelta(t, north, l.North, allowed, "%s: %s north", r.Text("case"), l.ID)
				if counters {
					assert.InDelta(t, east, l.East, allowed, "%s: %s east", r.Text("case"), l.ID)
				}
			default:
				assert.Less(t, l.NM(), 0.01, "%s: %s", r.Text("case"), l.ID)
			}
		}
		n++
	}
	assert.Greater(t, n, all)
}
