package papers

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// column is one column of a form.
type column struct {
	group      look.Key // over it and its neighbours with the same one; "": none
	head, unit look.Key
	w          float64 // mm
	left       bool    // the words begin at the left; otherwise in the middle
	joined     bool    // no rule on its left, and the head of the column before reaches over it
}

// form is a table to be filled in, or filled in already.
type form struct {
	cols []column
	rowH float64 // mm
	size float64 // of the words in it
}

// The heights above the rows of a form, mm.
const (
	groupHeight = 4.6
	headHeight  = 9.0
)

// stretched is the form with its last column made as wide as makes the whole
// width.
func (f form) stretched(width float64) form {
	cols := append([]column(nil), f.cols...)
	for _, c := range cols[:len(cols)-1] {
		width -= c.w
	}
	cols[len(cols)-1].w = width
	f.cols = cols
	return f
}

func (f form) width() (sum float64) {
	for _, c := range f.cols {
		sum += c.w
	}
	return sum
}

// height is that of the form with n rows.
func (f form) height(n int) float64 { return groupHeight + headHeight + float64(n)*f.rowH }

// rowsIn is how many rows there are room for.
func (f form) rowsIn(height float64) int { return int((height - groupHeight - headHeight) / f.rowH) }

// form draws a form of n rows, the first of which are filled in, and gives its
// lower edge.
func (d *draft) form(x, y float64, f form, n int, filled [][]string) float64 {
	d.stripes(x, y, f, n)
	d.formHead(x, y, f)
	top := y + groupHeight + headHeight
	for i, row := range filled {
		at := x
		for j, c := range f.cols {
			if j < len(row) && row[j] != "" {
				d.cell(paint.R(at, top+float64(i)*f.rowH, c.w, f.rowH), row[j], c.left, f.size)
			}
			at += c.w
		}
	}
	return y + f.height(n)
}

// stripes are the ground and the rules: hairlines between rows, heavier between
// groups, none before a joined column.
func (d *draft) stripes(x, y float64, f form, n int) {
	w, top, bottom := f.width(), y+groupHeight+headHeight, y+f.height(n)
	for i := 1; i < n; i += 2 {
		d.fill(paint.R(x, top+float64(i)*f.rowH, w, f.rowH), paint.Alpha(d.c.Low, 0.45))
	}
	for i := 1; i < n; i++ {
		width := hair
		if i%5 == 0 {
			width = line
		}
		d.line(x, top+float64(i)*f.rowH, x+w, top+float64(i)*f.rowH, width, d.c.Line)
	}
	at, group := x, look.Key("-")
	for _, c := range f.cols {
		switch {
		case c.joined:
		case c.group != group:
			d.line(at, y, at, bottom, 0.3, d.c.Ink)
		default:
			d.line(at, y+groupHeight, at, bottom, hair, d.c.Ink2)
		}
		group = c.group
		at += c.w
	}
	d.line(x, y+groupHeight, x+w, y+groupHeight, line, d.c.Ink)
	d.line(x, top, x+w, top, 0.3, d.c.Ink)
	d.box(paint.R(x, y, w, bottom-y), 0.3, d.c.Ink)
}

// formHead writes groups, heads and units.
func (d *draft) formHead(x, y float64, f form) {
	for i := 0; i < len(f.cols); {
		from, w := x, f.cols[i].w
		j := i + 1
		for ; j < len(f.cols) && f.cols[j].group == f.cols[i].group; j++ {
			w += f.cols[j].w
		}
		if g := f.cols[i].group; g != "" {
			d.write(from+w/2, y+groupHeight-1.3, look.Text(g), look.Semibold, note, paint.Middle, d.c.Ink)
		}
		for ; i < j; i++ {
			d.columnHead(x, y+groupHeight, f.cols[i], i+1 < j && f.cols[i+1].joined)
			x += f.cols[i].w
		}
	}
}

// columnHead writes one head and its unit; a head over a joined column begins at
// the left.
func (d *draft) columnHead(x, y float64, c column, joins bool) {
	at, anchor := x+c.w/2, paint.Middle
	if c.left || c.joined || joins {
		at, anchor = x+1.2, paint.Start
	}
	if c.head != "" {
		d.write(at, y+3.6, look.Text(c.head), look.Semibold, small, anchor, d.c.Ink)
	}
	if c.unit != "" {
		d.write(at, y+7.1, look.Text(c.unit), look.Regular, small, anchor, d.c.Ink2)
	}
}

// cell writes what the program has filled in: on one line if that can be, else
// on two small ones; what is still too long is cut with a mark.
func (d *draft) cell(r paint.Rect, words string, left bool, size float64) {
	at, anchor := r.X+r.W/2, paint.Middle
	if left {
		at, anchor = r.X+1.2, paint.Start
	}
	room := r.W - 1.4
	if left {
		room = r.W - 2.4 // the file's reader does not kern: a little wider than measured
	}
	f := look.Regular
	if size = fit(words, f, size, room); f.Font().Width(words, size) <= room+1e-9 {
		d.write(at, r.Centre().Y+size*0.36, words, f, size, anchor, d.c.Air)
		return
	}
	lines := wrap(words, f, small, room)
	if len(lines) > 2 {
		rest := paint.Type{Font: f.Font(), Size: small}
		lines = []string{lines[0], rest.Shorten(joinWords(lines[1:]), room)}
	}
	for i, s := range lines {
		d.write(at, r.Centre().Y-0.4+float64(i)*2.7, s, f, small, anchor, d.c.Air)
	}
}

func joinWords(words []string) (all string) {
	for i, w := range words {
		if i > 0 {
			all += " "
		}
		all += w
	}
	return all
}

// blank is a box to be filled in by hand, with what belongs in it small at its
// top and, if the program knows it, the value.
type blank struct {
	name  look.Key
	value string
	w     float64
}

// blanks draws boxes in a row, the widths in proportion to the given total.
func (d *draft) blanks(x, y, width, height float64, boxes []blank) {
	sum := 0.0
	for _, b := range boxes {
		sum += b.w
	}
	for _, b := range boxes {
		w := b.w * width / sum
		d.box(paint.R(x, y, w, height), line, d.c.Ink)
		d.write(x+1.4, y+3.2, look.Text(b.name), look.Regular, small, paint.Start, d.c.Ink2)
		if b.value != "" {
			d.write(x+1.4, y+height-2, b.value, look.Regular, fit(b.value, look.Regular, strong, w-2), paint.Start, d.c.Air)
		}
		x += w
	}
}

// ruled is a box with a heading and named lines to write on.
type ruled struct {
	head  look.Key
	lines []look.Key
}

// ruledBoxes draws them side by side.
func (d *draft) ruledBoxes(x, y, width, height float64, boxes []ruled) {
	w := width / float64(len(boxes))
	for _, b := range boxes {
		d.box(paint.R(x, y, w, height), line, d.c.Ink)
		d.write(x+2, y+4, look.Text(b.head), look.Semibold, note, paint.Start, d.c.Ink)
		step := (height - 5.5) / float64(len(b.lines))
		for i, k := range b.lines {
			base := y + 4.6 + float64(i+1)*step - 1
			words := look.Text(k)
			d.write(x+2, base, words, look.Regular, small, paint.Start, d.c.Ink2)
			d.line(x+2+look.Regular.Font().Width(words, small)+1.5, base+0.3, x+w-2, base+0.3, hair, d.c.Ink2)
		}
		x += w
	}
}
