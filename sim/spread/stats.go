package spread

import (
	"math"
	"sort"
	"time"

	"stillair/sim"
)

// Moment is how the flights stand at a sampling time.
type Moment struct {
	At   time.Duration // for the end: of the flight without drawn errors
	End  bool          // each flight at its own end
	N    int           // flights that had not ended before
	Mean sim.Offset
	Cov  Covariance // about the mean, over N - 1
	Miss float64    // median of the misses: distances from the true position
	R50  float64    // the least circle about the mean that holds half of them
	R95  float64    // and 95 in 100
	Axes Ellipse    // of Cov
	// Share is the part of each term in the variance, by first order; Shared is
	// false where that is not known: a trial had ended before, or none was flown.
	Share  [terms]float64
	Shared bool
	// FirstOrder is the covariance that the effects add up to, Growth that of the
	// closed form.
	FirstOrder, Growth Covariance
}

// Links are the shares by link.
func (m *Moment) Links() (l [Links]float64) {
	for t, s := range m.Share {
		l[facts[t].Link] += s
	}
	return l
}

// Dominant is the link with the greatest share; false if there are no shares.
func (m *Moment) Dominant() (Link, bool) {
	shares := m.Links()
	best := Link(0)
	for l := range Links {
		if shares[l] > shares[best] {
			best = l
		}
	}
	return best, shares[best] > 0
}

// Moments gives how the flights stand at each sampling time that the flight
// without drawn errors reached, and at the end.
func (r *Result) Moments() []Moment {
	last := len(r.Nominal.Errors)
	all := make([]Moment, 0, last+1)
	for i := range last + 1 {
		all = append(all, r.moment(i, last))
	}
	return all
}

// Points are the errors of the flights at the end, in the order of their numbers.
func (r *Result) Points() []sim.Offset {
	all := make([]sim.Offset, len(r.Flights))
	for i := range r.Flights {
		all[i] = r.Flights[i].End
	}
	return all
}

func (r *Result) moment(i, last int) Moment {
	m := Moment{At: time.Duration(i) * r.Every}
	way := r.Nominal.EndWay
	if i == last {
		m.At, m.End = sim.TimeOf(r.Nominal.Ticks), true
	} else {
		way = r.Nominal.Ways[i]
	}
	var points []sim.Offset
	for k := range r.Flights {
		if o, ok := r.Flights[k].at(i, last); ok {
			points = append(points, o)
		}
	}
	m.of(points)
	m.share(r.Effects, i, last)
	m.Growth = r.Law.Growth(way)
	return m
}

// of works the figures of some points.
func (m *Moment) of(points []sim.Offset) {
	m.N = len(points)
	if m.N == 0 {
		return
	}
	for _, p := range points {
		m.Mean.North += p.North
		m.Mean.East += p.East
	}
	m.Mean = times(m.Mean, 1/float64(m.N))
	var sum Covariance
	miss, off := make([]float64, m.N), make([]float64, m.N)
	for i, p := range points {
		n, e := p.North-m.Mean.North, p.East-m.Mean.East
		sum = sum.plus(n, e)
		miss[i], off[i] = p.NM(), math.Hypot(n, e)
	}
	if m.N > 1 {
		over := 1 / float64(m.N-1)
		m.Cov = Covariance{sum.NN * over, sum.EE * over, sum.NE * over}
	}
	m.Axes = m.Cov.Ellipse()
	sort.Float64s(miss)
	sort.Float64s(off)
	m.Miss, m.R50, m.R95 = holding(miss, 0.5), holding(off, 0.5), holding(off, 0.95)
}

// holding is the least of sorted distances within which lie at least a part p.
func holding(sorted []float64, p float64) float64 {
	i := int(math.Ceil(p*float64(len(sorted)))) - 1
	return sorted[max(0, min(i, len(sorted)-1))]
}

// share shares the variance out to the terms, if every trial had come so far.
func (m *Moment) share(effects []Effect, i, last int) {
	var sum Covariance
	var part [terms]float64
	for k := range effects {
		g := &effects[k]
		f := Flight{Errors: g.Errors, End: g.End}
		o, ok := f.at(i, last)
		if !ok {
			return
		}
		sum = sum.plus(o.North, o.East)
		part[g.Term] += o.North*o.North + o.East*o.East
	}
	m.FirstOrder, m.Shared = sum, len(effects) > 0
	if all := sum.NN + sum.EE; all > 0 {
		for t := range part {
			m.Share[t] = part[t] / all
		}
	}
}
