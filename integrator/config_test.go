package integrator

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/train"
	"stillair/integrator/units"
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

func TestWhatIsNotBuiltIsRefused(t *testing.T) {
	for _, c := range []Config{
		{Class: Service}, {TemperatureSource: "standard"}, {TemperatureSource: "hand-set"}, {Values: map[string]float64{"backlash_min": 1}},
	} {
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
