package papers

import (
	"fmt"

	"stillair/integrator/units"
	"stillair/sim/stream"
)

// lot is the chance of one problem: a stream of its own, so that a pupil's
// problems do not hang on how many pupils there are.
type lot struct{ s stream.Stream }

func newLot(seed uint64, pupil int, kind string) *lot {
	return &lot{stream.New(seed, fmt.Sprintf("problem %s %d", kind, pupil))}
}

// uniform is a number from lo to hi.
func (l *lot) uniform(lo, hi float64) float64 {
	u := l.s.Uniform()
	l.s.Draw()
	return lo + (hi-lo)*u
}

// whole is one of lo, lo + step, ... up to hi, each as likely.
func (l *lot) whole(lo, hi, step int) int {
	n := (hi-lo)/step + 1
	return lo + step*min(n-1, int(l.uniform(0, float64(n))))
}

// speed, length and angle make quantities of whole figures as they are printed.
func speed(kt int) units.Speed    { return units.Speed(kt) * units.Knot }
func degrees(deg int) units.Angle { return units.Angle(deg) * units.Degree }

func windOf(from, kt int) units.Wind { return units.Wind{From: degrees(from % 360), Speed: speed(kt)} }
