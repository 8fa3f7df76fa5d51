package picture

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// A track across 180 runs from an open circle to the marker, whole, the short
// way; nothing is drawn outside the box.
func TestMiniature(t *testing.T) {
	pal, z := look.Of(look.Paper), look.SizeOf(1920, 1080, 1)
	d := paint.NewImage(320, 220)
	b := NewBrush(d, pal, z)
	box := paint.R(15, 18, 290, 184)
	track := []Waypoint{{At: units.At(-47, 179)}, {At: units.At(-46.5, -179.5)}, {At: units.At(-47, -179)}}
	DrawMiniature(b, box, NewGround(Waters{}), track, 40)
	at := func(x, y float64) color.Color { return d.Pixels().At(int(x), int(y)) }
	v := Fit(box, 40, track[0].At, track[1].At, track[2].At)
	start, end := v.ToPixel(track[0].At), v.ToPixel(track[2].At)
	assert.InDelta(t, box.X+40, start.X, 0.5, "40 px stay free round the track")
	assert.InDelta(t, box.Right()-40, end.X, 0.5)
	assert.Equal(t, color.Color(opaque(pal.Sea)), at(start.X, start.Y), "the start is open")
	assert.Equal(t, color.Color(opaque(pal.Ink)), at(end.X, end.Y), "the dot of the marker")
	assert.Equal(t, color.Color(opaque(pal.Brass)), at(end.X+3.5, end.Y), "its brass")
	mid := v.ToPixel(units.At(-46.75, 179.75))
	dark := 0
	for y := mid.Y - 8; y < mid.Y+8; y++ {
		if r, _, _, _ := at(mid.X, y).RGBA(); r < 0x6000 {
			dark++
		}
	}
	assert.Greater(t, dark, 1, "the track on its way")
	for x := range 320 {
		for y := range 220 {
			if !box.Contains(paint.Pt(float64(x)+0.5, float64(y)+0.5)) {
				assert.Equal(t, color.RGBA{}, d.Pixels().RGBAAt(x, y))
			}
		}
	}
	DrawMiniature(b, box, NewGround(Waters{}), nil, 40) // a plan that cannot be held has no track
}

func opaque(c color.NRGBA) color.RGBA { return color.RGBA{c.R, c.G, c.B, 255} }
