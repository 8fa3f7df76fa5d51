package calc

import (
	"errors"
	"math"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// State says how a quantity stands.
type State uint8

// The states.
const (
	Given  State = iota // locked: it stays
	Answer              // settled by the four that are given
	Free                // fewer than four are given: it may change
	None                // the four that are given have no answer
)

// figure is a value for each quantity, degrees and knots.
type figure [Quantities]float64

// Triangle is the wind triangle on the calculator. Make it with NewTriangle.
type Triangle struct {
	values  figure
	locked  [Quantities]bool
	problem error // why there is no answer; nil if there is one
}

// NewTriangle is an example: a heading and a wind are given.
func NewTriangle() *Triangle {
	t := &Triangle{values: figure{Heading: 50, TAS: 178, WindFrom: 305, WindSpeed: 33}}
	t.locked = [Quantities]bool{Heading: true, TAS: true, WindFrom: true, WindSpeed: true}
	t.settle(t.locked, nil)
	return t
}

// State says how a quantity stands.
func (t *Triangle) State(q Quantity) State {
	switch {
	case t.locked[q]:
		return Given
	case t.problem != nil:
		return None
	case t.given() == Settles:
		return Answer
	}
	return Free
}

// given is how many are given.
func (t *Triangle) given() (n int) {
	for _, l := range t.locked {
		if l {
			n++
		}
	}
	return n
}

// Value is the value of a quantity, degrees or knots; where there is no answer it is
// that with which the gap of the figure is smallest.
func (t *Triangle) Value(q Quantity) float64 { return t.values[q] }

// Text is the value as it is printed, a dash where there is none.
func (t *Triangle) Text(q Quantity) string {
	if t.State(q) == None {
		return look.Text(look.CalcNone)
	}
	return q.format(t.values[q])
}

// WindText is the wind as it is printed.
func (t *Triangle) WindText() string {
	return units.Wind{From: units.Angle(t.values[WindFrom]) * units.Degree, Speed: units.Speed(t.values[WindSpeed]) * units.Knot}.String()
}

// errFour is the error for a fifth quantity that would be given.
func errFour() error { return errors.New(look.Text(look.CalcFour)) }

// Toggle locks a quantity where it stands, or lets it go. A fifth is refused.
func (t *Triangle) Toggle(q Quantity) error {
	if !t.locked[q] && t.given() == Settles {
		return errFour()
	}
	t.locked[q] = !t.locked[q]
	t.settle(t.locked, holds[q][:])
	return nil
}

// LetAllGo unlocks all.
func (t *Triangle) LetAllGo() {
	t.locked = [Quantities]bool{}
	t.settle(t.locked, holds[Track][:])
}

// Refusal says why a value cannot be given to a quantity, nil if it can.
func (t *Triangle) Refusal(q Quantity) error {
	if !t.locked[q] && t.given() == Settles {
		return errFour()
	}
	return nil
}

// Type gives a quantity the value that was typed: 050, 050T, 178, 178 kt; for the wind
// also both of its figures, 305/33. It is locked then. What it printed already leaves
// the value as it is.
func (t *Triangle) Type(q Quantity, text string) error {
	if err := t.Refusal(q); err != nil {
		return err
	}
	if q == WindFrom || q == WindSpeed {
		if w, err := units.ParseWind(text); err == nil {
			return t.setWind(w)
		}
	}
	if text == t.Text(q) {
		t.locked[q] = true
		t.settle(t.locked, holds[q][:])
		return nil
	}
	v, err := q.parse(text)
	if err != nil {
		return err
	}
	return t.Set(q, v)
}

// Set gives a quantity a value and locks it.
func (t *Triangle) Set(q Quantity, v float64) error {
	if err := errors.Join(t.Refusal(q), q.check(v)); err != nil {
		return err
	}
	t.values[q], t.locked[q] = v, true
	t.settle(t.locked, holds[q][:])
	return nil
}

// setWind gives the wind both its figures.
func (t *Triangle) setWind(w units.Wind) error {
	next := *t
	for q, v := range map[Quantity]float64{WindFrom: w.From.Degrees(), WindSpeed: w.Speed.Knots()} {
		if err := q.check(v); err != nil {
			return err
		}
		next.values[q], next.locked[q] = v, true
	}
	if next.given() > Settles {
		return errFour()
	}
	*t = next
	t.settle(t.locked, holds[WindFrom][:])
	return nil
}

// Step moves a quantity by so many degrees or knots, to a whole one, and leaves its
// lock as it is.
func (t *Triangle) Step(q Quantity, by float64) error {
	if err := t.Refusal(q); err != nil {
		return err
	}
	v := math.Round(t.values[q]) + by
	if q.IsDirection() {
		v = units.WrapDegrees(v)
	}
	t.values[q] = math.Max(limits[q][0], math.Min(v, limits[q][1]))
	fixed := t.locked
	fixed[q] = true
	t.settle(fixed, holds[q][:])
	return nil
}

// Take takes up what the dials show: heading and true airspeed, and the wind that is
// set. The other two follow.
func (t *Triangle) Take(v *aboard.View) error {
	next := Triangle{locked: [Quantities]bool{Heading: true, TAS: true, WindFrom: true, WindSpeed: true}}
	next.values = figure{Heading: v.Heading.Degrees(), TAS: v.TAS.Knots(), WindFrom: v.WindSet.From.Degrees(), WindSpeed: v.WindSet.Speed.Knots()}
	for q := range Quantities {
		if Quantity(q).IsDirection() {
			next.values[q] = units.WrapDegrees(next.values[q])
		}
	}
	for _, q := range []Quantity{TAS, WindSpeed} {
		if err := q.check(next.values[q]); err != nil {
			return err
		}
	}
	next.settle(next.locked, nil)
	*t = next
	return nil
}

// plot makes an airplot.Triangle of what is fixed.
func (f figure) plot(fixed [Quantities]bool) airplot.Triangle {
	v := func(q Quantity) float64 {
		if fixed[q] {
			return f[q]
		}
		return math.NaN()
	}
	return airplot.Triangle{TASKnots: v(TAS), HeadingDegrees: v(Heading), WindKnots: v(WindSpeed), WindFromDegrees: v(WindFrom),
		GroundspeedKnots: v(Groundspeed), TrackDegrees: v(Track)}
}

// solved is the figure that four fixed quantities settle.
func (f figure) solved(fixed [Quantities]bool) (figure, error) {
	p, err := f.plot(fixed).Solve()
	if err != nil {
		return f, err
	}
	return figure{Heading: p.HeadingDegrees, TAS: p.TASKnots, WindFrom: p.WindFromDegrees, WindSpeed: p.WindKnots,
		Track: p.TrackDegrees, Groundspeed: p.GroundspeedKnots}, nil
}
