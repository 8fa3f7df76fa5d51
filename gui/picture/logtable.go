package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// LogColumn is a column of the navigation log.
type LogColumn struct {
	Group, Head, Unit string // the group is the same for neighbours that belong together
	Weight            float64
	Left              bool // the words begin at the left
}

// LogCell is what stands in a cell: a word, and what the program has to say to it.
type LogCell struct {
	Word  string
	Check string // what it should have been; "" if nothing is wrong with it
	Hand  bool   // written by hand
}

// LogTable is the navigation log on the screen.
type LogTable struct {
	Columns []LogColumn
	Rows    [][]LogCell
	First   int // row on top
	Marked  [2]int
	Hand    bool // cells are marked to be written in
}

// LogPlaces are where the cells of a log are in its room.
type LogPlaces struct {
	Edges      []float64 // one more than columns
	Top, Pitch float64
	Rows       int // that there is room for
}

// LogLayout lays a log out.
func LogLayout(z look.Size, room paint.Rect, columns []LogColumn) (p LogPlaces) {
	size := z.Text(16)
	sum := 0.0
	for _, c := range columns {
		sum += c.Weight
	}
	x := room.X
	for _, c := range columns {
		p.Edges = append(p.Edges, x)
		x += room.W * c.Weight / sum
	}
	p.Edges = append(p.Edges, room.Right())
	p.Top, p.Pitch = room.Y+4.6*size, math.Max(2.1*size, 0)
	p.Rows = max(1, int((room.Bottom()-p.Top)/p.Pitch))
	return p
}

// At is the cell at a place: row (of those shown) and column; ok is false where there is
// none.
func (p *LogPlaces) At(x, y float64) (row, column int, ok bool) {
	row = int(math.Floor((y - p.Top) / p.Pitch))
	for column = 0; column+1 < len(p.Edges); column++ {
		if x >= p.Edges[column] && x < p.Edges[column+1] {
			return row, column, row >= 0 && row < p.Rows
		}
	}
	return row, column, false
}

// DrawLog draws the log over its room.
func DrawLog(b *Brush, room paint.Rect, t *LogTable) {
	p := LogLayout(b.K, room, t.Columns)
	size := b.K.Text(16)
	foot := p.Top + float64(p.Rows)*p.Pitch
	for i := 1; i < p.Rows; i += 2 {
		b.rect(paint.R(room.X, p.Top+float64(i)*p.Pitch, room.W, p.Pitch), 0, paint.Alpha(b.C.Low, 0.45), none, 0)
	}
	b.logHead(room, &p, t, size)
	for i, c := range t.Columns {
		width, from, ink := b.K.Hair(), room.Y+1.5*size, b.C.Line
		if i == 0 || c.Group != t.Columns[i-1].Group {
			width, from, ink = 1.6*b.K.Device, room.Y, b.C.Rod
		}
		b.line(paint.Pt(p.Edges[i], from), paint.Pt(p.Edges[i], foot), width, ink)
	}
	b.line(paint.Pt(room.Right(), room.Y), paint.Pt(room.Right(), foot), 1.6*b.K.Device, b.C.Rod)
	for _, y := range []float64{room.Y, p.Top, foot} {
		b.line(paint.Pt(room.X, y), paint.Pt(room.Right(), y), 1.6*b.K.Device, b.C.Rod)
	}
	for i := range p.Rows {
		if k := t.First + i; k < len(t.Rows) {
			b.logRow(&p, t, i, t.Rows[k], size)
		}
	}
}

// logHead writes groups, names and units.
func (b *Brush) logHead(room paint.Rect, p *LogPlaces, t *LogTable, size float64) {
	for i := 0; i < len(t.Columns); {
		j := i
		for j < len(t.Columns) && t.Columns[j].Group == t.Columns[i].Group {
			j++
		}
		group := paint.Type{Font: look.Semibold.Font(), Size: 0.92 * size, Anchor: paint.Middle}
		width := p.Edges[j] - p.Edges[i]
		b.Text((p.Edges[i]+p.Edges[j])/2, room.Y+1.1*size, group.Shorten(t.Columns[i].Group, width-0.4*size), group, b.C.Ink2)
		i = j
	}
	for i, c := range t.Columns {
		x, width := (p.Edges[i]+p.Edges[i+1])/2, p.Edges[i+1]-p.Edges[i]-0.3*size
		name := paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}
		b.Text(x, room.Y+2.8*size, name.Shorten(c.Head, width), name, b.C.Ink)
		unit := paint.Type{Font: look.Regular.Font(), Size: 0.92 * size, Anchor: paint.Middle}
		b.Text(x, room.Y+4.1*size, unit.Shorten(c.Unit, width), unit, b.C.Ink2)
	}
}

// logRow writes a row.
func (b *Brush) logRow(p *LogPlaces, t *LogTable, shown int, cells []LogCell, size float64) {
	for i, c := range cells {
		r := paint.R(p.Edges[i], p.Top+float64(shown)*p.Pitch, p.Edges[i+1]-p.Edges[i], p.Pitch)
		if t.Hand && t.Marked == [2]int{t.First + shown, i} {
			b.rect(r.Inset(2*b.K.Device), 4*b.K.Device, b.C.Low, b.C.SlateHi, 2*b.K.Device)
		}
		ink := b.C.Air
		if c.Hand {
			ink = b.C.Ink
		}
		words := c.Word
		if c.Check != "" {
			words = c.Check
			ink = b.C.Verm
			b.rect(r.Inset(2*b.K.Device), 4*b.K.Device, b.C.VermFill, none, 0)
		}
		face := paint.Type{Font: look.Regular.Font(), Size: size, Anchor: paint.Middle}
		x := r.X + r.W/2
		if t.Columns[i].Left {
			face.Anchor, x = paint.Start, r.X+0.35*size
		}
		for face.Size > 0.78*size && face.Font.Width(words, face.Size) > r.W-0.5*size {
			face.Size -= 0.04 * size
		}
		b.Text(x, r.Y+r.H/2+0.35*face.Size, face.Shorten(words, r.W-0.4*size), face, ink)
	}
}
