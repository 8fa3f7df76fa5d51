package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim/fault"
)

// signatures are the parameters of the rows of mech_signatures.csv, in the order
// of the catalogue.
var signatures = map[string]fault.Order{
	"tas-scale":               {ID: "tas-scale", Params: []float64{0.02}},
	"drive-slip":              {ID: "drive-slip", Params: []float64{0.05}},
	"wrong-gear-ratio":        {ID: "wrong-gear-ratio", Params: []float64{1.15077944802}},
	"compass-deviation A":     {ID: "compass-deviation", Params: []float64{2, 0, 0, 0, 0}},
	"compass-deviation B":     {ID: "compass-deviation", Params: []float64{0, 2, 0, 0, 0}},
	"compass-deviation D":     {ID: "compass-deviation", Params: []float64{0, 0, 0, 2, 0}},
	"compass-deviation E":     {ID: "compass-deviation", Params: []float64{0, 0, 0, 0, 2}},
	"gyro-drift-unslaved":     {ID: "gyro-drift-unslaved", Params: []float64{6, 0, 0}},
	"slaving-hang-off":        {ID: "slaving-hang-off", Params: []float64{1}},
	"repeater-lost-steps":     {ID: "repeater-lost-steps", Params: []float64{6, 0.5}},
	"repeater-lag":            {ID: "repeater-lag", Params: []float64{2}},
	"resolver-zero-off":       {ID: "resolver-zero-off", Params: []float64{2}},
	"resolver-not-orthogonal": {ID: "resolver-not-orthogonal", Params: []float64{1}},
	"quadrant-error":          {ID: "quadrant-error", Params: []float64{1, 1}},
	"disc-centre-offset":      {ID: "disc-centre-offset", Params: []float64{0.005, 0}},
	"disc-slip":               {ID: "disc-slip", Params: []float64{1, 0.05}},
}

// legsAt flies legs of 30 minutes at 200 kt with rate-one turns between them and
// gives how far the two shafts are out, NM. In a turn the aircraft runs an arc:
// V/w (sin H2 - sin H1), V/w (cos H1 - cos H2).
func legsAt(t *testing.T, o fault.Order, headings ...float64) (north, east float64) {
	p := plan(0, 0, headings[0], 200, 30*time.Minute)
	*p.Field = 0
	p.Faults = []fault.Order{o}
	const radius = 200.0 / 3600 * 180 / math.Pi / 3
	for i, h := range headings {
		sin, cos := math.Sincos(h * math.Pi / 180)
		north, east = north-100*cos, east-100*sin
		if i == 0 {
			continue
		}
		before := headings[i-1] * math.Pi / 180
		north, east = north-radius*(sin-math.Sin(before)), east-radius*(math.Cos(before)-cos)
		turn := time.Duration(math.Mod(h-headings[i-1]+360, 360) / 3 * float64(time.Second))
		p.Legs = append(p.Legs, Leg{Direction: units.Angle(h) * units.Degree, Ticks: TicksOf(turn + 30*time.Minute), TurnRate: 3})
	}
	s := flown(t, p)
	return north + s.Shown.North.NM(), east + s.Shown.East.NM()
}

// Source: mech_signatures.csv, every row that is a flight, to its tolerance. Not
// flown: the invented field with a gradient, and the surging water, for which
// the table takes the low-speed limit (its exact row is in mech_flights.csv).
func TestSignatures(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "testdata/mech_signatures.csv") {
		id := r.Text("fault_id")
		o, ok := signatures[id]
		if !ok {
			require.Contains(t, []string{"variation-left-at-old-value", "water-in-pitot-line"}, id)
			continue
		}
		seen++
		const tolerance = 0.002
		for _, h := range []string{"000", "090", "180", "270"} {
			heading := figure(t, h)
			north, east := legsAt(t, o, heading)
			sin, cos := math.Sincos(heading * math.Pi / 180)
			along, cross := 100+north*cos+east*sin, east*cos-north*sin
			assert.InDelta(t, r.Float("along_pct_"+h), along-100, tolerance, "%s %s", id, h)
			assert.InDelta(t, r.Float("cross_deg_"+h), math.Atan2(cross, along)*180/math.Pi, tolerance, "%s %s", id, h)
		}
		north, east := legsAt(t, o, 30, 210)
		assert.InDelta(t, r.Float("out_and_back_N_nm"), north, tolerance, id)
		assert.InDelta(t, r.Float("out_and_back_E_nm"), east, tolerance, id)
		north, east = legsAt(t, o, 0, 90, 180, 270)
		assert.InDelta(t, r.Float("square_N_nm"), north, tolerance, id)
		assert.InDelta(t, r.Float("square_E_nm"), east, tolerance, id)
	}
	assert.Equal(t, len(signatures), seen)
}
