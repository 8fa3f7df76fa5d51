package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// ledger is the geometry of the table.
type ledger struct {
	rows               []paint.Rect
	sum                paint.Rect
	north, east, along float64 // right edges of the columns
	bars               paint.Rect
	foot               paint.Rect // for the words under it
	size               float64    // of its text
	notes              bool       // there is room for a second line
}

// ledgerOf lays the table out in the room of its card.
func (b *Brush) ledgerOf(in paint.Rect, n int) (l ledger) {
	l.size = b.K.Text(16)
	head, foot := 1.9*l.size, 2.9*b.K.Text(15)
	pitch := math.Min(3.8*l.size, (in.H-head-foot)/float64(n+1))
	l.notes = pitch >= 2.35*l.size
	l.size = math.Min(l.size, pitch/1.1)
	y := in.Y + head
	for range n {
		l.rows = append(l.rows, paint.R(in.X, y, in.W, pitch))
		y += pitch
	}
	l.sum = paint.R(in.X, y, in.W, pitch)
	l.foot = paint.R(in.X, y+pitch, in.W, in.Bottom()-y-pitch)
	column := 4.6 * l.size
	l.north = in.X + math.Max(0.38*in.W, 11*l.size) + column
	l.east, l.along = l.north+column, l.north+2*column
	l.bars = paint.R(l.along+1.6*l.size, in.Y+head, in.Right()-l.along-1.6*l.size, pitch*float64(n+1))
	return l
}

// AccountRows are the rows of the table, to be pointed at, in a card.
func AccountRows(z look.Size, card paint.Rect, parts int) []paint.Rect {
	b := &Brush{K: z}
	return b.ledgerOf(b.cardRoom(card), parts).rows
}

func (b *Brush) accountTable(r paint.Rect, a *Account) {
	in := b.card(r, look.Textf(look.AccountTitle, a.When), "")
	l := b.ledgerOf(in, len(a.Parts))
	y := in.Y + 0.9*l.size
	for _, c := range []struct {
		x    float64
		word look.Key
	}{{l.north, look.AccountNorth}, {l.east, look.AccountEast}, {l.along, look.AccountAlong}} {
		b.write(c.x, y, look.Text(c.word), look.Semibold, b.K.Text(15.5), paint.End, b.C.Ink2)
	}
	for i := range a.Parts {
		if i%2 == 1 {
			b.rect(l.rows[i].Inset(1), 4*b.K.Device, paint.Alpha(b.C.Low, 0.45), none, 0)
		}
	}
	b.accountBars(&l, a)
	for i := range a.Parts {
		b.accountRow(&l, l.rows[i], &a.Parts[i])
	}
	b.accountSum(&l, a)
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(14.5)}
	y = l.foot.Y + 0.5*small.Size
	foot := look.Text(look.AccountFoot)
	if !a.OnPaper {
		foot += " " + look.Text(look.AccountTouch)
	}
	for _, line := range small.Wrap(foot, in.W) {
		y += 1.25 * small.Size
		if y < in.Bottom()+0.3*small.Size {
			b.Text(in.X, y, line, small, b.C.Ink2)
		}
	}
}

// accountRow writes one link; what is held right is struck through, its swatch
// hollow.
func (b *Brush) accountRow(l *ledger, r paint.Rect, p *AccountPart) {
	mid := r.Y + r.H/2
	h := math.Min(0.72*r.H, 2*l.size)
	swatch, fill := paint.R(r.X+4*b.K.Symbol(), mid-h/2, 0.8*l.size, h), b.tone(p.Family)
	if p.Right {
		fill = none
	}
	b.rect(swatch, 0, fill, b.C.Ink, b.K.Hair())
	x, y := swatch.Right()+0.7*l.size, mid+0.34*l.size
	note := p.Note
	if p.Right {
		note = look.Text(look.AccountRight)
	}
	room := l.north - 4.2*l.size - x
	if l.notes && note != "" {
		small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(14.5)}
		b.Text(x, mid+0.95*small.Size, small.Shorten(note, room+1.2*l.size), small, b.C.Ink2)
		y = mid - 0.22*l.size
	}
	name := paint.Type{Font: look.Semibold.Font(), Size: l.size}
	words := name.Shorten(look.Capital(p.Name), room+1.2*l.size)
	b.Text(x, y, words, name, b.C.Ink)
	if p.Right {
		b.line(paint.Pt(x, y-0.3*l.size), paint.Pt(x+name.Font.Width(words, l.size), y-0.3*l.size), 1.4*b.K.Symbol(), b.C.Ink2)
		return
	}
	b.figures(l, mid, p.Printed, look.Regular, b.C.Ink)
}

// figures writes the three columns.
func (b *Brush) figures(l *ledger, mid float64, tenths [3]int, face look.Face, along colour) {
	y := mid + 0.34*l.size
	b.write(l.north, y, signed(tenths[0], "N", "S"), face, l.size, paint.End, b.C.Ink)
	b.write(l.east, y, signed(tenths[1], "E", "W"), face, l.size, paint.End, b.C.Ink)
	b.write(l.along, y, units.Figure(float64(tenths[2])/10, 1), look.Bold, l.size, paint.End, along)
}

func (b *Brush) accountSum(l *ledger, a *Account) {
	k := b.K.Symbol()
	b.line(paint.Pt(l.sum.X, l.sum.Y), paint.Pt(l.along, l.sum.Y), 1.6*k, b.C.Ink)
	mid := l.sum.Y + l.sum.H/2
	b.write(l.sum.X+4*k+1.5*l.size, mid+0.34*l.size, look.Text(look.AccountSum), look.Bold, 1.08*l.size, paint.Start, b.C.Ink)
	b.figures(l, mid, a.Sum, look.Bold, b.C.Verm)
}

// accountBars draws the column along the line as bars that go on from one another.
func (b *Brush) accountBars(l *ledger, a *Account) {
	if l.bars.W < 6*l.size {
		return
	}
	lo, hi, at := 0.0, 0.0, 0.0
	for i := range a.Parts {
		at += float64(a.Parts[i].Printed[2]) / 10
		lo, hi = math.Min(lo, at), math.Max(hi, at)
	}
	step := NiceStep((hi - lo) / 4)
	lo, hi = step*math.Floor(lo/step+1e-9), step*math.Max(1, math.Ceil(hi/step-1e-9))
	room := l.bars
	room.W -= 3.2 * l.size // for the figure at the last bar
	x := func(v float64) float64 { return room.X + (v-lo)/(hi-lo)*room.W }
	for v := lo; v <= hi+step/2; v += step {
		c, w := b.C.Low, 1.5
		if math.Abs(v) < step/2 {
			c, w = b.C.Ink2, 1.6
		}
		b.line(paint.Pt(x(v), room.Y), paint.Pt(x(v), room.Bottom()), w*b.K.Symbol(), c)
		b.write(x(v), room.Y-0.55*l.size, units.Figure(v, decimals(step)), look.Engraved, b.K.Figure(14.5), paint.Middle, b.C.Ink2)
	}
	at = 0
	for i := range a.Parts {
		p := &a.Parts[i]
		if p.Right {
			continue
		}
		z := at + float64(p.Printed[2])/10
		b.bar(barOf(l.rows[i], x(at), x(z)), b.tone(p.Family), z < at)
		foot := l.sum.Y
		if i+1 < len(a.Parts) {
			foot = l.rows[i+1].Y
		}
		b.dashed(paint.Pt(x(z), l.rows[i].Bottom()-2), paint.Pt(x(z), foot+4), b.K.Hair(), b.C.Ink2, 3, 3)
		at = z
	}
	b.bar(barOf(l.sum, x(0), x(at)), b.C.Verm, false)
}

// barOf is a bar in a row from one value to the next, wide enough to be seen.
func barOf(row paint.Rect, a, z float64) paint.Rect {
	a, z = math.Min(a, z), math.Max(a, z)
	return paint.R(a, row.Y+0.2*row.H, math.Max(z-a, 1), 0.6*row.H)
}

// bar draws a bar; one that runs back is hollow with a hatch.
func (b *Brush) bar(r paint.Rect, c colour, back bool) {
	k := b.K.Symbol()
	if back {
		b.rect(r, 0, b.C.Card, none, 0)
		b.hatch(r, 9*k, 2.4*k, c)
		c = none
	}
	b.rect(r, 0, c, b.C.Ink, 1.2*k)
}

// NiceStep is 1, 2 or 5 times a power of ten, not below v.
func NiceStep(v float64) float64 {
	if v <= 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// decimals is how many places a scale of this step needs.
func decimals(step float64) int { return max(0, int(math.Ceil(-math.Log10(step)-1e-9))) }

// Say is the part in words: drive: 4.8 S, 12.1 W, 13.0 miles along the line.
func (p *AccountPart) Say(name string) string {
	if p.Right {
		return look.Textf(look.AccountSayRight, name)
	}
	return look.Textf(look.AccountSay, name, northEast(p.Printed), units.Figure(float64(p.Printed[2])/10, 1))
}
