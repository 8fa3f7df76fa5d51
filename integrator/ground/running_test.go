package ground

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// tolerance of mech_ground.csv in NM, and the digits printed.
const tolerance = 1.1e-6

// seconds drives the ground side of an aircraft without airspeed.
func seconds(s *State, n float64, w *Imperfection) {
	for range int(math.Round(n / dt)) {
		s.Turn(0, 0, dt, w)
	}
}

// displaced is where a steady run of north and east NM from the equator ends,
// by the closed form of a rhumb line on the sphere in textbook figures:
// longitude = (E/N) ln tan(45 + lat/2).
func displaced(north, east float64) (lat, lon float64) {
	if math.Abs(north) < 1e-9 {
		return north, east
	}
	phi := north / 60 * math.Pi / 180
	return north, east / north * math.Log(math.Tan(math.Pi/4+phi/2)) * 10800 / math.Pi
}

// windOf is the motion of the air in NM an hour, from the FROM bearing.
func windOf(from, kt float64) (north, east float64) {
	s, c := math.Sincos(from * math.Pi / 180)
	return -kt * c, -kt * s
}

// setting is the wind that a row sets: the true one with the row's error.
// Others than these rows are not for this test.
func setting(t *testing.T, r rows.Row) (units.Wind, bool) {
	turn, factor := 0.0, 1.0
	switch r.Text("fault_id") {
	case "wind-direction-reversed":
		turn = 180
	case "wind-direction-mis-set":
		turn = inputs(t, r.Text("params"))["direction_error_deg"]
	case "wind-speed-mis-set":
		factor = inputs(t, r.Text("params"))["speed_factor"]
	case "wind-clock-late":
	default:
		return units.Wind{}, false
	}
	in := inputs(t, r.Text("inputs"))
	return wind(in["wind_from"]+turn, in["kt"]*factor), true
}

// Running, through shafts and counters: the displacement is wind times time,
// off by what the row says. A late clock stands still for its minutes.
func TestRunningIsWindTimesTime(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		set, ok := setting(t, r)
		if !ok {
			continue
		}
		seen[r.Text("fault_id")]++
		in := inputs(t, r.Text("inputs"))
		var s State
		s.SetWind(set)
		s.Reset(units.At(0, 0))
		run := in["hours"] * 3600
		if r.Text("fault_id") == "wind-clock-late" {
			late := 60 * inputs(t, r.Text("params"))["late_min"]
			seconds(&s, late, &Imperfection{ClockRate: -1})
			run -= late
		}
		seconds(&s, run, &Imperfection{})
		n, e := windOf(in["wind_from"], in["kt"])
		lat, lon := displaced(n*in["hours"]+r.Float("err_north_nm"), e*in["hours"]+r.Float("err_east_nm"))
		g := s.Position(Running, units.AirPosition{})
		assert.InDelta(t, lat, g.Lat.Minutes(), tolerance, "%v", r)
		assert.InDelta(t, lon, g.Lon.Minutes(), tolerance, "%v", r)
		p := s.Position(Plotted, units.AirPosition{})
		assert.InDelta(t, lat, p.Lat.Minutes(), tolerance, "%v", r)
		assert.InDelta(t, lon, p.Lon.Minutes(), tolerance, "%v", r)
	}
	assert.Equal(t, map[string]int{"wind-direction-reversed": 2, "wind-direction-mis-set": 2, "wind-speed-mis-set": 2, "wind-clock-late": 2}, seen)
}

// A clock that is late by no whole number of steps stands for just that long,
// from when it is set late, and again after a reset.
func TestLateClockBetweenTicks(t *testing.T) {
	var s State
	s.Reset(units.At(0, 0))
	seconds(&s, 60, &Imperfection{})
	w := Imperfection{ClockLate: 10.3}
	seconds(&s, 60, &w)
	assert.InDelta(t, 60+49.7, s.Clock, 1e-9)
	s.Reset(units.At(0, 0))
	seconds(&s, 60, &w)
	assert.InDelta(t, 49.7, s.Clock, 1e-9)
	seconds(&s, 60, &Imperfection{})
	assert.InDelta(t, 109.7, s.Clock, 1e-9, "what is late stays late, and no more")
}

// Old run is left on the clock once, and again by each reset; mended, it stands
// until the clock is zeroed.
func TestOldRunOnTheClock(t *testing.T) {
	var s State
	s.Reset(units.At(0, 0))
	w := Imperfection{ClockOld: 600}
	seconds(&s, 60, &w)
	assert.InDelta(t, 660, s.Clock, 1e-9)
	s.Reset(units.At(0, 0))
	seconds(&s, 60, &w)
	assert.InDelta(t, 660, s.Clock, 1e-9)
	seconds(&s, 60, &Imperfection{})
	assert.InDelta(t, 720, s.Clock, 1e-9)
	s.Reset(units.At(0, 0))
	assert.Zero(t, s.Clock)
}

// The dial shows what is set; what turns the shafts is in force, and comes and
// goes with the error: reversed and turned by 30 is a wind from 100 for 250.
func TestWindInForce(t *testing.T) {
	var s State
	s.SetWind(wind(250, 40))
	s.Settle(&Imperfection{Wind: WindError{Reversed: true, Turn: 30 * units.Degree, Speed: -0.5}})
	assert.InDelta(t, 100, s.InForce().From.Degrees(), 1e-9)
	assert.InDelta(t, 20, s.InForce().Speed.Knots(), 1e-9)
	assert.Equal(t, wind(250, 40), s.Set)
	s.Settle(&Imperfection{})
	assert.Equal(t, s.Set, s.InForce())
}
