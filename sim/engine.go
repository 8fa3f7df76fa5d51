// Package sim flies a Plan: it holds the world, moves it tick by tick, lets the
// senses feel it and the mechanism turn, and keeps what is needed to show, step
// back and go on. It is a pure state machine: the same plan and commands give
// the same state at the same tick, whatever the pace.
//
// Time is a count of ticks of 1/16 s. One step is commands, aircraft, world,
// senses, mechanism, in this order (see step.go).
//
// Works is what every link passes on at a tick, from the pressures to the
// marker; Engine.TrueWorks the same from the world, as links in order and right
// settings would pass it on, so that the first pair that differs is the link
// that is wrong. Gears and rates of the counters are there those of the
// mechanism's sphere at the true place, places those of WGS-84: an ideal
// instrument is out by the difference of the two earths and nothing else, at
// most 0.52 percent of the way (testdata of package earth, mech_earth_ratio).
// World.Run holds the lengths truly flown.
//
// Engine.Hold puts a hand to a link: a command among the others. It changes
// nothing in the world, now or later.
package sim

import (
	"errors"
	"fmt"
	"sort"

	"stillair/integrator/aboard"
	"stillair/sim/geomag"
	"stillair/sim/weather"
)

// keyframeTicks is how far apart states are kept: one minute of flight.
const keyframeTicks = 60 * TicksPerSecond

// Engine flies one plan. It is not safe for use by several goroutines at once.
type Engine struct {
	course   course
	state    State
	commands []Command    // by (tick, arrival): the plan's and the crew's
	own      []bool       // beside commands: given in flight
	planned  *weather.Air // without what was ordered at the helm
	given    int64        // how many have been, ever
	frames   []State      // frames[i] is the state at tick i*keyframeTicks
	recorder recorder
}

// New compiles a plan and puts it at tick 0. It refuses what this version does
// not fly.
func New(p *Plan) (*Engine, error) {
	if err := flyable(p); err != nil {
		return nil, err
	}
	e := &Engine{course: course{plan: p, air: weather.New(p.Air.ISADeviation, p.Air.Winds).With(p.Air.Departure)}}
	e.planned = e.course.air
	if p.Field == nil {
		m, err := geomag.New(geomag.DecimalYear(p.Start))
		if err != nil {
			return nil, err
		}
		e.course.field = m
	}
	e.commands = append(e.commands, p.Crew...)
	sort.SliceStable(e.commands, func(i, j int) bool { return e.commands[i].Tick < e.commands[j].Tick })
	e.own = make([]bool, len(e.commands))
	e.course.healthy = healthyOf(p)
	if err := e.compileFaults(); err != nil {
		return nil, err
	}
	e.state = e.course.start()
	e.frames = append(e.frames, e.state)
	e.recorder.begin(e)
	return e, nil
}

// ErrNotFlown is in the chain of every refusal of flyable.
var ErrNotFlown = errors.New("this version does not fly it yet")

func flyable(p *Plan) error {
	if len(p.Legs) == 0 {
		return errors.New("a flight needs at least one leg")
	}
	if _, err := p.Mechanism.Imperfections(); err != nil {
		return fmt.Errorf("[mechanism]: %w: %w", err, ErrNotFlown)
	}
	for _, c := range p.Crew {
		if _, err := c.Hand.Checked(); err != nil {
			return fmt.Errorf("by hand at %v: %w", TimeOf(c.Tick), err)
		}
	}
	return nil
}

// Plan is the flight being flown.
func (e *Engine) Plan() *Plan { return e.course.plan }

// Tick is the number of ticks flown.
func (e *Engine) Tick() int64 { return e.state.Tick }

// Over says whether the last leg has ended.
func (e *Engine) Over() bool { return e.state.Over }

// State is a copy of the present state.
func (e *Engine) State() State { return e.state }

// Hash is the hash of the present state.
func (e *Engine) Hash() uint64 { return e.state.Hash() }

// Frontier is the furthest tick flown so far.
func (e *Engine) Frontier() int64 { return e.recorder.to }

// Advance flies n ticks, or fewer when the flight ends, and says how many.
func (e *Engine) Advance(n int64) int64 {
	began := e.state.Tick
	for e.state.Tick < began+n && !e.state.Over {
		e.advanceOne()
	}
	return e.state.Tick - began
}

func (e *Engine) advanceOne() {
	s := &e.state
	fresh := s.Tick >= e.recorder.to
	due := e.due()
	began := e.course.boundary(s, due)
	if fresh {
		e.recorder.boundary(e, began, due)
	}
	happened := e.course.fly(s)
	if fresh {
		e.recorder.flown(e, happened)
	}
	if s.Tick%keyframeTicks == 0 && s.Tick/keyframeTicks == int64(len(e.frames)) {
		e.frames = append(e.frames, *s)
	}
}

// due are the commands of this tick not yet applied.
func (e *Engine) due() []Command {
	from := e.state.Commands
	to := from
	for to < int64(len(e.commands)) && e.commands[to].Tick <= e.state.Tick {
		to++
	}
	return e.commands[from:to]
}

// Do has the crew act now, at this tick boundary. The action shows at once. If
// the flight had been taken back, what had been done after this moment is
// dropped and the flight goes on from here.
func (e *Engine) Do(a aboard.Action) error {
	if e.state.Over {
		return errOver
	}
	if a.Kind == 0 {
		return fmt.Errorf("the crew action: %w", ErrNotFlown)
	}
	return e.give(Command{Action: a})
}

// give does a command now, at this tick boundary.
func (e *Engine) give(c Command) error {
	e.forgetAfter(e.state.Tick)
	c.Tick = e.state.Tick
	at := e.state.Commands + int64(len(e.due()))
	e.commands = append(e.commands[:at:at], append([]Command{c}, e.commands[at:]...)...)
	e.own = append(e.own[:at:at], append([]bool{true}, e.own[at:]...)...)
	if err := e.compileFaults(); err != nil { // checked before it is given
		return err
	}
	e.compileWinds()
	e.given++
	due := e.due()
	e.course.act(&e.state, due)
	e.recorder.boundary(e, 0, due)
	return nil
}

// forgetAfter drops what lies beyond a tick: actions given in flight, states
// kept, tracks and log.
func (e *Engine) forgetAfter(tick int64) {
	keep := e.commands[:0:0]
	own := e.own[:0:0]
	for i, c := range e.commands {
		if !e.own[i] || int64(i) < e.state.Commands {
			keep, own = append(keep, c), append(own, e.own[i])
		}
	}
	e.commands, e.own = keep, own
	if n := tick/keyframeTicks + 1; n < int64(len(e.frames)) {
		e.frames = e.frames[:n:n]
	}
	e.recorder.forgetAfter(e)
}

// appliedNow is how many commands of the present tick have been applied.
// Of what is done to faults nothing is recorded, so they do not count.
func (e *Engine) appliedNow() (n int) {
	for i := e.state.Commands - 1; i >= 0 && e.commands[i].Tick == e.state.Tick; i-- {
		if e.commands[i].Kind == Act {
			n++
		}
	}
	for i := range e.state.Faults.N { // what a fault had the crew set is recorded as an action
		if slot := &e.state.Faults.Slots[i]; slot.Did && slot.Onset == e.state.Tick {
			n++
		}
	}
	return n
}

// GoTo goes to a tick already flown, or flies on to it.
func (e *Engine) GoTo(tick int64) {
	tick = max(0, tick)
	if i := min(tick/keyframeTicks, int64(len(e.frames)-1)); tick < e.state.Tick || i*keyframeTicks > e.state.Tick {
		e.state = e.frames[i]
	}
	e.Advance(tick - e.state.Tick)
}

// TakeBack goes back to a tick already flown as it was before anything was done at
// it, and drops what was done in flight from then on. A tick not yet flown is gone
// to, and nothing is dropped.
func (e *Engine) TakeBack(tick int64) error {
	tick = max(0, tick)
	if tick > e.state.Tick {
		e.GoTo(tick)
		return nil
	}
	e.state = e.frames[min(tick/keyframeTicks, int64(len(e.frames)-1))]
	e.Advance(tick - e.state.Tick)
	given := len(e.commands)
	e.forgetAfter(e.state.Tick)
	if len(e.commands) == given {
		return nil
	}
	e.given++
	e.compileWinds()
	return e.compileFaults()
}

// Commands are all commands of the flight up to now, the plan's and the crew's.
func (e *Engine) Commands() []Command { return e.commands[:e.state.Commands:e.state.Commands] }
