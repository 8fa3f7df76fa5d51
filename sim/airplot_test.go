package sim

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// Air and ground positions of independent rhumb lines and an ODE solver, flown
// by the engine: at sea level, as planned, turns at once, wind everywhere.
func TestAirPlot(t *testing.T) {
	flown := 0
	for _, r := range rows.Read(t, "testdata/nav_air_plot.csv") {
		if !r.Has("start_lat") || !r.Has("ground_lat") {
			continue // plane vectors without a place
		}
		flown++
		p := airPlot(t, r)
		e := engine(t, p)
		e.Advance(1 << 30)
		assert.InDelta(t, r.Float("elapsed_h"), float64(e.Tick())/TicksPerSecond/3600, 1e-6, "%v", r)
		s := e.Snapshot()
		assert.InDelta(t, r.Float("air_lat"), s.Truth.Air.Lat.Degrees(), 1e-6, "%v", r)
		assert.InDelta(t, 0, units.WrapHalfDegrees(r.Float("air_lon")-s.Truth.Air.Lon.Degrees()), 1e-6, "%v", r)
		assert.InDelta(t, r.Float("ground_lat"), s.Truth.Position.Lat.Degrees(), 1e-6, "%v", r)
		assert.InDelta(t, 0, units.WrapHalfDegrees(r.Float("ground_lon")-s.Truth.Position.Lon.Degrees()), 1e-6, "%v", r)
	}
	require.Greater(t, flown, 8)
}

// airPlot makes a plan of a row's legs, heading@speed x hours.
func airPlot(t *testing.T, r rows.Row) *Plan {
	var p *Plan
	for _, text := range strings.Split(r.Text("legs(true_heading_deg@TAS_kt for hours)"), "+") {
		heading, rest, _ := strings.Cut(strings.TrimSpace(text), "@")
		kt, hours, ok := strings.Cut(rest, "x")
		require.True(t, ok, text)
		number := func(s string) float64 {
			x, err := strconv.ParseFloat(s, 64)
			require.NoError(t, err)
			return x
		}
		d := time.Duration(number(hours) * float64(time.Hour))
		if p == nil {
			p = plan(r.Float("start_lat"), r.Float("start_lon"), number(heading), number(kt), d)
			p.Legs[0].TurnRate = 0
			continue
		}
		p.Legs = append(p.Legs, Leg{Direction: units.Angle(number(heading)) * units.Degree, Ticks: TicksOf(d)})
	}
	p.Air.Winds = []WindEntry{{Wind: wind(r.Float("wind_from_deg"), r.Float("wind_kt"))}}
	return p
}
