package integrator

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// milli is the tolerance of mech_ground.csv, 1e-6 NM, with half the last digit
// printed.
const milli = 1e-6 + 1e-7

// displaced is where a steady run of north and east NM from the equator ends,
// minutes: longitude = (E/N) ln tan(45 + lat/2), the rhumb line on a sphere in
// textbook figures.
func displaced(north, east float64) (lat, lon float64) {
	if math.Abs(north) < 1e-4 { // the logarithm would lose its digits
		return north, east
	}
	phi := north / 60 * math.Pi / 180
	return north, east / north * math.Log(math.Tan(math.Pi/4+phi/2)) * 10800 / math.Pi
}

func windOf(from, kt float64) units.Wind {
	return units.Wind{From: units.Wrap(units.Angle(from) * units.Degree), Speed: units.Speed(kt) * units.Knot}
}

// runOf is how far a wind carries in some hours, NM.
func runOf(from, kt, hours float64) (north, east float64) {
	s, c := math.Sincos(from * math.Pi / 180)
	return -kt * hours * c, -kt * hours * s
}

// standing is a mechanism without airspeed on the equator, that is not wrong yet.
func standing(w units.Wind, wrong Imperfections) *State {
	var s State
	s.Start(sense(0, 0), 0, w, units.At(0, 0), Imperfections{Ground: ground.Imperfection{Design: wrong.Ground.Design}})
	s.Wrong = wrong
	return &s
}

func (s *State) stand(hours float64) {
	in := sense(0, 0)
	for range int(math.Round(hours * 3600 / dt)) {
		s.Step(in, dt)
	}
}

func at(t *testing.T, r rows.Row, s *State, d ground.Design, north, east float64) {
	t.Helper()
	lat, lon := displaced(north+r.Float("err_north_nm"), east+r.Float("err_east_nm"))
	g := s.GroundPosition(&Config{Ground: d})
	assert.InDelta(t, lat, g.Lat.Minutes(), milli, "%v", r)
	assert.InDelta(t, lon, g.Lon.Minutes(), milli, "%v", r)
}

// Wind and clock, every row, running and plotted: wind times time, off by what
// the row says. A late clock is set late at the very start.
func TestWindAndClock(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		id, in := r.Text("fault_id"), given(r.Text("inputs"))
		spoil, ok := faults[id]
		if !ok || !strings.HasPrefix(id, "wind-") {
			continue
		}
		seen++
		north, east := runOf(in["wind_from"], in["kt"], in["hours"])
		for _, d := range []ground.Design{ground.Running, ground.Plotted} {
			if d == ground.Running && id == "wind-clock-not-reset" {
				continue // the wind clock of that design has no old run
			}
			w := Imperfections{Ground: ground.Imperfection{Design: d}}
			spoil(&w, given(r.Text("params")))
			s := standing(windOf(in["wind_from"], in["kt"]), w)
			s.stand(in["hours"])
			at(t, r, s, d, north, east)
		}
	}
	assert.Equal(t, 10, seen)
}

// A wind changed without a reset, every row, in the plotted design.
func TestWindChangedWithoutReset(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		if r.Text("fault_id") != "wind-changed-without-reset" {
			continue
		}
		seen++
		in, hours := given(r.Text("inputs")), given(r.Text("params"))["old_run_min"]/60
		s := standing(windOf(in["old_from"], in["old_kt"]), Imperfections{Ground: ground.Imperfection{Design: ground.Plotted}})
		s.stand(hours)
		s.Ground.SetWind(windOf(in["new_from"], in["new_kt"]))
		north, east := runOf(in["old_from"], in["old_kt"], hours)
		at(t, r, s, ground.Plotted, north, east)
	}
	assert.Equal(t, 2, seen)
}

// One wind set while the real one changes, every row: what is set against a
// mechanism that is given the real wind of the middle of each step.
func TestOneWindSetWhileTheRealOneChanges(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		p, in := given(r.Text("params")), given(r.Text("inputs"))
		hours, set := in["hours"], in["set_kt"]
		var real func(h float64) float64
		switch r.Text("fault_id") {
		case "wind-changes-with-time":
			real = func(h float64) float64 { return set + p["trend_kt_per_h"]*h }
		case "wind-changes-with-place":
			real = func(h float64) float64 { return set + p["gradient_kt_per_nm"]*p["tas_kt"]*h }
		case "wind-changes-with-height":
			hours, set = p["climb_h"], p["high_kt"]
			real = func(h float64) float64 { return p["low_kt"] + (p["high_kt"]-p["low_kt"])*h/hours }
		default:
			continue
		}
		seen++
		s := standing(windOf(in["wind_from"], set), Imperfections{})
		s.stand(hours)
		truth, mean := standing(windOf(in["wind_from"], set), Imperfections{}), 0.0
		steps := int(hours * 3600 / dt)
		for i := range steps {
			kt := real((float64(i) + 0.5) * dt / 3600)
			mean += kt / float64(steps)
			truth.Ground.SetWind(windOf(in["wind_from"], kt))
			truth.Step(sense(0, 0), dt)
		}
		north, east := runOf(in["wind_from"], mean, hours)
		lat, lon := displaced(north, east)
		g := truth.GroundPosition(&Config{})
		require.InDelta(t, lat, g.Lat.Minutes(), milli, "%v", r)
		require.InDelta(t, lon, g.Lon.Minutes(), milli, "%v", r)
		at(t, r, s, ground.Running, north, east)
	}
	assert.Equal(t, 6, seen)
}

// The marker, every row: where it stands less where the counters stand, NM at
// the latitude of the row.
func TestMarkerRows(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		id := r.Text("fault_id")
		in := given(r.Text("inputs"))
		var legs []straight
		switch id {
		case "marker-origin-mis-set":
			legs = []straight{{1800, 200, 200, 60}}
		case "chart-scale-wrong": // east along the equator first, where a mile is a minute
			for _, part := range strings.Fields(r.Text("inputs")) {
				k := strings.Split(part, "=")
				if len(k) == 2 {
					in[k[0]] = given(part)[k[0]]
				}
			}
			legs = append(along(90, in["E"]), along(0, in["N"])...)
		case "mercator-scale-fixed":
			legs = along(in["heading"], in["ground_nm"])
		default:
			continue
		}
		seen++
		var w Imperfections
		faults[id](&w, given(r.Text("params")))
		s, c := flyTrial(in["lat"], legs, trial{wrong: always(w)}), Config{}
		g, m := s.GroundPosition(&c), s.Marker(&c)
		cos := math.Cos(float64(m.Lat))
		if id == "chart-scale-wrong" {
			cos = 1
		}
		assert.InDelta(t, r.Float("err_north_nm"), (m.Lat - g.Lat).Minutes(), milli, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), (m.Lon-g.Lon).Minutes()*cos, milli, "%v", r)
	}
	assert.Equal(t, 6, seen)
}

// along is a leg of so many miles, the other way if they are below 0.
func along(heading, miles float64) []straight {
	if miles < 0 {
		heading += 180
	}
	return []straight{{math.Abs(miles) * 18, 200, 200, heading}}
}
