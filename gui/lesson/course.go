// Package lesson leads through the guided steps of a flight: it says how a step
// begins, sees whether what it asks has been done, judges answers and measures
// pins. It is fed with what the crew can see (helm.Moment) and with what the
// learner does in the panel; it knows no toolkit and no clock.
//
// A step begins with a cue, which the helm carries out at one moment. Until that
// moment has come (Moment.Cues) nothing is judged, so that what was still to be
// seen of the step before counts for nothing. What has once been done stays done
// until the step begins anew.
package lesson

import (
	"time"

	"stillair/gui/helm"
	"stillair/sim"
)

// Course is the way through the steps of one flight.
type Course struct {
	steps []sim.Lesson
	began []int64 // tick at which each step began last; -1: not yet
	at    int
	cues  int // asked for so far
	step  state
}

// state is what is known of the step in hand.
type state struct {
	fresh   bool      // nothing has been seen of it yet
	since   time.Time // it began
	logged  int       // lines of the log when it began
	first   float64   // how far off it was then
	now     float64   // and is now; 1 or less is there
	reading string
	done    bool
	stopped bool // the clock has come to where it was to stop
	running bool
	hinted  bool
	answer  int // -1: none
	named   string
	picked  string
	pins    []Pin
	answers []Off // of the pins, once the truth has been shown
	truth   Measured
}

// New makes a course of steps; there is at least one.
func New(steps []sim.Lesson) *Course {
	c := &Course{steps: steps, began: make([]int64, len(steps))}
	for i := range c.began {
		c.began[i] = -1
	}
	c.step = state{fresh: true, answer: -1}
	return c
}

// Steps are all steps.
func (c *Course) Steps() []sim.Lesson { return c.steps }

// At is the number of the step in hand, from 0.
func (c *Course) At() int { return c.at }

// Step is the one in hand.
func (c *Course) Step() *sim.Lesson { return &c.steps[c.at] }

// Last says whether no step comes after it.
func (c *Course) Last() bool { return c.at == len(c.steps)-1 }

// Begin takes up a step and says what the helm must do.
func (c *Course) Begin(i int, m *helm.Moment, now time.Time) helm.Cue {
	c.at = max(0, min(len(c.steps)-1, i))
	return c.begin(m, now, c.Step().Start.GoTo)
}

// Next goes on, whether the step has been done or not: a lecturer may skip.
func (c *Course) Next(m *helm.Moment, now time.Time) (helm.Cue, bool) {
	if c.Last() {
		return helm.Cue{}, false
	}
	return c.Begin(c.at+1, m, now), true
}

// Back begins the step before anew.
func (c *Course) Back(m *helm.Moment, now time.Time) (helm.Cue, bool) {
	if c.at == 0 {
		return helm.Cue{}, false
	}
	c.at--
	return c.again(m, now), true
}

// Repeat begins the step anew: what was done in it is taken back.
func (c *Course) Repeat(m *helm.Moment, now time.Time) helm.Cue { return c.again(m, now) }

// again begins the step where it began last, if it did.
func (c *Course) again(m *helm.Moment, now time.Time) helm.Cue {
	to := c.Step().Start.GoTo
	if to < 0 {
		to = c.began[c.at]
	}
	return c.begin(m, now, to)
}

func (c *Course) begin(m *helm.Moment, now time.Time, to int64) helm.Cue {
	s := c.Step()
	c.step = state{fresh: true, since: now, answer: -1}
	c.began[c.at] = to
	if to < 0 {
		c.began[c.at] = m.View.Tick
	}
	cue := helm.Cue{Back: to, Rate: s.Start.Rate, Truth: s.Start.Truth, LetGo: true}
	switch s.Start.Clock {
	case sim.RunTheClock:
		cue.Clock = helm.StartClock
	case sim.StopTheClock:
		cue.Clock = helm.StopClock
	}
	if s.Predict != nil {
		hidden := false
		cue.Truth = &hidden
		if s.Start.Clock == sim.ClockAsItIs {
			cue.Clock = helm.StopClock
		}
	}
	return c.asked(cue)
}

// asked counts a cue, so that what was to be seen before it is not judged.
func (c *Course) asked(cue helm.Cue) helm.Cue {
	c.cues++
	return cue
}

// Observe takes up the newest moment. If has is true the helm must carry out a
// cue: the clock has come to where the step lets it stop.
func (c *Course) Observe(m *helm.Moment) (cue helm.Cue, has bool) {
	if m.Cues < c.cues {
		return cue, false
	}
	s, start := &c.step, &c.Step().Start
	s.running = m.Playing
	c.judge(m)
	if start.RunTo < 0 || s.stopped || m.View.Tick < start.RunTo {
		return cue, false
	}
	s.stopped = true
	if !m.Playing && m.View.Tick == start.RunTo {
		return cue, false
	}
	return c.asked(helm.Cue{Back: start.RunTo, Clock: helm.StopClock}), true
}

// Answer chooses an answer of the question, from 0.
func (c *Course) Answer(i int) {
	if q := c.Step().Question; q == nil || i < 0 || i >= len(q.Answers) {
		return
	}
	c.step.answer = i
	if g := &c.Step().Until; g.Kind == sim.AnswerGoal && (!g.OnlyRight || c.Right()) {
		c.step.done = true
	}
}

// Answered is the answer chosen, -1 if none is.
func (c *Course) Answered() int { return c.step.answer }

// Right says whether the answer chosen is the right one.
func (c *Course) Right() bool {
	q := c.Step().Question
	return q != nil && c.step.answer == q.Right
}

// Name names a fault by its id.
func (c *Course) Name(id string) {
	c.step.named = id
	if g := &c.Step().Until; g.Kind == sim.FaultGoal && id == g.Word {
		c.step.done = true
	}
}

// Named is the fault named last, "" if none was.
func (c *Course) Named() string { return c.step.named }

// Pick picks a link by its name in a flight.
func (c *Course) Pick(link string) {
	c.step.picked = link
	if g := &c.Step().Until; g.Kind == sim.LinkGoal && link == g.Word {
		c.step.done = true
	}
}

// Hint shows the hint before its time.
func (c *Course) Hint() { c.step.hinted = true }

// HintDue says whether the hint of the step is to be seen.
func (c *Course) HintDue(now time.Time) bool {
	s := c.Step()
	return s.Hint != "" && (c.step.hinted || now.Sub(c.step.since) >= s.HintAfter)
}

// Done says whether what the step asks has been done. A step that asks nothing is
// done as soon as it has begun.
func (c *Course) Done() bool {
	s := c.Step()
	return c.step.done || s.Until.Kind == sim.NoGoal && s.Predict == nil
}

// Live is how far the learner has come.
type Live struct {
	Reading string  // of what is to be set, as it stands; "" where there is nothing to read
	Share   float64 // of the way from where the step began, of one
	Done    bool
}

// Live is how far the learner has come.
func (c *Course) Live() Live {
	l := Live{Reading: c.step.reading, Done: c.Done()}
	switch s := &c.step; {
	case l.Done:
		l.Share = 1
	case s.fresh || s.first <= 1:
	default:
		l.Share = max(0, min(1, (s.first-s.now)/(s.first-1)))
	}
	return l
}

// Clock says what the clock of the step does, as a panel tells it.
type Clock struct {
	Running bool
	Until   int64 // tick at which it stops by itself; -1: none
}

// Clock says what the clock does.
func (c *Course) Clock() Clock {
	k := Clock{Running: c.step.running, Until: -1}
	if !c.step.stopped && c.step.running {
		k.Until = c.Step().Start.RunTo
	}
	return k
}
