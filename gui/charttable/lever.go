package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/integrator/aboard"
)

// lever is the sense lever of a longitude counter that the crew has to turn
// about at 0 and 180. Other designs have none.
type lever struct {
	kit.Control
	panel *counterPanel
}

func newLever(p *counterPanel) *lever {
	l := &lever{panel: p}
	l.Begin(l, p.table.screen, fyne.NewSize(kit.Target, kit.Target), l.paint, l.Spoken, l.Spoken)
	return l
}

// hasLever says whether the flight's mechanism has one.
func (p *counterPanel) hasLever() bool {
	return p.table.plan.Mechanism.Longitude == integrator.HemisphereLever
}

func (l *lever) east() bool { return l.panel.table.moment.View.LeverEast }

func (l *lever) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := l.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	picture.SenseLever(picture.NewBrush(d, p, z), paint.R(0, 0, w, h).Inset(4*u), l.east())
	l.Ring(d, w, h, z)
}

// throw puts the lever over.
func (l *lever) throw() {
	if reason := l.panel.idle(); reason != "" {
		l.Tell(reason)
		return
	}
	l.panel.table.helm.Do(aboard.Action{Kind: aboard.SetLongitudeLever, East: !l.east()})
}

// Spoken is how the lever stands.
func (l *lever) Spoken() string {
	side := look.SpokenWest
	if l.east() {
		side = look.SpokenEast
	}
	return look.Textf(look.LeverHint, look.Text(side))
}

// Tapped puts the lever over.
func (l *lever) Tapped(*fyne.PointEvent) { l.throw() }

// Cursor is part of the toolkit's contract.
func (l *lever) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey puts the lever over with Enter or the space bar, or to one side with
// an arrow.
func (l *lever) TypedKey(e *fyne.KeyEvent) {
	switch {
	case kit.Presses(e), e.Name == fyne.KeyLeft && l.east(), e.Name == fyne.KeyRight && !l.east():
		l.throw()
	case e.Name == fyne.KeyLeft, e.Name == fyne.KeyRight:
	default:
		l.panel.passOn(e)
	}
}
