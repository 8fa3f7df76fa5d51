package spread

import (
	"fmt"
	"math"
	"time"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/stream"
	"stillair/sim/weather"
)

// Drawn are the errors of one flight in the units of the terms: North and East
// where there are two components (wind, start), else North alone. The wander is a
// mean vector for each stretch.
type Drawn struct {
	North, East [terms]float64
	Wander      []weather.Vector
}

// stretchTicks is how long the wander stands still.
const stretchTicks = int64(5*time.Minute/time.Second) * sim.TicksPerSecond

// longest is the time up to which the wander is drawn; a flight lasts no longer.
const longest = 48 * time.Hour

// source is the chance of one term in one flight.
func source(seed uint64, k int, t Term) stream.Stream {
	return stream.New(seed, fmt.Sprintf("spread flight %d %s", k, facts[t].ID))
}

// Draw draws the errors of flight k.
func (l *Law) Draw(seed uint64, k int) (d Drawn) {
	for t := range terms {
		s := source(seed, k, t)
		if t == Wander {
			d.Wander = l.wander(&s)
			continue
		}
		d.North[t] = l.Sigma[t] * normal(&s)
		d.East[t] = l.Sigma[t] * normal(&s)
	}
	return d
}

func normal(s *stream.Stream) float64 {
	s.Draw()
	return s.Normal()
}

func (l *Law) wander(s *stream.Stream) []weather.Vector {
	if l.Sigma[Wander] == 0 {
		return nil
	}
	north, east := l.process(s), l.process(s)
	out := make([]weather.Vector, sim.TicksOf(longest)/stretchTicks)
	for i := range out {
		out[i] = weather.Vector{North: units.Speed(north.mean(s)) * units.Knot, East: units.Speed(east.mean(s)) * units.Knot}
	}
	return out
}

// process is a velocity v with correlation exp(-t/tau) and standard deviation
// sigma (Ornstein and Uhlenbeck), stepped by stretches of length T exactly: given
// v0, the next v and the way I over the stretch are jointly normal with
//
//	E v = a v0             E I = tau (1 - a) v0           a = exp(-T/tau)
//	var v = sigma^2 (1 - a^2)
//	cov(I, v) = sigma^2 tau (1 - a)^2
//	var I = sigma^2 tau (2 T - tau (3 - 4 a + a^2))
//
// (by integration of the first-order law; the way summed over stretches has the
// variance of the closed form of navigation note 7.1, which a test asks.)
type process struct {
	v                  float64
	a, way             float64 // of the means: a, tau (1 - a)/T
	spread, with, rest float64 // of v; of the mean with v; of the mean beside it
}

func (l *Law) process(s *stream.Stream) process {
	sigma, tau := l.Sigma[Wander], l.WanderTime.Seconds()
	t := float64(stretchTicks) / sim.TicksPerSecond
	a := math.Exp(-t / tau)
	b := -math.Expm1(-t / tau) // 1 - a
	p := process{v: sigma * normal(s), a: a, way: tau * b / t, spread: sigma * math.Sqrt(b*(1+a))}
	p.with = sigma * tau * b * math.Sqrt(b/(1+a)) / t
	all := sigma * sigma * tau * (2*t - tau*b*(2+b)) / (t * t) // 3 - 4a + a^2 = (1-a)(3-a) = b (2+b)
	p.rest = math.Sqrt(max(0, all-p.with*p.with))
	return p
}

// mean is that of the next stretch.
func (p *process) mean(s *stream.Stream) float64 {
	z := normal(s)
	m := p.way*p.v + p.with*z + p.rest*normal(s)
	p.v = p.a*p.v + p.spread*z
	return m
}

// Apply is the plan with these errors in it. The given plan is left alone.
func (d *Drawn) Apply(plan *sim.Plan) *sim.Plan {
	p := *plan
	m := &p.Making
	m.PositionError += d.North[Static]
	m.Thermometer += d.North[Thermometer]
	m.AirLogScale += d.North[AirLog]
	m.GearError += d.North[Drive]
	m.Deviation += degrees(d.North[Compass])
	m.Variation += degrees(d.North[Variation])
	m.Repeater += degrees(d.North[Repeater])
	m.Resolver += degrees(d.North[Resolver])
	d.begin(&p)
	d.blow(&p)
	return &p
}

func degrees(x float64) units.Angle { return units.Angle(x) * units.Degree }

// begin puts the counters at the start so many miles off.
func (d *Drawn) begin(p *sim.Plan) {
	if d.North[Start] == 0 && d.East[Start] == 0 {
		return
	}
	at := p.Aircraft.Position
	if p.Setting.Counters != nil {
		at = *p.Setting.Counters
	}
	at.Lon += units.Angle(d.East[Start]/max(0.01, math.Cos(float64(p.Aircraft.Position.Lat)))) * units.ArcMinute
	at.Lat += units.Angle(d.North[Start]) * units.ArcMinute
	at.Lat = max(-90*units.Degree, min(90*units.Degree, at.Lat))
	p.Setting.Counters = &at
}

// blow adds the wind that nobody expected.
func (d *Drawn) blow(p *sim.Plan) {
	n, e := units.Speed(d.North[Wind])*units.Knot, units.Speed(d.East[Wind])*units.Knot
	if n == 0 && e == 0 && len(d.Wander) == 0 {
		return
	}
	all := []weather.Vector{{North: n, East: e}}
	if len(d.Wander) > 0 {
		all = make([]weather.Vector, len(d.Wander))
		for i, v := range d.Wander {
			all[i] = weather.Vector{North: v.North + n, East: v.East + e}
		}
	}
	p.Air.Departure = weather.Departure{Every: stretchTicks, Vectors: all}
}
