package overlay

import "math"

// Weight is how heavy a line is drawn.
type Weight uint8

// The weights.
const (
	Fine Weight = iota
	Middle
	Heavy
)

// Curve is all that is to be seen of one curve.
type Curve struct {
	Level  float64 // minutes of arc, or microseconds
	Weight Weight
	Lines  []Line
}

// Family is the curves of one star, or of one pair of stations.
type Family struct {
	Name   string
	Step   float64 // from curve to curve
	Curves []Curve
	Read   []Line // the curve of what was read; nil: nothing, or it is not here
}

// family works the curves of a grid.
func (g *grid) family(name string, step, least, most float64, weight func(level float64) Weight) Family {
	f := Family{Name: name, Step: step}
	for _, level := range g.levels(step, least, most) {
		if lines := g.contour(level); len(lines) > 0 {
			f.Curves = append(f.Curves, Curve{level, weight(level), lines})
		}
	}
	return f
}

// whole says whether a level is a multiple of a step.
func whole(level, step float64) bool {
	return math.Abs(math.Remainder(level, step)) < 1e-6*step
}

// wide is the first of some steps with at least so much between its curves.
func wide(steps []float64, perUnit, least float64) float64 {
	for _, s := range steps {
		if s*perUnit >= least {
			return s
		}
	}
	return steps[len(steps)-1]
}

// AltitudeStep is the step of star curves, minutes, where a minute of arc is so
// many pixels on the chart: 10 where there is room, else 30, a degree and more.
func AltitudeStep(pixels float64) float64 { return wide([]float64{10, 30, 60, 300, 600}, pixels, 28) }

func altitudeWeight(step float64) func(float64) Weight {
	return func(level float64) Weight {
		switch {
		case step < 60 && whole(level, 60), step >= 60 && whole(level, 5*step):
			return Heavy
		case step < 30 && whole(level, 30):
			return Middle
		}
		return Fine
	}
}

// LatticeStep is the step of the lattice, us, where a microsecond is so many
// pixels on the baseline, where the lines stand closest: 25 where there is room.
func LatticeStep(pixels float64) float64 { return wide([]float64{25, 100, 500}, pixels, 5) }

func latticeWeight(step float64) func(float64) Weight {
	return func(level float64) Weight {
		if whole(level, 4*step) && step < 100 || step >= 100 && whole(level, 5*step) {
			return Heavy
		}
		return Fine
	}
}
