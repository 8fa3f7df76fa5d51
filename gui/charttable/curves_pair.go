package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// mostPairs is how many pairs are offered.
const mostPairs = 3

// pairKey is a pair of stars to be chosen: their names, and the cut of their curves.
type pairKey struct {
	kit.Control
	curves *curves
	index  int
}

func newPairKey(c *curves, i int) *pairKey {
	k := &pairKey{curves: c, index: i}
	k.Begin(k, c.table.screen, fyne.NewSize(110, kit.Target), k.paint, k.Spoken, k.Spoken)
	return k
}

// pair is the one offered here; ok is false if there is none.
func (k *pairKey) pair() (p [2]sky.Body, ok bool) {
	if k.index >= len(k.curves.rows) {
		return p, false
	}
	return k.curves.rows[k.index], true
}

// cut is at what angle the curves of a pair cut now; ok is false if a star is not up.
func (c *curves) cut(pair [2]sky.Body) (cut units.Angle, ok bool) {
	d := c.job.done
	if d == nil || d.stars == nil {
		return 0, false
	}
	if p := d.stars.Pair; p.A.Body == pair[0] && p.B.Body == pair[1] {
		return p.Crossing, true
	}
	var az [2]units.Angle
	found := 0
	for _, s := range d.stars.Up {
		for i, b := range pair {
			if s.Body == b {
				az[i] = s.Azimuth
				found++
			}
		}
	}
	return sky.Crossing(az[0], az[1]), found == 2
}

// poor says why a pair is struck out, "" if it is not.
func (k *pairKey) poor() string {
	p, ok := k.pair()
	if !ok {
		return ""
	}
	if cut, ok := k.curves.cut(p); ok && cut < overlay.LeastCut {
		return look.Text(look.PairPoor)
	}
	return ""
}

// pairShown is what the key shows.
type pairShown struct {
	pair   [2]sky.Body
	cut    int
	chosen bool
	p      *look.Palette
}

func (k *pairKey) shown() pairShown {
	p, _ := k.pair()
	cut, ok := k.curves.cut(p)
	s := pairShown{pair: p, cut: int(cut.Degrees() + 0.5), chosen: p == k.curves.pair, p: k.Palette()}
	if !ok {
		s.cut = -1
	}
	return s
}

func (k *pairKey) show() { k.Update(k.shown()) }

func (k *pairKey) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u, s := k.Palette(), z.Device, k.shown()
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	if s.pair[0] == 0 {
		return
	}
	body := paint.R(0, 0, w, h).Inset(3 * u)
	var path paint.Path
	path.RoundRect(body, 8*u)
	fill, edge, ink := c.Card, c.SlateHi, c.Ink
	switch {
	case s.chosen:
		fill, edge, ink = c.Slate, c.Slate, c.OnSlate
	case k.Hover:
		fill = c.Low
	}
	if k.poor() != "" && !s.chosen {
		edge, ink = c.Line, c.Ink2
	}
	d.Fill(&path, fill)
	d.Stroke(&path, paint.Pen{Width: 1.5 * u}, edge)
	if s.chosen {
		d.Fill(path.Reset().RoundRect(paint.R(body.X+12*u, body.Bottom()-5*u, body.W-24*u, 3*u), 1.5*u), c.BrassHi)
	}
	large := paint.Type{Font: look.Engraved.Font(), Size: max(22*u, z.Px(look.TextHeading)), Anchor: paint.End}
	cut := "\u2013"
	if s.cut >= 0 {
		cut = units.Figure(float64(s.cut), 0) + "°"
	}
	wide := large.Font.Width(cut, large.Size)
	d.Text(body.Right()-8*u, h/2+0.35*large.Size, cut, large, ink)
	name := paint.Type{Font: look.Semibold.Font(), Size: min(z.Text(look.TextSmall), 0.3*h)}
	room := body.W - wide - 20*u
	for _, b := range s.pair { // larger text gives way where names would be cut off
		if w := name.Font.Width(b.String(), name.Size); w > room {
			name.Size = max(13.5*u, name.Size*room/w)
		}
	}
	for i, b := range s.pair {
		y := h/2 + (float64(i)-0.5)*1.25*name.Size + 0.33*name.Size
		d.Text(body.X+8*u, y, name.Shorten(b.String(), room), name, ink)
	}
	if k.poor() != "" {
		d.Stroke(path.Reset().Segment(paint.Pt(body.X+6*u, body.Bottom()-8*u), paint.Pt(body.Right()-6*u, body.Y+8*u)), paint.Pen{Width: 2.4 * u}, ink)
	}
	k.Ring(d, w, h, z)
}

// Spoken is what the key is called, and why it is struck out.
func (k *pairKey) Spoken() string {
	p, ok := k.pair()
	if !ok {
		return ""
	}
	words := look.Textf(look.PairSpoken, p[0], p[1], units.Figure(float64(max(0, k.shown().cut)), 0))
	if poor := k.poor(); poor != "" {
		words += ": " + poor
	}
	return words
}

// press chooses the pair, unless it is struck out.
func (k *pairKey) press() {
	p, ok := k.pair()
	switch {
	case !ok:
	case k.poor() != "":
		k.Tell(k.Spoken())
	default:
		k.Hush()
		k.curves.choose(p)
	}
}

// Tapped is part of the toolkit's contract.
func (k *pairKey) Tapped(*fyne.PointEvent) { k.press() }

// Cursor is part of the toolkit's contract.
func (k *pairKey) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey presses it.
func (k *pairKey) TypedKey(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		k.press()
		return
	}
	k.PassOn(e)
}
