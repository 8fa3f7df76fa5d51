package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A degree is 24 units tall, and less where a curve would leave the card, which
// has 64 above its middle and below.
func TestCurvesStayOnTheirCard(t *testing.T) {
	var h Hands
	assert.Equal(t, cardTall, h.degreeTall())
	h.Deviation[3] = -1
	assert.Equal(t, cardTall, h.degreeTall())
	for _, v := range []float64{2, -4.1, 30} {
		h.TrueCurve = &[37]float64{}
		h.TrueCurve[20] = v
		if v < 0 {
			v = -v
		}
		assert.LessOrEqual(t, v*h.degreeTall(), 60.0)
		assert.Greater(t, v*h.degreeTall(), 40.0, "but are seen")
	}
}
