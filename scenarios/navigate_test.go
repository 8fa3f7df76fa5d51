package scenarios

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// engineOf begins a shipped flight.
func engineOf(t *testing.T, name string) *sim.Engine {
	t.Helper()
	p, _, err := Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	return e
}

func milesApart(p, q units.Position) float64 {
	_, _, d := geodesy.GeodesicInverse(p, q)
	return d.NM()
}

// TestWhatTheNavigatorOfAFlightFinds: the wind that a flight has its crew set, and the
// place the counters are set to, are those that its own readings give, as printed; and
// they bring the marker nearer to the aircraft.
func TestWhatTheNavigatorOfAFlightFinds(t *testing.T) {
	for name, used := range map[string][]bool{"coast-in-sight": {true}, "over-cloud": {true, true}} {
		e := engineOf(t, name)
		var wind units.Wind
		var set sim.Command
		for _, c := range e.Plan().Crew {
			switch c.Action.Kind {
			case aboard.SetWind:
				wind = c.Action.Wind
			case aboard.SetCounters:
				set = c
			}
		}
		e.GoTo(set.Tick)
		v := e.View()
		before := milesApart(e.Snapshot().Truth.Position, units.Position(v.Marker))
		s := airplot.Work(&v, used)
		require.NoError(t, s.Err, name)
		assert.Equal(t, wind.String(), s.Wind.String(), name)
		p, err := s.NewPosition(&v, s.Wind)
		require.NoError(t, err)
		assert.InDelta(t, 0, milesApart(p, set.Action.Position), 0.15, "%s: %v", name, p)
		e.Advance(1)
		v = e.View()
		after := milesApart(e.Snapshot().Truth.Position, units.Position(v.Marker))
		assert.Less(t, after, 0.3*before, name)
	}
}

// TestByHandAlone: with the drive parted the counters are lost; the air log counter, the
// headings and the wind still give the place within a few miles after an hour and a half.
func TestByHandAlone(t *testing.T) {
	e := engineOf(t, "by-hand-alone")
	plan := e.Plan()
	at := units.AirPosition(plan.Aircraft.Position)
	var last units.Length
	for i, leg := range plan.Legs {
		e.Advance(leg.Ticks)
		v := e.View()
		tas := units.Speed(float64(v.AirLog-last) / sim.TimeOf(leg.Ticks).Seconds())
		heading := []float64{130, 40, 305}[i]
		var err error
		at, err = airplot.AirPosition(at, []airplot.Leg{{
			Heading: units.TrueHeading(units.Angle(heading) * units.Degree), TAS: tas, Elapsed: sim.TimeOf(leg.Ticks),
		}})
		require.NoError(t, err)
		last = v.AirLog
	}
	dr, err := airplot.DRPosition(at, plan.Setting.Wind, 90*time.Minute)
	require.NoError(t, err)
	truth := e.Snapshot().Truth.Position
	byHand := milesApart(truth, units.Position(dr))
	shown := milesApart(truth, units.Position(e.View().Marker))
	assert.Less(t, byHand, 5.0)
	assert.Greater(t, shown, 60.0)
	assert.False(t, math.IsNaN(byHand))
}
