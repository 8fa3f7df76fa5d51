package film

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"sort"
	"time"

	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
)

// The views of a film.
const (
	ChartView    = "chart"
	LinkageView  = "linkage"
	BothView     = "both"
	CountersView = "counters"
)

// Views are the names of the views.
func Views() []string { return []string{ChartView, LinkageView, BothView, CountersView} }

// Links are the names of the links that a cue may frame: those that a flight uses.
func Links() []string { return sim.LinkNames() }

// linkOf is the link of a name, NoLink if there is none.
func linkOf(name string) picture.Link {
	if i := slices.Index(sim.LinkNames(), name); i >= 0 {
		return picture.Link(i)
	}
	return picture.NoLink
}

// fastSpeed is the speed from which what runs too fast is drawn steady, as in
// the window.
var fastSpeed = big.NewRat(30, 1)

// Script says what every frame shows.
type Script struct {
	rate     Rate
	frames   int
	passages []scenarios.Passage
	from, to int64 // ticks: the first and the last that are shown
}

// Plan is what a script is made of. From and To are flight times; To 0 is the
// end.
type Plan struct {
	Rate     Rate
	Speed    *big.Rat // seconds of flight in a second of film
	From, To time.Duration
	View     string
	Cues     *scenarios.Cues // nil: one passage
}

// mostFrames bounds a film: two hours at 120 frames a second.
const mostFrames = 2 * 3600 * 120

// Rules are what the cue file of a plan is read against.
func (p *Plan) Rules() scenarios.CueRules {
	return scenarios.CueRules{
		Views: Views(), Links: Links(), InLink: []string{LinkageView, BothView}, View: p.View, From: p.From, Speed: p.Speed,
	}
}

// NewScript plans the frames of a flight that was flown to an end.
func NewScript(p Plan, end time.Duration) (*Script, error) {
	to := p.To
	if to == 0 || to > end {
		to = end
	}
	s := &Script{rate: p.Rate}
	film := new(big.Rat)
	switch {
	case p.Cues != nil:
		if err := p.Cues.Check(end); err != nil {
			return nil, err
		}
		s.passages = p.Cues.Passages
		film = lengthOf(p.Cues, to)
	case p.From >= to:
		return nil, fmt.Errorf("the flight ends at %v: there is nothing to be seen of it from %v on", to, p.From)
	default:
		s.passages = []scenarios.Passage{{Start: ratOf(p.From), Speed: p.Speed, View: p.View}}
		if p.Speed.Sign() > 0 {
			film.Quo(ratOf(to-p.From), p.Speed)
		}
	}
	// The frames that begin before the end, one of the end itself included.
	n := film.Mul(film, big.NewRat(p.Rate.Num, p.Rate.Den))
	whole := new(big.Int).Quo(n.Num(), n.Denom())
	if !whole.IsInt64() || whole.Int64() >= mostFrames {
		return nil, fmt.Errorf("the film would have more than %d frames", mostFrames)
	}
	s.frames = int(whole.Int64()) + 1
	s.span(to)
	return s, nil
}

// ErrStill is the error of a film that would never come to an end.
var ErrStill = errors.New("a speed of 0 without a cue file shows nothing but one moment")

// lengthOf is how long a film lasts, seconds: as its file says, or until its last
// passage has run to the end.
func lengthOf(c *scenarios.Cues, to time.Duration) *big.Rat {
	if c.Length > 0 {
		return ratOf(c.Length)
	}
	last := &c.Passages[len(c.Passages)-1]
	left := new(big.Rat).Sub(ratOf(to), last.Start)
	if left.Sign() < 0 || last.Speed.Sign() == 0 {
		left.SetInt64(0)
	} else {
		left.Quo(left, last.Speed)
	}
	return left.Add(left, ratOf(last.At))
}

func ratOf(d time.Duration) *big.Rat { return big.NewRat(int64(d), int64(time.Second)) }

// Shot is what one frame shows.
type Shot struct {
	Frame   int
	Tick    int64
	View    string
	Link    picture.Link
	Caption string
	Fast    bool
}

// Frames is how many frames there are.
func (s *Script) Frames() int { return s.frames }

// Shot is what a frame shows; frames count from 0.
func (s *Script) Shot(frame int) Shot {
	film := s.rate.Time(frame)
	i := sort.Search(len(s.passages), func(i int) bool { return ratOf(s.passages[i].At).Cmp(film) > 0 }) - 1
	p := &s.passages[i]
	shot := Shot{Frame: frame, Tick: tickOf(p.Flight(film)), View: p.View, Link: linkOf(p.Link), Caption: p.Caption, Fast: p.Speed.Cmp(fastSpeed) >= 0}
	if s.to > 0 {
		shot.Tick = min(shot.Tick, s.to)
	}
	return shot
}

// tickOf is the last tick at or before a flight time in seconds.
func tickOf(t *big.Rat) int64 {
	ticks := new(big.Rat).Mul(t, big.NewRat(sim.TicksPerSecond, 1))
	q := new(big.Int).Quo(ticks.Num(), ticks.Denom())
	if !q.IsInt64() {
		return 1 << 40
	}
	return q.Int64()
}

// span finds the ticks that are shown.
func (s *Script) span(to time.Duration) {
	end := tickOf(ratOf(to))
	s.from, s.to = end, 0
	for i := range s.passages {
		p := &s.passages[i]
		until := new(big.Rat)
		if i+1 < len(s.passages) {
			until = ratOf(s.passages[i+1].At)
		} else {
			until.Set(s.rate.Time(s.frames - 1))
		}
		s.from = min(s.from, tickOf(p.Start))
		s.to = max(s.to, min(end, tickOf(p.Flight(until))))
	}
	s.to = max(s.to, s.from, 1)
}

// Captioned says whether there is a caption anywhere, so that room is kept.
func (s *Script) Captioned() bool {
	for i := range s.passages {
		if s.passages[i].Caption != "" {
			return true
		}
	}
	return false
}
