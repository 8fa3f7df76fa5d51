package exhibit

import (
	"math"

	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/exhibit/conduct"
	"stillair/gui/helm"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// crew flies a visitor's flight: one helm after the other.
type crew struct {
	x      *scenarios.Exhibit
	helm   *helm.Helm // nil: there was no flight yet
	plan   *sim.Plan
	broken string
	ground *picture.Ground // of the chart
	strip  *picture.Ground
	pace   float64 // times the rate; tests fly faster
	// stepped leaves the clock standing: a test flies so many ticks as it says, and
	// hangs on no clock.
	stepped bool
}

// newCrew makes the chart ready; it fails only where waters and field cannot be had.
func newCrew(x *scenarios.Exhibit) (*crew, error) {
	c := &crew{x: x, pace: 1}
	plan := planOf(x, conduct.Flight{Order: sim.HelmOrder{Heading: x.Flight.Heading, TAS: x.Flight.TAS, Wind: x.Flight.Wind}})
	waters, err := atlas.Of(plan)
	if err != nil {
		return nil, err
	}
	c.ground = picture.NewGround(plain(waters, x))
	if c.strip, err = chain.StripGround(plan); err != nil {
		return nil, err
	}
	_, err = sim.New(plan)
	return c, err
}

// plain is a chart for those who have never read one: coasts, and the names of few
// places.
func plain(w picture.Waters, x *scenarios.Exhibit) picture.Waters {
	out := picture.Waters{Coasts: w.Coasts, Bare: true}
	for _, p := range w.Places {
		switch {
		case p.Name == x.Flight.Place || x.Landing != nil && p.Name == x.Landing.Place:
			p.Rank = 0
		case p.Rank == 0:
			p.Rank = 2
		default:
			continue
		}
		out.Places = append(out.Places, p)
	}
	sin, cos := math.Sincos(float64(x.Flight.Heading)) // names keep off the way of the first miles
	to := x.Flight.From
	to.Lat += 60 * units.ArcMinute * units.Angle(cos)
	to.Lon += 60 * units.ArcMinute * units.Angle(sin/math.Cos(float64(to.Lat)))
	out.Keep = [][]units.Position{{x.Flight.From, to}}
	return out
}

// longest is the longest flight there is, 48 h; a visitor's never gets so far.
const longest = 48 * 3600 * sim.TicksPerSecond

// planOf is a flight of one leg, which is changed at the helm as it is flown.
func planOf(x *scenarios.Exhibit, f conduct.Flight) *sim.Plan {
	return &sim.Plan{
		Title: x.Title, Start: x.Flight.Start, Seed: 1, Waters: x.Flight.Waters, Pilot: sim.Steady,
		Aircraft: sim.Aircraft{
			Position: x.Flight.From, Heading: f.Order.Heading, PressureAltitude: x.Flight.Height,
			Speed: sim.SpeedOrder{Kind: sim.HoldTAS, Speed: f.Order.TAS},
		},
		Legs: []sim.Leg{{
			Steer: sim.HeadingTrue, Direction: units.Angle(f.Order.Heading), Ticks: longest, TurnRate: 3,
			Climb: 500 * units.Speed(units.Foot) / 60,
		}},
		Air:     sim.Air{QNH: 1013.25 * units.Hectopascal, Winds: []sim.WindEntry{{Wind: f.Order.Wind}}},
		Setting: sim.Setting{Wind: f.Set},
	}
}

// Begin begins a flight.
func (c *crew) Begin(f conduct.Flight) {
	plan := planOf(c.x, f)
	engine, err := sim.New(plan)
	if err != nil {
		return // newCrew has flown such a plan; the flight in hand goes on
	}
	c.drop()
	c.plan, c.helm = plan, helm.New(engine)
	c.helm.SetRate(f.Rate * c.pace)
	c.helm.Reveal(true)
	if !c.stepped {
		c.helm.Play()
	}
}

// drop lets go of the flight in hand.
func (c *crew) drop() {
	if c.helm != nil {
		c.helm.Stop()
		c.helm = nil
	}
}

// Steer orders the helm and sets the wind.
func (c *crew) Steer(o sim.HelmOrder, set units.Wind) {
	if c.helm != nil {
		c.helm.Steer(o)
		c.helm.Do(setWind(set))
	}
}

// Break breaks something.
func (c *crew) Break(o fault.Order) {
	if c.helm != nil {
		c.broken = o.ID
		c.helm.Break(o)
	}
}

// Mend mends it.
func (c *crew) Mend() {
	if c.helm != nil && c.broken != "" {
		c.helm.MendAll(c.broken)
	}
}

// Stop stops the clock.
func (c *crew) Stop() {
	if c.helm != nil {
		c.helm.Pause()
	}
}

// moment is the newest one; nil before the first flight.
func (c *crew) moment() *helm.Moment {
	if c.helm == nil {
		return nil
	}
	return c.helm.Moment()
}
