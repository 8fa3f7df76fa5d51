package sim

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
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

// named reads "a=1;b=east (a remark)" into words by name.
func named(text string) map[string]string {
	got := map[string]string{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		word, _, _ := strings.Cut(value, " (")
		got[name] = strings.TrimSpace(word)
	}
	return got
}

func figure(t *testing.T, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err, text)
	return x
}

// order is a fault with the parameters that a row names.
func order(t *testing.T, id string, given map[string]string) fault.Order {
	e, ok := fault.Lookup(id)
	require.True(t, ok, id)
	o := fault.Order{ID: id, Params: e.Defaults()}
	for i, p := range e.Params {
		word, ok := given[p.Name]
		if !ok {
			continue
		}
		if at := slices.Index(p.Choices, word); at >= 0 {
			o.Params[i] = float64(at)
		} else {
			o.Params[i] = figure(t, word)
		}
	}
	return o
}

// rowPlan is the flight of a row of mech_flights.csv without its fault, and how
// far it goes to the north and east, NM: as planned, at sea level, in standard
// still air without variation. A leg that turns is turned onto its end.
func rowPlan(t *testing.T, r rows.Row) (p *Plan, north, east float64) {
	p = plan(r.Float("lat1_deg"), r.Float("lon1_deg"), 0, 200, time.Second)
	p.Legs, *p.Field = nil, 0
	for i, text := range strings.Split(r.Text("legs"), ";") {
		var seconds, kt, heading, rate float64
		_, err := fmt.Sscanf(strings.TrimSpace(text), "%fs %fkt %fdeg %fdeg/s", &seconds, &kt, &heading, &rate)
		require.NoError(t, err, "%v", r)
		d, h := kt*seconds/3600, heading*math.Pi/180
		north, east = north+d*math.Cos(h), east+d*math.Sin(h)
		if rate != 0 { // an arc instead: V/w (sin H2 - sin H1), V/w (cos H1 - cos H2)
			h2, radius := h+rate*seconds*math.Pi/180, kt/3600/(rate*math.Pi/180)
			north += radius*(math.Sin(h2)-math.Sin(h)) - d*math.Cos(h)
			east += radius*(math.Cos(h)-math.Cos(h2)) - d*math.Sin(h)
			heading += rate * seconds
		}
		speed := SpeedOrder{HoldTAS, units.Speed(kt) * units.Knot}
		if i == 0 {
			p.Aircraft.Heading, p.Aircraft.Speed = units.TrueHeading(units.Angle(heading)*units.Degree), speed
		}
		p.Legs = append(p.Legs, Leg{Direction: units.Angle(heading) * units.Degree, TurnRate: rate,
			Ticks: TicksOf(time.Duration(seconds * float64(time.Second))), Speed: &speed})
	}
	return p, north, east
}

// notFlown are the entries whose rows no flight can fly, with the reason; the
// mechanism flies them in its own tests.
var notFlown = map[string]string{
	"low-speed-threshold":         "from a standstill",
	"variation-left-at-old-value": "an invented field with a gradient",
	"turning-error":               "a turn on a leg that stays straight",
	"latitude-coupling":           "an explanation, not a fault to give",
}

// spoil puts the fault of a row into its flight.
func spoilRow(t *testing.T, p *Plan, r rows.Row) {
	id, given := r.Text("fault_id"), named(r.Text("params"))
	o := order(t, id, given)
	seconds := func(x float64) int64 { return TicksOf(time.Duration(x * float64(time.Second))) }
	variation := ""
	switch id {
	case "compass-deviation":
		text, _, _ := strings.Cut(r.Text("params"), ";")
		inner := strings.TrimSuffix(strings.TrimPrefix(text, "A..E=("), ")")
		for i, x := range strings.Split(inner, ",") {
			o.Params[i] = figure(t, strings.TrimSpace(x))
		}
		variation = given["variation"]
	case "variation-wrong-sign":
		variation = given["true_variation"]
	case "variation-mis-set":
		_, rest, _ := strings.Cut(r.Text("params"), "(true ")
		variation = rest
		if _, set, ok := strings.Cut(rest, ";"); ok {
			variation = strings.TrimSuffix(rest, ";"+set)
		}
	case "drive-broken":
		o.At = int64(figure(t, given["break_at_fraction"]) * float64(p.Legs[0].Ticks))
	case "repeater-stuck":
		o.At = seconds(figure(t, given["after_s"]))
	case "latitude-drum-jam", "longitude-drum-jam":
		o.At = seconds(figure(t, given["jam_from_s"]))
		o.For = seconds(figure(t, given["to_s"])) - o.At
	case "capsule-lag":
		p.Aircraft.Speed.Speed = units.Speed(figure(t, given["v_before"])) * units.Knot
	}
	if variation != "" {
		*p.Field = units.Variation(figure(t, variation)) * units.Variation(units.Degree)
	}
	p.Faults = []fault.Order{o}
}

// Source: mech_flights.csv, every row whose flight can be flown, with its own
// tolerance, through the whole engine by the id of its fault.
func TestEveryFaultAloneInFlight(t *testing.T) {
	flown, skipped := map[string]int{}, map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_flights.csv") {
		id := r.Text("fault_id")
		if notFlown[id] != "" {
			skipped[id]++
			continue
		}
		flown[id]++
		p, north, east := rowPlan(t, r)
		spoilRow(t, p, r)
		e := engine(t, p)
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		tolerance := figure(t, strings.Fields(r.Text("tolerance"))[0])
		if r.Text("err_north_nm") != "" {
			assert.InDelta(t, r.Float("err_north_nm"), s.Shown.North.NM()-north, tolerance, r.Text("case"))
			assert.InDelta(t, r.Float("err_east_nm"), s.Shown.East.NM()-east, tolerance, r.Text("case"))
		}
		if r.Text("ind_lat_deg") != "" {
			const arc = 1e-6 / 60 // of 1e-6 NM
			assert.InDelta(t, r.Float("ind_lat_deg"), s.Shown.Air.Lat.Degrees(), max(arc, tolerance/60), r.Text("case"))
			assert.InDelta(t, r.Float("ind_lon_deg"), s.Shown.Air.Lon.Degrees(), max(arc, tolerance/60)*4, r.Text("case"))
		}
	}
	assert.Len(t, flown, 31)
	assert.Len(t, skipped, len(notFlown))
}

// Source: mech_ground.csv, rows of what can be given: the ground side with its
// fault against the same flight without, on the equator where shafts are arcs.
func TestEveryGroundFaultInFlight(t *testing.T) {
	flown := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		id, in := r.Text("fault_id"), named(r.Text("inputs"))
		hours := in["hours"]
		if !strings.HasPrefix(id, "wind-direction") && id != "wind-speed-mis-set" && !strings.HasPrefix(id, "wind-clock") || hours == "" {
			continue
		}
		flown[id]++
		p := plan(0, 0, 90, 100, time.Duration(figure(t, hours)*float64(time.Hour)))
		p.Setting.Wind = wind(figure(t, in["wind_from"]), figure(t, in["kt"]))
		p.Air.Winds = []WindEntry{{Wind: p.Setting.Wind}}
		if id == "wind-clock-not-reset" {
			p.Mechanism.Ground = ground.Plotted
		}
		north := func(p *Plan) float64 {
			e := engine(t, p)
			e.Advance(untilTheEnd)
			return e.Snapshot().Shown.Ground.Lat.Minutes()
		}
		healthy := north(p)
		p.Faults = []fault.Order{order(t, id, named(r.Text("params")))}
		assert.InDelta(t, r.Float("err_north_nm"), north(p)-healthy, 1e-6, "%v", r)
	}
	assert.Equal(t, map[string]int{"wind-direction-reversed": 2, "wind-direction-mis-set": 2, "wind-speed-mis-set": 2,
		"wind-clock-late": 2, "wind-clock-not-reset": 2}, flown)
}

// Source: mech_ground.csv, resets late, mistimed and wrong: the error of the
// ground position just after.
func TestWrongResetsInFlight(t *testing.T) {
	flown := 0
	for _, r := range rows.Read(t, "testdata/mech_ground.csv") {
		id, in := r.Text("fault_id"), named(r.Text("inputs"))
		if id != "reset-applied-late" && id != "fix-time-wrong" {
			continue
		}
		flown++
		p := plan(0, 0, figure(t, in["track"]), figure(t, in["groundspeed_kt"]), 20*time.Minute)
		o := order(t, id, named(r.Text("params")))
		o.At = TicksOf(10 * time.Minute)
		p.Faults = []fault.Order{o}
		e := engine(t, p)
		e.Advance(o.At)
		assert.Less(t, e.Snapshot().Error.Ground.NM(), 0.3)
		e.Advance(1)
		s := e.Snapshot()
		assert.InDelta(t, r.Float("err_north_nm"), s.Error.Ground.North, 1e-3, "%v", r) // a step of the earth's shape
		assert.InDelta(t, r.Float("err_east_nm"), s.Error.Ground.East, 1e-3, "%v", r)
	}
	assert.Equal(t, 4, flown)
	p := plan(-40, 10, 30, 200, 20*time.Minute)
	p.Faults = []fault.Order{{ID: "reset-to-wrong-fix", At: 1600, Params: []float64{5, -2}}}
	e := engine(t, p)
	e.Advance(1601)
	entry := e.View().Log[len(e.View().Log)-1]
	assert.Equal(t, aboard.CountersSet, entry.Event, "the crew log it as any other")
	assert.Equal(t, TimeOf(1600), entry.Elapsed)
	assert.InDelta(t, 5, e.Snapshot().Error.Ground.North, 1e-4)
	assert.InDelta(t, -2, e.Snapshot().Error.Air.East, 1e-3)
}

// RowFlight is the flight of a row of mech_flights.csv with its fault, for tests
// outside of this package; nil: no flight can fly it.
func RowFlight(t *testing.T, r rows.Row) *Plan {
	if notFlown[r.Text("fault_id")] != "" {
		return nil
	}
	p, _, _ := rowPlan(t, r)
	spoilRow(t, p, r)
	return p
}
