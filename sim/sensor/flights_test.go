package sensor_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim/sensor"
)

// flight is a row of mech_flights.csv: legs on the mechanism's sphere at sea
// level, with the senses and the mechanism spoilt at a time.
type flight struct {
	lat       float64
	legs      []leg
	variation float64
	before    float64 // kt until the first leg begins; 0: as on it
	pulse     float64 // seconds in which the gyro believes in a turn
	spoil     func(at float64, s *sensor.Imperfection, m *integrator.Imperfections)
}

type leg struct{ seconds, kt, heading, turn float64 }

func legsOf(t *testing.T, r rows.Row) (legs []leg) {
	for _, text := range strings.Split(r.Text("legs"), ";") {
		var l leg
		_, err := fmt.Sscanf(strings.TrimSpace(text), "%fs %fkt %fdeg %fdeg/s", &l.seconds, &l.kt, &l.heading, &l.turn)
		require.NoError(t, err, "%v", r)
		legs = append(legs, l)
	}
	return legs
}

// fly runs the senses and the mechanism on them, and gives the two shafts.
func (f *flight) fly(dt float64) (north, east float64) {
	var s sensor.State
	var m integrator.State
	w := sensor.World{Temperature: 288.15, Variation: units.Variation(units.Angle(f.variation) * units.Degree)}
	at, lat := 0.0, f.lat
	put := func(kt, heading float64) {
		f.spoil(at, &s.Wrong, &m.Wrong)
		w.TAS, w.Heading = units.Speed(kt)*units.Knot, units.TrueHeading(units.Wrap(units.Angle(heading)*units.Degree))
		w.Latitude = units.Angle(lat) * units.Degree
	}
	put(f.legs[0].kt, f.legs[0].heading)
	if f.before != 0 {
		w.TAS = units.Speed(f.before) * units.Knot
	}
	m.Start(s.Begin(&w), w.Variation, units.Wind{}, units.At(f.lat, 0), m.Wrong)
	for _, l := range f.legs {
		put(l.kt, l.heading)
		m.Settle(s.Settle(&w))
		for i := range int(math.Round(l.seconds / dt)) {
			lat += l.kt * dt / 3600 / 60 * math.Cos((l.heading+l.turn*dt*(float64(i)+0.5))*math.Pi/180)
			put(l.kt, l.heading+l.turn*dt*float64(i+1))
			w.Turned = units.Angle(l.turn*dt) * units.Degree
			if at < f.pulse {
				w.Turned = units.Angle(3*dt) * units.Degree
			}
			m.Step(s.Step(&w, dt), dt)
			at += dt
		}
	}
	return m.North.Total, m.East.Total
}

type spoiler = func(f *flight, r rows.Row, p map[string]float64)

func senses(of func(p map[string]float64, s *sensor.Imperfection)) spoiler {
	return func(f *flight, _ rows.Row, p map[string]float64) {
		f.spoil = func(_ float64, s *sensor.Imperfection, _ *integrator.Imperfections) { of(p, s) }
	}
}

// chain spoils the heading chain of the mechanism.
func chain(of func(p map[string]float64, w *integrator.HeadingImperfection)) spoiler {
	return func(f *flight, _ rows.Row, p map[string]float64) {
		f.spoil = func(at float64, _ *sensor.Imperfection, m *integrator.Imperfections) {
			if at >= p["after_s"] {
				of(p, &m.Heading)
			}
		}
	}
}

// spoilers are the faults of senses and heading chain by id.
var spoilers = map[string]spoiler{
	"water-in-pitot-line": func(f *flight, _ rows.Row, p map[string]float64) {
		f.spoil = func(at float64, s *sensor.Imperfection, _ *integrator.Imperfections) {
			s.Pitot.Surge = sensor.Surge{Amplitude: p["amplitude"], Period: p["period_s"], Since: at}
		}
	},
	"capsule-lag": func(f *flight, _ rows.Row, p map[string]float64) {
		f.before = p["v_before"]
		f.spoil = func(_ float64, s *sensor.Imperfection, _ *integrator.Imperfections) { s.LineLag = p["lag_s"] }
	},
	"compass-deviation": func(f *flight, r rows.Row, p map[string]float64) {
		_, list, _ := strings.Cut(r.Text("params"), "(")
		list, _, _ = strings.Cut(list, ")")
		var c [5]units.Angle
		for i, text := range strings.Split(list, ",") {
			x, _ := strconv.ParseFloat(strings.TrimSpace(text), 64)
			c[i] = units.Angle(x) * units.Degree
		}
		f.variation = p["variation"]
		f.spoil = func(_ float64, s *sensor.Imperfection, _ *integrator.Imperfections) {
			s.Compass = sensor.Compass{A: c[0], B: c[1], C: c[2], D: c[3], E: c[4]}
		}
	},
	"gyro-drift-unslaved": senses(func(p map[string]float64, s *sensor.Imperfection) {
		s.Gyro = sensor.Gyro{Free: true, Drift: p["drift_deg_h"] * sensor.DegreePerHour,
			EarthRate: p["earth_rate"] != 0, Transport: p["transport"] != 0}
	}),
	"slaving-hang-off": senses(func(p map[string]float64, s *sensor.Imperfection) {
		s.Gyro.Residual = units.Angle(p["residual_deg"]) * units.Degree
	}),
	"turning-error": func(f *flight, _ rows.Row, p map[string]float64) {
		f.pulse = p["turn_s"]
		f.spoil = func(_ float64, s *sensor.Imperfection, _ *integrator.Imperfections) {
			s.Gyro.Drag, s.Gyro.CutOut = p["slaving_rate_deg_min"]*sensor.DegreePerMinute, 0.5*sensor.DegreePerSecond
		}
	},
	"variation-mis-set": func(f *flight, r rows.Row, p map[string]float64) {
		_, right, _ := strings.Cut(r.Text("params"), "(true ")
		right, _, _ = strings.Cut(right, ";")
		f.variation, _ = strconv.ParseFloat(right, 64)
		chain(func(p map[string]float64, w *integrator.HeadingImperfection) {
			w.MisSet = units.Angle(p["set_minus_true_deg"]) * units.Degree
		})(f, r, p)
	},
	"variation-wrong-sign": func(f *flight, r rows.Row, p map[string]float64) {
		f.variation = p["true_variation"]
		chain(func(_ map[string]float64, w *integrator.HeadingImperfection) { w.WrongSign = true })(f, r, p)
	},
	"repeater-lost-steps": chain(func(p map[string]float64, w *integrator.HeadingImperfection) {
		w.Lost = units.Angle(p["steps"]*p["step_deg"]) * units.Degree
	}),
	"repeater-stuck": chain(func(_ map[string]float64, w *integrator.HeadingImperfection) { w.Stuck = true }),
	"repeater-lag": chain(func(p map[string]float64, w *integrator.HeadingImperfection) {
		w.Lag = p["lag_s"]
	}),
}

// given reads "a=1;b=true (a remark)" into numbers.
func given(text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		number, _, _ := strings.Cut(value, " ")
		if x, err := strconv.ParseFloat(number, 64); err == nil {
			got[name] = x
		} else if number == "true" {
			got[name] = 1
		}
	}
	return got
}

// missed is what the row's fault does to the shafts at a step.
func missed(t *testing.T, r rows.Row, dt float64) (north, east float64) {
	legs := legsOf(t, r)
	right := flight{lat: r.Float("lat1_deg"), legs: legs, spoil: func(float64, *sensor.Imperfection, *integrator.Imperfections) {}}
	wrong := flight{lat: right.lat, legs: legs}
	spoilers[r.Text("fault_id")](&wrong, r, given(r.Text("params")))
	n0, e0 := right.fly(dt)
	n, e := wrong.fly(dt)
	return n - n0, e - e0
}

// Every row of a fault of the senses or of the heading chain, alone, to its own
// tolerance at the step of the engine.
func TestFlightsWithASenseSpoilt(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_flights.csv") {
		id := r.Text("fault_id")
		if _, ok := spoilers[id]; !ok {
			continue
		}
		seen[id]++
		tolerance, err := strconv.ParseFloat(strings.Fields(r.Text("tolerance"))[0], 64)
		require.NoError(t, err, "%v", r)
		north, east := missed(t, r, 1.0/16)
		assert.InDelta(t, r.Float("err_north_nm"), north, tolerance, "%v %s", r, id)
		assert.InDelta(t, r.Float("err_east_nm"), east, tolerance, "%v %s", r, id)
	}
	for id := range spoilers {
		assert.GreaterOrEqual(t, seen[id], 2, id)
	}
}

// Where a rate is integrated, half the step leaves a quarter of the error.
func TestHalvingTheStep(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_flights.csv") {
		if id := r.Text("fault_id"); id != "capsule-lag" && id != "repeater-lag" {
			continue
		}
		at := func(dt float64) float64 {
			n, e := missed(t, r, dt)
			n8, e8 := missed(t, r, 1.0/64)
			return math.Hypot(n-n8, e-e8)
		}
		assert.InDelta(t, 4, at(0.5)/at(0.25), 0.1, "%v", r)
	}
}

// A full circle of circumference S, flown at a steady rate by a deviating
// compass, fails to close by S B/2 to the north and -S C/2 to the east exactly;
// A, D and E close (mechanism note 5.2).
func TestCircleDoesNotClose(t *testing.T) {
	c := sensor.Compass{A: 2 * units.Degree, B: 6 * units.Degree, C: -4 * units.Degree, D: 3 * units.Degree, E: units.Degree}
	f := flight{lat: 10, variation: 12, legs: []leg{{seconds: 120, kt: 240, heading: 40, turn: 3}}}
	f.spoil = func(_ float64, s *sensor.Imperfection, _ *integrator.Imperfections) { s.Compass = c }
	n, e := f.fly(1.0 / 64)
	const around = 240.0 / 30                   // NM
	sin, cos := math.Sincos(12 * math.Pi / 180) // those are the axes of the compass
	mn, me := around*float64(c.B)/2, -around*float64(c.C)/2
	assert.InDelta(t, mn*cos-me*sin, n, 1e-6)
	assert.InDelta(t, mn*sin+me*cos, e, 1e-6)
}

// Each healthy value of senses and heading chain alone leaves no more on a
// straight hour at 200 kt than the table says: across, as a part of the
// distance, for what turns the heading; nothing for what is only late.
func TestServiceValuesOnAStraightHour(t *testing.T) {
	most := map[string]float64{ // degrees
		"line_lag_s": 0, "deviation_b_deg": 1.0, "deviation_c_deg": 0.5,
		"slaving_deg_min": 0, "slaving_dead_band_deg": 0.5, "repeater_step_deg": 0.25, "repeater_lag_s": 0,
	}
	for _, r := range rows.Read(t, "testdata/mech_service.csv") {
		limit, ours := most[r.Text("name")]
		if !ours {
			continue
		}
		delete(most, r.Text("name"))
		worst := 0.0
		for _, heading := range []float64{0.2, 77.7, 90, 180.3, 269.9} {
			f := flight{lat: 10, legs: []leg{{seconds: 3600, kt: 200, heading: heading}}}
			f.spoil = func(_ float64, s *sensor.Imperfection, m *integrator.Imperfections) {
				if x := r.Float("value"); !s.Set(r.Text("name"), x) {
					require.True(t, m.Heading.Set(r.Text("name"), x), "%v", r)
				}
			}
			n, e := f.fly(1.0 / 16)
			sin, cos := math.Sincos(heading * math.Pi / 180)
			worst = math.Max(worst, math.Hypot(n-200*cos, e-200*sin))
		}
		assert.InDelta(t, 0, worst, 200*limit*math.Pi/180+0.002, "%v", r)
		if strings.HasPrefix(r.Text("name"), "deviation") {
			assert.Greater(t, worst, 150*limit*math.Pi/180, "%v", r)
		}
	}
	assert.Empty(t, most)
}
