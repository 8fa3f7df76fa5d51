package integrator

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/airlog"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// A limit of the secant gear is one of the make: both pairs of trains have it,
// north and south. At 80 degrees a gear that stops at 70 turns sec 70 for sec 80.
func TestSecantLimitIsOfBothTrains(t *testing.T) {
	c := Config{Values: map[string]float64{"secant_limit_deg": 70, "tas_scale": 0.01}}
	w, err := c.Imperfections()
	require.NoError(t, err)
	const sec70 = 2.9238044 // mathematical tables, memory
	for _, lat := range []float64{80, -80} {
		s := fly(lat, 0, 120, 90, 3600, w)
		assert.InDelta(t, 121.2*sec70, s.Air.Lon.Total, 1e-4)
		assert.InDelta(t, 121.2*sec70, units.Position(s.GroundPosition(&c)).Lon.Minutes(), 1e-4)
	}
}

// The service class, every row of its table: the value goes to the field that
// has it, or is left for the senses, in the order of the table.
func TestServiceClass(t *testing.T) {
	c := Config{Class: Service}
	w, err := c.Imperfections()
	require.NoError(t, err)
	fields := map[string]float64{
		"tas_scale":        w.AirLog.Scale,
		"threshold_kt":     w.AirLog.Threshold.Knots(),
		"regulator_ripple": w.AirLog.Ripple.Amount,
		"train_play_nm":    w.Drive.Play,
		"secant_limit_deg": w.Train.SecantLimit.Degrees(),
	}
	senses := c.Senses()
	for _, r := range rows.Read(t, "testdata/mech_service.csv") {
		name := r.Text("name")
		if name == "temperature_source" {
			assert.Equal(t, "bulb", r.Text("value"))
			assert.Equal(t, airlog.Bulb, w.AirLog.Source)
			continue
		}
		if got, ours := fields[name]; ours {
			assert.InDelta(t, r.Float("value"), got, 1e-12, name)
			delete(fields, name)
			continue
		}
		require.NotEmpty(t, senses, name)
		assert.Equal(t, Value{name, r.Float("value")}, senses[0])
		senses = senses[1:]
	}
	assert.Empty(t, senses)
	assert.Empty(t, fields)
	assert.Equal(t, w.Train.SecantLimit, w.Ground.Train.SecantLimit)
	assert.Equal(t, airlog.Ripple{Amount: 0.01, Period: 2, Duty: 0.5}, w.AirLog.Ripple, "the note beside the row")
}

// A single value goes before the class, in either class.
func TestSingleValues(t *testing.T) {
	values := map[string]float64{"tas_scale": -0.02, "line_lag_s": 1}
	w, err := (&Config{Values: values}).Imperfections()
	require.NoError(t, err)
	assert.Equal(t, Imperfections{AirLog: airlog.Imperfection{Scale: -0.02}}, w)
	assert.Equal(t, []Value{{"line_lag_s", 1}}, (&Config{Values: values}).Senses())
	w, err = (&Config{Class: Service, Values: values, TemperatureSource: "hand-set"}).Imperfections()
	require.NoError(t, err)
	assert.Equal(t, -0.02, w.AirLog.Scale)
	assert.Equal(t, 0.05, w.Drive.Play)
	assert.Equal(t, airlog.HandSet, w.AirLog.Source)
	assert.Contains(t, (&Config{Class: Service, Values: values}).Senses(), Value{"line_lag_s", 1})
}

func TestWhatTheTableDoesNotHaveIsRefused(t *testing.T) {
	for _, c := range []Config{{TemperatureSource: "moon"}, {Values: map[string]float64{"backlash_min": 1}}} {
		_, err := c.Imperfections()
		assert.Error(t, err, "%+v", c)
	}
	w, err := (&Config{TemperatureSource: "bulb"}).Imperfections()
	require.NoError(t, err)
	assert.Equal(t, Imperfections{}, w)
}

// A fault of the ground trains leaves the air trains alone, and the reverse.
func TestEachPairOfTrainsHasItsOwnFaults(t *testing.T) {
	jammed := train.Imperfection{LatJammed: true}
	var air, ground Imperfections
	air.Train, ground.Ground.Train = jammed, jammed
	s := fly(10, 0, 120, 0, 1800, air)
	assert.InDelta(t, 600, s.Air.Lat.Total, 1e-9)
	assert.InDelta(t, 660, s.Ground.Running.Lat.Total, 1e-9)
	s = fly(10, 0, 120, 0, 1800, ground)
	assert.InDelta(t, 660, s.Air.Lat.Total, 1e-9)
	assert.InDelta(t, 600, s.Ground.Running.Lat.Total, 1e-9)
}
