package pictures

import (
	"image"
	"image/color"

	"stillair/gui/paint"
)

// enlarged is a surface on which everything is k times as large: papers are drawn in
// millimetres, pictures in pixels.
type enlarged struct {
	paint.Surface
	k    float64
	path paint.Path
}

func (e *enlarged) scaled(p *paint.Path) *paint.Path {
	e.path.Ops = append(e.path.Ops[:0], p.Ops...)
	e.path.Pts = e.path.Pts[:0]
	for _, q := range p.Pts {
		e.path.Pts = append(e.path.Pts, paint.Pt(e.k*q.X, e.k*q.Y))
	}
	return &e.path
}

func (e *enlarged) rect(r paint.Rect) paint.Rect {
	return paint.R(e.k*r.X, e.k*r.Y, e.k*r.W, e.k*r.H)
}

func (e *enlarged) letters(t paint.Type) paint.Type {
	t.Size *= e.k
	t.HaloWidth *= e.k
	return t
}

// Fill is part of paint.Surface, like all below.
func (e *enlarged) Fill(p *paint.Path, c color.NRGBA) { e.Surface.Fill(e.scaled(p), c) }

// Stroke keeps every line at half a pixel at least.
func (e *enlarged) Stroke(p *paint.Path, pen paint.Pen, c color.NRGBA) {
	dash := make([]float64, len(pen.Dash))
	for i, d := range pen.Dash {
		dash[i] = e.k * d
	}
	pen.Width, pen.Dash = max(0.5, e.k*pen.Width), dash
	e.Surface.Stroke(e.scaled(p), pen, c)
}

func (e *enlarged) Text(x, y float64, s string, t paint.Type, c color.NRGBA) {
	e.Surface.Text(e.k*x, e.k*y, s, e.letters(t), c)
}

// Turned leaves the letters as they are: the map enlarges them.
func (e *enlarged) Turned(m paint.Affine, s string, t paint.Type, c color.NRGBA) {
	k := e.k
	e.Surface.Turned(paint.Affine{A: k * m.A, B: k * m.B, C: k * m.C, D: k * m.D, E: k * m.E, F: k * m.F}, s, t, c)
}

func (e *enlarged) Shade(r paint.Rect, top, foot color.NRGBA) { e.Surface.Shade(e.rect(r), top, foot) }
func (e *enlarged) Image(r paint.Rect, im *image.RGBA)        { e.Surface.Image(e.rect(r), im) }
func (e *enlarged) PushClip(r paint.Rect)                     { e.Surface.PushClip(e.rect(r)) }
