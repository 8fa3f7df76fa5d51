package film

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// A still is the frame that a film from the start has at that moment, in any size.
func TestAStillOfEachView(t *testing.T) {
	e, _ := flown(t, "first-look")
	for _, view := range Views() {
		for _, size := range []Size{{640, 360}, {1001, 777}, {360, 640}} {
			im, err := One(e, 40*time.Minute, view, Look{Size: size})
			require.NoError(t, err)
			assert.Equal(t, size.W, im.Rect.Dx())
			assert.Equal(t, size.H, im.Rect.Dy())
			for i := 3; i < len(im.Pix); i += 4 {
				require.EqualValues(t, 255, im.Pix[i], "%s %v: every pixel is opaque", view, size)
			}
		}
	}
	assert.EqualValues(t, 40*60*16, e.Tick(), "it was taken there")
}

// With a clear ground nothing lies between the cards, and what lies on them is as it was.
func TestAStillWithAClearGround(t *testing.T) {
	e, _ := flown(t, "first-look")
	ground := look.Of(look.Paper).Ground
	for _, view := range Views() {
		size := Size{960, 540}
		whole, err := One(e, 40*time.Minute, view, Look{Size: size})
		require.NoError(t, err)
		clear, err := One(e, 40*time.Minute, view, Look{Size: size, Clear: true})
		require.NoError(t, err)
		empty, same, full := 0, 0, 0
		for i := 0; i < len(clear.Pix); i += 4 {
			switch {
			case clear.Pix[i+3] == 0:
				empty++
				got := [3]uint8(whole.Pix[i : i+3])
				require.Equal(t, [3]uint8{ground.R, ground.G, ground.B}, got, "%s: only the ground goes", view)
			case clear.Pix[i+3] == 255:
				full++
				if string(clear.Pix[i:i+3]) == string(whole.Pix[i:i+3]) {
					same++
				}
			}
		}
		n := len(clear.Pix) / 4
		assert.Greater(t, empty, n/50, view)
		assert.Greater(t, full, n/3, view)
		assert.Greater(t, float64(same), 0.95*float64(full), "%s: but for the halo of words", view)
	}
}
