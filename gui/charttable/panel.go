package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// panel is a card that lies over others and lets nothing through to them.
type panel struct {
	kit.Painted
	inner func(d *paint.Raster, w, h float64, z look.Size)
}

func newPanel(screen *kit.Screen, inner func(d *paint.Raster, w, h float64, z look.Size)) *panel {
	p := &panel{inner: inner}
	p.Extend(p, screen, fyne.NewSize(80, 40), p.paint)
	return p
}

func (p *panel) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := p.Palette()
	paintPaper(d, w, h, z, c)
	var path paint.Path
	path.RoundRect(paint.R(0, 0, w, h).Inset(z.Device), look.CardRadius*z.Device)
	d.Stroke(&path, paint.Pen{Width: 2 * z.Device}, c.BrassLo)
	p.inner(d, w, h, z)
}

// Tapped is part of the toolkit's contract.
func (p *panel) Tapped(*fyne.PointEvent) {}

// Dragged is part of the toolkit's contract.
func (p *panel) Dragged(*fyne.DragEvent) {}

// DragEnd is part of the toolkit's contract.
func (p *panel) DragEnd() {}

// Scrolled is part of the toolkit's contract.
func (p *panel) Scrolled(*fyne.ScrollEvent) {}

// widthFor is what a key needs for its word, units.
func widthFor(screen *kit.Screen, k *kit.Key) float32 {
	const aside = 13 // left and right of it
	word := float32(look.Semibold.Font().Width(k.Word, screen.Size(1).Text(look.TextBody)))
	if k.Sign != kit.NoSign {
		word += 30
	}
	return max(kit.Target, round(word)+2*aside)
}

// show makes objects seen or not.
func show(seen bool, objects ...fyne.CanvasObject) {
	for _, o := range objects {
		if o.Visible() == seen {
			continue
		}
		if seen {
			o.Show()
		} else {
			o.Hide()
		}
	}
}
