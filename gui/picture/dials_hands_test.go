package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// The index of the knob is the one line of ink on it; it stands where told.
func TestMilledKnobPointsWhereItStands(t *testing.T) {
	for _, deg := range []float64{0, 36, 90, 215.5} {
		r := dial(fullSize, func(b *Brush, x, y, r float64) { MilledKnob(b, x, y, r, deg) })
		found := 0
		for _, c := range r.Calls {
			if c.Name != "stroke" || c.Col != look.Of(look.Paper).OnBrass {
				continue
			}
			found++
			for _, p := range c.Path.Pts {
				assert.InDelta(t, 0, math.Remainder(bearing(p)-deg, 360), 1e-6)
			}
		}
		assert.Equal(t, 1, found)
	}
}

// The arm leans to the sense in use, and its letter is the stronger one.
func TestSenseLeverLeans(t *testing.T) {
	for _, east := range []bool{true, false} {
		r := record(fullSize, func(b *Brush) { SenseLever(b, paint.R(400, 400, 200, 100), east) })
		var tip paint.Point
		for _, c := range r.Calls {
			if c.Name == "stroke" && c.Col == look.Of(look.Paper).Brass {
				tip = c.Path.Pts[1]
			}
		}
		side := -1.0
		if east {
			side = 1
		}
		assert.Greater(t, side*(tip.X-500), 10.0)
		texts := r.Texts()
		require.Len(t, texts, 2)
		for _, c := range texts {
			letter := map[string]float64{"W": -1, "E": 1}[c.Text]
			assert.Greater(t, letter*(c.At.X-500), 30.0, "W left, E right")
			assert.Equal(t, letter == side, c.Col == look.Of(look.Paper).Ink, c.Text)
			assert.GreaterOrEqual(t, c.Type.Size, 13.5)
		}
	}
}

// The ring that fills covers as much of the circle as of the time.
func TestHoldRingFills(t *testing.T) {
	for share, want := range map[float64]float64{0: 0, 0.25: 90, 0.5: 180, 1: 360, 2: 360} {
		r := dial(fullSize, func(b *Brush, x, y, r float64) { HoldRing(b, x, y, r, share) })
		reach := 0.0
		for _, c := range r.Calls {
			if c.Name == "stroke" && c.Col == look.Of(look.Paper).OnBrass && c.Pen.Width > 10 {
				last := c.Path.Pts[len(c.Path.Pts)-1]
				reach = bearing(last)
				if reach < 1e-6 || reach > 360-1e-6 {
					reach = 360
				}
			}
		}
		assert.InDelta(t, want, reach, 1e-6, "%g", share)
	}
}

// At the sizes of the smallest window no figure falls under the smallest a dial
// may have (the look, section 3: 12.5).
func TestSmallDialsStayReadable(t *testing.T) {
	small := look.SizeOf(1280, 720, 1)
	for name, k := range kinds() {
		sizes := []float64{34, 44}
		if name == "small" || name == "standby" {
			sizes = []float64{22.5}
		}
		for _, r := range sizes {
			rec := record(small, func(b *Brush) { k.draw(b, mid, mid, r, 157) })
			for _, c := range rec.Texts() {
				assert.GreaterOrEqual(t, c.Type.Size, 12.4, "%s, R %g: %q", name, r, c.Text)
			}
		}
	}
}
