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
	// how many: those of the shard, and those that share the error out. It is
	// called by one goroutine at a time.
	Progress func(done, total int)
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
	r := &Result{Law: j.Law, Seed: j.Seed, Every: j.Every, Asked: j.Flights, Flights: []Flight{}}
	var err error
	way := newCourse(j.Plan, sim.TicksOf(j.Every))
	if r.Nominal, err = way.flyNominal(j.Plan); err != nil {
		return nil, err
	}
	if n := len(r.Nominal.Errors); n*j.Flights > maxErrors {
		return nil, fmt.Errorf("%d flights looked at %d times each: at most %d looks in all", j.Flights, n, maxErrors)
	}
	trials := j.Law.trials()
	c := &crew{job: &j, course: way, ctx: ctx, trials: trials, sides: 2 * len(trials), out: make([]Flight, 2*len(trials)+j.To-j.From)}
	if err := c.fly(); err != nil {
		return nil, err
	}
	if c.begun >= c.sides {
		r.Effects = []Effect{}
		for i, t := range trials {
			r.Effects = append(r.Effects, j.Law.effects(t, &r.Nominal, &c.out[2*i], &c.out[2*i+1])...)
		}
		r.Flights = c.out[c.sides:c.begun:c.begun]
	}
	if c.begun < len(c.out) {
		return r, context.Cause(ctx)
	}
	return r, nil
}

// crew are the goroutines of a run. Task i is a side of a trial, or after those a
// flight; each writes its own place of out, so that who flies what, and when, does
// not matter.
type crew struct {
	job    *Job
	course *course
	ctx    context.Context
	trials []trial
	sides  int
	out    []Flight

	mu          sync.Mutex
	begun, done int
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
				c.finish(c.task(i))
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

func (c *crew) finish(err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	if err != nil && c.failed == nil {
		c.failed = err
	}
	if c.job.Progress != nil && err == nil {
		c.job.Progress(c.done, len(c.out))
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
