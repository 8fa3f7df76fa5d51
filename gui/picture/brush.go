package picture

import (
	"image/color"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Brush is what a picture is drawn with: a surface, a light and a size. One
// brush serves any number of pictures, one after the other.
type Brush struct {
	paint.Surface
	C *look.Palette
	K look.Size

	path paint.Path
}

// NewBrush makes a brush.
func NewBrush(s paint.Surface, c *look.Palette, k look.Size) *Brush {
	return &Brush{Surface: s, C: c, K: k}
}

// colour shortens what every signature needs.
type colour = color.NRGBA

// none stands for no colour.
var none colour

// shape fills and outlines what is in the scratch path; none leaves out.
func (b *Brush) shape(fill colour, outline colour, width float64) {
	if paint.Visible(fill) {
		b.Fill(&b.path, fill)
	}
	if paint.Visible(outline) && width > 0 {
		b.Stroke(&b.path, paint.Pen{Width: width}, outline)
	}
}

func (b *Brush) disc(x, y, r float64, fill, outline colour, width float64) {
	b.path.Reset().Circle(x, y, r)
	b.shape(fill, outline, width)
}

func (b *Brush) rect(r paint.Rect, rad float64, fill, outline colour, width float64) {
	b.path.Reset().RoundRect(r, rad)
	b.shape(fill, outline, width)
}

func (b *Brush) polygon(fill, outline colour, width float64, pts ...paint.Point) {
	b.path.Reset().Polygon(pts...)
	b.shape(fill, outline, width)
}

func (b *Brush) line(p, q paint.Point, width float64, c colour) {
	b.Stroke(b.path.Reset().Segment(p, q), paint.Pen{Width: width}, c)
}

func (b *Brush) roundLine(width float64, c colour, pts ...paint.Point) {
	b.Stroke(b.path.Reset().Polyline(pts...), paint.Pen{Width: width, Cap: paint.Round}, c)
}

func (b *Brush) dashed(p, q paint.Point, width float64, c colour, dash ...float64) {
	b.Stroke(b.path.Reset().Segment(p, q), paint.Pen{Width: width, Dash: dash}, c)
}

func (b *Brush) arc(x, y, r, from, to, width float64, c colour) {
	b.Stroke(b.path.Reset().Arc(x, y, r, from, to), paint.Pen{Width: width}, c)
}

// write puts text at x with its baseline at y; size is in pixels.
func (b *Brush) write(x, y float64, s string, f look.Face, size float64, a paint.Anchor, c colour) {
	b.Text(x, y, s, paint.Type{Font: f.Font(), Size: size, Anchor: a}, c)
}

// haloed writes text with a border of the ground it lies on.
func (b *Brush) haloed(x, y float64, s string, f look.Face, size float64, a paint.Anchor, c, halo colour) {
	b.Text(x, y, s, paint.Type{Font: f.Font(), Size: size, Anchor: a, Halo: halo, HaloWidth: b.K.Symbol() * 5}, c)
}

// hatch covers r with slanted strokes.
func (b *Brush) hatch(r paint.Rect, step, width float64, c colour) {
	b.PushClip(r)
	b.path.Reset()
	for x := r.X - r.H; x < r.Right(); x += step {
		b.path.Segment(paint.Pt(x, r.Bottom()), paint.Pt(x+r.H, r.Y))
	}
	b.Stroke(&b.path, paint.Pen{Width: width}, c)
	b.PopClip()
}
