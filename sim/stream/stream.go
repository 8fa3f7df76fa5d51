// Package stream is the chance of the world: one stream of random numbers for
// each instrument, drawn once a tick whether anybody looks or not, so that a
// fault that comes and goes changes no later number.
//
// A stream is a PCG-DXSM generator by value (M. O'Neill, 2014; math/rand/v2),
// seeded with the first 16 bytes of SHA-256(seed, name): the seed as eight
// little-endian bytes, then the name. Normal deviates come from one draw by the
// inverse distribution function, so that a stream neither hides nor shares state.
package stream

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"math/rand/v2"
)

// Stream is one instrument's chance. Copying it keeps it.
type Stream struct {
	source rand.PCG
	last   uint64
}

// New seeds the stream of an instrument and draws its first number.
func New(seed uint64, instrument string) Stream {
	text := binary.LittleEndian.AppendUint64(nil, seed)
	sum := sha256.Sum256(append(text, instrument...))
	var s Stream
	s.source.Seed(binary.LittleEndian.Uint64(sum[:8]), binary.LittleEndian.Uint64(sum[8:16]))
	s.Draw()
	return s
}

// Draw takes the number of the next tick.
func (s *Stream) Draw() { s.last = s.source.Uint64() }

// Uniform is this tick's number, above 0 and below 1.
func (s *Stream) Uniform() float64 { return (float64(s.last>>11) + 0.5) / (1 << 53) }

// Normal is this tick's number as a standard normal deviate.
func (s *Stream) Normal() float64 { return normalQuantile(s.Uniform()) }

// normalQuantile inverts the normal distribution function: M. J. Wichura,
// Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477-484, accurate to
// about 1e-16; its coefficients are written here from memory and checked in the
// test against the complementary error function.
func normalQuantile(p float64) float64 {
	q := p - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - q*q
		return q * ratio(r, &centre)
	}
	r := p
	if q > 0 {
		r = 1 - p
	}
	r = math.Sqrt(-math.Log(r))
	var z float64
	if r <= 5 {
		z = ratio(r-1.6, &flank)
	} else {
		z = ratio(r-5, &tail)
	}
	return math.Copysign(z, q)
}

// rational is numerator and denominator, constant term first.
type rational [2][8]float64

var centre = rational{
	{3.3871328727963666080e0, 1.3314166789178437745e+2, 1.9715909503065514427e+3, 1.3731693765509461125e+4,
		4.5921953931549871457e+4, 6.7265770927008700853e+4, 3.3430575583588128105e+4, 2.5090809287301226727e+3},
	{1, 4.2313330701600911252e+1, 6.8718700749205790830e+2, 5.3941960214247511077e+3,
		2.1213794301586595867e+4, 3.9307895800092710610e+4, 2.8729085735721942674e+4, 5.2264952788528545610e+3},
}

var flank = rational{
	{1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
		1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4},
	{1, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
		1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9},
}

var tail = rational{
	{6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
		2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7},
	{1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
		7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15},
}

func ratio(x float64, c *rational) float64 {
	var top, foot float64
	for i := len(c[0]) - 1; i >= 0; i-- {
		top = float64(top*x) + c[0][i]
		foot = float64(foot*x) + c[1][i]
	}
	return top / foot
}
