package scene

import (
	"image"
	"image/color"
	"math"

	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// easel is one drawing of a screen.
type easel struct {
	d  paint.Surface
	im *image.RGBA // what d draws on; nil where nothing is laid down on it
	b  *picture.Brush
	p  *Places
	c  *look.Palette
	in *Show
	k  look.Size
}

func newEasel(d paint.Surface, im *image.RGBA, p *Places, c *look.Palette, in *Show) *easel {
	k := look.Size{Part: p.F, Device: p.Dev}
	return &easel{d: d, im: im, b: picture.NewBrush(d, c, k), p: p, c: c, in: in, k: k}
}

// text is the size of running text: at 1080 lines, a quarter larger if that was asked
// for.
func (e *easel) text(v float64) float64 {
	v = math.Max(v*e.p.F, 15*e.p.Dev)
	if e.in.Machine.Larger() {
		v *= 1.25
	}
	return v
}

func (e *easel) say(w tongue.Word, fills ...tongue.Fill) string { return e.in.Tongue.Text(w, fills...) }

func (e *easel) fill(r paint.Rect, c color.NRGBA) {
	var p paint.Path
	e.d.Fill(p.Rect(r), c)
}

// plate draws a rounded rectangle with its outline.
func (e *easel) plate(r paint.Rect, radius float64, fill, edge color.NRGBA, width float64) {
	var p paint.Path
	p.RoundRect(r.Inset(width/2), radius*e.p.F)
	e.d.Fill(&p, fill)
	if width > 0 {
		e.d.Stroke(&p, paint.Pen{Width: width}, edge)
	}
}

func (e *easel) card(r paint.Rect) { e.plate(r, 8, e.c.Card, e.c.Line, math.Max(1, e.p.F)) }

// write writes on one line, smaller if there is not room enough.
func (e *easel) write(x, y float64, s string, f look.Face, size, room float64, a paint.Anchor, c color.NRGBA) {
	e.d.Text(x, y, s, paint.Type{Font: f.Font(), Size: shrunk(s, f, size, room), Anchor: a}, c)
}

// shrunk is the size at which words fit into the room on one line.
func shrunk(s string, f look.Face, size, room float64) float64 {
	if w := f.Font().Width(s, size); w > room && w > 0 {
		return size * room / w
	}
	return size
}

// block is words in lines of one size.
type block struct {
	lines []words
	size  float64
}

type words struct {
	text string
	face look.Face
}

// fit breaks a sentence, its part in bold on lines of its own, into lines that fill a
// room, at the size asked for or smaller.
func fit(plain, bold string, size, w, h float64) block {
	b := broken(plain, bold, size, w, paint.Type.Wrap)
	for (b.height() > h || b.width() > w) && size >= 6 {
		size *= 0.96
		b = broken(plain, bold, size, w, paint.Type.Wrap)
	}
	return broken(plain, bold, size, w, even)
}

// broken breaks both parts at one size.
func broken(plain, bold string, size, w float64, wrap func(paint.Type, string, float64) []string) block {
	b := block{size: size}
	for _, part := range []words{{plain, look.Regular}, {bold, look.Bold}} {
		if part.text == "" {
			continue
		}
		for _, line := range wrap(paint.Type{Font: part.face.Font(), Size: size}, part.text, w) {
			b.lines = append(b.lines, words{line, part.face})
		}
	}
	return b
}

// even breaks a text into as few lines as the room asks for, about equally long, so that
// no word is left alone on the last one.
func even(t paint.Type, s string, w float64) []string {
	lines := t.Wrap(s, w)
	if len(lines) < 2 {
		return lines
	}
	for low, high := 0.5, 1.0; high-low > 0.03; {
		at := (low + high) / 2
		if narrow := t.Wrap(s, at*w); len(narrow) == len(lines) {
			lines, high = narrow, at
		} else {
			low = at
		}
	}
	return lines
}

// leading is from line to line, in sizes.
const leading = 1.32

func (b *block) height() float64 { return float64(len(b.lines)) * b.size * leading }

func (b *block) width() (w float64) {
	for _, l := range b.lines {
		w = math.Max(w, l.face.Font().Width(l.text, b.size))
	}
	return w
}

// block writes the block from the top of a room, or in its middle.
func (e *easel) block(b block, r paint.Rect, a paint.Anchor, middle bool, c color.NRGBA) {
	x, y := r.X, r.Y
	if a == paint.Middle {
		x = r.X + r.W/2
	}
	if middle {
		y += (r.H - b.height()) / 2
	}
	for i, l := range b.lines {
		e.d.Text(x, y+(float64(i)+0.5)*b.size*leading+0.35*b.size, l.text, paint.Type{Font: l.face.Font(), Size: b.size, Anchor: a}, c)
	}
}

// key draws a key with a word on it, in two lines if one does not do.
func (e *easel) key(r paint.Rect, s string, size float64, chosen, main bool) {
	if r.W <= 0 {
		return
	}
	fill, edge, ink := e.c.Card, e.c.SlateHi, e.c.Ink
	switch {
	case chosen:
		fill, edge, ink = e.c.Slate, e.c.Slate, e.c.OnSlate
	case main:
		fill, edge, ink = e.c.BrassHi, e.c.BrassLo, e.c.OnBrass
	}
	e.plate(r, 8, fill, edge, 1.5*math.Max(1, e.p.F))
	pad := 14 * e.p.F
	e.keyWords(r.Inset(pad), s, size, ink)
	if chosen {
		e.plate(paint.R(r.X+20*e.p.F, r.Bottom()-9*e.p.F, r.W-40*e.p.F, 4*e.p.F), 2, e.c.BrassHi, e.c.BrassHi, 0)
	}
}

func (e *easel) keyWords(r paint.Rect, s string, size float64, ink color.NRGBA) {
	if look.Semibold.Font().Width(s, size) <= r.W {
		e.write(r.X+r.W/2, r.Y+r.H/2+0.35*size, s, look.Semibold, size, r.W, paint.Middle, ink)
		return
	}
	b := fit(s, "", size, r.W, r.H)
	for i := range b.lines {
		b.lines[i].face = look.Semibold
	}
	for b.width() > r.W {
		b.size *= 0.97
	}
	e.block(b, r, paint.Middle, true, ink)
}

// sign draws minus or plus on brass.
func (e *easel) sign(r paint.Rect, plus bool) {
	e.plate(r, 12, e.c.BrassHi, e.c.BrassLo, 2*math.Max(1, e.p.F))
	long, thick := 0.41*r.W, 0.07*r.W
	m := r.Centre()
	e.fill(paint.R(m.X-long/2, m.Y-thick/2, long, thick), e.c.OnBrass)
	if plus {
		e.fill(paint.R(m.X-thick/2, m.Y-long/2, thick, long), e.c.OnBrass)
	}
}
