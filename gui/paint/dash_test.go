package paint

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A mark that ends within the rounding of a corner has no piece without a
// direction, and the marks together are as long as the dashes say.
func TestDashesHaveADirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		on, off := rapid.Float64Range(0.5, 12).Draw(t, "on"), rapid.Float64Range(0.5, 12).Draw(t, "off")
		pts := []Point{{}}
		length := 0.0
		for range rapid.IntRange(1, 12).Draw(t, "corners") {
			// Corners where a mark or a gap ends, but for the last bits of the sum.
			d := float64(rapid.IntRange(1, 5).Draw(t, "times"))*(on+off) + rapid.SampledFrom([]float64{0, on, 1e-13, -1e-13, on + 1e-12}).Draw(t, "rest")
			at := pts[len(pts)-1]
			pts = append(pts, Polar(at.X, at.Y, d, rapid.Float64Range(0, 360).Draw(t, "course")))
			length += d
		}
		drawn := 0.0
		Dashed(pts, []float64{on, off}, func(mark []Point) {
			for i := 1; i < len(mark); i++ {
				d := mark[i-1].Dist(mark[i])
				if d <= hardlyApart {
					t.Fatalf("%v and %v of a mark are one point", mark[i-1], mark[i])
				}
				drawn += d
			}
		})
		whole := math.Floor(length / (on + off))
		want := whole*on + math.Min(on, length-whole*(on+off))
		if math.Abs(drawn-want) > 1e-4 {
			t.Fatalf("%.6f drawn of %.6f, not %.6f", drawn, length, want)
		}
	})
}

// What is not a number is left out; before, it was never done with.
func TestNoNumberIsDrawnAsNothing(t *testing.T) {
	s := NewImage(20, 20)
	nan := math.NaN()
	s.Fill(new(Path).Polygon(Pt(2, 2), Pt(nan, nan), Pt(18, 18)), color.NRGBA{A: 255})
	s.Stroke(new(Path).Segment(Pt(nan, 3), Pt(5, nan)), Pen{Width: 3}, color.NRGBA{A: 255})
	assert.Zero(t, s.Pixels().Pix[3])
}
