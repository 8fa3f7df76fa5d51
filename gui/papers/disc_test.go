package papers

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/paint"
	"stillair/integrator/units"
)

// exactTAS is the isentropic relation in knots and feet, with compressibility
// (constants of the standard atmosphere from memory: 661.4788 kt, 6.87559e-6 a
// foot, 38.9679 kt for the root of a kelvin).
func exactTAS(cas, ft, c float64) float64 {
	delta := math.Pow(1-6.87559e-6*ft, 5.25588)
	qc := (math.Pow(1+0.2*math.Pow(cas/661.4788, 2), 3.5) - 1) / delta
	return math.Sqrt(5*(math.Pow(qc+1, 2.0/7)-1)) * 38.9679 * math.Sqrt(c+273.15)
}

// discTAS reads the discs: height against temperature, then CAS against TAS.
func discTAS(cas, ft, c float64) float64 {
	turn := angleOfTemperature(c) - angleOfHeight(ft)
	return 100 * math.Pow(10, (angleOfSpeed(cas)+turn)/360)
}

// What the disc says of its own error is so: below 200 kt and 20,000 ft, in any
// air, at most 1.3 percent too much, and never too little by a tenth percent.
func TestDiscIsAsGoodAsItSays(t *testing.T) {
	worst := 0.0
	for cas := 80.0; cas <= 200; cas += 10 {
		for ft := 0.0; ft <= 20000; ft += 1000 {
			for off := -20.0; off <= 20; off += 10 {
				c := 15 - 0.0019812*ft + off
				e := discTAS(cas, ft, c)/exactTAS(cas, ft, c) - 1
				assert.Greater(t, e, -0.001)
				worst = math.Max(worst, e)
			}
		}
	}
	// The example on the page.
	assert.InDelta(t, 178, discTAS(158, 8000, -1), 0.5)
	assert.InDelta(t, 178, exactTAS(158, 8000, -1), 0.5)
	assert.Less(t, worst, 0.0135)
	assert.Greater(t, worst, 0.012, "the sentence on the disc says something")
}

// The marks stand in the file where the laws put them. Pressure ratios from the
// standard atmosphere (ICAO Doc 7488, from memory): 0.8320 at 5000 ft, 0.6877 at
// 10,000, 0.4595 at 20,000 ft.
func TestDiscMarks(t *testing.T) {
	strokes := printed(t, A4, DiscPage{})[0]
	outer := paint.Pt(margin+discOuter+1, 21+discOuter+2)
	inner := paint.Pt(A4.W-margin-discInner-4, 21+discInner+3)
	marked := func(at paint.Point, side, deg float64) bool {
		return slices.ContainsFunc(strokes, func(s segment) bool {
			bearing := math.Atan2(s.z.X-at.X, at.Y-s.z.Y) * 180 / math.Pi
			return math.Abs(units.WrapHalfDegrees(bearing-deg)) < 0.02 && math.Abs(at.Dist(s.a)-discInner) < 0.01 && math.Abs(at.Dist(s.z)-discInner-side*3.2) < 0.01
		})
	}
	for _, kt := range []float64{110, 150, 200, 300, 400} {
		assert.True(t, marked(outer, 1, 360*math.Log10(kt/100)), "true airspeed %g", kt)
		assert.True(t, marked(inner, -1, 360*math.Log10(kt/100)), "calibrated airspeed %g", kt)
	}
	for ft, ratio := range map[float64]float64{5000: 0.8320, 10000: 0.6877, 20000: 0.4595} {
		assert.True(t, marked(inner, -1, discMiddle+180*math.Log10(ratio)), "height %g", ft)
	}
	for _, c := range []float64{-60, -20, 0, 20, 40} {
		assert.True(t, marked(outer, 1, discMiddle+180*math.Log10((c+273.15)/288.15)), "temperature %g", c)
	}
}
