package sky

import (
	"cmp"
	"math"
	"slices"

	"stillair/integrator/units"
)

// Between these altitudes bodies are chosen for sights: below, refraction is
// unsure, above, a bubble is hard to hold on the body and its azimuth changes
// fast (common practice, no source).
const (
	LowestSight  = 15 * units.Degree
	HighestSight = 65 * units.Degree
)

// moonLost is how near the Sun the Moon is too thin to be shot (common
// practice, no source).
const moonLost = 30 * units.Degree

// Sighted is a body as it stands from a place, without refraction.
type Sighted struct {
	Body              Body
	Altitude, Azimuth units.Angle
}

// Up appends to dst the bodies that stand between two altitudes at a place, in
// the order of their numbers, whether or not there is light to see them by.
func (s *Sky) Up(dst []Sighted, at units.Position, low, high units.Angle) []Sighted {
	for b := Body(1); b <= Moon; b++ {
		if h, az := s.Horizontal(b, at); h >= low && h <= high {
			dst = append(dst, Sighted{b, h, az})
		}
	}
	return dst
}

// ForSights appends what can be shot from a place: by day Sun and Moon, from the
// end of civil twilight on stars and Moon, between LowestSight and HighestSight;
// the Moon only when it stands clear of the Sun. Clouds are another matter.
func (s *Sky) ForSights(dst []Sighted, at units.Position) []Sighted {
	start := len(dst)
	dst = s.Up(dst, at, LowestSight, HighestSight)
	dark := s.Light(at) > CivilTwilight
	thin := s.sun.dot(s.moon) > math.Cos(moonLost.Radians())
	kept := dst[:start]
	for _, b := range dst[start:] {
		if b.Body == Moon && !thin || b.Body != Moon && b.Body.IsStar() == dark {
			kept = append(kept, b)
		}
	}
	return kept
}

// Pair is two bodies whose position lines cross.
type Pair struct {
	A, B     Sighted
	Crossing units.Angle // of the position lines, 0 to 90 degrees
}

// Crossing is the acute angle between the position lines of two azimuths.
func Crossing(a, b units.Angle) units.Angle {
	apart := units.Angle(math.Abs(units.WrapHalf(a - b).Radians()))
	return min(apart, 180*units.Degree-apart)
}

// Pairs appends to dst every pair of the bodies whose lines cross at an angle
// of at least, the nearest to a right angle first, of equals the brighter
// (common practice, no source).
func Pairs(dst []Pair, up []Sighted, least units.Angle) []Pair {
	start := len(dst)
	for i, a := range up {
		for _, b := range up[i+1:] {
			if c := Crossing(a.Azimuth, b.Azimuth); c >= least {
				dst = append(dst, Pair{a, b, c})
			}
		}
	}
	slices.SortStableFunc(dst[start:], func(p, q Pair) int {
		return cmp.Or(cmp.Compare(q.Crossing, p.Crossing), cmp.Compare(p.dim(), q.dim()))
	})
	return dst
}

// dim is the magnitude of the fainter of the two.
func (p Pair) dim() float64 { return max(p.A.Body.Magnitude(), p.B.Body.Magnitude()) }
