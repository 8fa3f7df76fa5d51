package charttable

import (
	"image"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// cloud lies over land, names and truth until it is broken: then it parts once,
// at the true position of that time. The hole stays where it is over the chart,
// for it stands for a pinpoint, which has a place and a time; when the aircraft
// has flown on out of it, truth is covered again.
type cloud struct {
	laid   bool
	asked  bool          // to be broken as soon as the truth is there
	hole   *picture.Hole // nil: whole
	motion *fyne.Animation
}

// partTime is how long a cloud takes to part.
const partTime = 800 * time.Millisecond

// Cloud says whether a cloud lies over the chart, and whether it is broken.
func (t *Table) Cloud() (laid, broken bool) {
	return t.chart.cloud.laid, t.chart.cloud.hole != nil
}

// LayCloud lays a whole cloud over the chart and hides the truth, or lifts the
// cloud; what was revealed then stays so.
func (t *Table) LayCloud(on bool) {
	t.chart.layCloud(on)
	t.tray.apply()
}

// BreakCloud parts the cloud at the true position: anew if it is broken already.
// Without a cloud it does nothing.
func (t *Table) BreakCloud() { t.chart.breakCloud() }

func (c *chart) layCloud(on bool) {
	c.closeHole()
	c.cloud.laid = on
	if on {
		c.table.helm.Reveal(false)
	}
	c.Repaint()
}

func (c *chart) closeHole() {
	if c.cloud.motion != nil {
		c.cloud.motion.Stop()
	}
	c.cloud.asked, c.cloud.hole, c.cloud.motion = false, nil, nil
}

func (c *chart) breakCloud() {
	if !c.cloud.laid {
		return
	}
	c.closeHole()
	c.cloud.asked = true
	c.table.helm.Reveal(true)
	c.partWhenSeen(c.table.moment)
	c.Repaint()
}

// partWhenSeen begins to part the cloud when the truth that was asked for has
// come.
func (c *chart) partWhenSeen(m *helm.Moment) {
	if !c.cloud.asked || m.Revealed == nil {
		return
	}
	c.closeHole()
	c.cloud.hole = &picture.Hole{At: m.Revealed.Now.Truth.Position}
	if c.table.screen.ReducedMotion {
		c.openTo(1)
		return
	}
	c.cloud.motion = fyne.NewAnimation(partTime, func(share float32) { c.openTo(float64(share)) })
	c.cloud.motion.Curve = fyne.AnimationLinear
	c.cloud.motion.Start()
}

func (c *chart) openTo(share float64) {
	if h := c.cloud.hole; h != nil {
		c.cloud.hole = &picture.Hole{At: h.At, Open: share}
		c.Repaint()
	}
}

// parted is a cloud with its hole, ready to be shown.
type parted struct {
	of    picture.Hole
	lid   *paint.Raster // what is left of the cloud about the hole, else clear
	image *image.RGBA   // the chart with it
}

// shown is what the ground looks like now: clear, clouded, or parted.
func (c *chart) shown(s *sheet) *image.RGBA {
	b := c.base
	switch {
	case b.cloud == nil:
		return s.ground
	case c.cloud.hole == nil:
		return s.cover
	}
	if h := *c.cloud.hole; s.parted.image == nil || s.parted.of != h {
		s.part(b, h)
	}
	return s.parted.image
}

// part lays the rest of the cloud over the land about the hole.
func (s *sheet) part(b *base, h picture.Hole) {
	p, box := &s.parted, b.cloud.HoleBox(h, b.size)
	if p.lid == nil {
		p.lid, p.image = paint.NewImage(b.w, b.h), image.NewRGBA(s.cover.Rect)
	}
	p.of = h
	clear(p.lid.Pixels().Pix)
	picture.DrawLid(picture.NewBrush(p.lid, s.palette, b.size), b.cloud, h)
	copy(p.image.Pix, s.cover.Pix)
	d := paint.NewRaster(p.image)
	d.PushClip(box)
	all := paint.R(0, 0, float64(b.w), float64(b.h))
	d.Image(all, s.ground)
	d.Image(all, p.lid.Pixels())
}

// trueTrackInHole draws the true track where the cloud is open, under what is
// left of it.
func (c *chart) trueTrackInHole(d *paint.Raster, s *sheet, z look.Size) {
	truth, h := c.truth(), c.cloud.hole
	if truth == nil || h == nil || c.base.cloud == nil {
		return
	}
	d.PushClip(c.base.cloud.HoleBox(*h, z))
	defer d.PopClip()
	picture.DrawTrueTrack(picture.NewBrush(d, s.palette, z), c.view, truth)
	d.Image(paint.R(0, 0, float64(c.base.w), float64(c.base.h)), s.parted.lid.Pixels())
}

// gap is what lies between marker and true position; ok is false while the true
// position is not to be seen in a hole that is open.
func (c *chart) gap(z look.Size) (g picture.Gap, ok bool) {
	r, h := c.table.moment.Revealed, c.cloud.hole
	if r == nil || h == nil || h.Open < 1 || c.base.cloud == nil {
		return g, false
	}
	g = picture.Gap{Marker: c.table.moment.View.Marker, True: r.Now.Truth.Position}
	return g, c.view.Box.Contains(c.view.ToPixel(units.Position(g.True))) && !c.base.cloud.Covers(g.True, *h, z)
}
