package kit

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Paper draws a paper card without anything on it.
func Paper(d *paint.Raster, w, h float64, z look.Size, p *look.Palette) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Ground)
	path.Reset().RoundRect(paint.R(0.5, 0.5, w-1, h-1), look.CardRadius*z.Device)
	d.Fill(&path, p.Card)
	d.Stroke(&path, paint.Pen{Width: z.Hair()}, p.Line)
}

// Panel is a card that lies over others and lets nothing through to them.
type Panel struct {
	Painted
	inner func(d *paint.Raster, w, h float64, z look.Size)
}

// NewPanel makes a panel on which inner draws.
func NewPanel(screen *Screen, inner func(d *paint.Raster, w, h float64, z look.Size)) *Panel {
	p := &Panel{inner: inner}
	p.Extend(p, screen, fyne.NewSize(80, 40), p.paint)
	return p
}

func (p *Panel) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := p.Palette()
	Paper(d, w, h, z, c)
	var path paint.Path
	path.RoundRect(paint.R(0, 0, w, h).Inset(z.Device), look.CardRadius*z.Device)
	d.Stroke(&path, paint.Pen{Width: 2 * z.Device}, c.BrassLo)
	p.inner(d, w, h, z)
}

// Tapped is part of the toolkit's contract.
func (p *Panel) Tapped(*fyne.PointEvent) {}

// Dragged is part of the toolkit's contract.
func (p *Panel) Dragged(*fyne.DragEvent) {}

// DragEnd is part of the toolkit's contract.
func (p *Panel) DragEnd() {}

// Scrolled is part of the toolkit's contract.
func (p *Panel) Scrolled(*fyne.ScrollEvent) {}

// Show makes objects seen or not.
func Show(seen bool, objects ...fyne.CanvasObject) {
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

// Box is a place in the window, units.
type Box struct{ X, Y, W, H float32 }

// Put places an object on whole units, so that its edges are sharp.
func (b Box) Put(o fyne.CanvasObject) {
	x, y := Whole(b.X), Whole(b.Y)
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(Whole(b.X+b.W)-x, Whole(b.Y+b.H)-y))
}

// Meets says whether two places have any room in common.
func (b Box) Meets(o Box) bool {
	return b.X < o.X+o.W && o.X < b.X+b.W && b.Y < o.Y+o.H && o.Y < b.Y+b.H
}

// Whole rounds to whole units.
func Whole(v float32) float32 { return float32(math.Round(float64(v))) }
