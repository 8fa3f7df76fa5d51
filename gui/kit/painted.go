// Package kit holds the controls of the window: each is one raster, painted by
// the drawing half of the house at device pixels, with the states of the look
// (hover, focus, chosen, disabled with its reason).
package kit

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Painted is a widget that is one painted raster. Embed it, call Extend.
type Painted struct {
	widget.BaseWidget
	raster  *canvas.Raster
	surface *paint.Raster
	draw    func(s *paint.Raster, w, h float64, z look.Size)
	screen  *Screen
	least   fyne.Size
	key     any
	owed    int  // frames for which a picture asked for may still come
	listed  bool // among those of the screen
}

// Extend makes outer, which embeds p, a widget that draws itself with draw:
// w and h are its size in device pixels, z the scale of the window.
func (p *Painted) Extend(outer fyne.Widget, screen *Screen, least fyne.Size, draw func(s *paint.Raster, w, h float64, z look.Size)) {
	p.draw, p.screen, p.least = draw, screen, least
	p.raster = canvas.NewRaster(p.generate)
	p.ExtendBaseWidget(outer)
}

// generate is called by the toolkit with the pixels it has.
func (p *Painted) generate(w, h int) image.Image {
	p.screen.came(p)
	if w < 2 || h < 2 { // while the layout settles
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	switch {
	case p.surface == nil:
		p.surface = paint.NewImage(w, h)
	case p.surface.Pixels().Rect.Dx() != w || p.surface.Pixels().Rect.Dy() != h:
		p.surface.Use(image.NewRGBA(image.Rect(0, 0, w, h)))
	}
	scale := 1.0
	if u := p.Size().Width; u > 0 {
		scale = float64(w) / float64(u)
	}
	p.draw(p.surface, float64(w), float64(h), p.screen.Size(scale))
	return p.surface.Pixels()
}

// CreateRenderer is part of the toolkit's contract.
func (p *Painted) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.raster) }

// MinSize is part of the toolkit's contract.
func (p *Painted) MinSize() fyne.Size { return p.least }

// Update keeps the newest key of what is drawn and repaints if it changed: the
// key says all that the picture depends on, to half a pixel.
func (p *Painted) Update(key any) {
	if key != p.key {
		p.key = key
		p.Repaint()
	}
}

// Palette is the colours in use.
func (p *Painted) Palette() *look.Palette { return p.screen.Palette }

// Repaint draws anew at the next frame.
func (p *Painted) Repaint() {
	p.screen.owes(p)
	p.raster.Refresh()
}
