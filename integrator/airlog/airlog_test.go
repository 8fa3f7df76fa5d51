package airlog

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// at gives what the unit feels at a height, a true airspeed and a deviation
// from the standard temperature.
func at(feet, kt, deviation float64) Inputs {
	h := units.Length(feet) * units.Foot
	t := isa.Temperature(h) + units.Temperature(deviation)
	static := isa.Pressure(h)
	m := float64(units.Speed(kt)*units.Knot) / float64(isa.SpeedOfSound(t))
	return Inputs{static + isa.ImpactPressureAtMach(m, static), static, t}
}

// The rows of the imperfections that the unit has so far, and the ideal unit at
// the same places.
func TestAirData(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_airdata.csv") {
		_, text, _ := strings.Cut(r.Text("params"), "=")
		x, err := strconv.ParseFloat(text, 64)
		var w Imperfection
		switch r.Text("fault_id") {
		case "temperature-mis-set":
			w.TemperatureError = x
		case "tas-scale":
			w.Scale = x
		default:
			continue
		}
		require.NoError(t, err, "%v", r)
		seen++
		kt := r.Float("true_tas_kt")
		in := at(r.Float("pressure_altitude_ft"), kt, r.Float("isa_deviation_K"))
		var s State
		s.Settle(in, &w)
		assert.InDelta(t, r.Float("indicated_tas_kt"), s.TAS.Knots(), 1e-4, "%v", r)
		s.Settle(in, &Imperfection{})
		assert.InDelta(t, kt, s.TAS.Knots(), 1e-9, "%v", r)
	}
	require.GreaterOrEqual(t, seen, 3)
}

func TestPitotBelowStaticStandsStill(t *testing.T) {
	in := at(8000, 150, 0)
	in.Pitot = in.Static - 500
	var s State
	s.Settle(in, &Imperfection{})
	assert.Zero(t, s.TAS)
	assert.Zero(t, s.Wind(in, 1, &Imperfection{}))
}

// Speeding up steadily from 100 to 200 kt in an hour is 150 air miles.
func TestMilesAreTheMeanOfTheEnds(t *testing.T) {
	var s State
	s.Settle(at(0, 100, 0), &Imperfection{})
	total := 0.0
	for i := range 3600 {
		total += s.Wind(at(0, 100+float64(i+1)/36, 0), 1, &Imperfection{})
	}
	assert.InDelta(t, 150, total, 1e-9)
	assert.InDelta(t, 150, s.Miles.Total, 1e-9)
}
