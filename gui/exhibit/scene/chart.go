package scene

import (
	"image"

	"stillair/gui/atlas"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// chart keeps the ground of the chart and its cloud.
type chart struct {
	view    picture.View // on the chart's own image
	box     paint.Rect
	w, h    int
	stale   bool // the view has changed
	of      *picture.Ground
	palette *look.Palette
	clouded bool
	bare    *picture.Ground // without names: what lies under a cloud

	size  look.Size
	room  *picture.Room
	clear *image.RGBA // the ground, or what lies under the cloud
	cover *image.RGBA
	cloud *picture.Cloud
	hole  picture.Hole
	part  *image.RGBA // the cloud with its hole
	held  picture.Held
	start *sim.Plan // of the flight that the view was begun with
	own   *paint.Raster
}

// The chart's own size: everything on it is larger than on a lecturer's.
const (
	chartPart  = 1.5
	symbolSize = 1.3 // of the symbols, on top
)

// draw draws the chart of the moment on an image of its own, and lays that down.
func (c *chart) draw(e *easel) {
	card := e.p.Chart.Snap()
	size := look.Size{Part: e.p.F * chartPart, Device: e.p.Dev}
	f := picture.FrameWidth(size) + e.p.px(12)
	c.w, c.h = int(card.W), int(card.H)
	c.look(e, paint.R(0, 0, card.W, card.H).Inset(f).Snap())
	clouded := e.in.Machine.InCloud()
	if c.clear == nil || c.stale || c.of != e.in.Ground || c.palette != e.c || c.clouded != clouded || c.size != size {
		c.bare = e.in.Strip
		c.of, c.palette, c.clouded, c.size, c.stale = e.in.Ground, e.c, clouded, size, false
		c.ground()
	}
	if c.own == nil || c.own.Pixels().Rect != c.clear.Rect {
		c.own = paint.NewImage(c.w, c.h)
	}
	copy(c.own.Pixels().Pix, c.shown(e).Pix)
	if e.in.Moment != nil {
		palette := *e.c
		if clouded {
			palette.Sea = palette.Card
		}
		c.plot(e, picture.NewBrush(c.own, &palette, size))
	}
	lay(e.im, c.own.Pixels(), int(card.X), int(card.Y))
}

// look chooses the view: it stays until something comes near its edge.
func (c *chart) look(e *easel, box paint.Rect) {
	begun := e.in.Plan
	points := c.points(e)
	if c.start != begun || c.box != box {
		c.start, c.box = begun, box
		c.held = picture.Held{}
		c.aim(box, points, 0)
		return
	}
	inner := box.Inset(0.07 * min(box.W, box.H))
	for _, p := range points {
		if !inner.Contains(c.view.ToPixel(p)) {
			c.aim(box, points, 0.11)
			return
		}
	}
}

// aim fits a view round points, with so much of the box more about them.
func (c *chart) aim(box paint.Rect, points []units.Position, more float64) {
	c.view = picture.Fit(box, (0.14+more)*min(box.W, box.H), points...)
	c.stale = true
}

// points are what has to be in sight: where one began, where one is, where one may go.
func (c *chart) points(e *easel) []units.Position {
	x := e.in.Machine.Exhibit()
	f := &x.Flight
	out := []units.Position{f.From}
	if x.Landing != nil {
		out = append(out, x.Landing.At)
	}
	if e.in.Machine.InCloud() {
		if m := e.in.Moment; m != nil {
			out = append(out, units.Position(m.View.Marker))
			if e.in.Machine.Opened() > 0 && m.Revealed != nil {
				out = append(out, m.Revealed.Now.Truth.Position)
			}
		}
		return out
	}
	far := f.From
	far.Lat += 45 * units.ArcMinute // room for a first flight, whichever way
	out = append(out, far)
	if m := e.in.Moment; m != nil {
		out = append(out, units.Position(m.View.Marker), units.Position(m.View.Air))
		if e.in.Machine.Erred() && m.Revealed != nil {
			out = append(out, m.Revealed.Now.Truth.Position)
		}
	}
	return out
}

// ground draws what stays, on an image as large as the card.
func (c *chart) ground() {
	w, h := float64(c.w), float64(c.h)
	sheet := func() *paint.Raster {
		d := paint.NewImage(c.w, c.h)
		var p paint.Path
		d.Fill(p.Rect(paint.R(0, 0, w, h)), c.palette.Ground)
		k := c.size.Part / chartPart
		p.Reset().RoundRect(paint.R(0.5, 0.5, w-1, h-1), 8*k)
		d.Fill(&p, c.palette.Card)
		d.Stroke(&p, paint.Pen{Width: max(1, k)}, c.palette.Line)
		return d
	}
	d := sheet()
	c.part, c.cloud, c.cover = nil, nil, nil
	if !c.clouded {
		c.room = picture.DrawGround(picture.NewBrush(d, c.palette, c.size), c.view, c.of)
		c.clear = d.Pixels()
		return
	}
	picture.DrawLand(picture.NewBrush(d, c.palette, c.size), c.view, c.bare)
	c.clear = d.Pixels()
	over := *c.palette
	over.Sea = over.Card
	c.cloud = picture.NewCloud(c.view, c.size)
	cover := sheet()
	c.room = picture.DrawCover(picture.NewBrush(cover, &over, c.size), c.cloud)
	c.cover = cover.Pixels()
}

// shown is the ground as it is now: clear, clouded, or parted.
func (c *chart) shown(e *easel) *image.RGBA {
	open := e.in.Machine.Opened()
	if c.cloud == nil {
		return c.clear
	}
	m := e.in.Moment
	if open == 0 || m == nil || m.Revealed == nil {
		return c.cover
	}
	h := picture.Hole{At: m.Revealed.Now.Truth.Position, Open: open}
	if c.part == nil || c.hole != h {
		c.hole, c.part = h, c.parted(h)
	}
	return c.part
}

func (c *chart) parted(h picture.Hole) *image.RGBA {
	over := *c.palette
	over.Sea = over.Card
	lid := paint.NewImage(c.cover.Rect.Dx(), c.cover.Rect.Dy())
	picture.DrawLid(picture.NewBrush(lid, &over, c.size), c.cloud, h)
	out := image.NewRGBA(c.cover.Rect)
	copy(out.Pix, c.cover.Pix)
	d := paint.NewRaster(out)
	d.PushClip(c.cloud.HoleBox(h, c.size))
	all := paint.R(0, 0, float64(out.Rect.Dx()), float64(out.Rect.Dy()))
	d.Image(all, c.clear)
	d.Image(all, lid.Pixels())
	return out
}

// plot draws the voyage.
func (c *chart) plot(e *easel, b *picture.Brush) {
	m, machine := e.in.Moment, e.in.Machine
	y := picture.Voyage{Plot: picture.PlotOf(&m.View), Large: symbolSize, Text: e.text(28)}
	y.Plot.Held = &c.held
	y.Words = picture.VoyageWords{Air: e.say(tongue.StillAir), Wind: e.say(tongue.WindLabel), Marker: e.say(tongue.Here), Truth: e.say(tongue.ReallyHere)}
	seen := machine.Erred() && !machine.InCloud() || machine.InCloud() && machine.Opened() >= 1
	if seen && m.Revealed != nil {
		y.Plot.Truth = atlas.TruthOf(m.Revealed.Now, m.Revealed.Track)
		y.Words.Marker = e.say(tongue.SaysHere)
	}
	if machine.InCloud() {
		l := machine.Exhibit().Landing
		y.Goal, y.Miss = &picture.Place{Name: l.Place, At: l.At}, true
		y.Words.Air = ""
		if !seen {
			y.Words.Marker = e.say(tongue.SaysHere)
		}
	}
	picture.DrawVoyage(b, c.view, &y, c.room)
}
