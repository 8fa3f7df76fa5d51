package paint

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Font is one face, its outlines read once each. It is safe for concurrent
// use.
type Font struct {
	Name string
	TTF  []byte // the file as it was given; not to be changed

	face *sfnt.Font
	em   fixed.Int26_6

	mu     sync.RWMutex
	buf    sfnt.Buffer
	glyphs map[rune]*glyph
	kerns  map[[2]rune]float64
}

// glyph is an outline in units of the em, y downwards.
type glyph struct {
	path    Path
	advance float64
	ink     Rect
	found   bool
}

// ParseFont reads a TrueType or OpenType file.
func ParseFont(name string, ttf []byte) (*Font, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, fmt.Errorf("font %s: %w", name, err)
	}
	return &Font{
		Name: name, TTF: ttf, face: f, em: fixed.I(int(f.UnitsPerEm())),
		glyphs: map[rune]*glyph{}, kerns: map[[2]rune]float64{},
	}, nil
}

// Has says whether the face holds an outline for the character.
func (f *Font) Has(r rune) bool { return f.glyph(r).found }

// Width is the advance of s at the size, kerning included.
func (f *Font) Width(s string, size float64) float64 {
	w, last := 0.0, rune(-1)
	for _, r := range s {
		w += f.kern(last, r) + f.glyph(r).advance
		last = r
	}
	return w * size
}

// Ink is the rectangle round the inked parts of s, baseline at y = 0 and
// origin at x = 0.
func (f *Font) Ink(s string, size float64) Rect {
	var all Rect
	f.each(s, func(x float64, g *glyph) {
		if g.ink.W == 0 {
			return
		}
		r := Rect{(x + g.ink.X) * size, g.ink.Y * size, g.ink.W * size, g.ink.H * size}
		if all.W == 0 {
			all = r
			return
		}
		x0, y0 := min(all.X, r.X), min(all.Y, r.Y)
		all = Rect{x0, y0, max(all.Right(), r.Right()) - x0, max(all.Bottom(), r.Bottom()) - y0}
	})
	return all
}

// each walks the glyphs of s with their places in ems.
func (f *Font) each(s string, do func(x float64, g *glyph)) {
	x, last := 0.0, rune(-1)
	for _, r := range s {
		g := f.glyph(r)
		x += f.kern(last, r)
		do(x, g)
		x += g.advance
		last = r
	}
}

// offset is where the text's origin lies for its anchor.
func (f *Font) offset(s string, size float64, a Anchor) float64 {
	if a == Start {
		return 0
	}
	return -f.Width(s, size) * float64(a) / 2
}

func (f *Font) glyph(r rune) *glyph {
	f.mu.RLock()
	g := f.glyphs[r]
	f.mu.RUnlock()
	if g != nil {
		return g
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	g = f.load(r)
	f.glyphs[r] = g
	return g
}

// load reads one outline. A character the face lacks gives an empty glyph:
// nothing is drawn in its place, and the tests of the users of this package
// refuse such characters.
func (f *Font) load(r rune) *glyph {
	g := &glyph{}
	i, err := f.face.GlyphIndex(&f.buf, r)
	if err != nil || i == 0 {
		return g
	}
	em := float64(f.em)
	if a, err := f.face.GlyphAdvance(&f.buf, i, f.em, font.HintingNone); err == nil {
		g.advance = float64(a) / em
	}
	segs, err := f.face.LoadGlyph(&f.buf, i, f.em, nil)
	if err != nil {
		return g
	}
	g.found = true
	at := func(p fixed.Point26_6) Point { return Point{float64(p.X) / em, float64(p.Y) / em} }
	for _, s := range segs {
		a, b, c := at(s.Args[0]), at(s.Args[1]), at(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(g.path.Ops) > 0 {
				g.path.Close()
			}
			g.path.MoveTo(a.X, a.Y)
		case sfnt.SegmentOpLineTo:
			g.path.LineTo(a.X, a.Y)
		case sfnt.SegmentOpQuadTo:
			g.path.QuadTo(a, b)
		case sfnt.SegmentOpCubeTo:
			g.path.CubicTo(a, b, c)
		}
	}
	if len(g.path.Ops) > 0 {
		g.path.Close()
		g.ink = g.path.Bounds()
	}
	return g
}

// kern is the shift between two characters in ems.
func (f *Font) kern(a, b rune) float64 {
	if a < 0 {
		return 0
	}
	key := [2]rune{a, b}
	f.mu.RLock()
	k, ok := f.kerns[key]
	f.mu.RUnlock()
	if ok {
		return k
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	f.kerns[key] = f.loadKern(a, b)
	return f.kerns[key]
}

func (f *Font) loadKern(a, b rune) float64 {
	i, err := f.face.GlyphIndex(&f.buf, a)
	if err != nil {
		return 0
	}
	j, err := f.face.GlyphIndex(&f.buf, b)
	if err != nil {
		return 0
	}
	k, err := f.face.Kern(&f.buf, i, j, f.em, font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(k) / float64(f.em)
}

// outline appends the outlines of s, mapped by m (em to pixels, origin of the
// text at m's origin), to p.
func (f *Font) outline(p *Path, m Affine, s string) {
	f.each(s, func(x float64, g *glyph) {
		p.Ops = append(p.Ops, g.path.Ops...)
		for _, q := range g.path.Pts {
			p.Pts = append(p.Pts, m.At(Point{q.X + x, q.Y}))
		}
	})
}

// textMap is the map from ems to pixels for upright text.
func textMap(x, y float64, s string, t Type) Affine {
	return Affine{A: t.Size, D: t.Size, E: x + t.Font.offset(s, t.Size, t.Anchor), F: y}
}

// turnedMap is the map from ems to pixels under m.
func turnedMap(m Affine, s string, t Type) Affine {
	o := m.At(Point{t.Font.offset(s, t.Size, t.Anchor), 0})
	return Affine{A: m.A * t.Size, B: m.B * t.Size, C: m.C * t.Size, D: m.D * t.Size, E: o.X, F: o.Y}
}
