package charttable

import (
	"image"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// request is what a ground depends on.
type request struct {
	view    picture.View
	w, h    int
	palette *look.Palette
	size    look.Size
	planned bool // the key explains the required track
	truth   bool // and the true one
	clouded bool
	ground  *picture.Ground
}

// base is a ground that is done: one sheet, two under the lamp (first the unlit).
type base struct {
	request
	sheets []sheet
	room   *picture.Room
	cloud  *picture.Cloud // nil: clear
}

// sheet is the ground in the colours of one light.
type sheet struct {
	palette *look.Palette // that the plot is drawn in
	ground  *image.RGBA   // of a clear chart; else what lies under the cloud
	cover   *image.RGBA   // the cloud, whole
	parted  parted        // the cloud with its hole
}

// want asks for a ground; one worker at a time, the newest request wins.
func (c *chart) want(r request) {
	r.ground = c.ground
	c.wanted = r
	if c.base != nil && c.base.request == r || c.working.Swap(true) {
		return
	}
	go func() {
		made := drawBase(r, r.ground)
		c.table.screen.Later(func() {
			c.base = made
			c.working.Store(false)
			c.Repaint()
		})
	}()
}

// drawBase draws a ground; its key explains what may be on the chart.
func drawBase(r request, g *picture.Ground) *base {
	b := &base{request: r}
	if !r.planned {
		g = g.WithoutKeyRow(picture.RowRequired)
	}
	if r.truth {
		g = g.WithKeyRow(picture.RowTruth)
	}
	if r.clouded {
		b.cloud = picture.NewCloud(r.view, r.size)
	}
	lights := []*look.Palette{r.palette}
	if r.palette.Variant == look.Lamp {
		lights = []*look.Palette{look.Of(look.LampUnlit), look.Of(look.LampLit)}
	}
	for _, p := range lights {
		b.draw(p, g)
	}
	return b
}

// draw adds the sheet of one light; the room is the same in every light.
func (b *base) draw(p *look.Palette, g *picture.Ground) {
	surface := func() *paint.Raster {
		d := paint.NewImage(b.w, b.h)
		kit.Paper(d, float64(b.w), float64(b.h), b.size, b.palette)
		return d
	}
	d := surface()
	if b.cloud == nil {
		b.room = picture.DrawGround(picture.NewBrush(d, p, b.size), b.view, g)
		b.sheets = append(b.sheets, sheet{palette: p, ground: d.Pixels()})
		return
	}
	picture.DrawLand(picture.NewBrush(d, p, b.size), b.view, g)
	over := *p
	over.Sea = over.Card // what the plot lies on
	cover := surface()
	b.room = picture.DrawCover(picture.NewBrush(cover, &over, b.size), b.cloud)
	b.sheets = append(b.sheets, sheet{palette: &over, ground: d.Pixels(), cover: cover.Pixels()})
}

// lay puts the ground down: as it is, or moved and stretched to the view while
// a new one is being drawn.
func (c *chart) lay(d *paint.Raster, s *sheet, z look.Size) {
	old, now := c.base.view, c.view
	image := c.shown(s)
	if old == now {
		copy(d.Pixels().Pix, image.Pix) // both are tight and of one size
		c.trueTrackInHole(d, s, z)
		return
	}
	w, h := float64(c.base.w), float64(c.base.h)
	kit.Paper(d, w, h, z, c.Palette())
	picture.DrawEmpty(picture.NewBrush(d, s.palette, z), now)
	k, whole := now.Scale/old.Scale, now.Over(old, w, h)
	from := paint.R(whole.X+old.Box.X*k, whole.Y+old.Box.Y*k, old.Box.W*k, old.Box.H*k)
	d.PushClip(now.Box.Intersect(from))
	d.Image(whole, image)
	d.PopClip()
}
