package heading

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

const (
	dt  = 1.0 / 16
	deg = units.Degree
)

func compass(d float64) units.CompassHeading { return units.CompassHeading(units.Angle(d) * deg) }

// Setter faults act on top of what is set: the sign turns first.
func TestSetter(t *testing.T) {
	set := units.Variation(20 * deg)
	for _, c := range []struct {
		w    Imperfection
		want float64
	}{
		{Imperfection{}, 20},
		{Imperfection{MisSet: -8 * deg}, 12},
		{Imperfection{WrongSign: true}, -20},
		{Imperfection{WrongSign: true, MisSet: 5 * deg}, -15},
	} {
		assert.InDelta(t, c.want, c.w.Setter(set).Degrees(), 1e-12)
		var s State
		assert.InDelta(t, units.WrapDegrees(350+c.want), s.Settle(compass(350), set, &c.w).Degrees(), 1e-9)
	}
}

// In a steady turn a lagging repeater is behind by rate x lag, less what is
// left of the beginning; then it closes by its exponential. Exact for any step.
func TestLag(t *testing.T) {
	for _, step := range []float64{0.5, dt} {
		var s State
		w := Imperfection{Lag: 2}
		h := 350.0
		s.Settle(compass(h), 0, &w)
		var reads units.TrueHeading
		for range int(10 / step) {
			h += 3 * step
			reads = s.Step(compass(h), 0, step, &w)
		}
		behind := 6 * (1 - math.Exp(-10.0/2))
		assert.InDelta(t, 20-behind, reads.Degrees(), 1e-9)
		for range int(4 / step) {
			reads = s.Step(compass(h), 0, step, &w)
		}
		assert.InDelta(t, 20-behind*math.Exp(-2), reads.Degrees(), 1e-9)
		jump := s.Settle(compass(h+90), 0, &w)
		assert.InDelta(t, reads.Degrees(), jump.Degrees(), 1e-12, "a jump of what is sent moves no hand")
		assert.InDelta(t, 110-(90+behind*math.Exp(-2))*math.Exp(-step/2), s.Step(compass(h+90), 0, step, &w).Degrees(), 1e-9)
	}
}

// A repeater in steps reads whole ones, and the nearest.
func TestSteps(t *testing.T) {
	w := Imperfection{Step: 0.5 * deg}
	var s State
	for h := -3.0; h < 370; h += 0.13 {
		reads := s.Step(compass(h), 0, dt, &w).Degrees()
		require.InDelta(t, math.Round(reads*2), reads*2, 1e-9)
		require.LessOrEqual(t, math.Abs(units.WrapHalfDegrees(reads-h)), 0.25+1e-9)
	}
}

// Stuck it stays, and what is sent goes on: freed, it is at once where it
// belongs, or comes there with its lag.
func TestStuck(t *testing.T) {
	var s State
	w := Imperfection{Stuck: true}
	s.Settle(compass(60), 0, &Imperfection{})
	assert.InDelta(t, 60, s.Step(compass(90), 0, dt, &w).Degrees(), 1e-9)
	assert.InDelta(t, 60, s.Settle(compass(120), 0, &w).Degrees(), 1e-9)
	assert.InDelta(t, 60, s.Step(compass(120), units.Variation(9*deg), dt, &w).Degrees(), 1e-9)
	late := s
	assert.InDelta(t, 120, s.Step(compass(120), 0, dt, &Imperfection{}).Degrees(), 1e-9)
	assert.InDelta(t, 129-69*math.Exp(-dt/3), late.Step(compass(120), units.Variation(9*deg), dt, &Imperfection{Lag: 3}).Degrees(), 1e-9)
}

// Steps lost stay lost when the cause is gone, until somebody brings the
// repeater into step.
func TestLostSteps(t *testing.T) {
	var s State
	assert.InDelta(t, 93, s.Step(compass(90), 0, dt, &Imperfection{Lost: 3 * deg}).Degrees(), 1e-9)
	for range 100 {
		require.InDelta(t, 103, s.Step(compass(100), 0, dt, &Imperfection{}).Degrees(), 1e-9)
	}
	s.Resynchronise()
	assert.InDelta(t, 100, s.Step(compass(100), 0, dt, &Imperfection{}).Degrees(), 1e-9)
}

// The healthy values of the service table that belong here are taken, others
// are not.
func TestSet(t *testing.T) {
	var w Imperfection
	assert.True(t, w.Set("repeater_step_deg", 0.5))
	assert.True(t, w.Set("repeater_lag_s", 0.3))
	assert.False(t, w.Set("slaving_deg_min", 2))
	assert.Equal(t, Imperfection{Step: 0.5 * deg, Lag: 0.3}, w)
}
