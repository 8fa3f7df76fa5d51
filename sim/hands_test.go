package sim

import (
	"math"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

func heldHeading(deg float64) Hand {
	return Hand{Input: HandHeading, On: true, Heading: units.TrueHeading(units.Angle(deg) * units.Degree)}
}

func heldLatitude(deg float64) Hand {
	return Hand{Input: HandLatitude, On: true, Latitude: units.Angle(deg) * units.Degree}
}

func heldWind(from, kt float64) Hand { return Hand{Input: HandWind, On: true, Wind: wind(from, kt)} }

func heldSpeed(kt float64) Hand {
	return Hand{Input: HandSpeed, On: true, Speed: units.Speed(kt) * units.Knot}
}

// A crank turned by hand from 040 to 130 turns the rates at once and no shaft;
// from then on the shafts run the new way, and the aircraft where it did.
func TestHeldHeading(t *testing.T) {
	e, free := engine(t, straight(40)), engine(t, straight(40))
	e.Advance(960)
	before := e.Works()
	require.NoError(t, e.Hold(heldHeading(130)))
	w := e.Works()
	assert.InDelta(t, 200*math.Cos(130*math.Pi/180), w.NorthRate.Knots(), 1e-9)
	assert.InDelta(t, 200*math.Sin(130*math.Pi/180), w.EastRate.Knots(), 1e-9)
	assert.Equal(t, before.North, w.North, "turned by hand it runs no mile")
	assert.Equal(t, before.Air, w.Air)
	assert.Equal(t, before.Sent, w.Sent, "the transmission is not touched")
	assert.Equal(t, w.Heading, e.View().Heading)
	assert.True(t, e.state.Mechanism.Hands.Holds(HandHeading))

	e.Advance(6 * 960)
	free.Advance(7 * 960)
	w = e.Works()
	assert.InDelta(t, 20*math.Cos(130*math.Pi/180), (w.North - before.North).NM(), 1e-9, "20 NM in six minutes")
	assert.InDelta(t, 20*math.Sin(130*math.Pi/180), (w.East - before.East).NM(), 1e-9)
	assert.Equal(t, free.Snapshot().Truth, e.Snapshot().Truth)
	assert.Equal(t, free.TrueTrack(), e.TrueTrack())
	assert.Equal(t, free.Works().AirMiles, w.AirMiles)
}

// A gear held is the fault of a gear that is held, to the last bit.
func TestHeldGearIsTheFault(t *testing.T) {
	for _, at := range []float64{0, -30, 65} {
		e, broken := engine(t, straight(60)), engine(t, straight(60))
		e.Advance(1000)
		broken.Advance(1000)
		require.NoError(t, e.Hold(heldLatitude(at)))
		require.NoError(t, broken.Break(fault.Order{ID: "secant-gear-held", Params: []float64{math.Abs(at), 0}}))
		assert.InDelta(t, 1/math.Cos(at*math.Pi/180), e.Works().Secant, 1e-12)
		assert.InDelta(t, at, e.Works().Gear.Degrees(), 1e-12)
		e.Advance(20000)
		broken.Advance(20000)
		assert.Equal(t, broken.View().Air, e.View().Air)
		assert.Equal(t, broken.View().Ground, e.View().Ground, "the second gear is free")
		assert.Equal(t, broken.Works().Longitude, e.Works().Longitude)
	}
}

// The wind shafts turned by hand: 60 kt to the east for six minutes are 6 NM;
// the setter stays. Where the position is plotted the whole run has that wind.
func TestHeldWind(t *testing.T) {
	e := engine(t, straight(40))
	e.Advance(960)
	before := e.Works()
	require.NoError(t, e.Hold(heldWind(270, 60)))
	e.Advance(6 * 960)
	w := e.Works()
	assert.InDelta(t, 6, (w.WindEast - before.WindEast).NM(), 1e-9)
	assert.InDelta(t, 0, (w.WindNorth - before.WindNorth).NM(), 1e-9)
	assert.InDelta(t, w.EastRate.Knots()+60, w.GroundEast.Knots(), 1e-9)
	assert.InDelta(t, 60, w.Wind.Speed.Knots(), 1e-9)
	assert.InDelta(t, 27, e.View().WindSet.Speed.Knots(), 1e-9)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(0, 10)}))
	assert.InDelta(t, 60, e.Works().Wind.Speed.Knots(), 1e-9, "the setter turns in vain")
	require.NoError(t, e.Hold(Hand{Input: HandWind}))
	assert.InDelta(t, 10, e.Works().Wind.Speed.Knots(), 1e-9)

	p := straight(40)
	p.Mechanism.Ground = ground.Plotted
	e = engine(t, p)
	e.Advance(TicksOf(30 * time.Minute))
	require.NoError(t, e.Hold(heldWind(270, 60)))
	assert.InDelta(t, 30, e.Works().WindEast.NM(), 1e-9)
	require.NoError(t, e.Hold(Hand{Input: HandWind}))
	assert.InDelta(t, 13.5*math.Sin(115*math.Pi/180), e.Works().WindEast.NM(), 1e-9)
}

// The shaft of the air log turned by hand at 300 kt: the counter, tapped from
// it, counts 30 NM in six minutes. One who flies by the dials does not chase it.
func TestHeldSpeed(t *testing.T) {
	p := straight(40)
	p.Pilot, p.Mechanism.Class = ByInstruments, integrator.Service
	e, free := engine(t, p), engine(t, p)
	e.Advance(960)
	before := e.Works()
	require.NoError(t, e.Hold(heldSpeed(300)))
	assert.InDelta(t, 300, e.View().TAS.Knots(), 1e-9)
	assert.InDelta(t, 300, e.Works().Drive.Knots(), 1e-9)
	e.Advance(6 * 960)
	free.Advance(7 * 960)
	assert.InDelta(t, 30, (e.Works().AirMiles - before.AirMiles).NM(), 1e-9)
	assert.InDelta(t, 30, (e.Works().Wound - before.Wound).NM(), 1e-9)
	assert.Equal(t, free.Snapshot().Truth, e.Snapshot().Truth)
	require.NoError(t, e.Hold(heldSpeed(0)))
	assert.Zero(t, e.Works().NorthRate)
	require.NoError(t, e.Hold(Hand{Input: HandSpeed}))
	assert.Equal(t, free.View().TAS, e.View().TAS)
}

// withoutSums is a state but for what its shafts have turned and how often
// something was done: the sums, the play they took up, the places they reached.
func withoutSums(s State) State {
	m := &s.Mechanism
	s.Commands, m.AirLog.Miles, m.Wound, m.North, m.East = 0, units.Sum{}, units.Sum{}, units.Sum{}, units.Sum{}
	m.Play.North.Ahead, m.Play.East.Ahead = 0, 0
	m.Air.Lat, m.Air.Lon = units.Sum{}, units.Sum{}
	m.Ground.North, m.Ground.East = units.Sum{}, units.Sum{}
	m.Ground.Running.Lat, m.Ground.Running.Lon = units.Sum{}, units.Sum{}
	m.Hands.Apart, m.Unheld = false, integrator.Trains{}
	return s
}

// Released, nothing is left of the hands but what the shafts turned meanwhile,
// to the last bit, in an instrument that remembers much, through turns.
func TestReleasedAsIfNeverHeld(t *testing.T) {
	p := busy()
	p.Pilot, p.Mechanism.Class = ByInstruments, integrator.Service
	p.Faults = []fault.Order{{ID: "regulator-ripple", Params: []float64{0.05, 3, 0.3}}, {ID: "repeater-lag", Params: []float64{2}}}
	for _, h := range []Hand{heldHeading(217), heldLatitude(12), heldWind(80, 90), heldSpeed(77)} {
		e, free := engine(t, p), engine(t, p)
		e.Advance(9000)
		require.NoError(t, e.Hold(h))
		e.Advance(2000)
		require.NoError(t, e.Hold(Hand{Input: h.Input}))
		free.Advance(11000)
		assert.NotEqual(t, free.State(), e.State())
		assert.Equal(t, withoutSums(free.State()), withoutSums(e.State()), "at once: %+v", h)
		assert.Equal(t, free.State().Mechanism.Trains, e.State().Mechanism.Unheld)
		e.Advance(1 << 30)
		free.Advance(1 << 30)
		assert.Equal(t, withoutSums(free.State()), withoutSums(e.State()), "%+v", h)
		assert.Equal(t, free.TrueTrack(), e.TrueTrack(), "also where the pilot goes by the position shown")
		now, want := e.View(), free.View()
		off := OffsetOf(units.Position(now.Air), units.Position(want.Air)).NM() + OffsetOf(units.Position(now.Ground), units.Position(want.Ground)).NM()
		assert.Greater(t, off, 0.1, "the counters are not where they were: %+v", h)
	}
}

// Held to the end, over a leg on a track and one to a place that a steady pilot
// works from wind set and position shown: the flight is the same flight.
func TestHeldToTheEnd(t *testing.T) {
	for _, h := range []Hand{heldHeading(217), heldLatitude(12), heldWind(80, 90), heldSpeed(77)} {
		p := busy()
		p.Crew = p.Crew[:1]
		e, free := engine(t, p), engine(t, p)
		e.Advance(9000)
		require.NoError(t, e.Hold(h))
		e.Advance(1 << 30)
		free.Advance(1 << 30)
		assert.Equal(t, free.Tick(), e.Tick(), "%+v", h)
		assert.Equal(t, free.State().World, e.State().World, "%+v", h)
		assert.Equal(t, free.State().Mechanism.Trains, e.State().Mechanism.Unheld)
	}
}

// Whatever is held, and whatever the crew do meanwhile: the aircraft is where it
// would be without hands, and the trains that the pilot goes by too. Once the
// counters are set with no hand on, so are the others, bit for bit.
func TestHandsLeaveTheAircraftAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := busy()
		p.Pilot = rapid.SampledFrom([]Pilot{Steady, ByInstruments}).Draw(t, "pilot")
		p.Mechanism.Class = rapid.SampledFrom([]integrator.Class{integrator.Ideal, integrator.Service}).Draw(t, "class")
		p.Mechanism.Ground = rapid.SampledFrom([]ground.Design{ground.Running, ground.Plotted}).Draw(t, "design")
		p.Faults = []fault.Order{drawOrder(t, 20000)}
		if _, err := New(p); err != nil { // needs the plotted design
			p.Faults = nil
		}
		e, free := engine(t, p), engine(t, p)
		act := func(a aboard.Action) {
			require.NoError(t, e.Do(a))
			require.NoError(t, free.Do(a))
		}
		for range rapid.IntRange(1, 8).Draw(t, "deeds") {
			switch rapid.IntRange(0, 4).Draw(t, "deed") {
			case 0:
				act(rapid.SampledFrom([]aboard.Action{
					{Kind: aboard.SetWind, Wind: wind(250, 40)},
					{Kind: aboard.SlewLatitude, Slew: -3 * units.ArcMinute},
					{Kind: aboard.SlewLongitude, Slew: 3 * units.ArcMinute},
					{Kind: aboard.SetLongitudeLever, East: true}, {Kind: aboard.SetLongitudeLever},
					{Kind: aboard.SetCounters, Position: units.At(-46.8, 179.9)},
					{Kind: aboard.Resynchronise},
				}).Draw(t, "action"))
			default:
				require.NoError(t, e.Hold(drawHand(t)))
			}
			n := rapid.Int64Range(0, 6000).Draw(t, "ticks")
			e.Advance(n)
			free.Advance(n)
			require.Equal(t, free.State().World, e.State().World)
			if e.Over() {
				return
			}
			if s := e.State(); s.Mechanism.Hands.Apart {
				require.Equal(t, free.State().Mechanism.Trains, s.Mechanism.Unheld)
			}
		}
		for i := range HandSpeed + 1 {
			require.NoError(t, e.Hold(Hand{Input: i}))
		}
		act(aboard.Action{Kind: aboard.SetCounters, Position: units.At(-46.8, 179.9)})
		want, got := free.State(), e.State()
		got.Commands, got.Mechanism.Wound, got.Mechanism.AirLog.Miles = want.Commands, want.Mechanism.Wound, want.Mechanism.AirLog.Miles
		require.Equal(t, want, got)
	})
}

// A hand put on and taken off between two ticks has done nothing.
func TestHeldForNoTime(t *testing.T) {
	for _, h := range []Hand{heldHeading(217), heldLatitude(12), heldWind(80, 90), heldSpeed(77)} {
		e, free := engine(t, busy()), engine(t, busy())
		e.Advance(9000)
		free.Advance(9000)
		require.NoError(t, e.Hold(h))
		require.NoError(t, e.Hold(Hand{Input: h.Input}))
		e.Advance(3000)
		free.Advance(3000)
		s := e.State()
		assert.Equal(t, free.State().Commands+1, s.Commands, "of one input at one tick the last remains")
		s.Commands--
		want := free.State()
		assert.Equal(t, want.Hash(), s.Hash())
	}
}

// A hand that moves all the time between two ticks is one command, and what was
// handed out before does not change.
func TestMovingHandIsOneCommand(t *testing.T) {
	e := engine(t, straight(40))
	e.Advance(100)
	require.NoError(t, e.Hold(heldHeading(10)))
	out := e.Commands()
	for i := range 100 {
		require.NoError(t, e.Hold(heldHeading(10+float64(i))))
	}
	assert.Len(t, e.Commands(), 1)
	assert.InDelta(t, 10, out[0].Hand.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 109, e.Works().Heading.Degrees(), 1e-9)
	require.NoError(t, e.Hold(heldSpeed(10)))
	require.NoError(t, e.Hold(heldHeading(11)))
	assert.Len(t, e.Commands(), 3)
	e.Advance(1)
	require.NoError(t, e.Hold(heldHeading(12)))
	assert.Len(t, e.Commands(), 4)
	assert.InDelta(t, 11, e.Commands()[2].Hand.Heading.Degrees(), 1e-9)
}

// Going back takes the hand off; acting anew drops it.
func TestHandsGoWithHistory(t *testing.T) {
	e := engine(t, straight(40))
	e.Advance(1000)
	require.NoError(t, e.Hold(heldHeading(130)))
	e.Advance(1000)
	want := e.Hash()
	e.GoTo(900)
	assert.Zero(t, e.Held())
	e.GoTo(2000)
	assert.Equal(t, want, e.Hash())
	assert.InDelta(t, 130, e.Held().Heading.Degrees(), 1e-9)
	e.GoTo(1000)
	require.NoError(t, e.Hold(heldSpeed(50)))
	e.Advance(1000)
	held := e.Held()
	assert.False(t, held.Holds(HandHeading))
	assert.True(t, held.Holds(HandSpeed))
	assert.Len(t, e.Commands(), 1)

	f := e.Fork()
	require.NoError(t, f.Hold(Hand{Input: HandSpeed}))
	assert.InDelta(t, 50, e.Held().Speed.Knots(), 1e-9, "a fork's hand is its own")
}

func TestHandsThatMakeNoSense(t *testing.T) {
	nan := math.NaN()
	for words, h := range map[string]Hand{
		"heading held, deg: NaN":                            heldHeading(nan),
		"heading held":                                      heldHeading(math.Inf(1)),
		"latitude held, deg: 89.5: must be -89 to 89":       heldLatitude(89.5),
		"latitude held, deg: -90":                           heldLatitude(-90),
		"latitude held, deg: NaN":                           heldLatitude(nan),
		"speed of the wind held, kt: 201: must be 0 to 200": heldWind(0, 201),
		"speed of the wind held, kt: -1":                    heldWind(0, -1),
		"direction of the wind held":                        heldWind(nan, 10),
		"speed of the wind held, kt: NaN":                   heldWind(0, nan),
		"speed held, kt: 600.1: must be 0 to 600":           heldSpeed(600.1),
		"speed held, kt: -0.1":                              heldSpeed(-0.1),
		"speed held, kt: NaN":                               heldSpeed(nan),
		"no input number 4":                                 {Input: 4, On: true},
	} {
		e := engine(t, straight(40))
		before := e.Hash()
		assert.ErrorContains(t, e.Hold(h), words)
		assert.Equal(t, before, e.Hash())
		p := straight(40)
		p.Crew = []Command{{Kind: ByHand, Hand: h}}
		_, err := New(p)
		assert.ErrorContains(t, err, words)
	}
	for _, h := range []Hand{heldHeading(-10), heldHeading(360), heldLatitude(89), heldLatitude(-89), heldWind(-5, 200), heldSpeed(600), {Input: HandWind, Wind: wind(nan, nan)}} {
		assert.NoError(t, engine(t, straight(40)).Hold(h))
	}
	e := engine(t, straight(40))
	e.Advance(1 << 30)
	assert.ErrorContains(t, e.Hold(heldHeading(1)), "ended")
}

// A plan may have hands in it, and they are those of a flight in which they are
// given.
func TestHandsOfAPlan(t *testing.T) {
	p := straight(40)
	p.Crew = []Command{{Tick: 500, Kind: ByHand, Hand: heldLatitude(12)}}
	planned, given := engine(t, p), engine(t, straight(40))
	given.Advance(500)
	require.NoError(t, given.Hold(heldLatitude(12)))
	given.Advance(500)
	planned.Advance(1000)
	assert.Equal(t, given.Hash(), planned.Hash())
}

func drawHand(t *rapid.T) Hand {
	h := rapid.SampledFrom([]Hand{
		heldHeading(rapid.Float64Range(-400, 400).Draw(t, "held heading")), heldLatitude(rapid.Float64Range(-89, 89).Draw(t, "held latitude")),
		heldWind(rapid.Float64Range(0, 360).Draw(t, "from"), rapid.Float64Range(0, 200).Draw(t, "kt")), heldSpeed(rapid.Float64Range(0, 600).Draw(t, "held speed")),
	}).Draw(t, "hand")
	h.On = rapid.IntRange(0, 3).Draw(t, "off") > 0
	return h
}

// finiteState walks every number of a state but the distance to go, which is
// infinite while no place is aimed at.
func finiteState(t require.TestingT, v reflect.Value, where string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			finiteState(t, v.Field(i), where+"."+v.Type().Field(i).Name)
		}
	case reflect.Float64:
		if where != "state.Leg.ToGo" {
			require.False(t, math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0), where)
		}
	}
}

// Whatever is held, with whatever is wrong, wherever it is flown: every number
// stays finite, and the same hands give the same hash.
func TestAnyHands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		p.Aircraft.Position.Lat *= 90.0 / 70
		p.Pilot = rapid.SampledFrom([]Pilot{Steady, ByInstruments, AsPlanned}).Draw(t, "pilot")
		p.Mechanism.Class = rapid.SampledFrom([]integrator.Class{integrator.Ideal, integrator.Service}).Draw(t, "class")
		p.Mechanism.Ground = rapid.SampledFrom([]ground.Design{ground.Running, ground.Plotted}).Draw(t, "design")
		if o := drawOrder(t, 4000); rapid.Bool().Draw(t, "wrong") && (p.Mechanism.Ground == ground.Plotted || o.ID != "wind-clock-not-reset") {
			p.Faults = []fault.Order{o}
		}
		e := engine(t, p)
		for range rapid.IntRange(1, 6).Draw(t, "hands") {
			require.NoError(t, e.Hold(drawHand(t)))
			e.Advance(rapid.Int64Range(0, 1500).Draw(t, "ticks"))
			if e.Over() {
				break
			}
			s := e.State()
			finiteState(t, reflect.ValueOf(&s).Elem(), "state")
			w, right := e.Works(), e.TrueWorks()
			finiteState(t, reflect.ValueOf(&w).Elem(), "works")
			finiteState(t, reflect.ValueOf(&right).Elem(), "true works")
		}
		again := engine(t, p)
		for _, c := range e.Commands() {
			again.Advance(c.Tick - again.Tick())
			require.NoError(t, again.Hold(c.Hand))
		}
		again.Advance(e.Tick() - again.Tick())
		require.Equal(t, e.Hash(), again.Hash())
	})
}

// A step with a hand on every input costs no memory.
func TestHeldStepsCostNoMemory(t *testing.T) {
	e := engine(t, straight(40))
	for _, h := range []Hand{heldHeading(10), heldLatitude(12), heldWind(80, 90), heldSpeed(77)} {
		require.NoError(t, e.Hold(h))
	}
	s := e.State()
	assert.Zero(t, testing.AllocsPerRun(100, func() { e.course.fly(&s) }))
}
