package debrief

import (
	"fmt"
	"strings"

	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/sim"
)

// Line is the part of one link in the error.
type Line struct {
	ID, Name string
	sim.Offset
}

// Account is the error of a flight, shared out.
type Account struct {
	Total sim.Offset
	Lines []Line // in chain order; they add up to Total
	// Alone is what each link would have made of it had nothing else been wrong,
	// and Interaction what these do not account for.
	Alone       []Line
	Interaction sim.Offset
}

// Point is the account of the ground position at a moment, with what was set and
// what was so.
type Point struct {
	Tick  int64
	Total sim.Offset
	Lines []sim.Offset // as in Report.Ground.Lines

	True                    units.Position // where the aircraft is
	WindSet, WindMet        units.Wind
	VariationSet, Variation units.Variation
}

// Report is the account of a flight.
type Report struct {
	Ground, Air Account
	Timeline    []Point // each minute
	Last        Point   // the account of the ground position at its end
}

// chain are the variants that fly along: in[x] has the links up to x as they were,
// only[x] x alone. One that would be the same as another is nil.
type chain struct {
	plan  *sim.Plan
	right set // links that are held right
	in    [stages]*variant
	only  [stages]*variant
	whole *variant  // all links before the crew's as they were, where some are held right
	first sim.State // the flight before anything is taken up
	since int64
}

// begin takes up the flight as it begins.
func (c *chain) begin(s *sim.State) { c.first = *s }

// Of accounts for the error of a flight as flown so far.
func Of(e *sim.Engine) Report { return account(e, 0) }

// If accounts for the error that the flight would have had if these links had been
// right: nothing wrong in them, all others as they were, and the crew's line the
// same (none if it is among them).
func If(e *sim.Engine, right ...string) (Report, error) {
	var held set
	for _, id := range right {
		x, err := stageOf(id)
		if err != nil {
			return Report{}, err
		}
		held |= 1 << x
	}
	return account(e, held), nil
}

// stageOf is the link with an id, of those that can be right.
func stageOf(id string) (stage, error) {
	for x := static; x < stages; x++ {
		if ids[x] == id {
			return x, nil
		}
	}
	return 0, fmt.Errorf("%q is no link that could have been right: %s", id, strings.Join(ids[static:], ", "))
}

func account(e *sim.Engine, right set) Report {
	c := &chain{plan: e.Plan(), right: right}
	var r Report
	e.Retrace(c.begin, func(s *sim.State, changed bool) {
		c.between(s, changed)
		if s.Tick%sim.MinuteTicks == 0 {
			r.Timeline = append(r.Timeline, c.point(s))
		}
		if s.Tick >= e.Tick() {
			r.Last = c.point(s)
			r.Ground, r.Air = c.account(s, groundOf), c.account(s, airOf)
		}
	}, func(s *sim.State) { c.fly(s) })
	return r
}

func groundOf(e sim.Errors) sim.Offset { return e.Ground }
func airOf(e sim.Errors) sim.Offset    { return e.Air }

// all are the variants there are.
func (c *chain) all(do func(*variant)) {
	for x := range stages {
		if v := c.in[x]; v != nil {
			do(v)
		}
		if v := c.only[x]; v != nil {
			do(v)
		}
	}
	if c.whole != nil {
		do(c.whole)
	}
}

// upTo are the links up to x that are not held right.
func (c *chain) upTo(x stage) set { return upTo(x) &^ c.right }

// between takes up what has happened between two ticks.
func (c *chain) between(s *sim.State, changed bool) {
	if c.in[earth] == nil {
		c.in[earth] = begin(upTo(earth), &c.first, c.plan)
		if c.right != 0 {
			c.whole = begin(upTo(clock), &c.first, c.plan)
		}
	}
	if since := s.World.Run.Since; since != c.since { // a reset: before the crew's line a good one
		c.since = since
		c.all(func(v *variant) { v.mech.SetCounters(s.World.Ground.Position()) })
	}
	for x := method; x < crew; x++ {
		c.open(x, s)
	}
	c.all(func(v *variant) { v.bring(s, changed) })
}

// open begins the variants of a link when it first makes a difference.
func (c *chain) open(x stage, s *sim.State) {
	if c.right.has(x) {
		return
	}
	if c.in[x] == nil && differs(c.upTo(x-1), c.upTo(x), s, c.plan) {
		c.in[x] = c.clone(c.upTo(x), c.before(x), s)
	}
	if x > method && c.only[x] == nil && differs(upTo(method), alone(x), s, c.plan) {
		c.only[x] = c.clone(alone(x), c.before(method+1), s)
	}
}

// before is the nearest variant with fewer links on.
func (c *chain) before(x stage) *variant {
	for x--; c.in[x] == nil; x-- {
	}
	return c.in[x]
}

// clone is a variant that has been like another one so far.
func (c *chain) clone(on set, like *variant, s *sim.State) *variant {
	if s.Tick == 0 {
		return begin(on, &c.first, c.plan)
	}
	v := *like
	v.on = on
	return &v
}

// differs says whether two sets of links make different mechanisms of a state.
func differs(a, b set, s *sim.State, p *sim.Plan) bool {
	aSenses, aMech := a.wrongs(s)
	bSenses, bMech := b.wrongs(s)
	if aSenses != bSenses || aMech != bMech {
		return true
	}
	switch added := b &^ a; {
	case added.has(static):
		return s.Senses.Alternate
	case added.has(variation):
		return s.Mechanism.VariationSet != s.World.Variation
	case added.has(wind):
		n, e := s.Mechanism.Ground.Set.Velocity()
		return float64(n) != s.World.North || float64(e) != s.World.East
	case added.has(counters):
		return s.Tick == 0 && p.Setting.Counters != nil && *p.Setting.Counters != p.Aircraft.Position
	}
	return false
}

// fly runs all variants for a tick.
func (c *chain) fly(s *sim.State) {
	c.all(func(v *variant) { v.step(s, 1.0/sim.TicksPerSecond) })
}

// errors are those of the variants in chain order; the last is the flight itself.
func (c *chain) errors(s *sim.State) (all [stages]sim.Errors) {
	for x := range crew {
		if c.in[x] != nil {
			all[x] = c.in[x].errors(s)
		} else {
			all[x] = all[x-1]
		}
	}
	all[crew] = flightErrors(s, c.plan)
	if c.right != 0 {
		whole := c.whole.errors(s)
		if c.right.has(crew) {
			whole = all[crew]
		}
		all[crew].Ground = plus(all[clock].Ground, minus(all[crew].Ground, whole.Ground))
		all[crew].Air = plus(all[clock].Air, minus(all[crew].Air, whole.Air))
	}
	return all
}

func flightErrors(s *sim.State, p *sim.Plan) sim.Errors {
	v := variant{mech: s.Mechanism}
	v.mech.Wrong.Ground.Design = integrator.Config{Ground: p.Mechanism.Ground}.Ground
	return v.errors(s)
}

// account shares out one of the two errors.
func (c *chain) account(s *sim.State, of func(sim.Errors) sim.Offset) (a Account) {
	all := c.errors(s)
	perfect := of(c.before(method + 1).errors(s))
	a.Total = of(all[crew])
	a.Interaction = a.Total
	was := sim.Offset{}
	for x := range stages {
		now := of(all[x])
		line := Line{ids[x], names[x], minus(now, was)}
		was = now
		if x == method && c.in[x] == nil {
			continue // only where the ground position is plotted
		}
		a.Lines = append(a.Lines, line)
		if x > method && x < crew {
			line.Offset = sim.Offset{}
			if v := c.only[x]; v != nil {
				line.Offset = minus(of(v.errors(s)), perfect)
			}
			a.Alone = append(a.Alone, line)
		}
		a.Interaction = minus(a.Interaction, line.Offset)
	}
	return a
}

func plus(a, b sim.Offset) sim.Offset {
	return sim.Offset{North: a.North + b.North, East: a.East + b.East}
}

func minus(a, b sim.Offset) sim.Offset {
	return sim.Offset{North: a.North - b.North, East: a.East - b.East}
}

// point is the account of the ground position now.
func (c *chain) point(s *sim.State) Point {
	all := c.errors(s)
	p := Point{
		Tick: s.Tick, Total: all[crew].Ground, True: s.World.Ground.Position(),
		WindSet: s.Mechanism.Ground.Setting(), WindMet: units.WindOf(units.Speed(s.World.North), units.Speed(s.World.East)),
		VariationSet: s.Mechanism.Setter(), Variation: s.World.Variation,
	}
	was := sim.Offset{}
	for x := range stages {
		if x != method || c.in[x] != nil {
			p.Lines = append(p.Lines, minus(all[x].Ground, was))
		}
		was = all[x].Ground
	}
	return p
}
