package spread

import (
	"math"

	"stillair/sim"
)

// Flight is what came of one flight: its errors at 0, Every, 2 Every, ... before
// its end, and at its end.
type Flight struct {
	K      int // its number
	Ticks  int64
	Errors []sim.Offset
	End    sim.Offset
}

// at is the error at a sampling time; the one after the last is the end.
func (f *Flight) at(i, last int) (sim.Offset, bool) {
	switch {
	case i == last:
		return f.End, true
	case i < len(f.Errors):
		return f.Errors[i], true
	}
	return sim.Offset{}, false
}

// Nominal is the flight without drawn errors: with what is wrong in the plan
// itself.
type Nominal struct {
	Flight
	Ways   []Way // as Errors
	EndWay Way
}

// fly flies a plan and calls look at every sampling time and at the end, and does
// what is to be done at resets. A flight that does not end by itself ends after the
// longest a flight may last.
func fly(p *sim.Plan, every int64, resets []reset, look func(e *sim.Engine, end bool)) error {
	e, err := sim.New(p)
	if err != nil {
		return err
	}
	for most := sim.TicksOf(longest); !e.Over() && e.Tick() < most; {
		if e.Tick()%every == 0 {
			look(e, false)
		}
		on := every - e.Tick()%every
		for ; len(resets) > 0 && resets[0].tick <= e.Tick(); resets = resets[1:] {
			if err := resets[0].do(e); err != nil {
				return err
			}
		}
		if len(resets) > 0 {
			on = min(on, resets[0].tick-e.Tick())
		}
		e.Advance(on)
	}
	look(e, true)
	return nil
}

// flyOne flies a plan with its errors, and keeps what comes of it.
func (c *course) flyOne(d *Drawn, k int) (Flight, error) {
	f := Flight{K: k, Errors: []sim.Offset{}}
	err := fly(d.Apply(c.plan), c.every, c.resets, func(e *sim.Engine, end bool) {
		if end {
			f.End, f.Ticks = groundError(e), e.Tick()
		} else {
			f.Errors = append(f.Errors, groundError(e))
		}
	})
	return f, err
}

func groundError(e *sim.Engine) sim.Offset { return e.Snapshot().Error.Ground }

// flyNominal flies the plan as it is.
func (c *course) flyNominal(p *sim.Plan) (Nominal, error) {
	n := Nominal{Flight: Flight{Errors: []sim.Offset{}}, Ways: []Way{}}
	err := fly(p, c.every, c.watched(p), func(e *sim.Engine, end bool) {
		if end {
			n.End, n.Ticks, n.EndWay = groundError(e), e.Tick(), wayOf(e)
			return
		}
		n.Errors = append(n.Errors, groundError(e))
		n.Ways = append(n.Ways, wayOf(e))
	})
	return n, err
}

// wayOf is the way through the air since the counters were set.
func wayOf(e *sim.Engine) Way {
	s := e.State()
	run := &s.World.Run
	return Way{
		Hours: sim.TimeOf(s.Tick - run.Since).Hours(), FromStart: run.Since == 0,
		North: run.North.Total / 1852, East: run.East.Total / 1852,
		Temperature: e.Snapshot().Sensed.Temperature.Kelvins(),
	}
}

// Effect is what one sigma of a term does to the error, by first order: for terms
// of two components that of each.
type Effect struct {
	Term   Term
	Errors []sim.Offset // as Flight.Errors
	End    sim.Offset
}

// trial is one component of a term, which is flown at plus and at minus one sigma.
type trial struct {
	term  Term
	east  bool
	sigma float64
}

// trials are those that a law needs. The wander has no flight of its own: see
// effects.
func (l *Law) trials() (all []trial) {
	for t := range terms {
		s := l.Sigma[t]
		if t == Wind { // one flight serves both
			s = math.Max(s, l.Sigma[Wander])
		}
		if t == Wander || s == 0 {
			continue
		}
		all = append(all, trial{t, false, s})
		if t == Wind || t == Start {
			all = append(all, trial{t, true, s})
		}
	}
	return all
}

// drawn is a trial as errors of a flight.
func (t *trial) drawn(sign float64) (d Drawn) {
	if t.east {
		d.East[t.term] = sign * t.sigma
	} else {
		d.North[t.term] = sign * t.sigma
	}
	return d
}

// effects makes effects of what two trials have shown: half their difference. Of
// the wind there may be two, its own and that of the wander.
func (l *Law) effects(t trial, n *Nominal, plus, minus *Flight) []Effect {
	g := Effect{Term: t.term, Errors: []sim.Offset{}, End: half(plus.End, minus.End)}
	for i := range min(len(n.Errors), len(plus.Errors), len(minus.Errors)) {
		g.Errors = append(g.Errors, half(plus.Errors[i], minus.Errors[i]))
	}
	if t.term != Wind {
		return []Effect{g}
	}
	var all []Effect
	if k := l.Sigma[Wind] / t.sigma; k > 0 {
		all = append(all, g.scaled(Wind, func(int) float64 { return k }, k))
	}
	if k := l.Sigma[Wander] / t.sigma; k > 0 {
		of := func(w Way) float64 { return k * Persistence(w.Hours, l.WanderTime.Hours()) }
		all = append(all, g.scaled(Wander, func(i int) float64 { return of(n.Ways[i]) }, of(n.EndWay)))
	}
	return all
}

func half(a, b sim.Offset) sim.Offset {
	return sim.Offset{North: (a.North - b.North) / 2, East: (a.East - b.East) / 2}
}

func (g *Effect) scaled(t Term, k func(i int) float64, end float64) Effect {
	out := Effect{Term: t, Errors: make([]sim.Offset, len(g.Errors)), End: times(g.End, end)}
	for i, e := range g.Errors {
		out.Errors[i] = times(e, k(i))
	}
	return out
}

func times(o sim.Offset, k float64) sim.Offset {
	return sim.Offset{North: k * o.North, East: k * o.East}
}
