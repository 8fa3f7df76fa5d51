package charttable

import (
	"image"
	"math"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"stillair/gui/atlas"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// zoomStep is one turn of the wheel or one press of a key.
const zoomStep = 1.25

// chart is the chart: a ground that is drawn once for a view, in a goroutine,
// and the plot that is drawn over a copy of it each time something moves.
type chart struct {
	kit.Painted
	table     *Table
	ground    *picture.Ground
	unplanned *picture.Ground // the same while the plan is hidden
	required  []picture.Waypoint
	held      picture.Held
	view      picture.View
	fitted    bool // the view has been fitted to the flight
	following bool
	base      *base // the newest ground that is done
	wanted    request
	working   atomic.Bool
	hands     hands
	left      *picture.Room // what the plot has left free, while overlays are drawn
}

// request is what a ground depends on.
type request struct {
	view    picture.View
	w, h    int
	palette *look.Palette
	size    look.Size
	planned bool // the key explains the required track
}

// base is a ground that is done.
type base struct {
	request
	image *image.RGBA
	room  *picture.Room
}

func newChart(t *Table, waters picture.Waters, required []picture.Waypoint) *chart {
	c := &chart{table: t, required: required}
	c.ground = picture.NewGround(waters)
	c.unplanned = c.ground.WithoutKeyRow(picture.RowRequired)
	c.Extend(c, t.screen, fyne.NewSize(400, 300), c.paint)
	return c
}

func (c *chart) apply(m *helm.Moment) {
	if c.following && c.fitted {
		c.keepInSight(m.View.Marker)
	}
	miles := c.view.MilesPerPixel(m.View.Marker.Lat)
	c.Update(chartKey{
		int64(m.View.AirLog.NM() / max(1e-6, miles*0.5)), m.View.WindSet, m.View.VariationSet,
		len(m.View.Marks), m.View.Tick / 960, m.Revealed != nil, c.Palette(), c.view, m.View.Tick == 0,
	})
}

// chartKey is what the plot depends on, to half a pixel of air distance.
type chartKey struct {
	run       int64
	wind      units.Wind
	variation units.Variation
	marks     int
	minute    int64
	revealed  bool
	p         *look.Palette
	view      picture.View
	start     bool
}

// keepInSight moves the chart when the marker comes near its edge.
func (c *chart) keepInSight(g units.GroundPosition) {
	p := c.view.ToPixel(units.Position(g))
	if !c.view.Box.Inset(min(c.view.Box.W, c.view.Box.H) * 0.2).Contains(p) {
		m := c.view.Box.Centre()
		c.view = c.view.Shift(m.X-p.X, m.Y-p.Y)
		c.Repaint()
	}
}

func (c *chart) recolour() { c.Repaint() }

func (c *chart) paint(d *paint.Raster, w, h float64, z look.Size) {
	pal := c.Palette()
	box := paint.R(0, 0, w, h).Inset(math.Round(10*z.Device + picture.FrameWidth(z)))
	if !c.fitted {
		c.view = picture.Fit(box, 40*z.Part, c.positions()...)
		c.fitted = true
	}
	c.view = c.view.WithBox(box)
	c.want(request{c.view, int(w), int(h), pal, z, !c.table.screen.HidePlan})
	if c.base == nil || c.base.w != int(w) || c.base.h != int(h) {
		paintPaper(d, w, h, z, pal)
		return
	}
	c.lay(d, w, h, z)
	plot := picture.PlotOf(&c.table.moment.View)
	if !c.table.screen.HidePlan {
		plot.Required = c.required
	}
	plot.Held = &c.held
	if r := c.table.moment.Revealed; r != nil {
		plot.Truth = atlas.TruthOf(r.Now, r.Track)
	}
	brush := picture.NewBrush(d, pal, z)
	c.left = picture.DrawPlot(brush, c.view, &plot, c.table.pins.beside(c.base.room, z))
	d.PushClip(c.view.Box)
	for _, over := range c.hands.overlays {
		over(brush, c.view)
	}
	d.PopClip()
}

// lay puts the ground down: as it is, or moved and stretched to the view while
// a new one is being drawn.
func (c *chart) lay(d *paint.Raster, w, h float64, z look.Size) {
	old, now := c.base.view, c.view
	if old == now {
		copy(d.Pixels().Pix, c.base.image.Pix) // both are tight and of one size
		return
	}
	paintPaper(d, w, h, z, c.Palette())
	k := now.Scale / old.Scale
	at := now.ToPixel(old.Centre)
	m := old.Box.Centre()
	d.PushClip(now.Box)
	d.Image(paint.R(at.X-m.X*k, at.Y-m.Y*k, float64(c.base.w)*k, float64(c.base.h)*k), c.base.image)
	d.PopClip()
}

// want asks for a ground; one worker at a time, the newest request wins.
func (c *chart) want(r request) {
	c.wanted = r
	if c.base != nil && c.base.request == r || c.working.Swap(true) {
		return
	}
	ground := c.ground
	if !r.planned {
		ground = c.unplanned
	}
	go func() {
		made := drawBase(r, ground)
		fyne.Do(func() {
			c.base = made
			c.working.Store(false)
			c.Repaint()
		})
	}()
}

func drawBase(r request, g *picture.Ground) *base {
	d := paint.NewImage(r.w, r.h)
	paintPaper(d, float64(r.w), float64(r.h), r.size, r.palette)
	room := picture.DrawGround(picture.NewBrush(d, r.palette, r.size), r.view, g)
	return &base{r, d.Pixels(), room}
}

// positions are those a fitted chart shows: the required track and the air plot.
func (c *chart) positions() []units.Position {
	var all []units.Position
	for _, w := range c.required {
		all = append(all, w.At)
	}
	for _, track := range c.table.tracks {
		all = append(all, track...)
	}
	return all
}

func (c *chart) fit() {
	c.fitted, c.following = false, false
	c.Repaint()
}

func (c *chart) toggleFollow() {
	c.following = !c.following
	if c.following {
		p := c.view.ToPixel(units.Position(c.table.moment.View.Marker))
		m := c.view.Box.Centre()
		c.view = c.view.Shift(m.X-p.X, m.Y-p.Y)
	}
	c.Repaint()
	c.table.chartKeys[3].Set("", kit.FollowSign, c.following)
}

// zoom goes in or out about the middle.
func (c *chart) zoom(factor float64) { c.zoomAt(c.view.Box.Centre(), factor) }

func (c *chart) zoomAt(p paint.Point, factor float64) {
	c.view = c.view.ZoomAt(p, factor)
	c.Repaint()
}

// device is the number of device pixels to a unit.
func (c *chart) device() float64 {
	if w := c.Size().Width; w > 0 && c.wanted.w > 0 {
		return float64(c.wanted.w) / float64(w)
	}
	return 1
}

// Scrolled zooms about the pointer, a step whatever the wheel says.
func (c *chart) Scrolled(e *fyne.ScrollEvent) {
	c.zoomAt(c.pixel(e.Position), math.Pow(zoomStep, math.Copysign(1, float64(e.Scrolled.DY))))
}
