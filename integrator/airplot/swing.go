package airplot

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"stillair/integrator/units"
)

// Coefficients are those of a deviation, or of a quadrantal error:
//
//	d(H) = A + B sin H + C cos H + D sin 2H + E cos 2H
//
// with H the compass heading, or the relative bearing read.
type Coefficients struct{ A, B, C, D, E units.Angle }

// terms are what the coefficients are multiplied by.
func terms(h units.Angle) [5]float64 {
	s, c := math.Sincos(float64(h))
	return [5]float64{1, s, c, 2 * s * c, (c - s) * (c + s)}
}

// At is the deviation on a heading.
func (k Coefficients) At(h units.Angle) units.Angle {
	t := terms(h)
	return k.A + k.B*units.Angle(t[1]) + k.C*units.Angle(t[2]) + k.D*units.Angle(t[3]) + k.E*units.Angle(t[4])
}

// Deviation is the deviation on a compass heading.
func (k Coefficients) Deviation(h units.CompassHeading) units.Deviation {
	return units.Deviation(k.At(units.Angle(h)))
}

// Reading is one of a swing: a heading (a relative bearing) and the deviation
// (the error) found on it.
type Reading struct{ On, Found units.Angle }

// DeviationFound is what a heading check gives: the true heading (by landmark or
// body), the variation and what the compass reads.
func DeviationFound(heading units.TrueHeading, variation units.Variation, compass units.CompassHeading) units.Deviation {
	return units.Deviation(units.WrapHalf(units.Angle(heading.Magnetic(variation)) - units.Angle(compass)))
}

// HeadingByBody is the true heading from the azimuth of a body and its relative
// bearing.
func HeadingByBody(azimuth, relative units.Angle) units.TrueHeading {
	return units.TrueHeading(units.Wrap(azimuth - relative))
}

// ErrSwing is the error for readings that do not determine a deviation.
var ErrSwing = errors.New("a swing needs readings on three headings at least that are not close together")

// Swing finds the coefficients by least squares, and the root mean square of
// what is left. Readings that determine three only (the four cardinal points)
// give A, B and C, with D and E zero.
func Swing(readings []Reading) (Coefficients, units.Angle, error) {
	k, _, rms, err := SwingTerms(readings)
	return k, rms, err
}

// SwingTerms is Swing and says how many coefficients the readings determine, five or
// three; 0 with an error.
func SwingTerms(readings []Reading) (k Coefficients, terms int, rms units.Angle, err error) {
	for _, terms := range []int{5, 3} {
		if k, ok := fit(readings, terms); ok {
			return k, terms, left(k, readings), nil
		}
	}
	return Coefficients{}, 0, 0, ErrSwing
}

// SwingABC finds A, B and C alone.
func SwingABC(readings []Reading) (Coefficients, units.Angle, error) {
	if k, ok := fit(readings, 3); ok {
		return k, left(k, readings), nil
	}
	return Coefficients{}, 0, ErrSwing
}

// fit is least squares of the first so many coefficients; ok is false where they
// are not determined.
func fit(readings []Reading, n int) (Coefficients, bool) {
	const worst = 1e6 // condition of the normal equations; headings 20 apart give less
	if len(readings) < n {
		return Coefficients{}, false
	}
	normal, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for _, r := range readings {
		t := terms(r.On)
		row := mat.NewVecDense(n, t[:n])
		normal.SymRankOne(normal, 1, row)
		right.AddScaledVec(right, float64(r.Found), row)
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) || chol.Cond() > worst {
		return Coefficients{}, false
	}
	x := mat.NewVecDense(5, nil)
	if err := chol.SolveVecTo(x.SliceVec(0, n).(*mat.VecDense), right); err != nil {
		return Coefficients{}, false
	}
	at := func(i int) units.Angle { return units.Angle(x.AtVec(i)) }
	return Coefficients{at(0), at(1), at(2), at(3), at(4)}, true
}

func left(k Coefficients, readings []Reading) units.Angle {
	sum := 0.0
	for _, r := range readings {
		sum += squared(float64(r.Found - k.At(r.On)))
	}
	return units.Angle(math.Sqrt(sum / float64(len(readings))))
}

// SwingByEight finds the coefficients as the card has it, from the deviations
// on N, NE, E, SE, S, SW, W, NW in turn.
func SwingByEight(d [8]units.Angle) Coefficients {
	n, ne, e, se, s, sw, w, nw := d[0], d[1], d[2], d[3], d[4], d[5], d[6], d[7]
	return Coefficients{
		A: (n + ne + e + se + s + sw + w + nw) / 8,
		B: (e - w) / 2,
		C: (n - s) / 2,
		D: (ne + sw - se - nw) / 4,
		E: (n + s - e - w) / 4,
	}
}

// SwingByFour finds A, B and C from the deviations on N, E, S, W in turn.
func SwingByFour(d [4]units.Angle) Coefficients {
	return Coefficients{A: (d[0] + d[1] + d[2] + d[3]) / 4, B: (d[1] - d[3]) / 2, C: (d[0] - d[2]) / 2}
}

// CardRow is a row of the deviation card: for a magnetic heading, steer.
type CardRow struct {
	For   units.MagneticHeading
	Steer units.CompassHeading
}

// Card is the deviation card, with rows every so many degrees from north on.
// What is steered satisfies steer + deviation(steer) = for, solved by repeating.
func (k Coefficients) Card(every units.Angle) []CardRow {
	n := int(math.Round(2 * math.Pi / float64(every)))
	rows := make([]CardRow, n)
	for i := range rows {
		magnetic := units.MagneticHeading(units.Wrap(units.Angle(i) * every))
		rows[i] = CardRow{magnetic, k.Steer(magnetic)}
	}
	return rows
}

// Steer is the compass heading for a magnetic heading. Deviations that turn
// faster than the heading have none; the repetition stops after 100 turns then.
func (k Coefficients) Steer(m units.MagneticHeading) units.CompassHeading {
	c := units.CompassHeading(m)
	for range 100 {
		next := m.Compass(k.Deviation(c))
		moved := units.WrapHalf(units.Angle(next) - units.Angle(c))
		c = next
		if math.Abs(float64(moved)) < 1e-13 {
			break
		}
	}
	return c
}
