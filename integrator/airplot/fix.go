package airplot

import (
	"errors"
	"math"
	"sort"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Fix is a place that position lines agree on.
type Fix struct {
	Position units.Position
	Ellipse  Ellipse
	Cut      units.Angle // the largest angle at which two of the lines cut
	// Residuals are the readings less what would be read here, in sigmas, in
	// the order of the lines.
	Residuals []float64
}

// meeting is how near, in sigmas, two lines must come to be said to meet.
const meeting = 1e-4

// Solve finds the fix of two or more lines, near the DR position. Where two
// lines cross twice both places are given, the nearer one first.
//
// The errors are ErrTooFew, ErrNoSigma, ErrNoMeet, ErrNoFix, a *ChainError, or
// a *ParallelError.
func Solve(near units.Position, lines []Line) ([]Fix, error) {
	if err := check(lines); err != nil {
		return nil, err
	}
	var found []Fix
	var failed error = ErrNoFix
	try := func(start units.Position) {
		fix, err := solveFrom(start, lines)
		switch {
		case err != nil:
			failed = err
		case !known(found, fix):
			found = append(found, fix)
		}
	}
	begin := starts(near, lines)
	for _, start := range begin {
		if len(found) > 1 || len(found) > 0 && len(lines) > 2 { // the rest is for the stubborn
			break
		}
		try(start)
	}
	if len(lines) == 2 && len(found) == 1 {
		for _, start := range roundabout(found[0].Position) {
			try(start)
		}
	}
	if len(found) == 0 {
		return nil, reason(failed, near, lines)
	}
	sort.SliceStable(found, func(i, j int) bool {
		return geodesy.Distance(near, found[i].Position) < geodesy.Distance(near, found[j].Position)
	})
	return found, nil
}

// reason is why there is no fix: lines that are parallel near the DR position
// may meet nowhere, or half round the earth.
func reason(failed error, near units.Position, lines []Line) error {
	if m := metricFor(lines); m == byArc && errors.Is(failed, ErrNoMeet) {
		return failed // two circles side by side, or one in the other
	}
	if cut := at(near, lines, metricFor(lines)).cut(); cut < LeastCut {
		return &ParallelError{cut}
	}
	return failed
}

// check refuses what cannot be a fix.
func check(lines []Line) error {
	if len(lines) < 2 {
		return ErrTooFew
	}
	for _, l := range lines {
		if !(l.Locus.sigma(1) > 0) {
			return ErrNoSigma
		}
		if td, is := l.Locus.(Hyperbola); is {
			if err := td.check(); err != nil {
				return err
			}
		}
	}
	return nil
}

// starts are places to begin from. For two lines the first ones are where two
// circles or two hyperbolas of a sphere would cross, and the DR position comes
// after them; for more it is the DR position, and the crossings are a resort.
func starts(near units.Position, lines []Line) []units.Position {
	var all []units.Position
	if len(lines) == 2 {
		all = crossings(near, lines[0], lines[1])
	}
	all = append(all, near)
	if len(lines) == 2 {
		return all
	}
	for i := range lines {
		for j := range i {
			all = append(all, crossings(near, lines[i], lines[j])...)
		}
	}
	return all
}

// roundabout are places to begin from round a crossing, a few miles off: where two
// crossings lie close together, those of the sphere may both lead to one of them.
func roundabout(p units.Position) (all []units.Position) {
	for _, miles := range []float64{6, 20} {
		for bearing := 0 * units.Degree; bearing < 360*units.Degree; bearing += 45 * units.Degree {
			all = append(all, onEllipsoid.moved(p, toward(bearing, miles*1852)))
		}
	}
	return all
}

// known says whether a fix has been found before.
func known(found []Fix, fix Fix) bool {
	for _, f := range found {
		if geodesy.Distance(f.Position, fix.Position) < 10*units.Metre {
			return true
		}
	}
	return false
}

// system is the readings as they stand at a place, in units of their sigmas.
type system struct {
	departures []float64
	gradients  []vector
	sigmas     []float64
}

// at works the readings at p.
func at(p units.Position, lines []Line, m metric) system {
	var s system
	for _, l := range lines {
		g := m.gradient(l, p)
		sigma := l.Locus.sigma(g.size())
		s.sigmas = append(s.sigmas, sigma)
		s.departures = append(s.departures, l.departure(p)/sigma)
		s.gradients = append(s.gradients, g.times(1/sigma))
	}
	return s
}

// cost is the sum of squares at p, with the sigmas as they stand in s.
func (s system) cost(p units.Position, lines []Line) float64 {
	sum := 0.0
	for i, l := range lines {
		r := l.departure(p) / s.sigmas[i]
		sum += r * r
	}
	return sum
}

// step is the normal equations' step, damped: with damping k the diagonal is
// raised by k times its mean, which turns the step downhill and shortens it.
func (s system) step(damping float64) vector {
	info, b := s.normal()
	k := damping * (info.nn + info.ee) / 2
	info.nn, info.ee = info.nn+k, info.ee+k
	return info.solve(b)
}

func (s system) normal() (info information, b vector) {
	for i, g := range s.gradients {
		info.add(g)
		b.north += g.north * s.departures[i]
		b.east += g.east * s.departures[i]
	}
	return info, b
}

// cut is the largest acute angle between two lines.
func (s system) cut() units.Angle {
	largest := 0.0
	for i, g := range s.gradients {
		for _, h := range s.gradients[:i] {
			angle := math.Abs(math.Atan2(g.cross(h), g.dot(h)))
			largest = math.Max(largest, math.Min(angle, math.Pi-angle))
		}
	}
	return units.Angle(largest)
}

const (
	enoughSteps = 80
	smallStep   = 1e-3         // metres
	farthest    = 600 * 1852.0 // a single step, metres
	dampingTop  = 1e9          // no step downhill is left
	dampingLow  = 1e-12        // taken for none
)

// solveFrom goes downhill from a place to the nearest fix.
func solveFrom(p units.Position, lines []Line) (Fix, error) {
	m := metricFor(lines)
	damping := 1e-6
	for range enoughSteps {
		s := at(p, lines, m)
		next, size, ok := s.descend(p, lines, m, &damping)
		if !ok || size < smallStep {
			return conclude(next, lines, m)
		}
		p = next
	}
	if len(lines) == 2 { // wandering along lines that do not meet
		return conclude(p, lines, m)
	}
	return Fix{}, ErrNoFix
}

// descend takes one step that does not lead uphill, shorter and shorter ones
// until there is one; ok is false where there is none.
func (s system) descend(p units.Position, lines []Line, m metric, damping *float64) (next units.Position, size float64, ok bool) {
	now := s.cost(p, lines)
	if math.IsNaN(now) {
		return p, 0, false
	}
	for ; *damping < dampingTop; *damping *= 10 {
		v := s.step(*damping)
		if size = v.size(); size > farthest {
			v, size = v.times(farthest/size), farthest
		}
		next = m.moved(p, v)
		if s.cost(next, lines) <= now*(1+1e-12)+1e-18 {
			*damping = math.Max(*damping/30, dampingLow)
			return next, size, true
		}
	}
	return p, 0, false
}

// conclude makes a fix of a place where no step leads further down.
func conclude(p units.Position, lines []Line, m metric) (Fix, error) {
	s := at(p, lines, m)
	sum := 0.0
	for _, r := range s.departures {
		sum += r * r
	}
	cut := s.cut()
	switch {
	case math.IsNaN(sum) || math.IsNaN(float64(cut)):
		return Fix{}, ErrNoFix
	case len(lines) == 2 && sum > meeting*meeting:
		return Fix{}, ErrNoMeet
	case cut < LeastCut:
		return Fix{}, &ParallelError{cut}
	}
	info, _ := s.normal()
	return Fix{Position: p, Ellipse: info.ellipse(), Cut: cut, Residuals: s.departures}, nil
}
