package chooser

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// overview is the chart of the chosen flight, with names and turning points.
type overview struct {
	kit.Painted
	chooser *Chooser
}

func newOverview(c *Chooser) *overview {
	o := &overview{chooser: c}
	o.Extend(o, c.screen, fyne.NewSize(100, 100), o.paint)
	return o
}

func (o *overview) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, f := o.Palette(), o.chooser.chosen.flight
	if f != nil {
		if im := o.chooser.charts.get(o, wish{f, int(w), int(h), c, z, true}); im != nil {
			copy(d.Pixels().Pix, im.Pix) // both are tight and of one size
			return
		}
	}
	paper(d, w, h, paint.R(0, 0, w, h), z, c, z.Hair(), c.Line)
}
