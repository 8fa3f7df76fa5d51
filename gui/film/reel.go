package film

import (
	"context"
	"image"
	"runtime"
	"sync"

	"stillair/sim"
)

// Sink takes the frames of a film.
type Sink interface {
	// Encode makes of a frame what is to be written; it is called on many
	// goroutines at once and keeps nothing of the image.
	Encode(frame int, im *image.RGBA) ([]byte, error)
	// Put takes what Encode made, in the order of the frames.
	Put(frame int, data []byte) error
	// Close is called once all frames are in.
	Close() error
}

// Run is one run of a film.
type Run struct {
	Engine *sim.Engine // that has flown it; the run has it for itself
	Script *Script
	Look   Look
	Sinks  []Sink
	Jobs   int                   // frames drawn at a time; 0: as many as there are cores
	Told   func(done, total int) // after each frame, in order; nil: nobody asks
}

// job is a frame on its way: what to draw, then what was made of it.
type job struct {
	moment *Moment
	data   [][]byte
	err    error
	done   chan struct{}
}

// Make draws all frames and hands them to the sinks, which it closes if all went
// well. It ends early when ctx does.
func (r *Run) Make(ctx context.Context) error {
	studio, err := NewStudio(r.Engine, r.Script, r.Look)
	if err != nil {
		return err
	}
	n := r.Jobs
	if n == 0 {
		n = runtime.GOMAXPROCS(0)
	}
	ctx, stop := context.WithCancel(ctx)
	todo, order := make(chan *job), make(chan *job, 2*n)
	var all sync.WaitGroup
	all.Go(func() { r.moments(ctx, studio, todo, order) })
	for range n {
		all.Go(func() { r.draw(ctx, studio.NewArtist(), todo) })
	}
	err = r.collect(ctx, order)
	stop()
	all.Wait()
	if err != nil {
		return err
	}
	for _, s := range r.Sinks {
		if err := s.Close(); err != nil {
			return err
		}
	}
	return nil
}

// moments lays out the moments in order.
func (r *Run) moments(ctx context.Context, st *Studio, todo, order chan<- *job) {
	defer close(order)
	defer close(todo)
	for i := range r.Script.Frames() {
		m := take(r.Engine, r.Script.Shot(i), r.Look.Reveal)
		st.settle(m)
		j := &job{moment: m, done: make(chan struct{})}
		for _, to := range []chan<- *job{order, todo} {
			select {
			case to <- j:
			case <-ctx.Done():
				return
			}
		}
	}
}

// draw draws one frame after the other.
func (r *Run) draw(ctx context.Context, a *Artist, todo <-chan *job) {
	for j := range todo {
		if ctx.Err() == nil {
			im := a.Draw(j.moment)
			for _, s := range r.Sinks {
				data, err := s.Encode(j.moment.Frame, im)
				j.data = append(j.data, data)
				if err != nil {
					j.err = err
					break
				}
			}
		}
		close(j.done)
	}
}

// collect hands the frames on in their order.
func (r *Run) collect(ctx context.Context, order <-chan *job) error {
	for j := range order {
		select {
		case <-j.done:
		case <-ctx.Done():
			return ctx.Err()
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if j.err != nil {
			return j.err
		}
		for i, s := range r.Sinks {
			if err := s.Put(j.moment.Frame, j.data[i]); err != nil {
				return err
			}
		}
		if r.Told != nil {
			r.Told(j.moment.Frame+1, r.Script.Frames())
		}
	}
	return ctx.Err()
}
