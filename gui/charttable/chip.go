package charttable

import (
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// chip is a fault in a list: a sign for how it stands, and its name in one or
// two lines.
type chip struct {
	kit.Control
	words  string
	under  string // how it stands, in words; "" in a list to choose from
	stands sim.FaultStands
	idle   bool // not ordered: a hollow circle
	reason string
	press  func() // nil: not to be pressed
}

func newChip(t *Table, press func()) *chip {
	c := &chip{press: press}
	c.Begin(c, t.screen, fyne.NewSize(100, kit.Target), c.paint, func() string { return c.reason }, nil)
	return c
}

func (c *chip) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := c.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	body := paint.R(0, 0, w, h).Inset(3 * u)
	var path paint.Path
	path.RoundRect(body, 8*u)
	edge, ink := p.Line, p.Ink
	switch {
	case c.reason != "":
		ink = p.Ink2
	case c.press != nil:
		edge = p.SlateHi
	}
	if c.Hover && c.press != nil {
		d.Fill(&path, p.Low)
	}
	d.Stroke(&path, paint.Pen{Width: 1.2 * u}, edge)
	c.Ring(d, w, h, z)
	c.sign(d, z, paint.Pt(body.X+20*u, body.Y+body.H/2))
	text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	lines := wrapped(c.words, text, body.W-48*u)
	if c.under != "" {
		if len(lines) > 1 {
			lines[0] = strings.TrimRight(lines[0], ",") + "\u2026"
		}
		lines = append(lines[:1:1], c.under)
	}
	lines = lines[:min(2, len(lines))]
	pitch := 1.25 * text.Size
	y := body.Y + body.H/2 - pitch*float64(len(lines)-1)/2 + 0.35*text.Size
	for i, line := range lines {
		if i == 1 && c.under != "" {
			ink = p.Ink2
		}
		d.Text(body.X+38*u, y+float64(i)*pitch, line, text, ink)
	}
}

// sign draws how the fault stands.
func (c *chip) sign(d *paint.Raster, z look.Size, at paint.Point) {
	p, u := c.Palette(), z.Device
	b := signBrush{picture.NewBrush(d, p, z), u}
	var path paint.Path
	switch {
	case c.idle:
		d.Stroke(path.Circle(at.X, at.Y, 7*u), paint.Pen{Width: 1.6 * u}, p.Ink2)
	case c.stands == sim.FaultInForce:
		b.broken(at, false)
	case c.stands == sim.FaultMended || c.stands == sim.FaultOver:
		b.mended(at)
	default: // it waits
		d.Stroke(path.Circle(at.X, at.Y, 8*u), paint.Pen{Width: 3.4 * u}, p.BrassLo)
		d.Stroke(&path, paint.Pen{Width: 1.8 * u}, p.BrassHi)
		d.Fill(path.Reset().Circle(at.X, at.Y, 2.6*u), p.Ink)
	}
}

// Tapped is part of the toolkit's contract.
func (c *chip) Tapped(*fyne.PointEvent) { c.act() }

func (c *chip) act() {
	if c.press != nil {
		c.press()
	}
}

// TypedKey presses with Enter or the space bar.
func (c *chip) TypedKey(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		c.act()
		return
	}
	c.PassOn(e)
}
