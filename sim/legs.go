package sim

import (
	"math"

	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim/aircraft"
)

// maxTicks ends any flight: 48 h.
const maxTicks = 48 * 3600 * TicksPerSecond

// nearPlace is how near a leg's place must be passed by somebody who flies there by orders
// of the helm (a choice of this program), as an angle.
const nearPlace = 5 * units.ArcMinute

// beginLeg gives the pilot the orders of the leg that begins now.
func (c *course) beginLeg(s *State) {
	leg := &c.plan.Legs[s.Leg.Index]
	a := &s.World.Aircraft
	s.Leg.Flown, s.Leg.ToGo = units.Sum{}, math.Inf(1)
	s.Leg.Frame = leg.Steer
	a.Orders.TurnRate = leg.TurnRate * float64(units.Degree)
	a.Turning = true // until the first step finds it on its heading
	if leg.Altitude != nil {
		a.Orders.Height = *leg.Altitude
	}
	if leg.Climb > 0 {
		a.Orders.Climb = leg.Climb
	}
	if leg.Speed != nil {
		a.SetSpeed(leg.Speed.Speed, leg.Speed.Kind == HoldCAS, c.air.Temperature(a.Height))
	}
	a.Orders.Heading = c.heading(s, leg)
}

// heading is the reading that the pilot turns onto for a leg. A track and a
// place are worked once, here, from what the pilot knows.
func (c *course) heading(s *State, leg *Leg) units.Angle {
	switch leg.Steer {
	case TrackTrue:
		return c.headingForTrack(s, leg.Direction)
	case ToPlace:
		course, _ := geodesy.RhumbInverse(c.known(s), leg.Target)
		return c.headingForTrack(s, course)
	}
	return leg.Direction
}

// known is where the pilot believes the aircraft to be.
func (c *course) known(s *State) units.Position {
	if c.plan.Pilot == AsPlanned {
		return s.World.Ground.Position()
	}
	return units.Position(s.Mechanism.KnownGround(&c.plan.Mechanism))
}

// headingForTrack allows for the wind the pilot knows. A wind that cannot be
// held off leaves the nose as near to it as it will go.
func (c *course) headingForTrack(s *State, track units.Angle) units.Angle {
	wind := s.Mechanism.Ground.Setting()
	if c.plan.Pilot == AsPlanned {
		wind = units.WindOf(units.Speed(s.World.North), units.Speed(s.World.East))
	}
	cross := float64(wind.Speed) * math.Sin(float64(wind.From-track)) / float64(c.orderedTAS(s))
	return units.Wrap(track + units.Angle(math.Asin(max(-1, min(1, cross)))))
}

func (c *course) orderedTAS(s *State) units.Speed {
	a := &s.World.Aircraft
	if !a.Orders.HoldCAS {
		return a.Orders.Speed
	}
	return isa.TASFromCAS(a.Orders.Speed, a.Height, c.air.Temperature(a.Height))
}

// endLeg sees whether the leg ends with this tick.
func (c *course) endLeg(s *State) Happened {
	leg := &c.plan.Legs[s.Leg.Index]
	var ended bool
	switch {
	case leg.Ticks > 0:
		ended = s.Tick >= s.Leg.Began+leg.Ticks
	case leg.Distance > 0:
		const slack = 1e-6 // m: rounding must not cost a tick
		ended = s.Leg.Flown.Total >= float64(leg.Distance)-slack
	default:
		ended = c.passed(s, leg)
	}
	if !ended && s.Tick < maxTicks {
		return 0
	}
	if s.Leg.Index+1 == int64(len(c.plan.Legs)) || s.Tick >= maxTicks {
		s.Over = true
		return EndedFlight
	}
	s.Leg.Index++
	s.Leg.Began = s.Tick
	return 0
}

// passed says whether the distance to the place, by what the pilot knows, has
// stopped falling. While the turn lasts it may rise; and once somebody at the helm has
// ordered another heading it may rise as long as the place is not near: he who flies a way
// of his own has not passed it.
func (c *course) passed(s *State, leg *Leg) bool {
	p := c.known(s)
	dlat := float64(leg.Target.Lat - p.Lat)
	dlon := float64(units.WrapHalf(leg.Target.Lon-p.Lon)) * math.Cos(float64(leg.Target.Lat+p.Lat)/2)
	before := s.Leg.ToGo
	s.Leg.ToGo = math.Hypot(dlat, dlon)
	ownWay := s.Leg.Frame != leg.Steer && s.Leg.ToGo > float64(nearPlace)
	return !ownWay && !s.World.Aircraft.Turning && s.Leg.ToGo >= before
}

// lookAgain forgets how far it was to the place: what the pilot knows of it may have jumped
// by a setting, and a distance that has grown at one stroke is not one that was flown.
func (l *LegState) lookAgain() { l.ToGo = math.Inf(1) }

// readDials fills in what the dials of speed and height show too much.
func (c *course) readDials(s *State, d *aircraft.Dials) {
	a := &s.World.Aircraft
	d.Height = isa.PressureAltitude(s.Sensed.Air.Static) - a.Height
	if a.Orders.HoldCAS {
		d.Speed = isa.CAS(s.Sensed.Air.Pitot-s.Sensed.Air.Static) - a.Held
	} else {
		d.Speed = s.Mechanism.AirLog.TAS - a.Held
	}
}
