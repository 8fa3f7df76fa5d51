package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// The whole engine against end points worked at 34 digits: ten hours straight to
// 1e-6 NM, turns of up to half a circle to 1e-7 NM, which the arc of each step
// taken for its chord would miss tenfold (1.2e-6 NM, mech_timestep.csv).
func TestEngineReachesTheEndPoints(t *testing.T) {
	turns, straight := 0, 0
	for _, r := range rows.Read(t, "earth/testdata/mech_truth_endpoints.csv") {
		heading, turn, seconds := r.Float("heading0_deg"), r.Float("turn_deg_s"), r.Float("seconds")
		if turn*seconds > 180 {
			continue // no leg turns further; the earth's own test circles on
		}
		limit := 1e-6
		if turns++; turn == 0 {
			turns, straight = turns-1, straight+1
		} else {
			limit = 1e-7
		}
		p := plan(r.Float("lat1_deg"), r.Float("lon1_deg"), heading, r.Float("tas_kt"), time.Duration(seconds*float64(time.Second)))
		p.Legs[0].Direction = units.Wrap(units.Angle(heading+turn*seconds) * units.Degree)
		p.Legs[0].TurnRate = turn
		e := engine(t, p)
		e.Advance(1 << 30)
		got := e.Snapshot().Truth.Position
		north := 60 * (got.Lat.Degrees() - r.Float("lat2_deg"))
		east := 60 * units.WrapHalfDegrees(got.Lon.Degrees()-r.Float("lon2_deg_unwrapped")) * math.Cos(float64(got.Lat))
		assert.Less(t, math.Hypot(north, east), limit, "%v", r)
	}
	require.Greater(t, straight, 4)
	require.Greater(t, turns, 8)
}

// Truth, counters and the account of their difference in still air: the earth
// model is the only thing wrong.
func TestEngineShowsTheErrorOfTheEarthModel(t *testing.T) {
	for _, r := range rows.Read(t, "../integrator/testdata/mech_earth_model.csv") {
		require.Equal(t, "earth-model", r.Text("fault_id"))
		const kt = 200
		hours := r.Float("air_nm") / kt
		p := plan(r.Float("lat1_deg"), 0, r.Float("heading_deg"), kt, time.Duration(math.Round(hours*3600*TicksPerSecond))*time.Second/TicksPerSecond)
		e := engine(t, p)
		e.Advance(1 << 30)
		s := e.Snapshot()
		assert.InDelta(t, r.Float("truth_lat_deg"), s.Truth.Position.Lat.Degrees(), 1e-8, "%v", r)
		assert.InDelta(t, r.Float("truth_lon_deg"), s.Truth.Position.Lon.Degrees(), 1e-8, "%v", r)
		shown := units.Position(s.Shown.Air)
		assert.InDelta(t, r.Float("mech_lat_deg"), shown.Lat.Degrees(), 1e-8, "%v", r)
		assert.InDelta(t, r.Float("mech_lon_deg"), shown.Lon.Degrees(), 1e-8, "%v", r)
		for _, o := range []Offset{s.Error.Air, s.Error.Ground} {
			assert.InDelta(t, r.Float("err_north_nm"), o.North, 1e-5, "%v", r)
			assert.InDelta(t, r.Float("err_east_nm"), o.East, 1e-5, "%v", r)
		}
	}
}
