package helm

import "stillair/sim"

// Cue is how a step of a lesson begins: all of it happens at one moment.
type Cue struct {
	// Back takes the flight back to a tick as it was before anything was done at it;
	// a tick not yet flown is flown to. -1: it stays where it is.
	Back  int64
	Rate  float64 // 0: as it is
	Clock Clock
	Truth *bool // revealed or hidden; nil: as it is
	LetGo bool  // every link that is held by hand is let go
}

// Clock is what a cue does with the clock.
type Clock uint8

// What may be done.
const (
	LeaveClock Clock = iota
	StartClock
	StopClock
)

// Cue carries a cue out. Moment.Cues says how many have been.
func (h *Helm) Cue(c Cue) {
	h.order(func(p *pilot) {
		p.cues++
		p.deeds++
		running := p.playing
		if c.Back >= 0 {
			p.pause()
			if err := p.engine.TakeBack(c.Back); err != nil {
				p.refusal = err.Error()
			}
		}
		if c.LetGo {
			p.letGo()
		}
		if c.Rate > 0 {
			p.pacer.Rate = c.Rate
		}
		if c.Truth != nil {
			p.revealed = *c.Truth
		}
		switch {
		case c.Clock == StopClock:
			p.pause()
		case c.Clock == StartClock || running:
			p.playing = !p.engine.Over()
		}
	})
}

// letGo takes all hands off the links.
func (p *pilot) letGo() {
	for _, i := range []sim.HandInput{sim.HandHeading, sim.HandLatitude, sim.HandWind, sim.HandSpeed} {
		if held := p.engine.Held(); held.Holds(i) {
			if err := p.engine.Hold(sim.Hand{Input: i}); err != nil {
				p.refusal = err.Error()
			}
		}
	}
}
