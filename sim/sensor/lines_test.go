package sensor

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

const dt = 1.0 / 16

// air is a world at a pressure altitude, a calibrated airspeed and the standard
// temperature.
func air(feet, cas float64) *World {
	h := units.Length(feet) * units.Foot
	t := isa.Temperature(h)
	return &World{TAS: isa.TASFromCAS(units.Speed(cas)*units.Knot, h, t), Height: h, Temperature: t}
}

func ias(in airlog.Inputs) float64 { return isa.CAS(in.Pitot - in.Static).Knots() }

func feet(in airlog.Inputs) float64 { return isa.PressureAltitude(in.Static).Feet() }

// run flies on in the same world.
func (s *State) run(w *World, seconds float64) (in airlog.Inputs) {
	for range int(seconds / dt) {
		in = s.Step(w, dt).Air
	}
	return in
}

// Every row of the table of blocked lines: calibrated airspeed and altimeter
// after the height has changed.
func TestBlockedLines(t *testing.T) {
	faults := map[string]Imperfection{
		"pitot ram hole AND drain blocked (total pressure trapped)": {Pitot: Pitot{Trapped: true}},
		"static blocked (static pressure trapped)":                  {Static: Static{Trapped: true}},
		"pitot ram hole blocked, drain open":                        {Pitot: Pitot{RamBlocked: true, Decay: 5}},
	}
	for _, r := range rows.Read(t, "testdata/pitot_static_faults.csv") {
		var s State
		at, now := r.Float("PA_at_blockage_ft"), r.Float("PA_now_ft")
		s.Begin(air(at, r.Float("CAS_at_blockage_kt")))
		wrong, ok := faults[r.Text("fault")]
		require.True(t, ok, "%v", r)
		s.Wrong = wrong
		in := s.run(air(now, r.Float("true_CAS_now_kt")), 120)
		assert.InDelta(t, r.Float("indicated_CAS_kt"), ias(in), 0.05, "%v", r)
		altimeter := now
		if strings.Contains(r.Text("altimeter_reads_ft"), "frozen") {
			altimeter = at
		}
		assert.InDelta(t, altimeter, feet(in), 1e-6, "%v", r)
	}
}

// Every row of the table of position errors, both dials.
func TestPositionError(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/position_error.csv") {
		s := State{Wrong: Imperfection{Static: Static{PositionError: r.Float("dps_over_qc")}}}
		in := s.Begin(air(r.Float("PA_ft"), r.Float("true_CAS_kt"))).Air
		assert.InDelta(t, r.Float("indicated_CAS_kt"), ias(in), 0.02, "%v", r)
		assert.InDelta(t, r.Float("indicated_PA_ft"), feet(in), 0.5, "%v", r)
		assert.InDelta(t, r.Float("dps_Pa"), float64(in.Static-isa.Pressure(units.Length(r.Float("PA_ft"))*units.Foot)), 0.01, "%v", r)
	}
}

// Every row of the table of lags: the constant of the line, and how far an
// altimeter on it is behind in a climb of 3000 ft/min. Pressure falls in
// proportion to itself, which makes the lag in height greater by a part of half
// the climb within it over the scale height (27000 ft at the most).
func TestLagOfALine(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/lag_constants.csv") {
		h := units.Length(r.Float("PA_ft")) * units.Foot
		length, bore, volume := units.Length(r.Float("tube_length_m")), units.Length(r.Float("bore_m")), r.Float("instrument_volume_m3")
		lag := LineLag(length, bore, volume, h)
		want := r.Float("lambda_s")
		assert.InDelta(t, want, lag, 1e-4*want+r.HalfDigit("lambda_s"), "%v", r)
		ratio := lag / LineLag(length, bore, volume, 0)
		assert.InDelta(t, r.Float("ratio_to_sea_level"), ratio, 1e-4*ratio, "%v", r)

		s := State{Wrong: Imperfection{LineLag: lag}}
		const rate = 50.0 // ft/s
		from := r.Float("PA_ft") - 500
		s.Begin(air(from, 150))
		var in airlog.Inputs
		for i := range 160 {
			in = s.Step(air(from+rate*dt*float64(i+1), 150), dt).Air
		}
		behind := r.Float("altimeter_lag_ft_at_3000fpm")
		assert.InDelta(t, behind, from+500-feet(in), behind*(1e-4+behind/2/20000)+r.HalfDigit("altimeter_lag_ft_at_3000fpm"), "%v", r)
	}
}

// airFaults are the links of the senses in the table of the air log under a
// fault, and what was done before.
var airFaults = map[string]func(s *State, r rows.Row, p map[string]float64, now *World) airlog.Inputs{
	"position-error": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Wrong.Static.PositionError = p["dps_over_qc"]
		return s.Begin(now).Air
	},
	"pitot-leak": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Wrong.Pitot.Leak = p["leak_fraction"]
		return s.Begin(now).Air
	},
	"static-leak": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Begin(now)
		s.Wrong.Static = Static{Leak: p["leak_fraction"], CabinOverQc: p["cabin_dp_over_qc"], Settle: 1}
		return s.run(now, 60)
	},
	"pitot-and-drain-blocked": func(s *State, r rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Begin(tasAt(p["blocked_at_ft"], p["tas_at_blockage_kt"], r.Float("isa_deviation_K")))
		s.Wrong.Pitot.Trapped = true
		return s.Step(now, dt).Air
	},
	"static-blocked": func(s *State, r rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Begin(tasAt(p["blocked_at_ft"], 150, r.Float("isa_deviation_K")))
		s.Wrong.Static.Trapped = true
		return s.Step(now, dt).Air
	},
	"pitot-ram-blocked": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Begin(now)
		s.Wrong.Pitot = Pitot{RamBlocked: true, Decay: p["decay_s"]}
		return s.run(now, p["t_since_onset_s"])
	},
	"water-head-in-pitot-line": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Wrong.Pitot.WaterHead = units.Length(p["head_mm"]) / 1000
		return s.Begin(now).Air
	},
	"temperature-ram-rise": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Wrong.Thermometer.Recovery = p["recovery"]
		return s.Begin(now).Air
	},
	"temperature-mis-set": func(s *State, _ rows.Row, p map[string]float64, now *World) airlog.Inputs {
		s.Wrong.Thermometer.Error = p["temperature_error_k"]
		return s.Begin(now).Air
	},
}

func tasAt(feet, tas, deviation float64) *World {
	h := units.Length(feet) * units.Foot
	return &World{TAS: units.Speed(tas) * units.Knot, Height: h, Temperature: isa.Temperature(h) + units.Temperature(deviation)}
}

// Every row of the table that the senses answer: what the air log makes of
// their pressures and temperature.
func TestAirLogOnSpoiltSenses(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_airdata.csv") {
		id := r.Text("fault_id")
		set, ok := airFaults[id]
		if !ok {
			continue
		}
		seen[id]++
		var s State
		in := set(&s, r, given(r.Text("params")), tasAt(r.Float("pressure_altitude_ft"), r.Float("true_tas_kt"), r.Float("isa_deviation_K")))
		tolerance := 1e-4
		if strings.HasPrefix(r.Text("tolerance"), "1e-3") {
			tolerance = 1e-3
		}
		tas := isa.TAS(isa.Mach(in.Pitot-in.Static, in.Static), in.Temperature).Knots()
		assert.InDelta(t, r.Float("indicated_tas_kt"), tas, tolerance, "%v", r)
	}
	for id := range airFaults {
		assert.GreaterOrEqual(t, seen[id], 2, id)
	}
}

// What falls or settles does so by its exponential, whatever the step, and what
// is mended comes back at once, or settles.
func TestDecayAndSettling(t *testing.T) {
	w := air(8000, 160)
	qc := func(in airlog.Inputs) float64 { return float64(in.Pitot - in.Static) }
	for _, step := range []float64{1, 0.5, 1.0 / 16} {
		var s State
		whole := s.Begin(w).Air
		s.Wrong.Pitot = Pitot{RamBlocked: true, Decay: 7}
		var in airlog.Inputs
		for range int(10 / step) {
			in = s.Step(w, step).Air
		}
		assert.InDelta(t, qc(whole)*math.Exp(-10.0/7), qc(in), 1e-7)
		s.Wrong.Pitot = Pitot{}
		assert.Equal(t, whole, s.Step(w, step).Air)

		s.Wrong.Static = Static{Leak: 0.2, CabinOverQc: -0.1, Settle: 4}
		for range int(6 / step) {
			in = s.Step(w, step).Air
		}
		gone := 1 - math.Exp(-6.0/4)
		assert.InDelta(t, -0.02*qc(whole)*gone, float64(in.Static-whole.Static), 1e-7)
		s.Wrong.Static = Static{}
		for range int(4 / step) {
			in = s.Step(w, step).Air
		}
		assert.InDelta(t, -0.02*qc(whole)*gone*math.Exp(-1), float64(in.Static-whole.Static), 1e-7, "it does not jump")
		for range int(120 / step) {
			in = s.Step(w, step).Air
		}
		assert.Equal(t, whole, in, "and comes to rest")
	}
}

// Water surges from its onset on with its own period.
func TestSurge(t *testing.T) {
	w := air(3000, 150)
	var s State
	whole := s.Begin(w).Air
	for i := range 400 {
		s.Wrong.Pitot.Surge = Surge{Amplitude: 0.4, Period: 10, Since: float64(i) * dt}
		in := s.Step(w, dt).Air
		want := 1 + 0.4*math.Sin(2*math.Pi*float64(i+1)*dt/10)
		require.InDelta(t, want, float64((in.Pitot-in.Static)/(whole.Pitot-whole.Static)), 1e-9)
	}
}

// The alternate source helps against a blocked line and a leak, with a position
// error of its own; the blocked line waits behind the cock with what it kept.
func TestAlternateStatic(t *testing.T) {
	var s State
	low, high := air(5000, 150), air(7000, 150)
	s.Begin(low)
	s.Wrong.Static.Trapped = true
	in := s.run(high, 1)
	assert.InDelta(t, 5000, feet(in), 1e-6)
	s.Alternate = true
	in = s.run(high, 1)
	true7 := Feel(high).Air
	want := true7.Static + AlternatePositionError*(true7.Pitot-true7.Static)
	assert.InDelta(t, float64(want), float64(in.Static), 1e-9)
	assert.Greater(t, feet(in), 7000.0, "cabin air is a little low: the dials read high")
	assert.Greater(t, ias(in), 150.0)
	s.Alternate = false
	assert.InDelta(t, 5000, feet(s.run(high, 1)), 1e-6)
}

// The vertical speed dial: at once on ideal lines, zero on a blocked one, a
// momentary climb as the alternate source is opened, and never a jump back.
func TestVerticalSpeedDial(t *testing.T) {
	climbing := func(i int) *World {
		w := air(5000+float64(i)*dt*10, 150)
		w.Climb = 10 * units.Speed(units.Foot)
		return w
	}
	fpm := func(s *State) float64 { return float64(s.Dial.Reads) / 0.3048 * 60 }
	var s State
	i := 0
	fly := func(seconds float64) {
		for range int(seconds / dt) {
			i++
			s.Step(climbing(i), dt)
		}
	}
	s.Begin(climbing(0))
	fly(2)
	assert.InDelta(t, 600, fpm(&s), 1e-9)
	s.Wrong.Static.Trapped = true
	fly(3)
	assert.InDelta(t, 600*math.Exp(-1), fpm(&s), 1e-6, "the lag of the dial, 3 s")
	fly(60)
	assert.InDelta(t, 0, fpm(&s), 1e-3)
	s.Alternate = true
	s.Settle(climbing(i))
	before := fpm(&s)
	fly(dt)
	assert.Greater(t, fpm(&s), before+1000, "610 ft made good and the cabin's suction")
	fly(60)
	assert.InDelta(t, 600, fpm(&s), 2, "in pressure a little low the same fall is a little more height")
	s.Wrong.Static.Trapped, s.Alternate = false, false
	for range 2000 {
		last := fpm(&s)
		fly(dt)
		require.Less(t, math.Abs(fpm(&s)-last), 1500.0)
	}
	assert.InDelta(t, 600, fpm(&s), 1e-9)
	assert.False(t, s.Dial.Late)
}
