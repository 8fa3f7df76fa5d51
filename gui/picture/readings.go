package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// ReadingRow is a reading in the list of position lines.
type ReadingRow struct {
	Time, Source, Value, Moved string
	Miss                       string // how far off the truth; "" if that is not to be seen
	Box                        bool   // it can be used, or not
	Used, Idle                 bool   // it is; it failed
}

// readingRowHeight is that of a row, units of text.
const readingRowHeight = 2.15

// ReadingRows is how many rows of the list there is room for, and their height.
func ReadingRows(z look.Size, height float64) (n int, pitch float64) {
	pitch = readingRowHeight * z.Text(16)
	return max(1, int(height/pitch)), pitch
}

// DrawReadings writes the rows of the list from the first one on, over the room.
func DrawReadings(b *Brush, room paint.Rect, rows []ReadingRow) {
	n, pitch := ReadingRows(b.K, room.H)
	size := b.K.Text(16)
	columns := [4]float64{2.0 * size, 5.6 * size, 0.50 * room.W, 0.68 * room.W}
	for i := range min(n, len(rows)) {
		r := paint.R(room.X, room.Y+float64(i)*pitch, room.W, pitch)
		b.readingRow(r, columns, size, &rows[i])
	}
}

func (b *Brush) readingRow(r paint.Rect, columns [4]float64, size float64, row *ReadingRow) {
	ink, u := b.C.Ink2, b.K.Device
	if row.Used {
		ink = b.C.Ink
		b.rect(r.Inset(1.5*u), 6*u, b.C.Low, b.C.Pos, 1.3*u)
	}
	y := r.Y + r.H/2 + 0.35*size
	if row.Box {
		b.tickBox(paint.R(r.X+0.55*size, r.Y+r.H/2-0.58*size, 1.16*size, 1.16*size), row.Used)
	}
	b.write(r.X+columns[0], y, row.Time, look.Engraved, size, paint.Start, ink)
	text := func(from, to float64, f look.Face, s string, c colour) {
		t := paint.Type{Font: f.Font(), Size: size}
		b.Text(r.X+from, y, t.Shorten(s, to-from-0.4*size), t, c)
	}
	face := look.Regular
	if row.Used {
		face = look.Semibold
	}
	text(columns[1], columns[2], face, row.Source, ink)
	last, c := row.Moved, ink
	if row.Miss != "" {
		last, c = row.Miss, b.C.Verm
	}
	from := columns[3]
	if row.Idle {
		from = columns[2]
	} else {
		text(columns[2], columns[3], look.Regular, row.Value, ink)
	}
	text(from, r.W-0.2*size, look.Regular, last, c)
}

// tickBox draws a box, ticked or not.
func (b *Brush) tickBox(r paint.Rect, on bool) {
	u := b.K.Device
	if !on {
		b.rect(r, 3*u, b.C.Card, b.C.SlateHi, 1.5*u)
		return
	}
	b.rect(r, 3*u, b.C.Slate, none, 0)
	at := func(x, y float64) paint.Point { return paint.Pt(r.X+x*r.W, r.Y+y*r.H) }
	b.roundLine(2*u, b.C.OnSlate, at(0.22, 0.52), at(0.43, 0.74), at(0.80, 0.26))
}
