package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// pairs are what turns and what it has turned, link by link, in NM and seconds.
var pairs = []struct {
	name      string
	rate, sum func(w *Works) float64
}{
	{"air log", func(w *Works) float64 { return w.TAS.Knots() / 3600 }, func(w *Works) float64 { return w.AirMiles.NM() }},
	{"drive", func(w *Works) float64 { return w.Drive.Knots() / 3600 }, func(w *Works) float64 { return w.Wound.NM() }},
	{"northing", func(w *Works) float64 { return w.NorthRate.Knots() / 3600 }, func(w *Works) float64 { return w.North.NM() }},
	{"easting", func(w *Works) float64 { return w.EastRate.Knots() / 3600 }, func(w *Works) float64 { return w.East.NM() }},
	{"latitude", func(w *Works) float64 { return units.Angle(w.Latitude).Minutes() }, func(w *Works) float64 { return w.Air.Lat.Minutes() }},
	{"longitude", func(w *Works) float64 { return units.Angle(w.Longitude).Minutes() }, func(w *Works) float64 { return w.Air.Lon.Minutes() }},
	{"clock", func(w *Works) float64 { return w.Clock }, func(w *Works) float64 { return w.WindRun }},
	{"wind north", func(w *Works) float64 { n, _ := w.Wind.Velocity(); return w.Clock * n.Knots() / 3600 }, func(w *Works) float64 { return w.WindNorth.NM() }},
	{"wind east", func(w *Works) float64 { _, e := w.Wind.Velocity(); return w.Clock * e.Knots() / 3600 }, func(w *Works) float64 { return w.WindEast.NM() }},
	{"adder north", func(w *Works) float64 { return w.GroundNorth.Knots() / 3600 }, func(w *Works) float64 { return w.NorthSum.NM() }},
	{"adder east", func(w *Works) float64 { return w.GroundEast.Knots() / 3600 }, func(w *Works) float64 { return w.EastSum.NM() }},
}

// integrated flies n ticks and gives how far the sum of each link is from the
// integral of its rate (trapezium rule).
func integrated(e *Engine, n int64, works func(*Engine) Works) map[string]float64 {
	first := works(e)
	before, area := first, map[string]float64{}
	for range n {
		e.Advance(1)
		now := works(e)
		for _, p := range pairs {
			area[p.name] += 0.5 * (p.rate(&before) + p.rate(&now)) * dt
		}
		before = now
	}
	for _, p := range pairs {
		area[p.name] -= p.sum(&before) - p.sum(&first)
	}
	return area
}

// straight is a steady flight at 200 kt with the wind set wrong.
func straight(heading float64) *Plan {
	p := plan(-47, 170, heading, 200, time.Hour)
	p.Air.Winds = []WindEntry{{Wind: wind(308, 33)}}
	p.Setting.Wind = wind(295, 27)
	return p
}

// usual gives an order without parameters those of the catalogue.
func usual(o fault.Order) fault.Order {
	if entry, ok := fault.Lookup(o.ID); ok && o.Params == nil {
		o.Params = entry.Defaults()
	}
	return o
}

// On a straight leg each sum is the integral of its rate, whatever is wrong, for
// the laws of the links are rates. By definition.
func TestRatesIntegrateToSums(t *testing.T) {
	for name, o := range map[string]fault.Order{
		"nothing":                 {},
		"tas-scale":               {ID: "tas-scale", Params: []float64{0.02}},
		"drive-slip":              {ID: "drive-slip", Params: []float64{0.05}},
		"drive-broken":            {ID: "drive-broken"},
		"wrong-gear-ratio":        {ID: "wrong-gear-ratio", Params: []float64{1.15077944802}},
		"resolver-zero-off":       {ID: "resolver-zero-off", Params: []float64{2}},
		"resolver-not-orthogonal": {ID: "resolver-not-orthogonal", Params: []float64{1}},
		"quadrant-error":          {ID: "quadrant-error", Params: []float64{1, 1}},
		"disc-centre-offset":      {ID: "disc-centre-offset", Params: []float64{0.005, 0}},
		"disc-slip":               {ID: "disc-slip", Params: []float64{1, 0.05}},
		"latitude-drum-jam":       {ID: "latitude-drum-jam"},
		"longitude-drum-jam":      {ID: "longitude-drum-jam"},
		"latitude-sense-reversed": {ID: "latitude-sense-reversed"},
		"secant-gear-held":        {ID: "secant-gear-held"},
		"wind-direction-reversed": {ID: "wind-direction-reversed"},
		"clock-rate-wrong":        {ID: "clock-rate-wrong"},
		"air-log-frozen":          {ID: "air-log-frozen"},
	} {
		e := engine(t, straight(40))
		if name != "nothing" {
			e.Advance(160)
			require.NoError(t, e.Break(usual(o)), name)
		}
		for link, off := range integrated(e, 5*60*TicksPerSecond, (*Engine).Works) {
			limit := 1e-9
			if link == "longitude" { // 17 NM made good in latitude, trapezium rule: 1e-11 of a step
				limit = 1e-8
			}
			assert.InDelta(t, 0, off, limit, "%s: %s", name, link)
		}
	}
}

// The truth adds up in the same way, but that its places run over WGS-84.
func TestTrueRatesIntegrateToTrueSums(t *testing.T) {
	for link, off := range integrated(engine(t, straight(40)), 5*60*TicksPerSecond, (*Engine).TrueWorks) {
		if link != "latitude" && link != "longitude" {
			assert.InDelta(t, 0, off, 1e-9, link)
		}
	}
}

// The ripple is in the sums; over a whole period of 2 s nothing is left of it.
// 0.01 x 200 kt x half a period is 0.00056 NM at most between.
func TestRippleIsInTheSums(t *testing.T) {
	e := engine(t, straight(40))
	require.NoError(t, e.Break(fault.Order{ID: "regulator-ripple", Params: []float64{0.05, 2, 0.5}}))
	e.Advance(1)
	before := e.Works().AirMiles
	e.Advance(1)
	assert.InDelta(t, 1.05*200/3600*dt, (e.Works().AirMiles - before).NM(), 1e-12)
	assert.InDelta(t, 200, e.Works().TAS.Knots(), 1e-9)
	e.Advance(30)
	assert.InDelta(t, 0, integrated(e, 2*60*TicksPerSecond, (*Engine).Works)["air log"], 1e-9)
	require.NoError(t, e.Break(fault.Order{ID: "regulator-ripple", Params: []float64{0.05, 2, 0.75}}))
	e.Advance(32)
	assert.InDelta(t, 200*1.025, e.Works().TAS.Knots(), 1e-9, "three parts fast, one slow")
	assert.InDelta(t, 0, integrated(e, 2*60*TicksPerSecond, (*Engine).Works)["drive"], 1e-9)
}

// The laws between the links, on every heading, with the counter where it stands.
func TestLawsBetweenTheLinks(t *testing.T) {
	for _, class := range []integrator.Class{integrator.Ideal, integrator.Service} {
		for heading := 7.0; heading < 360; heading += 30 {
			p := straight(heading)
			p.Mechanism.Class = class
			e := engine(t, p)
			e.Advance(TicksOf(10 * time.Minute))
			w, h := e.Works(), e.Snapshot().Shown.Heading
			assert.Equal(t, h, w.Heading, "the crank stands at the heading shown")
			sin, cos := math.Sincos(float64(h))
			assert.InDelta(t, w.Drive.Knots()*cos, w.NorthRate.Knots(), 1e-9, "%v %v", class, heading)
			assert.InDelta(t, w.Drive.Knots()*sin, w.EastRate.Knots(), 1e-9, "%v %v", class, heading)
			assert.InDelta(t, cos, w.BallNorth, 1e-15)
			assert.InDelta(t, sin, w.BallEast, 1e-15)
			assert.InDelta(t, w.EastRate.Knots()/60, units.Angle(w.Longitude).Minutes()*60*math.Cos(float64(w.Air.Lat)), 1e-12, "minutes a minute")
			assert.InDelta(t, 1/math.Cos(float64(w.Air.Lat)), w.Secant, 1e-12)
			assert.Equal(t, w.Air.Lat, w.Gear)
			north, east := wind(295, 27).Velocity()
			assert.InDelta(t, float64(w.NorthRate+north), float64(w.GroundNorth), 1e-12)
			assert.InDelta(t, float64(w.EastRate+east), float64(w.GroundEast), 1e-12)
			assert.InDelta(t, 600, w.WindRun, 1e-9)
		}
	}
}

// departures are the links that a fault sends wrong, in numbers: what they pass
// on as a part of what they would pass on in order. Laws: catalogue of faults.
var departures = []struct {
	order   fault.Order
	heading float64
	check   func(t *testing.T, now, right Works)
}{
	{fault.Order{ID: "drive-slip", Params: []float64{0.05}}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 1, float64(now.TAS/right.TAS), 1e-12, "before the drive")
		assert.InDelta(t, 0.95, float64(now.Drive/right.Drive), 1e-12)
		assert.InDelta(t, 0.95, float64(now.NorthRate/right.NorthRate), 1e-12)
	}},
	{fault.Order{ID: "drive-broken"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 1, float64(now.TAS/right.TAS), 1e-12)
		assert.Zero(t, now.Drive)
		assert.InDelta(t, right.BallNorth, now.BallNorth, 1e-12, "the balls stand where they stood")
		assert.Zero(t, now.NorthRate)
		assert.Zero(t, now.Longitude)
		north, _ := now.Wind.Velocity()
		assert.Equal(t, north, now.GroundNorth, "the wind shafts turn on")
	}},
	{fault.Order{ID: "quadrant-error", Params: []float64{1, 1}}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, right.BallNorth, now.BallNorth, 1e-12)
		assert.InDelta(t, -right.BallEast, now.BallEast, 1e-12, "contacts of the east output crossed")
		assert.InDelta(t, -float64(right.EastRate), float64(now.EastRate), 1e-9)
	}},
	{fault.Order{ID: "resolver-gain-mismatch"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 1.02, now.BallNorth/right.BallNorth, 1e-12)
		assert.InDelta(t, 1.02, float64(now.NorthRate/right.NorthRate), 1e-12)
		assert.InDelta(t, right.BallEast, now.BallEast, 1e-12)
	}},
	{fault.Order{ID: "resolver-stiction", Params: []float64{0.1}}, 87, func(t *testing.T, now, right Works) {
		assert.Zero(t, now.BallNorth, "cos 87 = 0.052 is below it")
		assert.Zero(t, now.NorthRate)
		assert.InDelta(t, right.BallEast, now.BallEast, 1e-12)
	}},
	{fault.Order{ID: "disc-centre-offset", Params: []float64{0.005, 0}}, 90, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 0.005, now.BallNorth-right.BallNorth, 1e-12)
		assert.InDelta(t, 0.005*200, now.NorthRate.Knots(), 1e-9)
	}},
	{fault.Order{ID: "disc-slip", Params: []float64{0, 0.05}}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, right.BallNorth, now.BallNorth, 1e-12, "it slips behind the ball")
		assert.InDelta(t, 0.95, float64(now.NorthRate/right.NorthRate), 1e-12)
	}},
	{fault.Order{ID: "latitude-drum-jam"}, 40, func(t *testing.T, now, right Works) {
		assert.Zero(t, now.Latitude)
		assert.InDelta(t, float64(right.NorthRate), float64(now.NorthRate), 1e-9, "the shaft turns")
	}},
	{fault.Order{ID: "longitude-drum-jam"}, 40, func(t *testing.T, now, right Works) { assert.Zero(t, now.Longitude) }},
	{fault.Order{ID: "latitude-sense-reversed"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, -right.Latitude, now.Latitude, 1e-15)
	}},
	{fault.Order{ID: "longitude-sense-reversed"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, -1, now.Longitude*right.Secant/(right.Longitude*now.Secant), 1e-12)
	}},
	{fault.Order{ID: "wind-direction-reversed"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 115, now.Wind.From.Degrees(), 1e-9)
		north, _ := wind(295, 27).Velocity()
		assert.InDelta(t, float64(now.NorthRate-north), float64(now.GroundNorth), 1e-12)
	}},
	{fault.Order{ID: "density-standard-temperature"}, 40, func(t *testing.T, now, right Works) {
		assert.InDelta(t, 288.15, now.Temperature.Kelvins(), 1e-9, "standard air at sea level")
		assert.InDelta(t, 298.15, right.Temperature.Kelvins(), 1e-9)
		assert.InDelta(t, math.Sqrt(288.15/298.15), float64(now.TAS/right.TAS), 1e-12, "V goes with sqrt(T)")
	}},
}

func TestAFaultShowsAtItsLink(t *testing.T) {
	for _, d := range departures {
		t.Run(d.order.ID, func(t *testing.T) {
			p := straight(d.heading)
			p.Air.ISADeviation = 10
			e := engine(t, p)
			e.Advance(160)
			require.NoError(t, e.Break(usual(d.order)))
			e.Advance(160)
			d.check(t, e.Works(), e.TrueWorks())
		})
	}
}

// A late clock stands, and the wind shafts with it; a shaft that takes up its
// play stands too.
func TestWhatStands(t *testing.T) {
	e := engine(t, straight(40))
	require.NoError(t, e.Break(fault.Order{ID: "wind-clock-late", Params: []float64{1}}))
	e.Advance(30 * TicksPerSecond)
	w := e.Works()
	assert.Zero(t, w.Clock)
	assert.Zero(t, w.WindRun)
	assert.Zero(t, w.WindNorth)
	assert.Equal(t, w.NorthRate, w.GroundNorth)
	e.Advance(40 * TicksPerSecond)
	w = e.Works()
	assert.InDelta(t, 1, w.Clock, 0)
	assert.InDelta(t, 10, w.WindRun, 1e-12)

	p := straight(20) // northing is taken up; turned about at once, it runs back through 0.2 NM
	p.Legs[0].Ticks = 160
	p.Legs = append(p.Legs, Leg{Direction: 200 * units.Degree, Ticks: 9600, TurnRate: 0})
	p.Faults = []fault.Order{{ID: "backlash", Params: []float64{0.2}}}
	e = engine(t, p)
	e.Advance(160)
	north := e.Works().North
	assert.Positive(t, north)
	e.Advance(48) // 3 s: 0.157 NM back
	assert.Zero(t, e.Works().NorthRate)
	assert.InDelta(t, north.NM(), e.Works().North.NM(), 1e-12)
	e.Advance(48)
	w = e.Works()
	assert.InDelta(t, w.Drive.Knots()*math.Cos(200*math.Pi/180), w.NorthRate.Knots(), 1e-9)
	assert.InDelta(t, 0, integrated(e, 160, (*Engine).Works)["northing"], 1e-9)
}

// The gear that drops out passes nothing on.
func TestGearDroppedOut(t *testing.T) {
	p := plan(72, 0, 90, 200, time.Hour)
	p.Faults = []fault.Order{{ID: "secant-gear-at-limit", Params: []float64{70, 1, 0}}}
	e := engine(t, p)
	e.Advance(160)
	w := e.Works()
	assert.InDelta(t, 70, w.Gear.Degrees(), 1e-9)
	assert.Zero(t, w.Secant)
	assert.Zero(t, w.Longitude)
	assert.InDelta(t, 200, w.EastRate.Knots(), 1e-9)
	assert.InDelta(t, 1/math.Cos(72*math.Pi/180), e.TrueWorks().Secant, 1e-12)
}

// An ideal instrument with all settings right passes on what is true. Its earth
// is a sphere: its northing is out by up to 0.51 percent, its easting by 0.52
// (mech_earth_ratio.csv), so its counters by 0.6 of the way, and
// what depends on their latitude as much. All else is rounding.
func TestIdealWorksAreTheTruth(t *testing.T) {
	for i, heading := range []float64{0, 40, 90, 200, 333} {
		p := plan([]float64{-47, 5, 60}[i%3], 170, heading, 200, time.Hour)
		p.Air.Winds, p.Setting.Wind = []WindEntry{{Wind: wind(308, 33)}}, wind(308, 33)
		e := engine(t, p)
		e.Advance(TicksOf(20 * time.Minute))
		if heading == 90 {
			at := e.Snapshot().Truth.Position
			require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: at}))
			assert.Zero(t, e.TrueWorks().North)
		}
		e.Advance(TicksOf(35 * time.Minute))
		agree(t, e.Works(), e.TrueWorks(), 0.006)
	}
}

// agree compares every field: places to a part of the way over the ground.
func agree(t *testing.T, w, right Works, part float64) {
	near := func(name string, x, y, limit float64) { assert.InDelta(t, y, x, limit, name) }
	near("pitot", float64(w.Pitot), float64(right.Pitot), 1e-9)
	near("static", float64(w.Static), float64(right.Static), 1e-9)
	near("temperature", float64(w.Temperature), float64(right.Temperature), 1e-12)
	near("tas", w.TAS.Knots(), right.TAS.Knots(), 1e-9)
	near("air miles", w.AirMiles.NM(), right.AirMiles.NM(), 1e-8)
	near("drive", w.Drive.Knots(), right.Drive.Knots(), 1e-9)
	near("wound", w.Wound.NM(), right.Wound.NM(), 1e-8)
	near("compass", float64(w.Compass), float64(right.Compass), 1e-12)
	near("setter", float64(w.Setter), float64(right.Setter), 0)
	near("sent", float64(units.WrapHalf(units.Angle(w.Sent-right.Sent))), 0, 1e-12)
	near("heading", float64(units.WrapHalf(units.Angle(w.Heading-right.Heading))), 0, 1e-12)
	near("ball north", w.BallNorth, right.BallNorth, 1e-12)
	near("ball east", w.BallEast, right.BallEast, 1e-12)
	near("north rate", w.NorthRate.Knots(), right.NorthRate.Knots(), 1e-9)
	near("east rate", w.EastRate.Knots(), right.EastRate.Knots(), 1e-9)
	near("north", w.North.NM(), right.North.NM(), 1e-8)
	near("east", w.East.NM(), right.East.NM(), 1e-8)
	near("clock", w.Clock, right.Clock, 0)
	near("wind run", w.WindRun, right.WindRun, 1e-9)
	near("wind from", float64(w.Wind.From), float64(right.Wind.From), 1e-12)
	near("wind speed", w.Wind.Speed.Knots(), right.Wind.Speed.Knots(), 1e-9)
	near("wind north", w.WindNorth.NM(), right.WindNorth.NM(), 1e-8)
	near("wind east", w.WindEast.NM(), right.WindEast.NM(), 1e-8)
	near("ground north", w.GroundNorth.Knots(), right.GroundNorth.Knots(), 1e-9)
	near("ground east", w.GroundEast.Knots(), right.GroundEast.Knots(), 1e-9)
	near("north sum", w.NorthSum.NM(), right.NorthSum.NM(), 1e-8)
	near("east sum", w.EastSum.NM(), right.EastSum.NM(), 1e-8)

	way := part * (w.Wound.NM() + w.WindRun/3600*w.Wind.Speed.Knots()) // NM, minutes of latitude
	tan := math.Abs(math.Tan(float64(right.Air.Lat)))
	lat := float64(units.Angle(way) * units.ArcMinute)
	near("gear", w.Gear.Minutes(), right.Gear.Minutes(), way)
	near("secant", w.Secant/right.Secant, 1, 1.1*tan*lat)
	near("longitude", w.Longitude, right.Longitude, 1.1*tan*lat*math.Abs(right.Longitude)+1e-15)
	near("latitude", w.Latitude, right.Latitude, 1e-15)
	near("ground gear", w.GroundGear.Minutes(), right.GroundGear.Minutes(), way)
	near("ground secant", w.GroundSecant/right.GroundSecant, 1, 1.1*tan*lat)
	near("air", OffsetOf(units.Position(w.Air), units.Position(right.Air)).NM(), 0, way)
	near("ground", OffsetOf(units.Position(w.Ground), units.Position(right.Ground)).NM(), 0, way)
	near("marker", OffsetOf(units.Position(w.Marker), units.Position(right.Marker)).NM(), 0, way)
}

// Works and TrueWorks say what Snapshot says, whatever is wrong.
func TestWorksAndSnapshotAreOne(t *testing.T) {
	p := busy()
	p.Mechanism.Class = integrator.Service
	p.Faults = []fault.Order{{ID: "drive-slip", Params: []float64{0.05}, At: 3000}, usual(fault.Order{ID: "marker-origin-mis-set", At: 5000})}
	e := engine(t, p)
	for range 20 {
		e.Advance(1111)
		w, right, s := e.Works(), e.TrueWorks(), e.Snapshot()
		assert.Equal(t, s.Shown, Shown{
			North: w.North, East: w.East, Air: w.Air, Ground: w.Ground, Marker: w.Marker,
			AirMiles: w.AirMiles, Heading: w.Heading, TAS: w.TAS, Wind: w.Wind, Variation: w.Setter,
		})
		assert.Equal(t, s.Truth.Air, units.Position(right.Air))
		assert.Equal(t, s.Truth.Position, units.Position(right.Ground))
		assert.Equal(t, s.Truth.Position, units.Position(right.Marker))
		assert.Equal(t, s.Truth.TAS, right.TAS)
		assert.Equal(t, s.Truth.Wind, right.Wind)
		assert.Equal(t, s.Truth.Heading, right.Heading)
		assert.Equal(t, s.Truth.Variation, right.Setter)
		assert.InDelta(t, s.Truth.Groundspeed.Knots(), math.Hypot(right.GroundNorth.Knots(), right.GroundEast.Knots()), 1e-9)
	}
}

// The plotted design: the whole way is the air's and the line of the present
// wind, and the ground position is laid off along it. On a parallel short enough
// for its secant, 27 kt for half an hour are 13.5 NM.
func TestPlottedWorks(t *testing.T) {
	p := straight(40)
	p.Mechanism.Ground = ground.Plotted
	e := engine(t, p)
	e.Advance(TicksOf(20 * time.Minute))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(270, 27)}))
	e.Advance(TicksOf(10 * time.Minute))
	w := e.Works()
	assert.InDelta(t, 0, w.WindNorth.NM(), 1e-9)
	assert.InDelta(t, 13.5, w.WindEast.NM(), 1e-9, "all the run by the present wind")
	assert.InDelta(t, w.East.NM()+13.5, w.EastSum.NM(), 1e-9)
	assert.InDelta(t, w.WindEast.NM()*w.GroundSecant, (w.Ground.Lon - w.Air.Lon).Minutes(), 1e-9)
	assert.Equal(t, w.Air.Lat, w.GroundGear)
	off := integrated(e, 160, (*Engine).Works)
	assert.InDelta(t, 0, off["adder east"], 1e-9)
	assert.InDelta(t, 0, off["wind east"], 1e-9)
}

// Reading the links changes nothing and costs no memory.
func TestReadingTheWorksIsFree(t *testing.T) {
	e := engine(t, busy())
	e.Advance(5000)
	before := e.Hash()
	assert.Zero(t, testing.AllocsPerRun(100, func() { e.Works(); e.TrueWorks() }))
	assert.Equal(t, before, e.Hash())
}
