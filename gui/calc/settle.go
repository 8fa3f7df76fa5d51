package calc

import (
	"errors"
	"math"
	"strings"

	"stillair/gui/look"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// holds says, for a quantity that is changed while the figure is free, which of the
// others stay if they can, the most wanted first: the wind stays when the aircraft
// does something else, and the air vector when the wind changes.
var holds = [Quantities][Quantities - 1]Quantity{
	Heading:     {WindFrom, WindSpeed, TAS, Track, Groundspeed},
	TAS:         {WindFrom, WindSpeed, Heading, Track, Groundspeed},
	WindFrom:    {WindSpeed, Heading, TAS, Track, Groundspeed},
	WindSpeed:   {WindFrom, Heading, TAS, Track, Groundspeed},
	Track:       {WindFrom, WindSpeed, TAS, Groundspeed, Heading},
	Groundspeed: {WindFrom, WindSpeed, Track, Heading, TAS},
}

// settle works the figure from what is fixed, and holds of the rest as much as
// settles it, in the order of wish. Where nothing does, the problem is kept, with the
// figure that has the smallest gap.
func (t *Triangle) settle(fixed [Quantities]bool, wish []Quantity) {
	sets := completions(fixed, wish)
	for _, set := range sets {
		if f, err := t.values.held(set, len(sets) > 1); err == nil && f.sound() {
			t.values, t.problem = f, nil
			return
		}
	}
	_, t.problem = t.values.solved(sets[0])
	if t.problem == nil {
		t.problem = errOutside
	}
	t.values = t.values.nearest(sets[0], t.problem)
}

// held is the figure that holds a set of four; where two figures have them, and they
// are not all given (free), it is the one on the side on which it stood.
func (f figure) held(set [Quantities]bool, free bool) (figure, error) {
	g, err := f.solved(set)
	if free && (errors.Is(err, airplot.ErrMirror) || errors.Is(err, airplot.ErrTwo)) {
		return f.nearest(set, err), nil
	}
	return g, err
}

// errOutside is the problem of an answer beyond what the calculator shows.
var errOutside = errors.New("out of range")

// completions are the sets of four that hold all that is fixed, those that hold what
// is most wanted first. Quantities that are not in wish are not held.
func completions(fixed [Quantities]bool, wish []Quantity) (sets [][Quantities]bool) {
	n := 0
	for _, f := range fixed {
		if f {
			n++
		}
	}
	if n >= Settles {
		return [][Quantities]bool{fixed}
	}
	for i, q := range wish {
		if fixed[q] {
			continue
		}
		with := fixed
		with[q] = true
		sets = append(sets, completions(with, wish[i+1:])...)
	}
	return sets
}

// rounded is how far rounding may carry a value at its limit beyond it.
const rounded = 1e-6

// sound says whether all quantities lie where the calculator can show them.
func (f figure) sound() bool {
	for q, v := range f {
		if !Quantity(q).within(v, rounded) {
			return false
		}
	}
	return true
}

// Problem says in plain words why there is no answer, "" if there is one.
func (t *Triangle) Problem() string {
	switch {
	case t.problem == nil:
		return ""
	case errors.Is(t.problem, airplot.ErrMirror):
		return look.Text(look.CalcMirror)
	case errors.Is(t.problem, airplot.ErrTwo):
		return look.Text(look.CalcTwo)
	case errors.Is(t.problem, airplot.ErrMany):
		return look.Text(look.CalcMany)
	case errors.Is(t.problem, airplot.ErrNoLength):
		return look.Text(look.CalcNoLength)
	case errors.Is(t.problem, errOutside):
		return look.Text(look.CalcTooFar)
	}
	return look.Textf(look.CalcOpen, units.Figure(math.Max(0.1, t.Gap()), 1))
}

// Gap is by how many knots the figure fails to close, 0 if it closes.
func (t *Triangle) Gap() float64 {
	if t.problem == nil {
		return 0
	}
	f := t.values
	return minus(plus(polar(f[TAS], f[Heading]), polar(-f[WindSpeed], f[WindFrom])), polar(f[Groundspeed], f[Track])).size()
}

// Drift is the drift as it is printed: that of the printed heading and track, with L
// or R; "" where there is none to be told.
func (t *Triangle) Drift() string {
	if t.problem != nil {
		return ""
	}
	return t.values.drift(look.CalcDriftRight, look.CalcDriftLeft, look.CalcNoDrift)
}

// drift writes the difference of track and heading as printed into the words for a
// drift to the right, to the left, or none.
func (f figure) drift(right, left, none look.Key) string {
	turn := units.CompareDirections(units.Angle(f[Track])*units.Degree, units.Angle(f[Heading])*units.Degree).Difference
	size := strings.TrimLeft(turn, "+-")
	switch {
	case strings.HasPrefix(turn, "+"):
		return look.Textf(right, size)
	case size != turn:
		return look.Textf(left, size)
	}
	return look.Text(none)
}

// Said is the sentence under the figure: what is wrong, or what to see.
func (t *Triangle) Said() string {
	if problem := t.Problem(); problem != "" {
		return problem
	}
	if t.given() < Settles {
		return look.Text(look.CalcFreeSaid)
	}
	return t.values.drift(look.CalcSaidRight, look.CalcSaidLeft, look.CalcSaidNone)
}
