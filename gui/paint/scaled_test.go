package paint

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
)

// All that is drawn at half the size comes out at half the size: places, widths,
// dashes, letters, clips. The figures are half of those below.
func TestScaledHalvesEverything(t *testing.T) {
	var r Record
	s := NewScaled(&r, 0.5)
	ink := color.NRGBA{A: 255}
	s.PushClip(R(0, 0, 40, 20))
	s.Stroke(new(Path).Segment(Pt(2, 4), Pt(20, 4)), Pen{Width: 3, Dash: []float64{6, 2}}, ink)
	s.Fill(new(Path).Rect(R(10, 10, 4, 8)), ink)
	s.Text(8, 6, "air", Type{Size: 10, HaloWidth: 2}, ink)
	s.Turned(Turn(8, 6, 2, 90), "air", Type{Size: 10}, ink)
	s.Shade(R(2, 2, 4, 4), ink, ink)
	s.Image(R(2, 2, 4, 4), nil)
	s.PopClip()

	var want Record
	want.PushClip(R(0, 0, 20, 10))
	want.Stroke(new(Path).Segment(Pt(1, 2), Pt(10, 2)), Pen{Width: 1.5, Dash: []float64{3, 1}}, ink)
	want.Fill(new(Path).Rect(R(5, 5, 2, 4)), ink)
	want.Text(4, 3, "air", Type{Size: 5, HaloWidth: 1}, ink)
	want.Turned(Turn(4, 3, 1, 90), "air", Type{Size: 10}, ink)
	want.Shade(R(1, 1, 2, 2), ink, ink)
	want.Image(R(1, 1, 2, 2), nil)
	want.PopClip()
	assert.Equal(t, want.Calls, r.Calls)
}
