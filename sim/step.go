package sim

import (
	"math"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim/aircraft"
	"stillair/sim/earth"
	"stillair/sim/fault"
	"stillair/sim/geomag"
	"stillair/sim/sensor"
	"stillair/sim/weather"
)

// dt is the step, 1/16 s exactly.
const dt = 1.0 / TicksPerSecond

// Happened is what a step brought about, for those who keep a track or a log.
type Happened uint8

// Bits of Happened.
const (
	BeganLeg Happened = 1 << iota
	EndedTurn
	EndedFlight
)

// course is a compiled flight: the plan with the field and the weather worked
// out. It does not change while it is flown.
type course struct {
	plan  *Plan
	field *geomag.Model // nil: the plan's uniform variation
	air   *weather.Air
	healthy
	faults []fault.Flown // the plan's, then those given in flight, by arrival
	twin   Twin          // what it lacks; the zero value: nothing
}

// fly flies one tick: aircraft, world, senses, mechanism. With boundary, which
// goes before it, it is a function of the state and the commands alone.
func (c *course) fly(s *State) Happened {
	var happened Happened
	before := s.World.Aircraft
	c.flyAircraft(s)
	turned := units.WrapHalf(units.Angle(s.World.Aircraft.Heading) - units.Angle(before.Heading))
	c.moveWorld(s, &before)
	s.Chance.Draw()
	felt := c.feelable(&s.World)
	felt.Turned = turned
	s.Sensed = s.Senses.Step(&felt, dt)
	c.putRight(s)
	s.Mechanism.Step(s.Sensed, dt)
	if rate := s.Mechanism.Wrong.Ground.ClockRate; rate != 0 { // one clock turns the wind shafts and tells the time
		s.ClockGain += rate * dt
	}
	s.Tick++
	if before.Turning && !s.World.Aircraft.Turning {
		happened |= EndedTurn
	}
	return happened | c.endLeg(s)
}

// boundary is what happens between two ticks: commands, a new leg, and
// whatever is done at once.
func (c *course) boundary(s *State, due []Command) Happened {
	c.act(s, due)
	if s.Tick >= s.Faults.Next && c.breakdown(s) {
		c.settle(s)
	}
	if s.Leg.Began != s.Tick || s.Over {
		return 0
	}
	c.beginLeg(s)
	c.settle(s)
	return BeganLeg
}

// act has the crew act, hands hold links and faults come and go, one after the other, so that it
// is the same whether they were given together or one by one.
func (c *course) act(s *State, due []Command) {
	for i := range due {
		s.Commands++
		switch due[i].Kind {
		case Act:
			s.apply(&due[i].Action)
		case ByHand: // nothing before the link has changed: nothing settles
			s.Mechanism.Hold(due[i].Hand)
			continue
		case AtHelm:
			c.steer(s, &due[i].Helm)
		default:
			c.command(s, &due[i])
			c.breakdown(s)
		}
		c.settle(s)
	}
}

// followField brings the variation setter up to the field if that is wanted and
// nobody forgets it.
func (s *State) followField() {
	if s.Follow && !s.Faults.Habit.SetterLeft {
		s.Mechanism.VariationSet = s.World.Variation
	}
}

// settle lets senses and mechanism take up a sudden change.
func (c *course) settle(s *State) {
	a := &s.World.Aircraft
	c.putRight(s)
	a.Snap(c.dials(s))
	a.Gear(c.air.Temperature(a.Height))
	felt := c.feelable(&s.World)
	s.Sensed = s.Senses.Settle(&felt)
	s.Mechanism.Settle(s.Sensed)
}

// apply does what the crew did.
func (s *State) apply(a *aboard.Action) {
	m := &s.Mechanism
	s.Leg.lookAgain()
	switch a.Kind {
	case aboard.SetVariation:
		m.VariationSet, s.Follow = a.Variation, false
	case aboard.FollowField:
		s.Follow = true
	case aboard.SetWind:
		m.SetWind(a.Wind)
	case aboard.SetLongitudeLever:
		m.ThrowLever(a.East)
	case aboard.SetCounters:
		m.SetCounters(a.Position)
		s.World.setCounters(s.Tick)
	case aboard.SlewLatitude:
		m.SlewLatitude(a.Slew)
	case aboard.SlewLongitude:
		m.SlewLongitude(a.Slew)
	case aboard.AlternateStatic:
		s.Senses.Alternate = a.On
	case aboard.Resynchronise:
		m.Heading.Resynchronise()
	}
}

func (c *course) flyAircraft(s *State) {
	a := &s.World.Aircraft
	a.Fly(dt, c.dials(s))
	a.Gear(c.air.Temperature(a.Height))
}

// dials is how far what the pilot steers by stands from the truth: the compass
// on a leg by compass, else a repeater on the transmission that feeds the
// resolver. As planned the pilot holds to the truth.
func (c *course) dials(s *State) (d aircraft.Dials) {
	v, order := s.World.Variation, s.World.Aircraft.Orders.Heading
	compass := s.Leg.Frame == HeadingMagnetic || s.Leg.Frame == HeadingCompass
	switch {
	case compass && c.plan.Pilot == AsPlanned:
		d.Heading = -units.Angle(v)
	case compass:
		d.Heading = s.Senses.CompassOffset(order, v)
	case c.plan.Pilot != AsPlanned:
		added := units.Angle(s.Mechanism.Setter()) + s.Mechanism.Wrong.Heading.Repeater
		d.Heading = s.Senses.MasterOffset(order-added, v) + added
	}
	if c.plan.Pilot == ByInstruments {
		c.readDials(s, &d)
	}
	return d
}

// moveWorld moves the two true places by the motion of the step, everything
// taken at its middle, and brings wind and variation up to the new place.
func (c *course) moveWorld(s *State, before *aircraft.State) {
	w, a := &s.World, &s.World.Aircraft
	x := 0.5 * float64(units.WrapHalf(units.Angle(a.Heading)-units.Angle(before.Heading)))
	run := float64(0.5*(before.TAS+a.TAS)) * dt
	s.Leg.Flown.Add(run)
	w.Run.Flown.Add(run)
	height := 0.5 * float64(before.Height+a.Height)
	if math.Abs(x) < 0.05 { // a steady turn: the chord is shorter than the arc
		run *= 1 - x*x/6
	}
	sin, cos := math.Sincos(float64(before.Heading) + x)
	windNorth, windEast := c.air.Wind(s.Tick, height)
	north, east := float64(run*cos), float64(run*sin)
	windNorth, windEast = float64(windNorth*dt), float64(windEast*dt)
	w.Run.add(north, east, windNorth, windEast)
	w.Air.Move(north, east, height)
	if w.Ground.Move(north+windNorth, east+windEast, height) {
		c.overPole(s)
	}
	w.North, w.East = c.air.Wind(s.Tick+1, float64(a.Height))
	c.magnetise(w)
}

// overPole turns the heading about: beyond the pole the same way on is the
// opposite true heading. It is the only place where holding a true heading has
// no meaning; the order turns with it. One read on the compass stays, for the
// earth's field runs on over the pole, but for an invented uniform variation,
// which turns about with the meridian.
func (c *course) overPole(s *State) {
	a := &s.World.Aircraft
	a.Heading = units.TrueHeading(units.Wrap(units.Angle(a.Heading) + math.Pi))
	compass := s.Leg.Frame == HeadingMagnetic || s.Leg.Frame == HeadingCompass
	if !compass || c.field == nil {
		a.Orders.Heading = units.Wrap(a.Orders.Heading + math.Pi)
	}
	s.Senses.OverPole()
}

// magnetise brings the earth's field up to the place.
func (c *course) magnetise(w *World) {
	if c.field == nil {
		w.Variation = *c.plan.Field
		return
	}
	north, east := w.Field.Horizontal(c.field, w.Ground.Position(), w.Aircraft.Height)
	w.Variation, w.Force = units.Variation(math.Atan2(east, north)), math.Sqrt(north*north+east*east)
}

func (c *course) feelable(w *World) sensor.World {
	return sensor.World{
		TAS:         w.Aircraft.TAS,
		Height:      w.Aircraft.Height,
		Temperature: c.air.Temperature(w.Aircraft.Height),
		Climb:       w.Aircraft.VerticalSpeed(),
		Heading:     w.Aircraft.Heading,
		Variation:   w.Variation,
		Force:       w.Force,
		Latitude:    w.Ground.Position().Lat,
		WindEast:    units.Speed(w.East),
	}
}

// start puts the state at tick 0.
func (c *course) start() State {
	p := c.plan
	s := State{Chance: sensor.NewChance(p.Seed)}
	w, a := &s.World, &s.World.Aircraft
	w.Ground, w.Air = earth.At(p.Aircraft.Position), earth.At(p.Aircraft.Position)
	a.Heading, a.Height = p.Aircraft.Heading, p.Aircraft.PressureAltitude
	a.Held = p.Aircraft.Speed.Speed
	a.Orders = aircraft.Orders{
		Heading: units.Angle(a.Heading), Speed: a.Held, HoldCAS: p.Aircraft.Speed.Kind == HoldCAS,
		AtOnce: p.Pilot == AsPlanned, Height: a.Height,
		TurnRate: p.Legs[0].TurnRate * float64(units.Degree),
	}
	a.Gear(c.air.Temperature(a.Height))
	w.North, w.East = c.air.Wind(0, float64(a.Height))
	c.magnetise(w)
	felt := c.feelable(w)
	s.Senses.Wrong = c.senses
	s.Sensed = s.Senses.Begin(&felt)
	s.startMechanism(p, c.mechanism)
	s.Faults.begin(p.Faults)
	if c.breakdown(&s) { // what is wrong from the start
		c.putRight(&s)
		s.Sensed = s.Senses.Settle(&felt)
		s.Mechanism.Settle(s.Sensed)
	}
	return s
}

func (s *State) startMechanism(p *Plan, wrong integrator.Imperfections) {
	set := s.World.Variation
	if p.Setting.Variation != nil {
		set = *p.Setting.Variation
	} else {
		s.Follow = true
	}
	counters := p.Aircraft.Position
	if p.Setting.Counters != nil {
		counters = *p.Setting.Counters
	}
	s.Mechanism.Start(s.Sensed, set, p.Setting.Wind, counters, wrong)
}
