package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// HandRow is a thing drawn by hand in the list of them.
type HandRow struct {
	What, Name string // 078T 24.3 NM; what it stands for
	Told       string // how it differs from the worked one; two lines at most
	Verdict    string // at the right
	Miss       string // how far off the truth; "" if that is not to be seen
	Chosen     bool
	Good       bool
}

// HandRowCount is how many rows there is room for, and their height.
func HandRowCount(z look.Size, height float64) (n int, pitch float64) {
	pitch = max(4.5*z.Text(15), 56*z.Device)
	return max(1, int((height-8*z.Device)/pitch)), pitch
}

// DrawHandRows writes the rows from the first one on, over the room.
func DrawHandRows(b *Brush, room paint.Rect, rows []HandRow) {
	n, pitch := HandRowCount(b.K, room.H)
	ring := 4 * b.K.Device // clear of the outline of the keyboard's focus
	for i := range min(n, len(rows)) {
		b.handRow(paint.R(room.X+ring, room.Y+ring+float64(i)*pitch, room.W-2*ring, pitch), &rows[i])
	}
}

func (b *Brush) handRow(r paint.Rect, row *HandRow) {
	u, size := b.K.Device, b.K.Text(15)
	fill, edge, wide := b.C.Card, b.C.Line, b.K.Hair()
	if row.Chosen {
		fill, edge, wide = b.C.Low, b.C.BrassLo, 2.2*u
	}
	b.rect(r.Inset(1.5*u), 6*u, fill, edge, wide)
	x, right, y := r.X+8*u, r.Right()-8*u, r.Y+0.5*u+1.25*size
	end := paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.End}
	if row.Verdict != "" {
		ink := b.C.Ink2
		if row.Good {
			ink = b.C.Ink
		}
		b.Text(right, y, row.Verdict, end, ink)
		right -= end.Font.Width(row.Verdict, size) + 0.6*size
	}
	figures := paint.Type{Font: look.Engraved.Font(), Size: size}
	what := figures.Shorten(row.What, right-x)
	b.Text(x, y, what, figures, b.C.Ink)
	name := paint.Type{Font: look.Semibold.Font(), Size: size}
	from := x + figures.Font.Width(what, size) + 0.7*size
	if row.What == "" {
		from = x
	}
	b.Text(from, y, name.Shorten(row.Name, right-from), name, b.C.Ink)
	b.handTold(x, y+1.3*size, r.Right()-8*u, size, row)
}

// handTold writes how the thing differs, and in the colour of the truth how far it is off
// that, behind it.
func (b *Brush) handTold(x, y, right, size float64, row *HandRow) {
	t := paint.Type{Font: look.Regular.Font(), Size: size}
	lines := t.Wrap(row.Told, right-x)
	if row.Told == "" {
		lines = nil
	}
	for i, line := range lines[:min(2, len(lines))] {
		if i == 1 && len(lines) > 2 {
			line = t.Shorten(line+" "+lines[2], right-x)
		}
		b.Text(x, y+1.25*float64(i)*size, line, t, b.C.Ink2)
	}
	if row.Miss == "" {
		return
	}
	t.Anchor = paint.End
	if len(lines) == 1 {
		y += 1.25 * size
	}
	b.Text(right, y, row.Miss, t, b.C.Verm)
}
