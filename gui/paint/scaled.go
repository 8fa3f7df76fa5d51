package paint

import (
	"image"
	"image/color"
)

// Scaled is a surface for pictures made in other pixels: each of theirs is k of
// those of the surface on which it draws.
type Scaled struct {
	on   Surface
	k    float64
	path Path
}

// NewScaled draws on a surface, a pixel being k of its own.
func NewScaled(on Surface, k float64) *Scaled { return &Scaled{on: on, k: k} }

func (s *Scaled) scale(p *Path) *Path {
	s.path.Ops = append(s.path.Ops[:0], p.Ops...)
	s.path.Pts = s.path.Pts[:0]
	for _, q := range p.Pts {
		s.path.Pts = append(s.path.Pts, Pt(q.X*s.k, q.Y*s.k))
	}
	return &s.path
}

func (s *Scaled) rect(r Rect) Rect { return R(r.X*s.k, r.Y*s.k, r.W*s.k, r.H*s.k) }

func (s *Scaled) letters(t Type) Type {
	t.Size, t.HaloWidth = t.Size*s.k, t.HaloWidth*s.k
	return t
}

// Fill is part of Surface.
func (s *Scaled) Fill(p *Path, c color.NRGBA) { s.on.Fill(s.scale(p), c) }

// Stroke is part of Surface.
func (s *Scaled) Stroke(p *Path, pen Pen, c color.NRGBA) {
	dash := make([]float64, len(pen.Dash))
	for i, d := range pen.Dash {
		dash[i] = d * s.k
	}
	s.on.Stroke(s.scale(p), Pen{Width: pen.Width * s.k, Cap: pen.Cap, Dash: dash}, c)
}

// Text is part of Surface.
func (s *Scaled) Text(x, y float64, words string, t Type, c color.NRGBA) {
	s.on.Text(x*s.k, y*s.k, words, s.letters(t), c)
}

// Turned is part of Surface: the map scales the letters, only its origin moves.
func (s *Scaled) Turned(m Affine, words string, t Type, c color.NRGBA) {
	m.A, m.B, m.C, m.D, m.E, m.F = m.A*s.k, m.B*s.k, m.C*s.k, m.D*s.k, m.E*s.k, m.F*s.k
	s.on.Turned(m, words, t, c)
}

// Shade is part of Surface.
func (s *Scaled) Shade(r Rect, top, foot color.NRGBA) { s.on.Shade(s.rect(r), top, foot) }

// Image is part of Surface.
func (s *Scaled) Image(r Rect, im *image.RGBA) { s.on.Image(s.rect(r), im) }

// PushClip is part of Surface.
func (s *Scaled) PushClip(r Rect) { s.on.PushClip(s.rect(r)) }

// PopClip is part of Surface.
func (s *Scaled) PopClip() { s.on.PopClip() }
