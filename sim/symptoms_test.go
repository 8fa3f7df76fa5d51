package sim

import (
	"math"
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

// pattern is a flight on which every fault has its chance: four quadrants, fast
// and very slow, up and down, in warm air and with a wind.
func pattern() *Plan {
	p := plan(52, 1, 30, 200, 8*time.Minute)
	p.Air.ISADeviation = 12
	p.Air.Winds = []WindEntry{{Wind: wind(250, 30)}}
	p.Setting.Wind = wind(250, 30)
	for i, kt := range []float64{250, 70, 220} {
		speed := SpeedOrder{HoldTAS, units.Speed(kt) * units.Knot}
		height := units.Length([]float64{6000, 3000, 5000}[i]) * units.Foot
		p.Legs = append(p.Legs, Leg{Direction: units.Angle(120+90*i) * units.Degree, Ticks: TicksOf(8 * time.Minute),
			TurnRate: 3, Speed: &speed, Altitude: &height, Climb: p.Legs[0].Climb})
	}
	return p
}

// seen is what differs between two flights, to the crew's eye.
type seen struct{ airspeed, altimeter, airLog, air, marker bool }

func (s *seen) look(a, b *aboard.View) {
	apart := func(x, y float64, least float64) bool { return math.Abs(x-y) > least }
	far := func(p, q units.Position) bool {
		return math.Hypot(float64(p.Lat-q.Lat), float64(p.Lon-q.Lon)) > 1e-9
	}
	s.airspeed = s.airspeed || apart(a.IAS.Knots(), b.IAS.Knots(), 0.1)
	// The late capsule is late in a climb too, by 500 ft/min x 1 s.
	s.altimeter = s.altimeter || apart(a.PressureAltitude.Feet(), b.PressureAltitude.Feet(), 10)
	s.airLog = s.airLog || apart(a.AirLog.NM(), b.AirLog.NM(), 1e-5)
	s.air = s.air || far(units.Position(a.Air), units.Position(b.Air))
	s.marker = s.marker || far(units.Position(a.Marker), units.Position(b.Marker))
}

// Source: mech_symptoms.csv, of every entry that can be given the symptoms that
// dials and counters show: + is seen, - is not, c depends.
func TestSymptomsThatDialsShow(t *testing.T) {
	tested := 0
	for _, r := range rows.Read(t, "testdata/mech_symptoms.csv") {
		id := r.Text("fault_id")
		entry, ok := fault.Lookup(id)
		require.True(t, ok, id)
		if entry.Refusal() != "" {
			continue
		}
		p, q := pattern(), pattern()
		if entry.NeedsPlotted() {
			p.Mechanism.Ground, q.Mechanism.Ground = ground.Plotted, ground.Plotted
		}
		q.Faults = []fault.Order{{ID: id, At: TicksOf(time.Minute), Params: entry.Defaults()}}
		healthy, broken := engine(t, p), engine(t, q)
		var s seen
		for !healthy.Over() {
			healthy.Advance(5)
			broken.Advance(5)
			a, b := healthy.View(), broken.View()
			s.look(&a, &b)
		}
		for column, shows := range map[string]bool{
			"s01 airspeed dial wrong":                     s.airspeed,
			"s02 altimeter wrong or frozen":               s.altimeter,
			"s03 stand-alone distance counter wrong":      s.airLog,
			"s13 air position right; ground marker wrong": s.marker && !s.air,
		} {
			if says := r.Text(column); says != "c" {
				assert.Equal(t, says == "+", shows, "%s, %s: %+v", id, column, s)
				tested++
			}
		}
	}
	assert.Greater(t, tested, 200)
}
