package overlay

import (
	"math"

	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// LatticeOrder is what the lattice of a pulse chain is worked from.
type LatticeOrder struct {
	Master, A, B units.Position
	Window       Window
	Near         units.Position // by which fixes are told apart
	Step         float64        // us, of LatticeStep
	Read         [2]Read
}

// LatticeSheet is what comes of it.
type LatticeSheet struct {
	Curve [2]Family
	// Weak are slanted strokes over the sea where the lattice is of little use.
	Weak  []Line
	Fixes []airplot.Fix // where the lines of what was read cross, the nearest first
	// Worth are, for each fix, the shifts of the lines and the ellipse for a
	// microsecond (one standard deviation) in each.
	Worth []airplot.Lattice
	Err   error // why there is no fix
}

// Pairs are the two pairs of the chain.
func (o LatticeOrder) Pairs() [2]airplot.Pair {
	return [2]airplot.Pair{airplot.ChainPair(o.Master, o.A), airplot.ChainPair(o.Master, o.B)}
}

// differences is the time difference of a pair over the earth, us. It runs evenly
// with the difference of the distances, from behind the secondary, where that is
// the baseline less, to behind the master: what does not change from place to
// place is worked once.
func differences(pair airplot.Pair) func(units.Position) float64 {
	baseline := geodesy.Distance(pair.Master, pair.Secondary)
	low, high := pair.Range()
	perMetre := (high - low).Microseconds() / (2 * baseline.Metres())
	return func(p units.Position) float64 {
		far := geodesy.Distance(p, pair.Secondary)
		closer := geodesy.Distance(p, pair.Master)
		return low.Microseconds() + (far-closer+baseline).Metres()*perMetre
	}
}

// edge is how far the levels stay from a pair's limits, us.
const edge = 0.5

// Lattice works the lattice.
func Lattice(o LatticeOrder) (s LatticeSheet) {
	for i, pair := range o.Pairs() {
		name := [2]string{"A", "B"}[i]
		if !o.Window.usable() {
			continue
		}
		g := gridOf(o.Window, near, differences(pair))
		low, high := pair.Range()
		s.Curve[i] = g.family(name, o.Step, low.Microseconds()+edge, high.Microseconds()-edge, latticeWeight(o.Step))
		if o.Read[i].Known {
			s.Curve[i].Read = g.contour(o.Read[i].Value)
		}
	}
	if o.Window.usable() {
		s.Weak = o.weak()
	}
	s.fix(o)
	return s
}

func (s *LatticeSheet) fix(o LatticeOrder) {
	if !o.Read[0].Known || !o.Read[1].Known {
		return
	}
	pairs := o.Pairs()
	chain := airplot.Chain{Master: o.Master, A: o.A, B: o.B, DelayA: pairs[0].Delay, DelayB: pairs[1].Delay, Index: pairs[0].Index}
	td := func(i int) airplot.TimeDifference {
		return airplot.TimeDifference(o.Read[i].Value) * airplot.Microsecond
	}
	s.Fixes, s.Err = chain.Fix(o.Near, td(0), td(1), airplot.Microsecond)
	for _, f := range s.Fixes {
		s.Worth = append(s.Worth, chain.LatticeAt(f.Position, airplot.Microsecond, 0))
	}
}

// LeastAngle is the angle below which the lattice is of little use: between the
// two stations of a pair as seen from a place, where 1 us moves a line by 1.9 NM
// and more, or between the two lines where they cut.
const LeastAngle = 5 * units.Degree

// poor says whether a place lies where the lattice is of little use. Azimuths
// are those of great circles, a tenth of a degree from the geodesics'.
func (o LatticeOrder) poor(p units.Position) bool {
	var az [3]units.Angle
	for i, station := range [3]units.Position{o.Master, o.A, o.B} {
		_, az[i] = geodesy.GreatCircle(p, station)
	}
	a, b := units.WrapHalf(az[1]-az[0]), units.WrapHalf(az[2]-az[0])
	if math.Abs(float64(a)) < float64(LeastAngle) || math.Abs(float64(b)) < float64(LeastAngle) {
		return true
	}
	// each line runs along the bisector of its pair
	cut := math.Abs(math.Remainder(float64(a-b)/2, math.Pi))
	return cut < float64(LeastAngle)
}

// hatches is how many slanted strokes cross the width of a window.
const hatches = 60

// weak are the parts of slanted strokes, on the chart at 45 degrees, that lie
// where the lattice is of little use.
func (o LatticeOrder) weak() (all []Line) {
	w := o.Window
	low, high := geodesy.IsometricLatitude(w.South), geodesy.IsometricLatitude(w.North)
	tall, wide := high-low, float64(w.East-w.West)
	pitch := wide / hatches
	for from := math.Floor((float64(w.West)-tall)/pitch) * pitch; from < float64(w.East); from += pitch {
		lon := func(psi float64) float64 { return from + psi - low }
		begin := math.Max(low, low+float64(w.West)-from)
		end := math.Min(high, low+float64(w.East)-from)
		all = append(all, o.weakPart(begin, end, pitch/6, func(psi float64) units.Position {
			return units.Position{Lat: geodesy.LatitudeOfIsometric(psi), Lon: units.Angle(lon(psi))}
		})...)
	}
	return all
}

// weakPart walks along one stroke and keeps its pieces from the first poor place
// to the last.
func (o LatticeOrder) weakPart(from, to, step float64, at func(psi float64) units.Position) (all []Line) {
	var piece Line
	n := int(math.Ceil((to - from) / step))
	for k := range n + 1 {
		p := at(math.Min(to, from+float64(k)*step))
		poor := o.poor(p)
		if poor {
			piece = append(piece, p)
		}
		if (!poor || k == n) && len(piece) > 1 {
			all = append(all, Line{piece[0], piece[len(piece)-1]})
		}
		if !poor {
			piece = piece[:0]
		}
	}
	return all
}
