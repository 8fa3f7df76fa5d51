package chain

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// A published swing of eight points and the coefficients that fit it with a
// residual of 0.05 degrees: Handbook of Magnetic Compass Adjustment (NGA 2004),
// article 501; coefficients by least squares with scipy. The largest miss of the
// eight is below 0.15.
func TestDeviationsAreThoseOfAPublishedSwing(t *testing.T) {
	curve := deviations(&fault.Order{ID: "compass-deviation", Params: []float64{1, 11.9397, 7.9598, 5, 1.5}}, 1)
	for heading, want := range map[int]float64{0: 10.5, 90: 11.5, 180: -5.5, 270: -12.5, 360: 10.5} {
		assert.InDelta(t, want, curve[heading/10], 0.15, "%03d", heading)
	}
}

// The curve passes through what the compass does at the heading flown: on straight
// legs it is right to a fifth of a degree, though a straight line from ten to ten
// degrees is read.
func TestTrueCurveIsThatOfTheCompass(t *testing.T) {
	f := shippedFlight(t, "after-the-swing")
	compared := 0
	for ; !f.Over(); f.fly(20 * time.Second) {
		s := f.story()
		var l picture.Linkage
		s.Picture(&l)
		if s.Judge()[picture.LinkDeviation].Stands != picture.Broken {
			require.Nil(t, l.Hands.TrueCurve)
			continue
		}
		require.NotNil(t, l.Hands.TrueCurve)
		if s.turning() {
			continue
		}
		at := units.Wrap(units.Angle(s.Now.Compass)).Degrees() / 10
		i := int(math.Min(35, at))
		share := at - float64(i)
		drawn := l.Hands.TrueCurve[i]*(1-share) + l.Hands.TrueCurve[i+1]*share
		does := turnOf(units.Angle(s.Truth.Compass), units.Angle(s.Now.Compass)).Degrees()
		require.InDelta(t, does, drawn, 0.2, s.View.Elapsed)
		compared++
	}
	assert.Greater(t, compared, 100)
}

func TestNoCurveWhileHidden(t *testing.T) {
	f := shippedFlight(t, "after-the-swing")
	f.fly(15 * time.Minute)
	s := f.story()
	s.Truth, s.Faults = nil, nil
	var l picture.Linkage
	s.Picture(&l)
	assert.Nil(t, l.Hands.TrueCurve)
}
