package airplot

import (
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// TimeDifference is the time by which the secondary's signal comes in after the
// master's, in seconds.
type TimeDifference float64

// Microsecond is the unit of the trade.
const Microsecond TimeDifference = 1e-6

// Microseconds returns the difference in microseconds.
func (t TimeDifference) Microseconds() float64 { return float64(t) * 1e6 }

// SpeedOfLight is that in a vacuum, exact by the definition of the metre.
const SpeedOfLight = 299792458 * units.MetrePerSecond

// Pair is a master and one of its secondaries, which sends when the master's
// signal reaches it and a delay has passed. Index is the refractive index of
// the air along the surface, 1 or more; 0 means 1.
type Pair struct {
	Master, Secondary units.Position
	Delay             TimeDifference
	Index             float64
}

// speed is that of the signal.
func (c Pair) speed() units.Speed {
	if c.Index == 0 {
		return SpeedOfLight
	}
	return SpeedOfLight / units.Speed(c.Index)
}

// At is the time difference at p: (d2 - d1 + b)/v + delay, with the geodesic
// distances d1 from the master, d2 from the secondary, and b between them.
func (c Pair) At(p units.Position) TimeDifference {
	return c.delayed(geodesy.Distance(p, c.Secondary) - geodesy.Distance(p, c.Master))
}

// delayed is the time difference for a difference of distances.
func (c Pair) delayed(d units.Length) TimeDifference {
	way := geodesy.Distance(c.Master, c.Secondary) + d
	return c.Delay + TimeDifference(way.Metres()/c.speed().MetresPerSecond())
}

// Range gives the time differences behind the secondary and behind the master,
// between which all others lie.
func (c Pair) Range() (low, high TimeDifference) {
	b := geodesy.Distance(c.Master, c.Secondary)
	return c.delayed(-b), c.delayed(b)
}

// Hyperbola is a time difference received from a pair.
type Hyperbola struct {
	Pair  Pair
	Read  TimeDifference
	Sigma TimeDifference
}

// Kind is TimeDifferenceKind.
func (Hyperbola) Kind() Kind { return TimeDifferenceKind }

func (h Hyperbola) departure(p units.Position) float64 { return float64(h.Read - h.Pair.At(p)) }

func (h Hyperbola) sigma(float64) float64 { return float64(h.Sigma) }

func (Hyperbola) before(p units.Position, r Run) units.Position { return r.back(p) }

// check refuses a time difference that cannot be received; a nanosecond beyond
// is rounding.
func (h Hyperbola) check() error {
	const slack = 1e-3 * Microsecond
	low, high := h.Pair.Range()
	if !(h.Read >= low-slack && h.Read <= high+slack) {
		return &ChainError{h.Read, low, high}
	}
	return nil
}

// farther is how much farther the secondary is than the master.
func (h Hyperbola) farther() units.Length {
	way := float64(h.Read-h.Pair.Delay) * h.Pair.speed().MetresPerSecond()
	return units.Length(way) - geodesy.Distance(h.Pair.Master, h.Pair.Secondary)
}

// Chain is a master and two secondaries.
type Chain struct {
	Master, A, B   units.Position
	DelayA, DelayB TimeDifference
	Index          float64
}

// Pairs gives its two pairs.
func (c Chain) Pairs() (a, b Pair) {
	return Pair{c.Master, c.A, c.DelayA, c.Index}, Pair{c.Master, c.B, c.DelayB, c.Index}
}

// Fix finds where two time differences were read, the place nearest to near
// first and the other one, if there is one, after it. The ellipse is for
// independent errors of sigma in each.
func (c Chain) Fix(near units.Position, a, b, sigma TimeDifference) ([]Fix, error) {
	pairA, pairB := c.Pairs()
	return Solve(near, []Line{
		{Locus: Hyperbola{pairA, a, sigma}, Source: "A"},
		{Locus: Hyperbola{pairB, b, sigma}, Source: "B"},
	})
}

// Lattice is the geometry of two time differences at a place.
type Lattice struct {
	ShiftA, ShiftB units.Length // by which a line moves per sigma
	Cut            units.Angle
	Ellipse        Ellipse
}

// LatticeOf works the geometry where the stations are seen in these directions,
// for errors of sigma in each time difference with a correlation between them
// (0.5 if all is the master's error). A line moves v sigma/(2 sin(psi/2)).
func LatticeOf(master, a, b units.Angle, v units.Speed, sigma TimeDifference, correlation float64) Lattice {
	scale := 1 / (v.MetresPerSecond() * float64(sigma))
	um := toward(master, scale)
	// moving toward a station shortens its distance
	ja, jb := um.minus(toward(a, scale)), um.minus(toward(b, scale))
	k := 1 / (1 - correlation*correlation)
	info := information{
		nn: k * (ja.north*ja.north - 2*correlation*ja.north*jb.north + jb.north*jb.north),
		ne: k * (ja.north*ja.east - correlation*(ja.north*jb.east+ja.east*jb.north) + jb.north*jb.east),
		ee: k * (ja.east*ja.east - 2*correlation*ja.east*jb.east + jb.east*jb.east),
	}
	return Lattice{
		ShiftA:  units.Length(1 / ja.size()),
		ShiftB:  units.Length(1 / jb.size()),
		Cut:     system{gradients: []vector{ja, jb}}.cut(),
		Ellipse: info.ellipse(),
	}
}

// LatticeAt is LatticeOf at a place, with the chain's speed.
func (c Chain) LatticeAt(p units.Position, sigma TimeDifference, correlation float64) Lattice {
	see := func(station units.Position) units.Angle {
		azimuth, _, _ := geodesy.GeodesicInverse(p, station)
		return azimuth
	}
	return LatticeOf(see(c.Master), see(c.A), see(c.B), Pair{Index: c.Index}.speed(), sigma, correlation)
}
