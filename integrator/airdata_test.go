package integrator

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// aloft gives the inputs at a pressure altitude in feet, a true airspeed and a
// deviation from the standard temperature, on 090.
func aloft(feet, kt, deviation float64) Inputs {
	h := units.Length(feet) * units.Foot
	t := isa.Temperature(h) + units.Temperature(deviation)
	static := isa.Pressure(h)
	m := float64(units.Speed(kt)*units.Knot) / float64(isa.SpeedOfSound(t))
	return Inputs{
		Air:     airlog.Inputs{Pitot: static + isa.ImpactPressureAtMach(m, static), Static: static, Temperature: t},
		Compass: units.CompassHeading(90 * units.Degree),
	}
}

// Every row of what is wrong with the air log itself: the shaft speed, and an
// hour's miles at it. The other rows spoil what is handed in.
func TestAirDataRows(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_airdata.csv") {
		id := r.Text("fault_id")
		spoil, ok := faults[id]
		if !ok {
			require.True(t, slices.Contains(elsewhere, id), "%v: nobody's", r)
			continue
		}
		seen[id]++
		in := aloft(r.Float("pressure_altitude_ft"), r.Float("true_tas_kt"), r.Float("isa_deviation_K"))
		var w Imperfections
		spoil(&w, given(r.Text("params")))
		var s State
		s.Start(in, 0, units.Wind{}, units.At(0, 0), Imperfections{})
		s.Wrong = w
		for range 3600 {
			s.Step(in, 1)
		}
		assert.InDelta(t, r.Float("indicated_tas_kt"), s.AirLog.TAS.Knots(), 1e-4, "%v", r)
		assert.InDelta(t, r.Float("indicated_tas_kt"), s.AirLog.Miles.Total, 1e-4, "%v: from the first step on", r)
	}
	assert.Equal(t, map[string]int{"density-standard-temperature": 6, "temperature-mis-set": 4, "compressibility-neglected": 6}, seen)
}

// The three sources as the air gets warmer than at the start by 10 K: the bulb
// follows, the hand-set knob stands at what the thermometer showed then, and
// the standard source takes no notice of bulb and knob: V sqrt(T_s/T).
func TestSourcesOfTheTemperature(t *testing.T) {
	first, later := aloft(10000, 180, -5), aloft(10000, 180, 5)
	standard, warm := float64(isa.Temperature(10000*units.Foot)), float64(later.Air.Temperature)
	for _, c := range []struct {
		source   airlog.Source
		error, t float64
	}{
		{airlog.Bulb, 0, warm}, {airlog.HandSet, 0, standard - 5}, {airlog.Standard, 0, standard},
		{airlog.Bulb, 8, warm + 8}, {airlog.HandSet, 8, standard + 3}, {airlog.Standard, 8, standard},
	} {
		var s State
		s.Start(first, 0, units.Wind{}, units.At(0, 0), Imperfections{AirLog: airlog.Imperfection{Source: c.source, TemperatureError: c.error}})
		s.Step(later, 1)
		want := 180 * 180 * c.t / warm
		got := s.AirLog.TAS.Knots()
		assert.InDelta(t, want, got*got, 1e-7, "%+v", c)
	}
}
