package navigator

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/sighting"
)

// needleWide is the width of the small needle, units.
const needleWide = 116

// needle is the left-right needle, small, while the loop is flown by and not looked
// through.
type needle struct {
	kit.Painted
	view *View
	is   picture.Needle
}

// needleKey is what its picture depends on.
type needleKey struct {
	hundredths int
	dead       bool
	p          *look.Palette
}

func newNeedle(v *View) *needle {
	n := &needle{view: v, is: picture.Needle{Dead: true}}
	n.Extend(n, v.screen, fyne.NewSize(60, 16), n.paint)
	return n
}

// follow brings it up to a moment; a moment that looks elsewhere leaves it as it was.
func (n *needle) follow(m *Seen) {
	if m.Scene != nil && m.Scene.Aim == n.view.homing {
		n.is = sighting.NeedleOf(m.Scene)
	}
	n.Update(needleKey{int(math.Round(100 * n.is.Side)), n.is.Dead, n.view.screen.Palette})
}

func (n *needle) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := n.view.screen.Palette
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
	picture.DrawNeedle(picture.NewBrush(d, c, z), paint.R(0, 0, w, h).Inset(z.Device), n.is)
}
