package sim

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim/fault"
)

// with is the flight with a fault, its parameters by default.
func with(t *testing.T, p *Plan, id string, at time.Duration) *Engine {
	q := *p
	e, ok := fault.Lookup(id)
	require.True(t, ok, id)
	q.Faults = []fault.Order{{ID: id, At: TicksOf(at), Params: e.Defaults()}}
	return engine(t, &q)
}

func minutesOn(e *Engine, m float64) aboard.View {
	e.Advance(int64(m * 60 * TicksPerSecond))
	return e.View()
}

// tests do what a row says and find, in what the crew can see, what it says.
// Those of the weather and of the method are no faults to give; their tests are
// those of the world and of the ground side.
var tests = map[string]func(t *testing.T){
	"static-leak / position-error": func(t *testing.T) {
		// The cabin pressure changes: the parameter of the leak, 0.1 of -0.1 qc.
		p := plan(0, 0, 90, 200, time.Hour)
		off := func(id string, cabin float64) float64 {
			entry, _ := fault.Lookup(id)
			o := fault.Order{ID: id, Params: entry.Defaults()}
			if i, ok := entry.Param("cabin_dp_over_qc"); ok {
				o.Params[i] = cabin
			}
			q := *p
			q.Faults = []fault.Order{o}
			return minutesOn(engine(t, &q), 2).IAS.Knots()
		}
		assert.Greater(t, math.Abs(off("static-leak", -0.1)-off("static-leak", 0.2)), 1.0)
		assert.Equal(t, off("position-error", -0.1), off("position-error", 0.2))
	},
	"pitot-leak / water-in-pitot-line": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour)
		assert.Less(t, swing(with(t, p, "pitot-leak", 0), ias), 0.01)
		assert.Greater(t, swing(with(t, p, "water-in-pitot-line", 0), ias), 20.0)
	},
	"density-standard-temperature / temperature-mis-set / temperature-ram-rise / compressibility-neglected": func(t *testing.T) {
		p := plan(0, 0, 90, 150, time.Hour)
		p.Air.ISADeviation = 15
		part := func(id string, kt float64) float64 {
			q := *p
			q.Aircraft.Speed.Speed = units.Speed(kt) * units.Knot
			return minutesOn(with(t, &q, id, 0), 1).TAS.Knots()/kt - 1
		}
		same := func(id string) { assert.InDelta(t, part(id, 150), part(id, 300), 1e-9, id) }
		same("density-standard-temperature")
		same("temperature-mis-set")
		assert.InDelta(t, math.Sqrt(288.15/303.15)-1, part("density-standard-temperature", 150), 1e-9)
		ram, squeezed := part("temperature-ram-rise", 300), part("compressibility-neglected", 300)
		assert.InDelta(t, 4, ram/part("temperature-ram-rise", 150), 0.1, "as the square of Mach")
		assert.InDelta(t, 1.25/0.8, squeezed/ram, 0.03, "to first order, at Mach 0.44")
		// Thermometer against truth: the mis-set knob leaves it right.
		assert.InDelta(t, 30, float64(minutesOn(with(t, p, "temperature-mis-set", 0), 1).AirTemperature)-273.15, 0.01)
	},
	"tas-scale / regulator-ripple": func(t *testing.T) {
		// The run of the counter in one second after another.
		p := plan(0, 0, 90, 200, time.Hour)
		assert.Less(t, uneven(with(t, p, "tas-scale", 0)), 1e-9)
		assert.InDelta(t, 0.1, uneven(with(t, p, "regulator-ripple", 0)), 0.001, "1.05 and 0.95 by turns")
	},
	"drive-slip / wrong-gear-ratio": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour)
		slip, gear := minutesOn(with(t, p, "drive-slip", 0), 20), minutesOn(with(t, p, "wrong-gear-ratio", 0), 20)
		assert.InDelta(t, 1.15077944802, gear.Easting.NM()/gear.AirLog.NM(), 1e-9, "one of a short list")
		assert.Less(t, slip.Easting.NM(), slip.AirLog.NM(), "only low")
	},
	"variation-mis-set / variation-wrong-sign / slaving-hang-off": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour) // the chart says 15 E
		set := func(id string) float64 { return minutesOn(with(t, p, id, 0), 1).VariationSet.Degrees() }
		assert.InDelta(t, 20, set("variation-mis-set"), 1e-9)
		assert.InDelta(t, -15, set("variation-wrong-sign"), 1e-9)
		v := minutesOn(with(t, p, "slaving-hang-off", 0), 1)
		assert.InDelta(t, 15, v.VariationSet.Degrees(), 1e-9)
		assert.InDelta(t, 1, v.Heading.Degrees()-v.Compass.Degrees()-15, 1e-9, "gyro and element differ")
	},
	"variation-left-at-old-value / gyro-drift-unslaved": func(t *testing.T) {
		p := plan(-47, 178, 0, 200, time.Hour)
		p.Field, p.Legs = nil, nil
		for i := range 60 { // an orbit, three degrees a second
			p.Legs = append(p.Legs, Leg{Direction: units.Angle(i%3*120) * units.Degree, Ticks: TicksOf(40 * time.Second), TurnRate: 3})
		}
		off := func(id string) float64 { // repeater less compass less chart
			e := with(t, p, id, 0)
			v := minutesOn(e, 20)
			return math.Abs(float64(units.WrapHalf(units.Angle(v.Heading)-units.Angle(v.Compass)-units.Angle(e.Snapshot().Truth.Variation)))) / float64(units.Degree)
		}
		assert.Less(t, off("variation-left-at-old-value"), 0.1)
		assert.Greater(t, off("gyro-drift-unslaved"), 2.0)
	},
	"resolver-not-orthogonal / disc-slip": func(t *testing.T) {
		on := func(id string, heading float64) aboard.View {
			return minutesOn(with(t, plan(0, 0, heading, 200, time.Hour), id, 0), 30)
		}
		assert.InDelta(t, 100*math.Sin(math.Pi/180), on("resolver-not-orthogonal", 0).Easting.NM(), 1e-6)
		assert.InDelta(t, 0, on("disc-slip", 0).Easting.NM(), 1e-6)
		assert.InDelta(t, 95, on("disc-slip", 90).Easting.NM(), 1e-6)
		assert.InDelta(t, 100*math.Cos(math.Pi/180), on("resolver-not-orthogonal", 90).Easting.NM(), 1e-6)
	},
	"secant-gear-held / secant-gear-at-limit": func(t *testing.T) {
		run := func(id string) float64 { // degrees east at 40 N
			return minutesOn(with(t, plan(40, 0, 90, 240, time.Hour), id, 0), 15).Air.Lon.Degrees()
		}
		right := 1 / math.Cos(40*math.Pi/180)
		assert.InDelta(t, right, run("secant-gear-at-limit"), 1e-8)
		assert.InDelta(t, 1/math.Cos(50*math.Pi/180), run("secant-gear-held"), 1e-8)
	},
	"carry-failure / counter-mis-set": func(t *testing.T) {
		// From 50 00.0 N to the north, a mile in 15 s: the log of readings.
		p := plan(50, 0, 0, 240, time.Hour)
		at := func(id string, m float64) float64 {
			return minutesOn(with(t, p, id, time.Minute), m).Air.Lat.Minutes() - 3000 - 4*m
		}
		assert.InDelta(t, 0, at("carry-failure", 2), 1e-6, "nothing before a rollover")
		assert.InDelta(t, -10, at("carry-failure", 2.75), 1e-6)
		assert.InDelta(t, 10, at("counter-mis-set", 1.25), 1e-6, "without a rollover")
	},
	"wind-clock-late / marker-origin-mis-set": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour)
		p.Setting.Wind = wind(0, 30)
		apart := func(id string) float64 {
			v := minutesOn(with(t, p, id, 0), 0.5)
			return math.Hypot(float64(v.Marker.Lat-v.Ground.Lat), float64(v.Marker.Lon-v.Ground.Lon))
		}
		assert.Zero(t, apart("wind-clock-late"))
		assert.Greater(t, apart("marker-origin-mis-set"), 0.0)
		late := minutesOn(with(t, p, "wind-clock-late", 0), 30).Ground.Lat - minutesOn(engine(t, p), 30).Ground.Lat
		assert.InDelta(t, 2.5, late.Minutes(), 1e-6, "5 min of 30 kt, up the wind")
	},
	"wind-clock-not-reset / wind-changed-without-reset": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour)
		p.Mechanism.Ground, p.Setting.Wind = ground.Plotted, wind(0, 30)
		e := with(t, p, "wind-clock-not-reset", 10*time.Minute)
		before := minutesOn(e, 10)
		after := minutesOn(e, 1.0/60)
		assert.InDelta(t, -22.5, (after.Ground.Lat - before.Ground.Lat).Minutes(), 0.05, "45 min of 30 kt, down the wind")
		e = engine(t, p)
		before = minutesOn(e, 10)
		require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(0, 60)}))
		assert.InDelta(t, -5, (e.View().Ground.Lat - before.Ground.Lat).Minutes(), 1e-6, "the change times the run")
	},
	"reset-applied-late / fix-time-wrong": nil, // told by the log of the crew, which writes itself here
	"latitude-coupling / longitude-sense-reversed": func(t *testing.T) {
		v := minutesOn(with(t, plan(50, 0, 90, 200, time.Hour), "longitude-sense-reversed", 0), 5)
		assert.Less(t, v.Air.Lon.Degrees(), 0.0, "the wrong way; coupling is a few percent of the right way")
	},
	"wind-direction-reversed / wind-direction-mis-set / wind-speed-mis-set / wind-changes-with-time / wind-changes-with-place / clock-rate-wrong / air-plot-method": func(t *testing.T) {
		p := plan(0, 0, 90, 200, time.Hour)
		p.Setting.Wind = wind(270, 30) // along the track: residuals along and across are east and north
		p.Air.Winds = []WindEntry{{Wind: p.Setting.Wind}}
		residual := func(id string, m float64) (along, across float64) {
			v, right := minutesOn(with(t, p, id, 0), m), minutesOn(engine(t, p), m)
			return (v.Ground.Lon - right.Ground.Lon).Minutes(), (v.Ground.Lat - right.Ground.Lat).Minutes()
		}
		along, across := residual("wind-direction-reversed", 40)
		assert.InDelta(t, -40, along, 1e-3, "twice the run of the wind")
		assert.InDelta(t, 0, across, 1e-3)
		along, across = residual("wind-direction-mis-set", 40)
		assert.Greater(t, math.Abs(across), 4*math.Abs(along))
		along, across = residual("wind-speed-mis-set", 40)
		assert.InDelta(t, 20*0.15077944802, along, 1e-3)
		assert.InDelta(t, 0, across, 1e-3)
		half, _ := residual("wind-speed-mis-set", 20)
		assert.InDelta(t, along/2, half, 1e-6, "linear in time")
		along, _ = residual("clock-rate-wrong", 40)
		assert.InDelta(t, 20*500e-6, along, 1e-6, "parts in thousands")
	},
}

func ias(v aboard.View) float64 { return v.IAS.Knots() }

// swing is between what a dial shows least and most in a minute.
func swing(e *Engine, dial func(aboard.View) float64) float64 {
	e.Advance(160)
	least, most := math.Inf(1), math.Inf(-1)
	for range 60 * TicksPerSecond {
		e.Advance(1)
		x := dial(e.View())
		least, most = min(least, x), max(most, x)
	}
	return most - least
}

// uneven is by how much the air log counter runs further in one second than in
// another, as a part of the mean.
func uneven(e *Engine) float64 {
	var runs []float64
	for range 20 {
		before := e.View().AirLog.NM()
		e.Advance(TicksPerSecond)
		runs = append(runs, e.View().AirLog.NM()-before)
	}
	least, most := math.Inf(1), 0.0
	for _, r := range runs {
		least, most = min(least, r), max(most, r)
	}
	return (most - least) / (200.0 / 3600)
}

// Source: mech_separators.csv, every row that the crew can tell by its dials.
func TestLookAlikesAreToldApart(t *testing.T) {
	all := rows.Read(t, "testdata/mech_separators.csv")
	assert.Len(t, tests, len(all))
	for _, r := range all {
		test, ok := tests[r.Text("group")]
		require.True(t, ok, r.Text("group"))
		if test != nil {
			t.Run(strings.ReplaceAll(r.Text("group"), " / ", ","), test)
		}
	}
}
