package paint

import (
	"image"
	"image/color"
	"math"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/draw"
	"golang.org/x/image/math/fixed"
)

// Raster draws into an image. Its buffers are kept from call to call; make
// one for each image size and use it again for each frame.
type Raster struct {
	im     *image.RGBA
	clips  []image.Rectangle
	spans  painter
	small  *raster.Rasterizer // for shapes up to smallRows high
	large  *raster.Rasterizer
	large0 image.Point // the size large was made for

	// What is being drawn: its rasterizer, and the box of pixels it may touch.
	r    *raster.Rasterizer
	box  image.Rectangle
	last fixed.Point26_6
	open bool

	path Path
	pen  stroker
	line func(a, b Point) // edge, made once

	stamps  map[stampKey]stamp
	stamper *Raster // draws them

	// Whole works every shape out as a whole, whatever the clip, and cuts it
	// only where it is laid down: a picture renewed piece by piece is then the
	// same to the last shade as one drawn at once. It costs time.
	Whole bool
}

// smallRows is the height up to which the rasterizer's own row index serves
// without a further allocation.
const smallRows = 64

// NewRaster draws into im, which must start at (0, 0).
func NewRaster(im *image.RGBA) *Raster {
	r := &Raster{small: raster.NewRasterizer(math.MaxInt16, smallRows)}
	r.small.UseNonZeroWinding = true
	r.line = r.edge
	r.Use(im)
	return r
}

// NewImage makes a Raster with an image of its own.
func NewImage(w, h int) *Raster { return NewRaster(image.NewRGBA(image.Rect(0, 0, w, h))) }

// Use goes on drawing into another image, with no clip.
func (s *Raster) Use(im *image.RGBA) {
	s.im = im
	s.clips = append(s.clips[:0], im.Rect)
	if d := im.Rect.Size(); s.large == nil || d != s.large0 {
		s.large = raster.NewRasterizer(d.X, d.Y)
		s.large.UseNonZeroWinding = true
		s.large0 = d
	}
}

// Pixels is the image drawn into.
func (s *Raster) Pixels() *image.RGBA { return s.im }

func (s *Raster) clip() image.Rectangle { return s.clips[len(s.clips)-1] }

// PushClip rounds the edges of r to whole pixels.
func (s *Raster) PushClip(r Rect) {
	r = r.Snap()
	q := image.Rect(int(r.X), int(r.Y), int(r.Right()), int(r.Bottom()))
	s.clips = append(s.clips, q.Intersect(s.clip()))
}

// PopClip undoes the last PushClip.
func (s *Raster) PopClip() {
	if len(s.clips) > 1 {
		s.clips = s.clips[:len(s.clips)-1]
	}
}

// begin prepares for a shape within b; false if none of it can be seen.
func (s *Raster) begin(b Rect) bool {
	limit := func(v float64) int { return int(math.Max(-1e6, math.Min(1e6, v))) }
	q := image.Rect(limit(math.Floor(b.X)), limit(math.Floor(b.Y)), limit(math.Ceil(b.Right()))+1, limit(math.Ceil(b.Bottom()))+1)
	s.box = q.Intersect(s.clip())
	if s.box.Empty() {
		return false
	}
	if s.Whole {
		s.box = q.Intersect(s.im.Rect)
	}
	s.r, s.open = s.large, false
	if s.box.Dy() <= smallRows {
		s.r = s.small
	}
	s.r.Dx, s.r.Dy = s.box.Min.X, s.box.Min.Y
	return true
}

// edge adds one edge of the outline. What lies above or below the box is cut
// off, what lies left or right of it is moved to its side, which keeps the
// winding inside right and every figure within the rasterizer's range.
func (s *Raster) edge(a, b Point) {
	if sum := a.X + a.Y + b.X + b.Y; sum != sum {
		return // not a number: sides would never come to an end
	}
	ox, oy := float64(s.box.Min.X), float64(s.box.Min.Y)
	a, b = a.Add(-ox, -oy), b.Add(-ox, -oy)
	w, h := float64(s.box.Dx()), float64(s.box.Dy())
	if a.X >= 0 && b.X >= 0 && a.X <= w && b.X <= w && a.Y >= 0 && b.Y >= 0 && a.Y <= h && b.Y <= h {
		s.add(a, b)
		return
	}
	if (a.Y <= 0 && b.Y <= 0) || (a.Y >= h && b.Y >= h) || a.Y == b.Y {
		return
	}
	a, b = cutY(a, b, h), cutY(b, a, h)
	s.sides(a, b, w)
}

// cutY moves a along the line to b until it is between 0 and h.
func cutY(a, b Point, h float64) Point {
	y := math.Max(0, math.Min(h, a.Y))
	if y == a.Y || a.Y == b.Y {
		return a
	}
	return Point{a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y), y}
}

// sides splits the edge at x = 0 and x = w and moves the outer parts there.
func (s *Raster) sides(a, b Point, w float64) {
	for _, x := range [2]float64{0, w} {
		if (a.X < x) != (b.X < x) && a.X != x && b.X != x {
			m := Point{x, a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)}
			s.sides(a, m, w)
			s.sides(m, b, w)
			return
		}
	}
	a.X, b.X = math.Max(0, math.Min(w, a.X)), math.Max(0, math.Min(w, b.X))
	s.add(a, b)
}

func (s *Raster) add(a, b Point) {
	p, q := fix(a), fix(b)
	if !s.open || p != s.last {
		s.r.Start(p)
	}
	s.r.Add1(q)
	s.last, s.open = q, true
}

func fix(p Point) fixed.Point26_6 {
	return fixed.Point26_6{X: fixed.Int26_6(p.X*64 + 0.5), Y: fixed.Int26_6(p.Y*64 + 0.5)}
}

func (s *Raster) finish(c color.NRGBA) {
	s.spans.set(s.im, s.box.Intersect(s.clip()), c)
	s.r.Rasterize(&s.spans)
	s.r.Clear()
}

// Fill fills the path.
func (s *Raster) Fill(p *Path, c color.NRGBA) {
	if !Visible(c) || !s.begin(p.Bounds()) {
		return
	}
	p.flatten(tolerance, true, func(Point) {}, s.edge, func(bool) {})
	s.finish(c)
}

// Stroke draws along the path.
func (s *Raster) Stroke(p *Path, pen Pen, c color.NRGBA) { s.stroke(p, pen, tolerance, c) }

func (s *Raster) stroke(p *Path, pen Pen, tol float64, c color.NRGBA) {
	if !Visible(c) || !s.begin(p.Bounds().Inset(-pen.Width/2-1)) {
		return
	}
	s.pen.stroke(p, pen, tol, s.line)
	s.finish(c)
}

// Text writes upright text.
func (s *Raster) Text(x, y float64, str string, t Type, c color.NRGBA) {
	if t.HaloWidth > 0 && Visible(t.Halo) {
		s.haloed(x, y, str, t, c)
		return
	}
	s.glyphs(textMap(x, y, str, t), str, t, c)
}

// Turned writes text under a map.
func (s *Raster) Turned(m Affine, str string, t Type, c color.NRGBA) {
	s.glyphs(turnedMap(m, str, t), str, t, c)
}

// glyphs draws letter by letter: the rasterizer searches each row from its
// left end, so that a whole line of text at once would cost its square.
func (s *Raster) glyphs(m Affine, str string, t Type, c color.NRGBA) {
	if t.HaloWidth > 0 && Visible(t.Halo) {
		pen := Pen{Width: t.HaloWidth, Cap: Round}
		s.letters(m, str, t.Font, func() { s.stroke(&s.path, pen, soft, t.Halo) })
	}
	s.letters(m, str, t.Font, func() { s.Fill(&s.path, c) })
}

// letters sets s.path to each glyph in turn.
func (s *Raster) letters(m Affine, str string, f *Font, do func()) {
	f.each(str, func(x float64, g *glyph) {
		s.path.Ops, s.path.Pts = append(s.path.Ops[:0], g.path.Ops...), s.path.Pts[:0]
		for _, q := range g.path.Pts {
			s.path.Pts = append(s.path.Pts, m.At(Point{q.X + x, q.Y}))
		}
		do()
	})
}

// Shade fills whole rows, each with its own colour.
func (s *Raster) Shade(r Rect, top, foot color.NRGBA) {
	q := r.Snap()
	box := image.Rect(int(q.X), int(q.Y), int(q.Right()), int(q.Bottom()))
	h := float64(box.Dy())
	clip := box.Intersect(s.clip())
	for y := clip.Min.Y; y < clip.Max.Y; y++ {
		c := Mix(top, foot, (float64(y-box.Min.Y)+0.5)/h)
		s.spans.set(s.im, clip, c)
		s.spans.span(y, clip.Min.X, clip.Max.X, 0xffff)
	}
}

// Image copies or stretches the picture.
func (s *Raster) Image(r Rect, im *image.RGBA) {
	q := r.Snap()
	box := image.Rect(int(q.X), int(q.Y), int(q.Right()), int(q.Bottom()))
	clip := box.Intersect(s.clip())
	if clip.Empty() {
		return
	}
	if box.Size() == im.Rect.Size() {
		draw.Draw(s.im, clip, im, im.Rect.Min.Add(clip.Min.Sub(box.Min)), draw.Over)
		return
	}
	dst := s.im.SubImage(clip).(*image.RGBA)
	draw.ApproxBiLinear.Scale(dst, box, im, im.Rect, draw.Over, nil)
}

// painter lays spans of one colour over an image.
type painter struct {
	im         *image.RGBA
	box        image.Rectangle
	r, g, b, a uint32 // premultiplied, 0 to 255
	opaque     bool
}

func (p *painter) set(im *image.RGBA, box image.Rectangle, c color.NRGBA) {
	k := uint32(c.A)
	p.im, p.box, p.a, p.opaque = im, box, k, k == 255
	p.r, p.g, p.b = (uint32(c.R)*k+127)/255, (uint32(c.G)*k+127)/255, (uint32(c.B)*k+127)/255
}

// Paint implements the rasterizer's Painter.
func (p *painter) Paint(ss []raster.Span, _ bool) {
	for _, s := range ss {
		x0, x1 := max(s.X0, p.box.Min.X), min(s.X1, p.box.Max.X)
		if s.Y < p.box.Min.Y || s.Y >= p.box.Max.Y || x0 >= x1 {
			continue
		}
		p.span(s.Y, x0, x1, s.Alpha)
	}
}

// span paints pixels x0 to x1 of row y with coverage m of 0xffff.
func (p *painter) span(y, x0, x1 int, m uint32) {
	i := p.im.PixOffset(x0, y)
	pix := p.im.Pix[i : i+(x1-x0)*4 : i+(x1-x0)*4]
	if p.opaque && m == 0xffff {
		pix[0], pix[1], pix[2], pix[3] = uint8(p.r), uint8(p.g), uint8(p.b), 255
		for done := 4; done < len(pix); done *= 2 {
			copy(pix[done:], pix[:done])
		}
		return
	}
	// 16 bits of coverage times 8 of colour, rounded at the end.
	r, g, b, keep := p.r*m, p.g*m, p.b*m, 255*0xffff-p.a*m
	a := p.a * m
	keep /= 255 // 0 to 0xffff
	for j := 0; j+3 < len(pix); j += 4 {
		pix[j] = uint8((r + uint32(pix[j])*keep + 0x7fff) / 0xffff)
		pix[j+1] = uint8((g + uint32(pix[j+1])*keep + 0x7fff) / 0xffff)
		pix[j+2] = uint8((b + uint32(pix[j+2])*keep + 0x7fff) / 0xffff)
		pix[j+3] = uint8((a + uint32(pix[j+3])*keep + 0x7fff) / 0xffff)
	}
}
