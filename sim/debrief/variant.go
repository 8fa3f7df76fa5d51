package debrief

import (
	"stillair/integrator"
	"stillair/integrator/ground"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sensor"
)

// stage is a link of the account, in chain order.
type stage int

const (
	earth stage = iota
	method
	static
	temperature
	airLog
	drive
	compass
	variation
	repeater
	resolver
	trains
	counters
	wind
	clock
	crew
	stages
)

var ids = [stages]string{
	"earth", "method", "static", "temperature", "air-log", "drive", "compass", "variation", "repeater", "resolver",
	"trains", "counters", "wind", "clock", "crew",
}

var names = [stages]string{
	"earth's shape", "plotting method", "pitot and static lines", "temperature and density", "air log", "drive",
	"compass and deviation", "variation setting", "heading repeater", "resolver and discs", "latitude and longitude trains",
	"counters", "wind set against wind met", "wind clock", "crew's resets and hands",
}

// set is a set of links that are as they really were.
type set uint32

func (s set) has(x stage) bool { return s>>x&1 != 0 }

// upTo are the links from the first to x, alone is x with the make of the
// instrument, for which nobody is to blame.
func upTo(x stage) set  { return 1<<(x+1) - 1 }
func alone(x stage) set { return 1<<earth | 1<<method | 1<<x }

// variant is a mechanism that flies along, some of its links as they really were.
type variant struct {
	on     set
	senses sensor.State
	mech   integrator.State
}

// wrongs is what is wrong in a set of links, of all that is.
func (on set) wrongs(s *sim.State) (senses sensor.Imperfection, mech integrator.Imperfections) {
	as, am := &s.Senses.Wrong, &s.Mechanism.Wrong
	if on.has(method) {
		mech.Ground.Design = am.Ground.Design
	}
	if on.has(static) {
		senses.Pitot, senses.Static, senses.LineLag = as.Pitot, as.Static, as.LineLag
	}
	if on.has(airLog) {
		source, off, law := mech.AirLog.Source, mech.AirLog.TemperatureError, mech.AirLog.Incompressible
		mech.AirLog = am.AirLog
		mech.AirLog.Source, mech.AirLog.TemperatureError, mech.AirLog.Incompressible = source, off, law
	}
	if on.has(temperature) {
		senses.Thermometer = as.Thermometer
		mech.AirLog.Source, mech.AirLog.TemperatureError = am.AirLog.Source, am.AirLog.TemperatureError
		mech.AirLog.Incompressible = am.AirLog.Incompressible
	}
	if on.has(drive) {
		mech.Drive = am.Drive
	}
	if on.has(compass) {
		senses.Compass, senses.Gyro = as.Compass, as.Gyro
	}
	if on.has(repeater) {
		mech.Heading = am.Heading
		mech.Heading.MisSet, mech.Heading.WrongSign = 0, false
	}
	if on.has(variation) {
		mech.Heading.MisSet, mech.Heading.WrongSign = am.Heading.MisSet, am.Heading.WrongSign
	}
	if on.has(resolver) {
		mech.Resolver = am.Resolver
	}
	mech.Train = on.train(&am.Train)
	mech.Ground.Train = on.train(&am.Ground.Train)
	on.ground(&mech.Ground, &am.Ground)
	return senses, mech
}

// train is what is wrong with a pair of trains: its gear, and its drums.
func (on set) train(a *train.Imperfection) (out train.Imperfection) {
	if on.has(counters) {
		out = *a
		out.SecantHeld, out.HeldLatitude, out.SecantLimit, out.Disengages, out.GearOffset = false, 0, 0, false, 0
	}
	if on.has(trains) {
		out.SecantHeld, out.HeldLatitude, out.SecantLimit = a.SecantHeld, a.HeldLatitude, a.SecantLimit
		out.Disengages, out.GearOffset = a.Disengages, a.GearOffset
	}
	return out
}

func (on set) ground(out, a *ground.Imperfection) {
	if on.has(wind) {
		out.Wind = a.Wind
	}
	if on.has(clock) {
		out.ClockRate, out.ClockLate, out.ClockOld = a.ClockRate, a.ClockLate, a.ClockOld
	}
}

// take brings a variant up to what is wrong and what is set now.
func (v *variant) take(s *sim.State) {
	v.senses.Wrong, v.mech.Wrong = v.on.wrongs(s)
	v.senses.Alternate = v.on.has(static) && s.Senses.Alternate
	v.mech.VariationSet = s.World.Variation
	if v.on.has(variation) {
		v.mech.VariationSet = s.Mechanism.VariationSet
	}
	met := units.WindOf(units.Speed(s.World.North), units.Speed(s.World.East))
	if v.on.has(wind) {
		met = s.Mechanism.Ground.Set
	}
	v.mech.SetWind(met)
	if s.Mechanism.Heading.Lost == 0 {
		v.mech.Heading.Resynchronise()
	}
}

// bring has a variant take up what has happened between two ticks.
func (v *variant) bring(s *sim.State, changed bool) {
	v.take(s)
	if changed {
		v.settle(s)
	}
}

// begin starts a variant in the world of a flight that begins.
func begin(on set, s *sim.State, p *sim.Plan) *variant {
	v := &variant{on: on}
	senses, mech := on.wrongs(s)
	v.senses.Wrong = senses
	in := v.senses.Begin(&s.Senses.Last)
	at := p.Aircraft.Position
	if on.has(counters) && p.Setting.Counters != nil {
		at = *p.Setting.Counters
	}
	v.mech.Start(in, s.World.Variation, units.Wind{}, at, mech)
	v.take(s)
	v.settle(s)
	return v
}

// settle takes up a sudden change.
func (v *variant) settle(s *sim.State) { v.mech.Settle(v.senses.Settle(&s.Senses.Last)) }

// step runs a variant for the tick that the flight has just flown.
func (v *variant) step(s *sim.State, dt float64) {
	in := v.senses.Step(&s.Senses.Last, dt)
	v.take(s)
	v.mech.Step(in, dt)
}

// errors are those of a variant.
func (v *variant) errors(s *sim.State) sim.Errors {
	design := integrator.Config{Ground: v.mech.Wrong.Ground.Design}
	return sim.Errors{
		Air:    sim.OffsetOf(units.Position(v.mech.AirPosition()), s.World.Air.Position()),
		Ground: sim.OffsetOf(units.Position(v.mech.GroundPosition(&design)), s.World.Ground.Position()),
	}
}
