package charttable

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// card is a paper card with a title and one drawn thing.
type card struct {
	kit.Painted
	title look.Key
	inner func(d *paint.Raster, w, h float64, z look.Size)
}

// init makes outer, which embeds c, a card.
func (c *card) init(outer fyne.Widget, screen *kit.Screen, title look.Key, inner func(d *paint.Raster, w, h float64, z look.Size)) {
	c.title, c.inner = title, inner
	c.Extend(outer, screen, fyne.NewSize(80, 40), c.paint)
}

func (c *card) paint(d *paint.Raster, w, h float64, z look.Size) {
	p := c.Palette()
	kit.Paper(d, w, h, z, p)
	if c.title != "" {
		size := z.Text(look.TextBody)
		d.Text(titleInset(z), titleInset(z)*0.55+size*0.85, look.Text(c.title),
			paint.Type{Font: look.Semibold.Font(), Size: size}, p.Ink)
	}
	c.inner(d, w, h, z)
}

// titleInset is how far a title stands from the edge of its card.
func titleInset(z look.Size) float64 { return max(z.Px(16), 9*z.Device) }

// titleFoot is where the room under a title begins.
func titleFoot(z look.Size) float64 { return titleInset(z)*0.55 + z.Text(look.TextBody)*1.25 }

// note writes a line at the right of the title.
func note(d *paint.Raster, w float64, z look.Size, words string, f look.Face, size float64, ink color.NRGBA) {
	d.Text(w-titleInset(z), titleInset(z)*0.55+z.Text(look.TextBody)*0.85, words,
		paint.Type{Font: f.Font(), Size: z.Text(size), Anchor: paint.End}, ink)
}
