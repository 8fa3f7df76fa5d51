package debrief

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// straight is a leg of the tables: as planned, a uniform field, still air.
func straight(lat, heading, knots, miles float64) *sim.Plan {
	field := units.Variation(0)
	return &sim.Plan{
		Title: "Straight", Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Seed: 5, Pilot: sim.AsPlanned, Field: &field,
		Aircraft: sim.Aircraft{
			Position: units.Position{Lat: units.Angle(lat) * units.Degree}, Heading: units.TrueHeading(units.Angle(heading) * units.Degree),
			Speed: sim.SpeedOrder{Speed: units.Speed(knots) * units.Knot},
		},
		Legs: []sim.Leg{{Direction: units.Angle(heading) * units.Degree, Ticks: sim.TicksOf(time.Duration(miles / knots * float64(time.Hour)))}},
	}
}

func flown(t *testing.T, p *sim.Plan) *sim.Engine {
	t.Helper()
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(1 << 40)
	return e
}

func order(t *testing.T, id string, change map[string]float64) fault.Order {
	t.Helper()
	e, ok := fault.Lookup(id)
	require.True(t, ok, id)
	params := e.Defaults()
	for name, x := range change {
		i, ok := e.Param(name)
		require.True(t, ok, name)
		params[i] = x
	}
	return fault.Order{ID: id, Params: params}
}

func lineOf(t *testing.T, a Account, id string) Line {
	t.Helper()
	for _, l := range a.Lines {
		if l.ID == id {
			return l
		}
	}
	t.Fatalf("no line %s", id)
	return Line{}
}

// addsUp: the lines add up to the total, which is the error of the flight.
func addsUp(t *testing.T, a Account, is sim.Offset) {
	t.Helper()
	var n, e float64
	for _, l := range a.Lines {
		n, e = n+l.North, e+l.East
	}
	assert.InDelta(t, a.Total.North, n, 1e-9)
	assert.InDelta(t, a.Total.East, e, 1e-9)
	assert.InDelta(t, is.North, a.Total.North, 1e-9)
	assert.InDelta(t, is.East, a.Total.East, 1e-9)
}

// TestTelescopingInChainOrder: the worked example of the mechanism note, section
// 11 (mech_combination.csv, set A, computed there): from 50 N, heading 060, 400 NM;
// air log -4 percent, variation +5 degrees, secant gear held at 50. The note works
// on a sphere; here the truth is WGS-84, so that the eastings, which are read at the
// true latitude, may differ by 0.5 percent.
func TestTelescopingInChainOrder(t *testing.T) {
	p := straight(50, 60, 200, 400)
	p.Faults = []fault.Order{
		order(t, "tas-scale", map[string]float64{"scale": -0.04}),
		order(t, "variation-mis-set", map[string]float64{"set_minus_true_deg": 5}),
		order(t, "secant-gear-held", map[string]float64{"held_lat_deg": 50}),
	}
	e := flown(t, p)
	r := Of(e)
	addsUp(t, r.Air, e.Snapshot().Error.Air)
	for id, want := range map[string][2]float64{
		"air-log": {-8.000, -13.835}, "variation": {-29.715, 13.013}, "trains": {0, -9.580},
	} {
		l := lineOf(t, r.Air, id)
		assert.InDelta(t, want[0], l.North, 0.0006, id)
		assert.InDelta(t, want[1], l.East, math.Abs(want[1])*0.005+0.0006, id)
	}
	for _, l := range r.Air.Alone {
		want, ok := map[string][2]float64{"air-log": {-8.000, -13.835}, "variation": {-30.953, 13.488}, "trains": {0, -11.899}}[l.ID]
		if !ok {
			assert.Less(t, l.NM(), 1e-9, l.ID)
			continue
		}
		assert.InDelta(t, want[0], l.North, 0.0006, l.ID)
		assert.InDelta(t, want[1], l.East, math.Abs(want[1])*0.005+0.0006, l.ID)
	}
	assert.InDelta(t, 1.238, r.Air.Interaction.North, 0.0011)
	assert.InDelta(t, 1.844, r.Air.Interaction.East, 0.15, "small differences of large numbers")
}

// TestOneFaultIsOneLine: its line is the closed form of the note (sections 3 to 8),
// all others are nothing.
func TestOneFaultIsOneLine(t *testing.T) {
	d := 200.0 // NM, on 090 at the equator: along is east, cross is south
	if testing.Short() {
		d = 20
	}
	for id, c := range map[string]struct {
		line        string
		params      map[string]float64
		along, left float64
	}{
		"tas-scale":              {"air-log", map[string]float64{"scale": -0.03}, -0.03 * d, 0},
		"drive-slip":             {"drive", map[string]float64{"slip": 0.05}, -0.05 * d, 0},
		"resolver-zero-off":      {"resolver", map[string]float64{"zero_deg": 2}, d * (math.Cos(2*math.Pi/180) - 1), -d * math.Sin(2*math.Pi/180)},
		"variation-mis-set":      {"variation", map[string]float64{"set_minus_true_deg": 5}, d * (math.Cos(5*math.Pi/180) - 1), -d * math.Sin(5*math.Pi/180)},
		"compass-deviation":      {"compass", map[string]float64{"a_deg": -3, "b_deg": 0, "c_deg": 0, "d_deg": 0, "e_deg": 0}, d * (math.Cos(3*math.Pi/180) - 1), -d * math.Sin(3*math.Pi/180)},
		"wind-direction-mis-set": {"wind", nil, 0, 0},
	} {
		p := straight(0, 90, 200, d)
		p.Faults = []fault.Order{order(t, id, c.params)}
		e := flown(t, p)
		r := Of(e)
		addsUp(t, r.Ground, e.Snapshot().Error.Ground)
		addsUp(t, r.Air, e.Snapshot().Error.Air)
		for _, l := range r.Air.Lines {
			switch l.ID {
			case "earth": // the sphere against WGS-84: mech_earth_ratio, at most 0.52 percent
				assert.Less(t, l.NM(), 0.0052*d)
			case c.line:
				assert.InDelta(t, c.along, l.East, math.Abs(c.along)*0.01+0.001, id)
				if id != "compass-deviation" { // the needle reads too little for a deviation E
					assert.InDelta(t, c.left, l.North, math.Abs(c.left)*0.01+0.001, id)
				} else {
					assert.InDelta(t, math.Abs(c.left), math.Abs(l.North), math.Abs(c.left)*0.01, id)
				}
			default:
				assert.Less(t, l.NM(), 0.01, "%s: %s", id, l.ID)
			}
		}
	}
}

// TestWindSetAgainstWindMet: the wind set is 20 kt off along the track for an hour;
// a reset to the true place wipes all lines out, one to a wrong place begins the
// crew's.
func TestWindSetAgainstWindMet(t *testing.T) {
	p := straight(-47, 90, 180, 360)
	p.Air.Winds = []sim.WindEntry{{Wind: units.Wind{From: 270 * units.Degree, Speed: 30 * units.Knot}}}
	p.Setting.Wind = units.Wind{From: 270 * units.Degree, Speed: 10 * units.Knot}
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(time.Hour))
	r := Of(e)
	addsUp(t, r.Ground, e.Snapshot().Error.Ground)
	assert.InDelta(t, -20, lineOf(t, r.Ground, "wind").East, 0.2)
	assert.Less(t, lineOf(t, r.Air, "wind").NM(), 1e-9, "the air position knows no wind")

	truth := e.Snapshot().Truth.Position
	wrong := truth
	wrong.Lat += 3 * units.ArcMinute
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: wrong}))
	e.Advance(sim.TicksOf(30 * time.Minute))
	r = Of(e)
	addsUp(t, r.Ground, e.Snapshot().Error.Ground)
	assert.InDelta(t, -10, lineOf(t, r.Ground, "wind").East, 0.1)
	assert.InDelta(t, 3, lineOf(t, r.Ground, "crew").North, 1e-6)
	assert.Len(t, r.Timeline, 91)
}

// TestPlottedHasItsMethod: where the ground position is plotted, the method has a
// line of its own; a wind that changes puts it to work.
func TestPlottedHasItsMethod(t *testing.T) {
	p := straight(-47, 90, 180, 360)
	p.Mechanism.Ground = ground.Plotted
	p.Air.Winds = []sim.WindEntry{{Wind: units.Wind{From: 0, Speed: 40 * units.Knot}}}
	p.Setting.Wind = units.Wind{From: 0, Speed: 40 * units.Knot}
	e := flown(t, p)
	r := Of(e)
	addsUp(t, r.Ground, e.Snapshot().Error.Ground)
	// V W t^2 tan(phi) / 2R: the most that summing air path and wind apart makes
	most := 180 * 40 * 4 * math.Tan(47*math.Pi/180) / (2 * 3437.75)
	m := lineOf(t, r.Ground, "method")
	assert.Less(t, m.NM(), most*1.05)
	assert.Greater(t, m.NM(), most*0.5)
}

// TestServiceWithTenFaultsAddsUp at every minute of a flight with turns, breaks and
// mends, resets, slews and a hand.
func TestServiceWithTenFaultsAddsUp(t *testing.T) {
	p := straight(-47, 40, 178, 178)
	p.Field, p.Pilot, p.Mechanism.Class = nil, sim.Steady, integrator.Service
	p.Legs = append(p.Legs, sim.Leg{Direction: 283 * units.Degree, Ticks: sim.TicksOf(40 * time.Minute), TurnRate: 3})
	p.Air.Winds = []sim.WindEntry{{Wind: units.Wind{From: 308 * units.Degree, Speed: 33 * units.Knot}}}
	at := p.Aircraft.Position
	at.Lon += 2 * units.ArcMinute
	p.Setting = sim.Setting{Wind: units.Wind{From: 295 * units.Degree, Speed: 27 * units.Knot}, Counters: &at}
	e, err := sim.New(p)
	require.NoError(t, err)
	for i, id := range []string{"position-error", "temperature-mis-set", "tas-scale", "drive-slip", "compass-deviation", "repeater-lag", "resolver-zero-off", "carry-failure", "wind-speed-mis-set", "clock-rate-wrong"} {
		e.Advance(sim.TicksOf(time.Duration(3+i) * time.Minute))
		o := order(t, id, nil)
		o.At = e.Tick()
		require.NoError(t, e.Break(o), id)
	}
	require.NoError(t, e.MendAll("drive-slip"))
	require.NoError(t, e.Hold(sim.Hand{Input: sim.HandHeading, On: true, Heading: 1}))
	e.Advance(1600)
	require.NoError(t, e.Hold(sim.Hand{Input: sim.HandHeading}))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SlewLatitude, Slew: units.ArcMinute}))
	e.Advance(3000)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetVariation, Variation: 22 * units.Variation(units.Degree)}))
	e.Advance(1 << 40)
	r := Of(e)
	addsUp(t, r.Ground, e.Snapshot().Error.Ground)
	addsUp(t, r.Air, e.Snapshot().Error.Air)
	for _, p := range r.Timeline {
		var n, x float64
		for _, l := range p.Lines {
			n, x = n+l.North, x+l.East
		}
		assert.InDelta(t, p.Total.North, n, 1e-9, "tick %d", p.Tick)
		assert.InDelta(t, p.Total.East, x, 1e-9, "tick %d", p.Tick)
	}
	for _, id := range []string{"static", "temperature", "air-log", "drive", "compass", "repeater", "resolver", "counters", "wind", "clock", "crew", "variation"} {
		assert.Greater(t, lineOf(t, r.Ground, id).NM(), 1e-6, "%s has its part", id)
	}
}

// TestIfTheseHadBeenRight: two settings wrong, on straight legs of closed form. With
// one held right the account is the other's alone; with both, the earth's; and the
// quick way for single links tells the same.
func TestIfTheseHadBeenRight(t *testing.T) {
	const d = 200.0
	p := straight(0, 90, 200, d)
	p.Faults = []fault.Order{order(t, "tas-scale", map[string]float64{"scale": -0.03}), order(t, "resolver-zero-off", map[string]float64{"zero_deg": 2})}
	e := flown(t, p)
	as := Of(e)
	for id, want := range map[string]sim.Offset{
		"air-log":  {North: -d * math.Sin(2*math.Pi/180), East: d * (math.Cos(2*math.Pi/180) - 1)},
		"resolver": {East: -0.03 * d},
	} {
		r, err := If(e, id)
		require.NoError(t, err)
		addsUp(t, r.Ground, r.Ground.Total)
		assert.InDelta(t, want.North, r.Ground.Total.North, 0.01*math.Abs(want.North)+0.001, id)
		assert.InDelta(t, want.East-r.Ground.Lines[0].North, r.Ground.Total.East-lineOf(t, r.Ground, "earth").East, 0.01*math.Abs(want.East)+0.001, id)
		assert.Zero(t, lineOf(t, r.Ground, id).NM(), id)
	}
	r, err := If(e, "air-log", "resolver")
	require.NoError(t, err)
	earth := lineOf(t, as.Ground, "earth").Offset
	assert.InDelta(t, earth.North, r.Ground.Total.North, 1e-9)
	assert.InDelta(t, earth.East, r.Ground.Total.East, 1e-9)
	ground, air := IfOnly(e)
	require.Len(t, ground, 2, "what is in order is not listed")
	require.Len(t, air, 2)
	for i, l := range ground {
		r, err := If(e, l.ID)
		require.NoError(t, err)
		assert.InDelta(t, r.Ground.Total.North, l.North, 1e-9, l.ID)
		assert.InDelta(t, r.Ground.Total.East, l.East, 1e-9, l.ID)
		assert.InDelta(t, r.Air.Total.East, air[i].East, 1e-9, l.ID)
	}
	for _, no := range []string{"earth", "method", "gremlins"} {
		_, err := If(e, no)
		assert.ErrorContains(t, err, no)
	}
}

// TestTheCrewsLineStaysOrGoes: a counter reset 3 miles off costs 3 miles, whatever
// else is held right; held right itself, it costs nothing.
func TestTheCrewsLineStaysOrGoes(t *testing.T) {
	p := straight(-47, 90, 180, 360)
	p.Faults = []fault.Order{order(t, "drive-slip", map[string]float64{"slip": 0.05})}
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(30 * time.Minute))
	wrong := e.Snapshot().Truth.Position
	wrong.Lat += 3 * units.ArcMinute
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: wrong}))
	e.Advance(sim.TicksOf(30 * time.Minute))
	drive, err := If(e, "drive")
	require.NoError(t, err)
	assert.InDelta(t, lineOf(t, Of(e).Ground, "crew").North, lineOf(t, drive.Ground, "crew").North, 1e-9)
	assert.InDelta(t, 3, lineOf(t, drive.Ground, "crew").North, 1e-3)
	crewed, err := If(e, "crew")
	require.NoError(t, err)
	assert.Zero(t, lineOf(t, crewed.Ground, "crew").NM())
	assert.InDelta(t, -4.5, lineOf(t, crewed.Ground, "drive").East, 0.03, "half an hour at 180 kt, 5 in 100 lost")
	ground, _ := IfOnly(e)
	for _, l := range ground {
		r, err := If(e, l.ID)
		require.NoError(t, err)
		assert.InDelta(t, r.Ground.Total.North, l.North, 1e-9, l.ID)
		assert.InDelta(t, r.Ground.Total.East, l.East, 1e-9, l.ID)
	}
}

// TestEveryFaultHasItsLink: each fault that can be given is at work in a link, and
// where it alone is on, that link has the largest line of those that are to blame.
func TestEveryFaultHasItsLink(t *testing.T) {
	all := fault.Catalogue()
	for i := range all {
		if e := &all[i]; e.Refusal() == "" {
			assert.Contains(t, IDs(), LinkOf(fault.Order{ID: e.ID, Params: e.Defaults()}), e.ID)
		}
	}
	for id, want := range map[string]string{
		"pitot-ram-blocked": "static", "temperature-mis-set": "temperature", "tas-scale": "air-log", "drive-slip": "drive",
		"compass-deviation": "compass", "variation-mis-set": "variation", "variation-left-at-old-value": "variation",
		"repeater-lag": "repeater", "resolver-zero-off": "resolver", "carry-failure": "counters",
		"wind-speed-mis-set": "wind", "clock-rate-wrong": "clock",
	} {
		assert.Equal(t, want, LinkOf(order(t, id, nil)), id)
	}
	assert.Empty(t, LinkOf(fault.Order{ID: "no-such"}))
}

// TestSoundFlightOwesNothing: in an ideal instrument with right settings only the
// earth has a line.
func TestSoundFlightOwesNothing(t *testing.T) {
	p := straight(-47, 90, 180, 270)
	p.Air.Winds = []sim.WindEntry{{Wind: units.Wind{From: 308 * units.Degree, Speed: 33 * units.Knot}}}
	p.Setting.Wind = units.Wind{From: 308 * units.Degree, Speed: 33 * units.Knot}
	e := flown(t, p)
	r := Of(e)
	addsUp(t, r.Ground, e.Snapshot().Error.Ground)
	for _, l := range r.Ground.Lines {
		if l.ID != "earth" {
			assert.Less(t, l.NM(), 1e-9, l.ID)
		}
	}
}

// TestTenthsAddUp: a printed column adds up, and no figure is a tenth off or more.
func TestTenthsAddUp(t *testing.T) {
	assert.Equal(t, []int{3, 3, 4}, Tenths([]float64{0.3333, 0.3333, 0.3334}))
	assert.Equal(t, []int{-5, 12, 0}, Tenths([]float64{-0.52, 1.23, 0.01}))
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.Float64Range(-50, 50), 1, 15).Draw(t, "parts")
		sum, printed := 0.0, 0
		for i, n := range Tenths(parts) {
			sum += parts[i]
			printed += n
			assert.Less(t, math.Abs(float64(n)-10*parts[i]), 1.0+1e-9)
		}
		assert.Equal(t, int(math.Round(10*sum)), printed)
	})
}

func BenchmarkTenHours(b *testing.B) {
	p := straight(-30, 90, 180, 1800)
	p.Mechanism.Class, p.Pilot = integrator.Service, sim.Steady
	e, err := sim.New(p)
	require.NoError(b, err)
	e.Advance(1 << 40)
	for b.Loop() {
		Of(e)
	}
}

func BenchmarkIfOnlyTenHours(b *testing.B) {
	p := straight(-30, 90, 180, 1800)
	p.Mechanism.Class, p.Pilot = integrator.Service, sim.Steady
	e, err := sim.New(p)
	require.NoError(b, err)
	e.Advance(1 << 40)
	for b.Loop() {
		IfOnly(e)
	}
}
