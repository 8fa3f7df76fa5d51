package fault

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator"
	"stillair/sim/sensor"
)

// Every entry that can be given, with its default parameters, makes something
// wrong or has something done; and no law is without its entry.
func TestEveryEntryActs(t *testing.T) {
	given := 0
	for _, e := range Catalogue() {
		if e.Refusal() != "" {
			assert.NotContains(t, laws, e.ID)
			continue
		}
		given++
		f, err := Compile(Order{ID: e.ID, Params: e.Defaults()})
		require.NoError(t, err, e.ID)
		var senses sensor.Imperfection
		var mechanism integrator.Imperfections
		var habit Habit
		f.Write(1, 0, Wrong{&senses, &mechanism, &habit})
		ideal := senses == (sensor.Imperfection{}) && reflect.DeepEqual(mechanism, integrator.Imperfections{}) && habit == (Habit{})
		assert.NotEqual(t, ideal, !f.Deed.Done, e.ID)
	}
	assert.Len(t, laws, given)
}

// A ramp runs from the healthy value: half of it by hand.
func TestHalfARamp(t *testing.T) {
	write := func(o Order, amount float64) (m integrator.Imperfections, s sensor.Imperfection) {
		f, err := Compile(o)
		require.NoError(t, err)
		f.Write(amount, 0, Wrong{&s, &m, &Habit{}})
		return m, s
	}
	m, _ := write(Order{ID: "drive-slip", Shape: Ramp, RampTicks: 10, Params: []float64{0.3}}, 0.5)
	assert.Equal(t, 0.15, m.Drive.Slip)
	_, s := write(Order{ID: "static-leak", Shape: Ramp, RampTicks: 10, Params: []float64{0.2, -0.1, 3}}, 0.25)
	assert.Equal(t, sensor.Static{Leak: 0.05, CabinOverQc: -0.1, Settle: 3}, s.Static)
}

// An order that was compiled does not change with the list it was made from.
func TestCompiledIsItsOwn(t *testing.T) {
	params := []float64{0.3}
	f, err := Compile(Order{ID: "drive-slip", Params: params})
	require.NoError(t, err)
	params[0] = 1
	assert.Equal(t, []float64{0.3}, f.Params)
}
