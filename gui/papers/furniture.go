package papers

import (
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// barLength is the length of the check bar, mm.
const barLength = 100.0

// checkBar draws the bar that tells whether the paper was printed true, with
// its sentence; y is the bar's base line.
func (d *draft) checkBar(x, y float64, means string) {
	d.line(x, y, x+barLength, y, heavy, d.c.Ink)
	for i := 0; i <= 100; i++ {
		length, width := 1.2, hair
		switch {
		case i%10 == 0:
			length, width = 3.0, line
		case i%5 == 0:
			length = 2.0
		case i > 10:
			continue
		}
		d.line(x+float64(i), y-length, x+float64(i), y, width, d.c.Ink)
	}
	for i := 0; i <= 100; i += 10 {
		d.write(x+float64(i), y+3, strconv.Itoa(i), look.Engraved, note, paint.Middle, d.c.Ink)
	}
	d.write(x+barLength+4, y+3, look.Text(look.PaperMillimetres), look.Regular, note, paint.Start, d.c.Ink2)
	d.write(x, y+7, look.Text(look.PaperBarCheck), look.Bold, note, paint.Start, d.c.Ink)
	d.write(x, y+10.6, means, look.Regular, note, paint.Start, d.c.Ink2)
}

const keyWidth = 101.0

// key explains the symbols of the plot in three columns, keyWidth across.
func (d *draft) key(x, y float64) {
	const row, k = 4.4, 0.75 * symbolScale
	label := func(col, i int, words look.Key) {
		d.write(x+[...]float64{5, 43, 81}[col], y+float64(i)*row+1, look.Text(words), look.Regular, note, paint.Start, d.c.Ink)
	}
	d.brush.AirCross(paint.Pt(x, y), k)
	d.brush.DRSquare(paint.Pt(x, y+row), k)
	d.brush.FixTriangle(paint.Pt(x, y+2*row), k)
	for i, w := range []look.Key{look.PaperKeyAir, look.PaperKeyDR, look.PaperKeyFix} {
		label(0, i, w)
	}
	for i, v := range []struct {
		words look.Key
		kind  look.LineKind
	}{{look.PaperKeyHeading, look.AirPlot}, {look.PaperKeyTrack, look.GroundTrack}, {look.PaperKeyWind, look.WindSet}} {
		l := look.Lines[v.kind]
		d.vector(x+31, x+41, y+float64(i)*row, l.Heads, l.Colour(&d.c))
		label(1, i, v.words)
	}
	for i, words := range []look.Key{look.PaperKeyLine, look.PaperKeyMoved} {
		d.positionLine(x+69, x+79, y+float64(i)*row, i+1)
		label(2, i, words)
	}
}

// vector is a level line with so many heads in its middle.
func (d *draft) vector(x1, x2, y float64, heads int, c colour) {
	const head, pitch = 2.0, 1.7
	d.line(x1, y, x2, y, 0.4, c)
	tip := (x1+x2)/2 + head/2 + pitch*float64(heads-1)/2
	for range heads {
		d.Fill(d.path.Reset().Polygon(paint.Pt(tip, y), paint.Pt(tip-head, y-0.9), paint.Pt(tip-head*0.72, y), paint.Pt(tip-head, y+0.9)), c)
		tip -= pitch
	}
}

// positionLine is a slanted line with so many open heads at both ends.
func (d *draft) positionLine(x1, x2, y float64, heads int) {
	a, z := paint.Pt(x1, y+0.9), paint.Pt(x2, y-0.9)
	d.line(a.X, a.Y, z.X, z.Y, 0.3, d.c.Pos)
	length := a.Dist(z)
	ux, uy := (z.X-a.X)/length, (z.Y-a.Y)/length
	for i := range heads {
		back := 1.3 * float64(i)
		for _, e := range []struct {
			at   paint.Point
			sign float64
		}{{z, 1}, {a, -1}} {
			tip := e.at.Add(-e.sign*ux*back, -e.sign*uy*back)
			b := tip.Add(-e.sign*ux*1.7, -e.sign*uy*1.7)
			d.Stroke(d.path.Reset().Polyline(b.Add(-uy*0.8, ux*0.8), tip, b.Add(uy*0.8, -ux*0.8)), paint.Pen{Width: 0.3, Cap: paint.Round}, d.c.Pos)
		}
	}
}
