package paint

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/goregular"
)

// A stamp looks as the words drawn straight away, to a quarter of a pixel, and
// lies in the clip.
func TestHaloedWordsAreStamped(t *testing.T) {
	font, err := ParseFont("go", goregular.TTF)
	require.NoError(t, err)
	words := Type{Font: font, Size: 20, Anchor: Middle, Halo: color.NRGBA{R: 255, A: 255}, HaloWidth: 5}
	ink := color.NRGBA{B: 255, A: 255}
	straight, stamped := NewImage(200, 60), NewImage(200, 60)
	straight.glyphs(textMap(100.25, 30.5, "Mollyhawk 1012Z", words), "Mollyhawk 1012Z", words, ink)
	for range 3 { // twice from the stamp
		clear(stamped.Pixels().Pix)
		stamped.Text(100.25, 30.5, "Mollyhawk 1012Z", words, ink)
	}
	require.Len(t, stamped.stamps, 1)
	off := 0.0
	for i, v := range straight.Pixels().Pix {
		off += math.Abs(float64(v) - float64(stamped.Pixels().Pix[i]))
	}
	assert.Less(t, off/float64(len(straight.Pixels().Pix)), 3.0, "a quarter of a pixel at the rims")

	clipped := NewImage(200, 60)
	clipped.PushClip(R(100, 0, 100, 60))
	clipped.Text(100.25, 30.5, "Mollyhawk 1012Z", words, ink)
	for y := range 60 {
		assert.Zero(t, clipped.Pixels().RGBAAt(99, y).A)
	}
	for i := range 3 * mostStamps {
		stamped.Text(100, 30, fmt.Sprint(i), words, ink)
	}
	assert.LessOrEqual(t, len(stamped.stamps), mostStamps)
	assert.NotPanics(t, func() { stamped.Text(math.NaN(), 1e300, "x", words, ink) })
}
