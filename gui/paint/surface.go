package paint

import (
	"image"
	"image/color"
)

// Cap is the end of a stroked line.
type Cap uint8

// The ends a line may have.
const (
	Butt Cap = iota
	Round
)

// Pen is how a line is stroked. Corners are always round; Dash, if there is
// one, gives the lengths of marks and gaps in pixels, from the line's start.
type Pen struct {
	Width float64
	Cap   Cap
	Dash  []float64
}

// Anchor is the part of a text that stands at its x.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Type is how a text is written: upright, in one face.
type Type struct {
	Font   *Font
	Size   float64 // pixels per em
	Anchor Anchor
	// Halo, unless transparent, is drawn first as an outline of HaloWidth
	// pixels in all (half of it shows outside the letters).
	Halo      color.NRGBA
	HaloWidth float64
}

// Surface is what a picture is drawn on.
type Surface interface {
	// Fill fills the contours of the path.
	Fill(p *Path, c color.NRGBA)
	// Stroke draws along the path.
	Stroke(p *Path, pen Pen, c color.NRGBA)
	// Text writes s with its baseline at y.
	Text(x, y float64, s string, t Type, c color.NRGBA)
	// Turned writes s with its anchor at (0, 0) of the map, baseline along its
	// x axis; t.Size counts before the map.
	Turned(m Affine, s string, t Type, c color.NRGBA)
	// Shade fills r with a gradient, top to foot.
	Shade(r Rect, top, foot color.NRGBA)
	// Image lays the picture over r, stretched to it.
	Image(r Rect, im *image.RGBA)
	// PushClip keeps all that follows inside r (and inside the clip before),
	// until PopClip.
	PushClip(r Rect)
	PopClip()
}

// Alpha gives the colour with its opacity multiplied by k.
func Alpha(c color.NRGBA, k float64) color.NRGBA {
	c.A = uint8(float64(c.A)*k + 0.5)
	return c
}

// Visible says whether painting with the colour changes anything.
func Visible(c color.NRGBA) bool { return c.A != 0 }

// Mix is the colour k of the way from a to b, opacities included.
func Mix(a, b color.NRGBA, k float64) color.NRGBA {
	m := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*k + 0.5) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: m(a.A, b.A)}
}
