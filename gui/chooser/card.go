package chooser

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// ring is the room round the body of a card for the sign of the focus, units.
const ring = 3

// card is a flight on the shelf: a shipped one with a small chart, a file with
// two lines. A tap chooses it; a tap on the chosen one flies it.
type card struct {
	kit.Control
	chooser *Chooser
	entry   *entry
}

func newCard(c *Chooser, e *entry) *card {
	k := &card{chooser: c, entry: e}
	k.Begin(k, c.screen, fyne.NewSize(120, 60), k.paint, func() string { return e.path }, nil)
	return k
}

func (k *card) chosen() bool { return k.chooser.chosen == k.entry }

func (k *card) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := k.Palette(), z.Device
	body := paint.R(0, 0, w, h).Inset(ring * u)
	outline, ink := z.Hair(), c.Line
	switch {
	case k.chosen():
		outline, ink = max(2*u, z.Px(3)), c.BrassLo
	case k.Hover:
		ink = c.SlateHi
	}
	paper(d, w, h, body, z, c, outline, ink)
	k.Ring(d, w, h, z)
	switch {
	case k.entry.path != "":
		k.paintFile(d, body, z)
		return
	case k.entry.number > 0:
		k.paintLesson(d, body, z)
		return
	}
	k.paintFlight(d, body, z)
}

// paintFlight draws a shipped flight: chart, name, length, sentence.
func (k *card) paintFlight(d *paint.Raster, body paint.Rect, z look.Size) {
	c, e := k.Palette(), k.entry
	chart := chartOf(body, z)
	k.paintChart(d, chart, z)
	inset := chart.X + z.Px(8)
	right := chart.Right() - z.Px(8)
	name, small := typeOf(look.Bold, z, look.TextLabel), typeOf(look.Regular, z, look.TextSmall)
	y := chart.Bottom() + z.Px(8) + 1.05*name.Size
	length := ""
	if e.flight != nil {
		length = flights.LengthText(e.flight.Length())
	}
	small.Anchor = paint.End
	d.Text(right, y, length, small, c.Ink2)
	small.Anchor = paint.Start
	d.Text(inset, y, shortTitle(e.title, name, right-inset-small.Font.Width(length, small.Size)-8*z.Device), name, c.Ink)
	y += 0.5 * name.Size
	for _, line := range fold(e.summary, small, right-inset, 2) {
		y += 1.32 * small.Size
		d.Text(inset, y, line, small, c.Ink)
	}
	k.paintBar(d, body, inset, z)
}

// paintBar underlines the chosen card.
func (k *card) paintBar(d *paint.Raster, body paint.Rect, inset float64, z look.Size) {
	if !k.chosen() {
		return
	}
	thick := max(2*z.Device, z.Px(3))
	var p paint.Path
	p.RoundRect(paint.R(inset, body.Bottom()-max(8*z.Device, z.Px(14)), body.X+body.Right()-2*inset, thick), thick/2)
	d.Fill(&p, k.Palette().Brass)
}

func (k *card) paintChart(d *paint.Raster, chart paint.Rect, z look.Size) {
	c, f := k.Palette(), k.entry.flight
	var p paint.Path
	d.Fill(p.Rect(chart), c.Sea)
	if f != nil {
		w := wish{flight: f, w: int(chart.W), h: int(chart.H), palette: c, size: z}
		if im := k.chooser.charts.get(k, w); im != nil {
			d.Image(chart, im)
		}
	}
	p.Reset().RoundRect(chart, look.SmallRadius*z.Device)
	d.Stroke(&p, paint.Pen{Width: 1.3 * z.Hair()}, c.Ink)
}

// paintFile writes a file: its title, its name, its length or that something is
// wrong with it.
func (k *card) paintFile(d *paint.Raster, body paint.Rect, z look.Size) {
	c, e := k.Palette(), k.entry
	name, small := typeOf(look.Semibold, z, look.TextBody), typeOf(look.Regular, z, look.TextSmall)
	inset := max(z.Px(16), 10*z.Device)
	x, width := body.X+inset, body.W-2*inset
	file := base(e.path)
	if when := flights.FlownWhen(e.path); when != "" && k.chooser.keptAt(e.path) != nil {
		file = when
	}
	y := body.Y + body.H/2 - 0.35*name.Size
	d.Text(x, y, name.Shorten(printable(e.title, look.Semibold), width), name, c.Ink)
	second, ink := file, c.Ink2
	switch {
	case e.err != nil:
		second, ink = look.Text(look.ChooserNotYet), c.Verm
	case e.flight != nil:
		length := flights.LengthText(e.flight.Length())
		small.Anchor = paint.End
		d.Text(x+width, y+1.45*small.Size, length, small, c.Ink2)
		small.Anchor = paint.Start
		width -= small.Font.Width(length, small.Size) + 8*z.Device
	}
	d.Text(x, y+1.45*small.Size, small.Shorten(printable(second, look.Regular), width), small, ink)
	k.paintBar(d, body, x, z)
}

// Tapped chooses the card, or flies it if it is the chosen one.
func (k *card) Tapped(*fyne.PointEvent) {
	if k.chosen() {
		k.chooser.flyChosen()
		return
	}
	k.chooser.choose(k.entry)
}

// Cursor is part of the toolkit's contract.
func (k *card) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained brings the card into sight.
func (k *card) FocusGained() {
	k.Control.FocusGained()
	k.chooser.shelf.reveal(k.entry)
}

// TypedKey flies with Enter, chooses with the space bar, and leaves the rest to
// the view and the window.
func (k *card) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		k.chooser.choose(k.entry)
		k.chooser.flyChosen()
	case fyne.KeySpace:
		k.chooser.choose(k.entry)
	default:
		if !k.chooser.TypedKey(e) {
			k.PassOn(e)
		}
	}
}

// chartOf is where the chart of a card lies.
func chartOf(body paint.Rect, z look.Size) paint.Rect {
	pad := max(6*z.Device, z.Px(8))
	w := body.W - 2*pad
	return paint.R(body.X+pad, body.Y+pad, w, w*chartHeight/chartWidth).Snap()
}

// The chart of a card, pixels at 1080 lines.
const (
	chartWidth  = 290
	chartHeight = 184
)

// flightHeight is how high the body of a card must be at a width, units.
func flightHeight(width float32, z look.Size) float32 {
	chart := chartOf(paint.R(0, 0, float64(width), 0), z)
	words := z.Px(8) + 1.55*z.Text(look.TextLabel) + 2.9*z.Text(look.TextSmall) + max(12, z.Px(24))
	return float32(chart.Bottom() + max(z.Px(126), words))
}

// fileHeight is the height of the body of a card of a file, units.
func fileHeight(z look.Size) float32 {
	return float32(max(kit.Target, z.Px(88), 1.1*z.Text(look.TextBody)+1.5*z.Text(look.TextSmall)+2*max(14, z.Px(22))))
}
