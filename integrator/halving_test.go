package integrator

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/train"
	"stillair/integrator/units"
)

// bend is what is wrong in a steady turn, where every law of the links is smooth.
var bend = Imperfections{
	Drive:    DriveImperfection{Slip: 0.03, GearError: 0.02},
	Resolver: ResolverImperfection{Zero: 3 * units.Degree, Skew: 2 * units.Degree, NorthGain: 0.02, EastCentre: 0.01},
	Train:    train.Imperfection{GearOffset: units.Degree},
}

// turning is where a turn of so many degrees a second from 000 ends after some
// seconds, in steps of h seconds.
func turning(lat, rate, seconds, h float64, w Imperfections) *State {
	var s State
	s.Start(sense(250, 0), 0, units.Wind{}, units.At(lat, 0), w)
	for i := range int(math.Round(seconds / h)) {
		s.Step(sense(250, rate*float64(i+1)*h), h)
	}
	return &s
}

// Half the step, a quarter of the error (rule of the middle, order 2): the
// latitude against the closed form of the turn, the longitude against steps of
// a 64th.
func TestHalvingTheStep(t *testing.T) {
	const lat, rate, seconds = 60, 0.05, 1600 // 80 degrees; x below 0.05 at all steps
	// d(north)/dt = V k ((1+kN) cos(a)), a = H + z
	k, z, w := 250.0/3600*0.97*1.02, 3*math.Pi/180, rate*math.Pi/180
	north := k * 1.02 / w * (math.Sin(z+w*seconds) - math.Sin(z))
	fine := turning(lat, rate, seconds, 1, bend)
	var last [2]float64
	for i, h := range []float64{80, 40, 20} {
		s := turning(lat, rate, seconds, h, bend)
		got := [2]float64{s.North.Total - north, s.Air.Lon.Total - fine.Air.Lon.Total}
		if i > 0 {
			// The chord factor leaves order 4 of the turn in the shafts: a
			// sixteenth; the secant of the middle order 2.
			assert.InDelta(t, 16, last[0]/got[0], 1, "north, %v s", h)
			assert.InDelta(t, 4, last[1]/got[1], 0.3, "longitude, %v s", h)
		}
		last = got
	}
}

// A ripple and a threshold are worked within the step: whatever the step, an
// even speed-up ends with the same miles.
func TestThresholdAndRippleDoNotDependOnTheStep(t *testing.T) {
	run := func(h float64) float64 {
		var s State
		w := Imperfections{}
		w.AirLog.Threshold, w.AirLog.Hysteresis = 61*units.Knot, 7*units.Knot
		s.Start(sense(0, 90), 0, units.Wind{}, units.At(0, 0), w)
		for i := range int(200 / h) {
			at := float64(i+1) * h
			s.Step(sense(min(at, 200-at), 90), h) // to 100 kt in 100 s and back
		}
		return s.AirLog.Miles.Total
	}
	// Up: 61 to 100 kt, down: 100 to 54 kt, at 1 kt/s.
	want := (100*100-61*61)/2.0/3600 + (100*100-54*54)/2.0/3600
	for _, h := range []float64{4, 2, 1, 0.25, dt} {
		assert.InDelta(t, want, run(h), 1e-9, "%v s", h)
	}
}
