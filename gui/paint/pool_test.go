package paint

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func flat(w, h int, c color.NRGBA) *image.RGBA {
	s := NewImage(w, h)
	s.Fill(new(Path).Rect(R(0, 0, float64(w), float64(h))), c)
	return s.Pixels()
}

// Within the rings the lit picture, outside nothing is changed, in each ring the
// lit picture darkened as said; half a pixel at the boundaries may be between.
func TestPoolShowsTheLitPicture(t *testing.T) {
	lit, unlit, shade := color.NRGBA{R: 200, G: 100, B: 40, A: 255}, color.NRGBA{R: 10, G: 20, B: 30, A: 255}, color.NRGBA{R: 8, A: 255}
	dark := []float64{0.55, 0.36, 0.20, 0.10}
	rapid.Check(t, func(t *rapid.T) {
		p := Pool{
			At:     Pt(rapid.Float64Range(-30, 330).Draw(t, "x"), rapid.Float64Range(-30, 230).Draw(t, "y")),
			Radius: rapid.Float64Range(20, 120).Draw(t, "r"), Ring: rapid.Float64Range(1.5, 9).Draw(t, "ring"),
			Dark: dark, Shade: shade, Clip: image.Rect(20, 10, 280, 190),
		}
		dst := flat(300, 200, unlit)
		p.Compose(dst, flat(300, 200, lit))
		for y := range 200 {
			for x := range 300 {
				want, sure := unlit, true
				d := p.Radius - math.Hypot(float64(x)+0.5-p.At.X, float64(y)+0.5-p.At.Y)
				if image.Pt(x, y).In(p.Clip) && d > 0 {
					want = lit
					if i := int(d / p.Ring); i < len(dark) {
						want = Mix(lit, shade, dark[i])
					}
				}
				for k := range len(dark) + 1 {
					sure = sure && math.Abs(d-float64(k)*p.Ring) > 0.75
				}
				got := dst.RGBAAt(x, y)
				off := math.Max(math.Abs(float64(got.R)-float64(want.R)), math.Max(math.Abs(float64(got.G)-float64(want.G)), math.Abs(float64(got.B)-float64(want.B))))
				if sure && off > 1 {
					t.Fatalf("at %d %d, %.2f inside: %v, not %v", x, y, d, got, want)
				}
				if !image.Pt(x, y).In(p.Box()) && got != color.RGBA(unlit) {
					t.Fatalf("%d %d lies outside the box and changed", x, y)
				}
			}
		}
	})
}

func TestPoolRimIsSmooth(t *testing.T) {
	p := Pool{At: Pt(150, 100), Radius: 80, Ring: 12, Dark: []float64{0.55}, Shade: color.NRGBA{A: 255}, Clip: image.Rect(0, 0, 300, 200)}
	dst := flat(300, 200, color.NRGBA{A: 255})
	p.Compose(dst, flat(300, 200, color.NRGBA{R: 255, G: 255, B: 255, A: 255}))
	between := 0
	for x := range 300 {
		for y := range 200 {
			if v := dst.RGBAAt(x, y).R; v > 3 && v < 110 {
				between++
			}
		}
	}
	assert.Greater(t, between, 200, "the rim has half-covered pixels")
}

func BenchmarkPool(b *testing.B) {
	dst, lit := flat(1340, 820, color.NRGBA{A: 255}), flat(1340, 820, color.NRGBA{R: 255, A: 255})
	p := Pool{At: Pt(600, 400), Radius: 265, Ring: 12, Dark: []float64{0.55, 0.36, 0.20, 0.10}, Shade: color.NRGBA{A: 255}, Clip: dst.Rect}
	for b.Loop() {
		p.Compose(dst, lit)
	}
}
