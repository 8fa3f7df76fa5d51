// Package sealed draws faults by a seed for a flight on which nobody knows them: one or two,
// of different links of the chain, that come in the middle part of the flight.
//
// Only those are drawn whose symptoms can be seen on the dials before landing: the flight
// is flown with and without the fault, and some dial must come to differ by more than can
// be misread (Readable). So a deviation of the compass is not drawn where the pilot holds
// the heading that is shown: no dial tells of it. The same flight and seed give the same
// faults; the comparison is so coarse that last bits of a processor do not matter.
package sealed

import (
	"errors"
	"math"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
	"stillair/sim/stream"
)

// span is what a parameter is drawn from: Lo to Hi, of either sign if Both.
type span struct {
	name   string
	lo, hi float64
	both   bool
}

// kind is a fault that may be drawn, with its parameters; those not named stay as the
// catalogue has them. The spans are chosen so that there is something to find.
type kind struct {
	id    string
	spans []span
	train bool // both trains, so that air and ground position suffer
}

var kinds = []kind{
	{id: "pitot-ram-blocked"},
	{id: "pitot-and-drain-blocked"},
	{id: "static-blocked"},
	{id: "static-leak", spans: []span{{"leak_fraction", 0.3, 0.8, false}}},
	{id: "pitot-leak", spans: []span{{"leak_fraction", 0.1, 0.4, false}}},
	{id: "tas-scale", spans: []span{{"scale", 0.06, 0.15, true}}},
	{id: "temperature-mis-set", spans: []span{{"temperature_error_k", 18, 35, true}}},
	{id: "air-log-frozen"},
	{id: "drive-slip", spans: []span{{"slip", 0.08, 0.3, false}}},
	{id: "drive-broken"},
	{id: "variation-mis-set", spans: []span{{"set_minus_true_deg", 5, 15, true}}},
	{id: "variation-wrong-sign"},
	{id: "gyro-drift-unslaved", spans: []span{{"drift_deg_h", 15, 35, true}}},
	{id: "repeater-stuck"},
	{id: "repeater-lost-steps", spans: []span{{"steps", 16, 60, true}}},
	{id: "resolver-zero-off", spans: []span{{"zero_deg", 6, 15, true}}},
	{id: "disc-slip", spans: []span{{"axis", 0, 1, false}, {"slip", 0.15, 0.5, false}}},
	{id: "secant-gear-held", spans: []span{{"held_lat_deg", 0, 25, false}}, train: true},
	{id: "latitude-drum-jam", train: true},
	{id: "longitude-drum-jam", train: true},
	{id: "wind-direction-mis-set", spans: []span{{"direction_error_deg", 30, 90, true}}},
	{id: "wind-direction-reversed"},
	{id: "wind-speed-mis-set", spans: []span{{"speed_factor", 1.8, 2.6, false}}},
}

// When a fault comes, parts of the flight.
const earliest, latest = 0.12, 0.45

// mostDraws is after how many draws a flight is given up as one on which nothing can be
// seen.
const mostDraws = 60

// Draw draws the faults of a flight. The plan is not changed; faults it has are left out.
func Draw(p *sim.Plan, seed uint64) ([]fault.Order, error) {
	healthy := *p
	healthy.Faults = nil
	seen, err := fly(&healthy)
	if err != nil {
		return nil, err
	}
	s := stream.New(seed, "sealed")
	want := 1
	if s.Uniform() < 0.4 {
		want = 2
	}
	var orders []fault.Order
	links := map[string]bool{}
	for range mostDraws {
		o, link := draw(&s, int64(len(seen))*every)
		if links[link] {
			continue
		}
		with := healthy
		with.Faults = []fault.Order{o}
		told, err := fly(&with)
		if err != nil || len(Differing(seen, told)) == 0 {
			continue // this instrument cannot have it, or no dial tells
		}
		links[link] = true
		if orders = append(orders, o); len(orders) == want {
			return orders, nil
		}
	}
	if len(orders) > 0 {
		return orders, nil
	}
	return nil, errors.New("no fault that the dials tell of can be drawn for this flight: it is too short, or nothing changes on it")
}

// draw draws one fault of a flight of so many ticks.
func draw(s *stream.Stream, length int64) (o fault.Order, link string) {
	next := func() float64 {
		s.Draw()
		return s.Uniform()
	}
	k := &kinds[int(next()*float64(len(kinds)))]
	e, _ := fault.Lookup(k.id) // a test looks all of them up
	o = fault.Order{ID: k.id, Params: e.Defaults()}
	// On a whole minute, so that a trainer may say when.
	minute := math.Round((earliest + (latest-earliest)*next()) * float64(length) / (60 * sim.TicksPerSecond))
	o.At = int64(minute) * 60 * sim.TicksPerSecond
	for _, sp := range k.spans {
		i, _ := e.Param(sp.name)
		v := sp.lo + (sp.hi-sp.lo)*next()
		if sp.both && next() < 0.5 {
			v = -v
		}
		if e.Params[i].Type != fault.Number {
			v = math.Round(v)
		} else {
			v = math.Round(100*v) / 100
		}
		o.Params[i] = v
	}
	if i, ok := e.Param("train"); ok && k.train {
		o.Params[i] = e.Params[i].Max // both
	}
	return o, e.Link
}

// every is how often the dials are read, ticks.
const every = 30 * sim.TicksPerSecond

// longest keeps the drawing quick: what shows later is not looked for.
const longest = 6 * 60 * 60 * sim.TicksPerSecond

// fly reads the dials on the way.
func fly(p *sim.Plan) ([]aboard.View, error) {
	e, err := sim.New(p)
	if err != nil {
		return nil, err
	}
	var seen []aboard.View
	for !e.Over() && e.Tick() < longest {
		e.Advance(every)
		v := e.View()
		v.Marks, v.Log = nil, nil
		seen = append(seen, v)
	}
	return seen, nil
}

// Dial is one of those a trainee has.
type Dial string

// The dials.
const (
	IAS       Dial = "indicated airspeed"
	TAS       Dial = "true airspeed"
	Altimeter Dial = "pressure altitude"
	Therm     Dial = "thermometer"
	Heading   Dial = "true heading"
	Compass   Dial = "standby compass"
	Variation Dial = "variation set"
	Wind      Dial = "wind set"
	AirLog    Dial = "air log counter"
	Air       Dial = "air position"
	Ground    Dial = "ground position"
)

// Readable is by how much a dial must differ to be told apart from a misreading, in its
// unit: kt, ft, C, degrees, NM. Chosen (common practice, no source).
var Readable = map[Dial]float64{
	IAS: 5, TAS: 5, Altimeter: 150, Therm: 3, Heading: 4, Compass: 4, Variation: 2, Wind: 8, AirLog: 3, Air: 4, Ground: 4,
}

// Differing are the dials on which two flights can be told apart at some time.
func Differing(a, b []aboard.View) (all []Dial) {
	most := map[Dial]float64{}
	for i := range min(len(a), len(b)) {
		for d, x := range apart(&a[i], &b[i]) {
			most[d] = max(most[d], x)
		}
	}
	for _, d := range []Dial{IAS, TAS, Altimeter, Therm, Heading, Compass, Variation, Wind, AirLog, Air, Ground} {
		if most[d] > Readable[d] {
			all = append(all, d)
		}
	}
	return all
}

func apart(a, b *aboard.View) map[Dial]float64 {
	turn := func(x, y units.Angle) float64 { return math.Abs(units.WrapHalf(x - y).Degrees()) }
	an, ae := a.WindSet.Velocity()
	bn, be := b.WindSet.Velocity()
	return map[Dial]float64{
		IAS: math.Abs(a.IAS.Knots() - b.IAS.Knots()), TAS: math.Abs(a.TAS.Knots() - b.TAS.Knots()),
		Altimeter: math.Abs(a.PressureAltitude.Feet() - b.PressureAltitude.Feet()),
		Therm:     math.Abs(a.AirTemperature.Celsius() - b.AirTemperature.Celsius()),
		Heading:   turn(units.Angle(a.Heading), units.Angle(b.Heading)),
		Compass:   turn(units.Angle(a.Compass), units.Angle(b.Compass)),
		Variation: turn(units.Angle(a.VariationSet), units.Angle(b.VariationSet)),
		Wind:      math.Hypot((an - bn).Knots(), (ae - be).Knots()),
		AirLog:    math.Abs(a.AirLog.NM() - b.AirLog.NM()),
		Air:       sim.OffsetOf(units.Position(a.Air), units.Position(b.Air)).NM(),
		Ground:    sim.OffsetOf(units.Position(a.Marker), units.Position(b.Marker)).NM(),
	}
}

// Seen are the dials on which a fault shows in a flight before its end.
func Seen(p *sim.Plan, o fault.Order) ([]Dial, error) {
	healthy, with := *p, *p
	healthy.Faults, with.Faults = nil, []fault.Order{o}
	a, err := fly(&healthy)
	if err != nil {
		return nil, err
	}
	b, err := fly(&with)
	if err != nil {
		return nil, err
	}
	return Differing(a, b), nil
}
