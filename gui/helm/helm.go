// Package helm flies an engine for the window: one goroutine owns it, takes
// orders through a channel and lays out the newest moment, which the window
// picks up once a frame. It knows nothing of the toolkit.
package helm

import (
	"sync/atomic"
	"time"

	"stillair/integrator/aboard"
	"stillair/sim"
)

// Rates are the time rates offered, flight seconds per second.
var Rates = []float64{0.25, 1, 2, 5, 10, 30, 60, 120, 240}

// DefaultRate is the rate at the start.
const DefaultRate = 10

// frameTime is how often a moment is laid out while the clock runs.
const frameTime = time.Second / 60

// Moment is what the window shows; it does not change once laid out.
type Moment struct {
	View     aboard.View
	Works    sim.Works // what the links pass on; it is no truth
	Held     sim.Hands // inputs of links that are held by hand now
	Playing  bool
	Rate     float64
	Over     bool
	Frontier int64  // furthest tick flown
	Hash     uint64 // of the state; 0 while the clock runs
	Revealed *Revealed
	Refusal  string // why the last order was not carried out, "" if it was
	// Ordered are the faults given at this helm, whoever may see them: those who
	// gave them know.
	Ordered []sim.FaultStatus
	Twin    *TwinMoment // nil: none goes along
	Deeds   int         // how often something was done to the flight
	Cues    int         // how many cues have been carried out

	// For the navigator, if asked for: what is to be seen through the aid that is looked
	// through, what there is to be looked at, whether the last deed can be taken back.
	Scene       *aboard.Scene
	Offers      []aboard.Offer
	CanTakeBack bool
}

// Revealed is the truth, for those who asked for it.
type Revealed struct {
	Now    sim.Snapshot
	Works  sim.Works // what the links would pass on in order
	Track  []sim.TruePoint
	Breaks []Break // by time
	Faults []sim.FaultStatus
}

// Break is a fault that came, or was mended, at a tick.
type Break struct {
	Tick   int64
	Words  string // in plain words
	Mended bool
}

// Helm flies one engine.
type Helm struct {
	orders chan func(*pilot)
	over   chan struct{} // closed by Stop: later orders go nowhere
	done   chan struct{}
	latest atomic.Pointer[Moment]
	seek   atomic.Pointer[seek] // the last order given, if it was to go to a tick
	engine *sim.Engine          // of the goroutine, until Stop
}

// pilot is what the goroutine owns.
type pilot struct {
	engine   *sim.Engine
	pacer    sim.Pacer
	playing  bool
	revealed bool
	refusal  string
	deeds    int
	cues     int
	twin     *twin
	navigating
	note  func(*sim.Engine) // nil: nobody writes down what is flown
	noted time.Time
}

// New takes an engine over. Nobody else may use it from now on, until Stop.
func New(e *sim.Engine) *Helm {
	h := &Helm{orders: make(chan func(*pilot), 64), over: make(chan struct{}), done: make(chan struct{}), engine: e}
	p := &pilot{engine: e, pacer: sim.Pacer{Rate: DefaultRate}}
	h.latest.Store(p.moment())
	go h.run(p)
	return h
}

// Moment is the newest one.
func (h *Helm) Moment() *Moment { return h.latest.Load() }

// run sleeps while the clock is stopped.
func (h *Helm) run(p *pilot) {
	defer close(h.done)
	ticker := time.NewTicker(frameTime)
	defer ticker.Stop()
	for {
		var tick <-chan time.Time
		if p.playing {
			tick = ticker.C
		}
		select {
		case order := <-h.orders:
			order(p)
			p.tellNote(time.Now())
		case <-h.over:
			h.finish(p)
			return
		case now := <-tick:
			p.fly(now)
			if now.Sub(p.noted) >= noteEvery || !p.playing {
				p.tellNote(now)
			}
		}
		h.latest.Store(p.moment())
	}
}

// finish carries out what was ordered before the end.
func (h *Helm) finish(p *pilot) {
	for {
		select {
		case order := <-h.orders:
			order(p)
			p.tellNote(time.Now())
		default:
			h.latest.Store(p.moment())
			return
		}
	}
}

// give hands something over to the goroutine, unless it has ended.
func (h *Helm) give(do func(*pilot)) {
	select {
	case h.orders <- do:
	case <-h.over:
	}
}

// noteEvery is how often what is flown is handed to whoever writes it down.
const noteEvery = time.Second

func (p *pilot) tellNote(now time.Time) {
	if p.note != nil {
		p.noted = now
		p.note(p.engine)
	}
}

// Note has a function called with the engine after every order and each second
// of flight, on the goroutine that flies it: it may read and must not keep it.
func (h *Helm) Note(note func(*sim.Engine)) { h.order(func(p *pilot) { p.note = note }) }

func (p *pilot) fly(now time.Time) {
	p.engine.Advance(p.pacer.Ticks(now))
	if p.engine.Over() {
		p.pause()
	}
}

func (p *pilot) pause() {
	p.playing = false
	p.pacer.Pause()
}

func (p *pilot) moment() *Moment {
	m := &Moment{
		View: p.engine.View(), Works: p.engine.Works(), Held: p.engine.Held(), Playing: p.playing, Rate: p.pacer.Rate,
		Over: p.engine.Over(), Frontier: p.engine.Frontier(), Refusal: p.refusal, Deeds: p.deeds, Cues: p.cues,
	}
	if !p.playing {
		m.Hash = p.engine.Hash()
	}
	m.Ordered = p.engine.LiveFaults()
	m.Twin = p.twin.moment(p.engine, m.View.Marker)
	p.look(m)
	if p.revealed {
		m.Revealed = &Revealed{Now: p.engine.Snapshot(), Works: p.engine.TrueWorks(), Track: p.engine.TrueTrack()}
		m.Revealed.Faults = p.engine.Faults()
		m.Revealed.Breaks = breaksOf(m.Revealed.Faults)
	}
	return m
}

// order hands an order over; what was refused before is forgotten.
func (h *Helm) order(do func(*pilot)) {
	h.seek.Store(nil)
	h.give(func(p *pilot) {
		p.refusal = ""
		do(p)
	})
}

// Play starts the clock, Pause stops it.
func (h *Helm) Play() { h.order(func(p *pilot) { p.playing = !p.engine.Over() }) }

// Pause stops the clock.
func (h *Helm) Pause() { h.order((*pilot).pause) }

// SetRate changes the time rate.
func (h *Helm) SetRate(rate float64) { h.order(func(p *pilot) { p.pacer.Rate = rate }) }

// ChangeRate goes so many rates up or down the list of those offered.
func (h *Helm) ChangeRate(by int) {
	h.order(func(p *pilot) {
		at := 0
		for i, r := range Rates {
			if r <= p.pacer.Rate {
				at = i
			}
		}
		p.pacer.Rate = Rates[max(0, min(len(Rates)-1, at+by))]
	})
}

// Step stops the clock and flies so many ticks, backwards if negative.
func (h *Helm) Step(ticks int64) {
	h.order(func(p *pilot) {
		p.pause()
		p.engine.GoTo(p.engine.Tick() + ticks)
	})
}

// Do has the crew act.
func (h *Helm) Do(a aboard.Action) { h.try(func(e *sim.Engine) error { return e.Do(a) }) }

// Hold puts a hand to an input of a link, or takes it off.
func (h *Helm) Hold(by sim.Hand) { h.try(func(e *sim.Engine) error { return e.Hold(by) }) }

// Steer has somebody steer, and another wind blow.
func (h *Helm) Steer(o sim.HelmOrder) { h.try(func(e *sim.Engine) error { return e.Steer(o) }) }

// Reveal shows or hides the truth.
func (h *Helm) Reveal(on bool) { h.order(func(p *pilot) { p.revealed = on }) }

// Stop ends the goroutine; then Engine is free.
func (h *Helm) Stop() {
	close(h.over)
	<-h.done
}

// Engine gives the engine back once the helm has been stopped.
func (h *Helm) Engine() *sim.Engine {
	<-h.done
	return h.engine
}
