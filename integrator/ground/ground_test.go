package ground

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

const dt = 1.0 / 16

// inputs reads "lat=50;tas_kt=200;..." into numbers.
func inputs(t *testing.T, text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, ok := strings.Cut(part, "=")
		require.True(t, ok, text)
		x, err := strconv.ParseFloat(value, 64)
		require.NoError(t, err, text)
		got[name] = x
	}
	return got
}

func wind(from, kt float64) units.Wind {
	return units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(kt) * units.Knot}
}

// run flies air shafts at a steady heading and gives air, running and plotted
// ground position.
func run(lat, kt, heading, hours float64, w units.Wind) (air units.AirPosition, running, plotted units.GroundPosition) {
	start := units.At(lat, 0)
	var s State
	s.SetWind(w)
	s.Reset(start)
	shafts := train.At(start)
	sin, cos := math.Sincos(heading * math.Pi / 180)
	d := kt * dt / 3600
	for range int(hours * 3600 / dt) {
		shafts.Turn(d*cos, d*sin, &train.Imperfection{})
		s.Turn(d*cos, d*sin, dt, &Imperfection{})
	}
	air = units.AirPosition(shafts.Position())
	return air, s.Position(Running, air), s.Position(Plotted, air)
}

// A perfect instrument with a perfect wind is still wrong when air path and
// wind are run apart: the plotted design against the running one.
func TestAirPlotMethod(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		if r.Text("fault_id") != "air-plot-method" {
			continue
		}
		seen++
		in := inputs(t, r.Text("inputs"))
		_, running, plotted := run(in["lat"], in["tas_kt"], in["heading"], in["hours"], wind(in["wind_from"], in["wind_kt"]))
		east := (plotted.Lon - running.Lon).Minutes() * math.Cos(float64(running.Lat))
		assert.InDelta(t, r.Float("err_north_nm"), (plotted.Lat - running.Lat).Minutes(), 1e-5, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), east, 1e-5, "%v", r)
	}
	require.GreaterOrEqual(t, seen, 4)
}

// A wind set wrong: what the wind shafts turn too much in the time.
func TestWindSetWrong(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		id := r.Text("fault_id")
		if !strings.HasPrefix(id, "wind-direction") && id != "wind-speed-mis-set" {
			continue
		}
		seen++
		in := inputs(t, strings.Replace(r.Text("inputs"), "set_kt", "kt", 1))
		from, kt := in["wind_from"], in["kt"]
		switch id {
		case "wind-direction-reversed":
			from += 180
		case "wind-direction-mis-set":
			from += inputs(t, r.Text("params"))["direction_error_deg"]
		default:
			kt *= inputs(t, r.Text("params"))["speed_factor"]
		}
		var set, right State
		set.SetWind(wind(from, kt))
		right.SetWind(wind(in["wind_from"], in["kt"]))
		seconds := 3600 * in["hours"]
		assert.InDelta(t, r.Float("err_north_nm"), (set.north-right.north)*seconds, 1e-6, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), (set.east-right.east)*seconds, 1e-6, "%v", r)
	}
	require.GreaterOrEqual(t, seen, 6)
}

// A wind changed in flight: the running design keeps what was summed, the
// plotted one works the old run anew with it.
func TestWindChangedInFlight(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		if r.Text("fault_id") != "wind-changed-without-reset" {
			continue
		}
		seen++
		in := inputs(t, r.Text("inputs"))
		minutes := inputs(t, r.Text("params"))["old_run_min"]
		var s State
		s.SetWind(wind(in["old_from"], in["old_kt"]))
		s.Reset(units.At(0, 0))
		for range int(minutes * 60 / dt) {
			s.Turn(0, 0, dt, &Imperfection{})
		}
		running, plotted := s.Position(Running, units.AirPosition{}), s.Position(Plotted, units.AirPosition{})
		s.SetWind(wind(in["new_from"], in["new_kt"]))
		assert.Equal(t, running, s.Position(Running, units.AirPosition{}), "%v", r)
		after := s.Position(Plotted, units.AirPosition{})
		assert.InDelta(t, r.Float("err_north_nm"), (after.Lat - plotted.Lat).Minutes(), 1e-3, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), (after.Lon - plotted.Lon).Minutes(), 1e-3, "%v", r)
	}
	require.GreaterOrEqual(t, seen, 2)
}

func TestMarker(t *testing.T) {
	var s State
	s.Reset(units.At(47, 10))
	g := units.GroundPosition(units.At(48, 11))
	assert.Equal(t, g, s.Marker(g, &Imperfection{}), "the ideal marker stands where the counters say")
	off := s.Marker(g, &Imperfection{Marker: MarkerError{North: 0.5, East: -0.3}})
	assert.InDelta(t, 0.5, (off.Lat - g.Lat).Minutes(), 1e-9)
	assert.InDelta(t, -0.3, (off.Lon-g.Lon).Minutes()*math.Cos(float64(off.Lat)), 1e-6)
}
