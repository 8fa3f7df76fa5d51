package notes

import (
	"image/color"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// lines sets a page; without a surface it only measures.
type lines struct {
	d    *paint.Raster
	p    *Page
	in   paint.Rect
	c    *look.Palette
	size float64
	y    float64
}

// draw sets the page and gives its height.
func (l *lines) draw() float64 {
	l.y = l.in.Y
	l.put(l.in.X, l.in.W, l.p.about(), look.Regular, 0.85, l.c.Ink2)
	l.put(l.in.X, l.in.W, l.p.Head, look.Bold, 1.25, l.c.Ink)
	margin := 0.0
	label := paint.Type{Font: look.Semibold.Font(), Size: 0.85 * l.size}
	for _, part := range l.p.Parts {
		margin = max(margin, label.Font.Width(part.Label, label.Size)+l.size)
	}
	for _, part := range l.p.Parts {
		l.y += 0.45 * l.size
		if l.d != nil {
			l.d.Text(l.in.X, l.y+1.1*l.size, part.Label, label, l.c.BrassText)
		}
		face, ink := look.Regular, l.c.Ink2
		if part.Strong {
			ink = l.c.Ink
		}
		l.put(l.in.X+margin, l.in.W-margin, part.Words, face, 1, ink)
	}
	if l.p.Next != "" {
		l.y += 0.7 * l.size
		l.put(l.in.X, l.in.W, l.p.Next, look.Semibold, 0.95, l.c.Ink2)
	}
	return l.y - l.in.Y
}

// put sets words in a column.
func (l *lines) put(x, w float64, words string, f look.Face, k float64, ink color.NRGBA) {
	t := paint.Type{Font: f.Font(), Size: k * l.size}
	for _, line := range t.Wrap(words, w) {
		if l.d != nil {
			l.d.Text(x, l.y+1.1*t.Size, line, t, ink)
		}
		l.y += 1.38 * t.Size
	}
}
