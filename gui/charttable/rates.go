package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// rates is the control for the time rate: all of them in a trough, the one in
// use pressed in; where there is no room for all, the one in use alone, and a
// tap on it gives x1. For the keyboard it is one control: left and right.
type rates struct {
	kit.Painted
	table   *Table
	rate    float64
	hover   int // cell under the pointer, -1 none
	focused bool
}

// troughPad is what lies left and right of the cells, units.
const troughPad = 6

func newRates(t *Table) *rates {
	r := &rates{table: t, hover: -1}
	r.Extend(r, t.screen, fyne.NewSize(rateValue, kit.Target), r.paint)
	return r
}

type ratesKey struct {
	rate float64
	p    *look.Palette
}

func (r *rates) apply(rate float64) {
	r.rate = rate
	r.Update(ratesKey{rate, r.Palette()})
}

// all says whether every rate has a cell.
func (r *rates) all() bool { return r.Size().Width >= float32(len(helm.Rates)*rateCell) }

// cellAt is the number of the cell at x, units; the ends belong to the outermost.
func (r *rates) cellAt(x float32) int {
	n := len(helm.Rates)
	i := int((x - troughPad) / ((r.Size().Width - 2*troughPad) / float32(n)))
	return max(0, min(n-1, i))
}

func (r *rates) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := r.Palette(), z.Device
	var p paint.Path
	d.Fill(p.Rect(paint.R(0, 0, w, h)), c.Card)
	body := paint.R(0, 0, w, h).Inset(3 * u)
	if r.all() {
		d.Fill(p.Reset().RoundRect(body, 8*u), c.Low)
		d.Stroke(&p, paint.Pen{Width: z.Hair()}, c.Line)
		pitch := (w - 2*troughPad*u) / float64(len(helm.Rates))
		for i, rate := range helm.Rates {
			r.paintCell(d, paint.R(troughPad*u+float64(i)*pitch, body.Y, pitch, body.H), z, i, rate)
		}
	} else {
		chosenPlate(d, body, z, c, rateText(r.rate), max(z.Text(look.TextLarge), 20*u))
	}
	if r.focused {
		d.Stroke(p.Reset().RoundRect(paint.R(0, 0, w, h).Inset(1.5*u), 10*u), paint.Pen{Width: 3 * u}, c.SlateHi)
	}
}

func (r *rates) paintCell(d *paint.Raster, cell paint.Rect, z look.Size, i int, rate float64) {
	c, u := r.Palette(), z.Device
	size := rateSize(z)
	if rate == r.rate {
		chosenPlate(d, cell.Inset(2*u), z, c, rateText(rate), size)
		return
	}
	if i == r.hover {
		d.Fill(new(paint.Path).RoundRect(cell.Inset(3*u), 6*u), c.Card)
	}
	m := cell.Centre()
	d.Text(m.X, m.Y+0.35*size, rateText(rate), paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}, c.Ink)
}

// rateSize is that of the text, as large as the longest rate fits its cell.
func rateSize(z look.Size) float64 {
	widest := look.Semibold.Font().Width(rateText(240), 1)
	return min(z.Text(look.TextBody), (rateCell-9)*z.Device/widest)
}

// chosenPlate is the chosen state of a control: slate with a brass underline.
func chosenPlate(d *paint.Raster, body paint.Rect, z look.Size, c *look.Palette, words string, size float64) {
	u := z.Device
	var p paint.Path
	d.Fill(p.RoundRect(body, 7*u), c.Slate)
	in := body.W * 0.22
	d.Fill(p.Reset().RoundRect(paint.R(body.X+in, body.Bottom()-7*u, body.W-2*in, 3*u), 1.5*u), c.BrassHi)
	m := body.Centre()
	d.Text(m.X, m.Y+0.33*size, words, paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}, c.OnSlate)
}

// Tapped sets the rate tapped, or x1 where only one is shown.
func (r *rates) Tapped(e *fyne.PointEvent) {
	if r.all() {
		r.table.helm.SetRate(helm.Rates[r.cellAt(e.Position.X)])
		return
	}
	r.table.helm.SetRate(1)
}

// TypedKey goes through the rates.
func (r *rates) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		r.table.helm.ChangeRate(-1)
	case fyne.KeyRight:
		r.table.helm.ChangeRate(1)
	default:
		r.table.screen.PassOn(e)
	}
}

// TypedRune is part of the toolkit's contract.
func (r *rates) TypedRune(rune) {}

// Spoken is what the control is called.
func (r *rates) Spoken() string {
	return look.Textf(look.RatesHint, rateText(r.rate), rateHint(r.rate))
}

func (r *rates) point(cell int) {
	if !r.all() {
		cell = 0
	}
	if cell != r.hover {
		r.hover = cell
		r.Repaint()
	}
}

// MouseIn is part of the toolkit's contract.
func (r *rates) MouseIn(e *desktop.MouseEvent) {
	r.point(r.cellAt(e.Position.X))
	words := r.Spoken()
	if !r.all() {
		words += ". " + look.Text(look.RateTap)
	}
	r.table.screen.Hints.Rest(r, words)
}

// MouseMoved is part of the toolkit's contract.
func (r *rates) MouseMoved(e *desktop.MouseEvent) { r.point(r.cellAt(e.Position.X)) }

// MouseOut is part of the toolkit's contract.
func (r *rates) MouseOut() {
	r.hover = -1
	r.Repaint()
	r.table.screen.Hints.Leave(r)
}

// FocusGained is part of the toolkit's contract.
func (r *rates) FocusGained() {
	r.focused = true
	r.Repaint()
	r.table.screen.Hints.Tell(r, r.Spoken())
}

// FocusLost is part of the toolkit's contract.
func (r *rates) FocusLost() {
	r.focused = false
	r.Repaint()
	r.table.screen.Hints.Leave(r)
}
