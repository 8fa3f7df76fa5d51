package spread

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"stillair/sim"
)

// Limits of a job.
const (
	MaxFlights = 1_000_000
	MinEvery   = time.Minute
	MaxEvery   = 12 * time.Hour
	maxErrors  = 50_000_000 // of 16 bytes
)

// Job is what is to be flown.
type Job struct {
	Plan    *sim.Plan
	Law     Law
	Seed    uint64
	Every   time.Duration // between samples
	Flights int           // of the whole
	// From and To are the flights of this shard: From <= k < To; both 0: all.
	From, To int
	Workers  int // goroutines that fly; below 1: one
	// Progress, if there is one, is told each time a flight has been flown, of
	// how many: those of the shard, and those that share the error out; soFar,
	// called within it only, gives what there is: a prefix of the flights. It is
	// called by one goroutine at a time.
	Progress func(done, total int, soFar func() *Result)
}

// Result is what has been flown. Flights stand in the order of their numbers.
type Result struct {
	Law     Law
	Seed    uint64
	Every   time.Duration
	Asked   int // flights of the whole
	Nominal Nominal
	Effects []Effect // nil if it was cancelled before
	Flights []Flight
}

func (j *Job) check() error {
	if err := j.Law.Check(); err != nil {
		return err
	}
	if j.From == 0 && j.To == 0 {
		j.To = j.Flights
	}
	switch {
	case j.Plan == nil:
		return errors.New("no plan to fly")
	case j.Flights < 1 || j.Flights > MaxFlights:
		return fmt.Errorf("flights = %d: must be 1 to %d", j.Flights, MaxFlights)
	case j.From < 0 || j.To > j.Flights || j.From > j.To:
		return fmt.Errorf("flights %d to %d: must be within 0 to %d", j.From, j.To, j.Flights)
	case j.Every < MinEvery || j.Every > MaxEvery:
		return fmt.Errorf("every = %v: must be %v to %v", j.Every, MinEvery, MaxEvery)
	}
	return nil
}

// Shard gives the flights of part i of n, i from 1.
func Shard(flights, i, n int) (from, to int) {
	return int(int64(flights) * int64(i-1) / int64(n)), int(int64(flights) * int64(i) / int64(n))
}

// Run flies. If ctx is cancelled no further flight begins, those begun are flown
// to their ends, and what there is comes back with the error of ctx: a prefix of
// the shard's flights, which merges with what is flown later.
func Run(ctx context.Context, j Job) (*Result, error) {
	if err := j.check(); err != nil {
		return nil, err
	}
	r := Result{Law: j.Law, Seed: j.Seed, Every: j.Every, Asked: j.Flights, Flights: []Flight{}}
	var err error
	way := newCourse(j.Plan, sim.TicksOf(j.Every))
	if r.Nominal, err = way.flyNominal(j.Plan); err != nil {
		return nil, err
	}
	if n := len(r.Nominal.Errors); n*j.Flights > maxErrors {
		return nil, fmt.Errorf("%d flights looked at %d times each: at most %d looks in all", j.Flights, n, maxErrors)
	}
	trials := j.Law.trials()
	tasks := 2*len(trials) + j.To - j.From
	c := &crew{
		job: &j, base: r, course: way, ctx: ctx, trials: trials, sides: 2 * len(trials),
		out: make([]Flight, tasks), ended: make([]bool, tasks),
	}
	if err := c.fly(); err != nil {
		return nil, err
	}
	if c.begun < len(c.out) {
		return c.soFar(), context.Cause(ctx)
	}
	return c.soFar(), nil
}

// soFar is what there is: every task before c.whole has been done.
func (c *crew) soFar() *Result {
	r := c.base
	if c.whole >= c.sides {
		r.Effects = []Effect{}
		for i, t := range c.trials {
			r.Effects = append(r.Effects, r.Law.effects(t, &r.Nominal, &c.out[2*i], &c.out[2*i+1])...)
		}
		r.Flights = c.out[c.sides:c.whole:c.whole]
	}
	return &r
}

// crew are the goroutines of a run. Task i is a side of a trial, or after those a
// flight; each writes its own place of out, so that who flies what, and when, does
// not matter.
type crew struct {
	job    *Job
	base   Result // with no flights yet
	course *course
	ctx    context.Context
	trials []trial
	sides  int
	out    []Flight

	mu          sync.Mutex
	begun, done int
	ended       []bool // which tasks
	whole       int    // the tasks before this one have all ended
	failed      error
}

// fly flies all tasks, or as many as there is time for.
func (c *crew) fly() error {
	var all sync.WaitGroup
	for range max(1, min(c.job.Workers, len(c.out))) {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := c.next(); i >= 0; i = c.next() {
				c.finish(i, c.task(i))
			}
		}()
	}
	all.Wait()
	return c.failed
}

// next is the next task, -1 if there is none.
func (c *crew) next() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.begun == len(c.out) || c.failed != nil || c.ctx.Err() != nil {
		return -1
	}
	c.begun++
	return c.begun - 1
}

func (c *crew) finish(i int, err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	for c.ended[i] = true; c.whole < len(c.out) && c.ended[c.whole]; {
		c.whole++
	}
	if err != nil && c.failed == nil {
		c.failed = err
	}
	if c.job.Progress != nil && err == nil {
		c.job.Progress(c.done, len(c.out), c.soFar)
	}
}

// task flies task i.
func (c *crew) task(i int) (err error) {
	j, k := c.job, c.job.From+i-c.sides
	if i < c.sides {
		d := c.trials[i/2].drawn(1 - 2*float64(i%2))
		c.out[i], err = c.course.flyOne(&d, 0)
		return err
	}
	d := j.Law.Draw(j.Seed, k)
	if c.out[i], err = c.course.flyOne(&d, k); err != nil {
		return fmt.Errorf("flight %d: %w", k, err)
	}
	return nil
}
