package papers

import (
	"image/color"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// The layout that all pages share, mm.
const (
	margin   = 10.0
	footLine = 3.1  // between two lines of the foot
	headBase = 15.6 // baseline of the title
	hair     = 0.1
	thin     = 0.15
	line     = 0.2
	heavy    = 0.4
)

// Sizes of type, mm to the em.
const (
	small  = 2.5 // nothing is smaller
	note   = 2.7
	body   = 3.1
	strong = 3.5
	title  = 4.8
)

// symbolScale makes the symbols of the chart, sized in pixels at 1080 lines, as
// large on the paper as the look has them: 1471 of them to the width of A4.
const symbolScale = 297.0 / 1471

// draft is a page being drawn: a surface in millimetres with the colours of the
// day on white paper.
type draft struct {
	paint.Surface
	c     look.Palette
	paper Paper
	brush *picture.Brush // for symbols
	path  paint.Path
}

func newDraft(s paint.Surface, on Paper) *draft {
	d := &draft{Surface: s, c: *look.Of(look.Paper), paper: on}
	white := color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	d.c.Land = paint.Mix(white, d.c.Land, 0.45)
	d.c.Low = paint.Mix(white, d.c.Low, 0.75)
	d.c.Card, d.c.Ground, d.c.Sea = white, white, white
	d.brush = picture.NewBrush(s, &d.c, look.Size{Part: symbolScale, Device: symbolScale})
	return d
}

// right and bottom are the limits of what may be printed.
func (d *draft) right() float64  { return d.paper.W - margin }
func (d *draft) bottom() float64 { return d.paper.H - margin }

// write puts text at x with its baseline at y.
func (d *draft) write(x, y float64, s string, f look.Face, size float64, a paint.Anchor, c color.NRGBA) {
	d.Text(x, y, s, paint.Type{Font: f.Font(), Size: size, Anchor: a}, c)
}

// over writes text that stays readable over lines.
func (d *draft) over(x, y float64, s string, f look.Face, size float64, a paint.Anchor, c color.NRGBA) {
	d.Text(x, y, s, paint.Type{Font: f.Font(), Size: size, Anchor: a, Halo: d.c.Card, HaloWidth: 1.1}, c)
}

func (d *draft) line(x1, y1, x2, y2, width float64, c color.NRGBA) {
	d.Stroke(d.path.Reset().Segment(paint.Pt(x1, y1), paint.Pt(x2, y2)), paint.Pen{Width: width}, c)
}

func (d *draft) box(r paint.Rect, width float64, c color.NRGBA) {
	d.Stroke(d.path.Reset().Rect(r), paint.Pen{Width: width}, c)
}

func (d *draft) fill(r paint.Rect, c color.NRGBA) { d.Fill(d.path.Reset().Rect(r), c) }

func (d *draft) circle(x, y, r, width float64, c color.NRGBA) {
	d.Stroke(d.path.Reset().Circle(x, y, r), paint.Pen{Width: width}, c)
}

// ray is a piece of a line from a centre, from one radius to another.
func (d *draft) ray(at paint.Point, deg, from, to, width float64, c color.NRGBA) {
	p, q := paint.Polar(at.X, at.Y, from, deg), paint.Polar(at.X, at.Y, to, deg)
	d.line(p.X, p.Y, q.X, q.Y, width, c)
}

// head writes the mark, the title and one or two lines at the right.
func (d *draft) head(words string, lines ...string) {
	d.brush.Still(paint.Pt(margin+4.9, headBase-1.8), 2.8)
	d.write(margin+12.5, headBase, words, look.Engraved, title, paint.Start, d.c.Ink)
	y := headBase
	if len(lines) > 1 {
		y -= 3.2
	}
	for i, s := range lines {
		c := d.c.Ink
		if i > 0 {
			c = d.c.Ink2
		}
		d.write(d.right(), y, s, look.Regular, body, paint.End, c)
		y += 4.2
	}
}

// foot writes the cautions and gives the y above which the page is free.
func (d *draft) foot() float64 {
	w := d.paper.W - 2*margin
	lines := wrap(look.Text(look.CautionLong), look.Semibold, small, w)
	y := d.bottom() - 0.6 - float64(len(lines)-1)*footLine
	for i, s := range lines {
		d.write(margin, y+float64(i)*footLine, s, look.Semibold, small, paint.Start, d.c.Ink)
	}
	return y - small - 1
}

// wrap breaks words into lines.
func wrap(words string, f look.Face, size, width float64) []string {
	return paint.Wrap(words, func(s string) float64 { return f.Font().Width(s, size) }, width)
}

// paragraph writes wrapped words and gives the y of the next baseline.
func (d *draft) paragraph(x, y, width float64, words string, f look.Face, size float64, c color.NRGBA) float64 {
	for _, s := range wrap(words, f, size, width) {
		d.write(x, y, s, f, size, paint.Start, c)
		y += size * 1.35
	}
	return y
}

// fit is the largest size up to wanted at which the words are no wider than
// width, but never below the smallest type.
func fit(words string, f look.Face, wanted, width float64) float64 {
	if w := f.Font().Width(words, wanted); w > width {
		return max(small, wanted*width/w)
	}
	return wanted
}
