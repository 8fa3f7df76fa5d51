package airlog

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

func number(t *testing.T, text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, ok := strings.Cut(part, "=")
		require.True(t, ok, text)
		if x, err := strconv.ParseFloat(value, 64); err == nil {
			got[name] = x
		}
	}
	return got
}

// lines spoil what reaches a perfect unit, by fault id: the law of the note for
// pressures and temperature, p the parameters of the row. What is wrong
// with the unit itself is for the test of the whole mechanism.
var lines = map[string]func(in Inputs, p map[string]float64) Inputs{
	"temperature-ram-rise": func(in Inputs, p map[string]float64) Inputs {
		m := isa.Mach(in.Pitot-in.Static, in.Static)
		in.Temperature *= units.Temperature(1 + 0.2*p["recovery"]*m*m)
		return in
	},
	"position-error": func(in Inputs, p map[string]float64) Inputs { return static(in, p["dps_over_qc"]) },
	"static-leak": func(in Inputs, p map[string]float64) Inputs {
		return static(in, p["leak_fraction"]*p["cabin_dp_over_qc"])
	},
	"pitot-leak": func(in Inputs, p map[string]float64) Inputs { return pitot(in, 1-p["leak_fraction"]) },
	"pitot-ram-blocked": func(in Inputs, p map[string]float64) Inputs {
		return pitot(in, math.Exp(-p["t_since_onset_s"]/p["decay_s"]))
	},
	"water-head-in-pitot-line": func(in Inputs, p map[string]float64) Inputs {
		in.Pitot -= units.Pressure(9.80665 * p["head_mm"])
		return in
	},
	"static-blocked": func(in Inputs, p map[string]float64) Inputs {
		in.Static = at(p["blocked_at_ft"], 0, 0).Static
		return in
	},
	"pitot-and-drain-blocked": func(in Inputs, p map[string]float64) Inputs {
		in.Pitot = at(p["blocked_at_ft"], p["tas_at_blockage_kt"], 0).Pitot
		return in
	},
}

// static moves the static pressure by a part of the impact pressure.
func static(in Inputs, k float64) Inputs {
	in.Static += units.Pressure(k) * (in.Pitot - in.Static)
	return in
}

// pitot leaves a part of the impact pressure.
func pitot(in Inputs, k float64) Inputs {
	in.Pitot = in.Static + units.Pressure(k)*(in.Pitot-in.Static)
	return in
}

// A perfect unit at the end of spoilt lines reads what the rows say, 1e-4 kt.
func TestSpoiltLines(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_airdata.csv") {
		id := r.Text("fault_id")
		spoil, ok := lines[id]
		if !ok {
			continue
		}
		seen[id]++
		in := at(r.Float("pressure_altitude_ft"), r.Float("true_tas_kt"), r.Float("isa_deviation_K"))
		var s State
		s.Settle(spoil(in, number(t, r.Text("params"))), &Imperfection{})
		assert.InDelta(t, r.Float("indicated_tas_kt"), s.TAS.Knots(), 1e-4, "%v %s", r, id)
	}
	for id := range lines {
		assert.GreaterOrEqual(t, seen[id], 2, id)
	}
}

// Whatever legal heights, deviations and spoilt lines bring (a trapped pressure
// may belong to any height, -1000 to 40000 ft), the shaft turns forward or not
// at all, at a finite speed; qc below zero is zero.
func TestInputsOutOfRange(t *testing.T) {
	low, high := isa.Pressure(-1000*units.Foot), isa.Pressure(40000*units.Foot)
	for _, pitot := range []units.Pressure{0, high / 2, high, low, 2 * low} {
		for _, static := range []units.Pressure{high / 2, high, low, 1.2 * low} {
			for _, w := range []Imperfection{{}, {TemperatureError: -60}, {TemperatureError: 60}, {Scale: -0.3}, {Scale: 0.3}, {Source: Standard}, {Source: HandSet, TemperatureError: -60}, {Incompressible: true}} {
				var s State
				in := Inputs{pitot, static, units.Temperature(216.65 - 60)}
				s.Settle(in, &w)
				miles := s.Wind(in, 1, &w)
				assert.False(t, math.IsNaN(miles) || math.IsInf(miles, 0) || miles < 0, "%+v %+v gives %v", in, w, miles)
				if pitot <= static {
					assert.Zero(t, miles)
				} else {
					assert.Positive(t, miles)
				}
			}
		}
	}
}
