package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// FixCard is what is written of a fix and the wind found with it.
type FixCard struct {
	Fix, When string // "" without a fix
	Told      string // why there is none
	Rows      [][2]string
	Truth     string // how far it is from the true position; "" if that is not to be seen

	Wind    string // "" without one
	Since   string // from when to when, or why there is none
	WindNow string // that is set
}

// Add adds a row.
func (c *FixCard) Add(what look.Key, is string) {
	c.Rows = append(c.Rows, [2]string{look.Text(what), is})
}

// DrawFix writes the card over the room: the fix, what is known of it as far as there is
// room, and the wind under it.
func DrawFix(b *Brush, room paint.Rect, c *FixCard) {
	size := b.K.Text(16)
	wind := c.windHeight(size)
	top := paint.R(room.X, room.Y, room.W, room.H-wind)
	b.fixText(top, size, c)
	if wind > 0 {
		b.windText(paint.R(room.X, top.Bottom(), room.W, wind), size, c)
	}
}

// windHeight is the room of the wind, 0 where nothing is to be said of it.
func (c *FixCard) windHeight(size float64) float64 {
	if c.Wind == "" && c.Since == "" {
		return 0
	}
	return 3.6 * size
}

func (b *Brush) fixText(r paint.Rect, size float64, c *FixCard) {
	if c.Fix == "" {
		t := paint.Type{Font: look.Regular.Font(), Size: size}
		y := r.Y - 0.2*size
		for _, line := range t.Wrap(c.Told, r.W) {
			y += 1.3 * size
			b.Text(r.X, y, line, t, b.C.Ink2)
		}
		b.fixRows(r, y, size, c.Rows)
		return
	}
	big := 1.35 * size
	b.FixTriangle(paint.Pt(r.X+0.62*big, r.Y+0.78*big), big/22)
	b.write(r.X+1.5*big, r.Y+1.1*big, c.Fix, look.Engraved, big, paint.Start, b.C.Ink)
	y := r.Y + 1.1*big
	if c.Truth != "" {
		y += 1.4 * size
		b.write(r.X, y, c.Truth, look.Semibold, size, paint.Start, b.C.Verm)
	}
	b.fixRows(r, y, size, c.Rows)
}

// fixRows writes the rows under y as far as there is room.
func (b *Brush) fixRows(r paint.Rect, y, size float64, rows [][2]string) {
	for _, row := range rows {
		if y += 1.4 * size; y > r.Bottom() {
			return
		}
		t := paint.Type{Font: look.Semibold.Font(), Size: size}
		value := t.Font.Width(row[1], size)
		b.Text(r.X+r.W-value, y, row[1], t, b.C.Ink)
		name := paint.Type{Font: look.Regular.Font(), Size: size}
		b.Text(r.X, y, name.Shorten(row[0], r.W-value-0.6*size), name, b.C.Ink2)
	}
}

func (b *Brush) windText(r paint.Rect, size float64, c *FixCard) {
	b.line(paint.Pt(r.X, r.Y+0.35*size), paint.Pt(r.Right(), r.Y+0.35*size), b.K.Hair(), b.C.Line)
	big, x := 1.9*size, r.X
	y := r.Y + 0.5*size + 1.15*big
	if c.Wind != "" {
		b.write(x, y, c.Wind, look.Engraved, big, paint.Start, b.C.Wind)
		x += look.Engraved.Font().Width(c.Wind, big) + 1.2*size
	}
	t := paint.Type{Font: look.Regular.Font(), Size: size}
	lines := t.Wrap(c.Since, r.Right()-x)
	lines = append(lines, c.WindNow)
	y = r.Y + 1.55*size
	for _, line := range lines[:min(2, len(lines))] {
		b.Text(x, y, line, t, b.C.Ink2)
		y += 1.3 * size
	}
}
