package charttable

import (
	"math"
	"slices"
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
	required  []picture.Waypoint
	held      picture.Held
	view      picture.View
	fitted    bool // the view has been fitted to the flight
	following bool
	key       chartKey
	stale     bool  // more than the pool of the lamp has changed
	base      *base // the newest ground that is done
	wanted    request
	working   atomic.Bool
	hands     hands
	lamp      lamp
	cloud     cloud
	draft     drafting
	left      *picture.Room // what the plot has left free, while overlays are drawn
}

func newChart(t *Table, waters picture.Waters, required []picture.Waypoint) *chart {
	c := &chart{table: t, required: required}
	c.ground = picture.NewGround(waters)
	c.Extend(c, t.screen, fyne.NewSize(400, 300), c.paint)
	return c
}

func (c *chart) apply(m *helm.Moment) {
	if c.following && c.fitted && c.draft.Drafted == nil {
		c.keepInSight(m.View.Marker)
	}
	c.partWhenSeen(m)
	miles := c.view.MilesPerPixel(m.View.Marker.Lat)
	key := chartKey{
		int64(m.View.AirLog.NM() / max(1e-6, miles*0.5)), m.View.WindSet, m.View.VariationSet,
		len(m.View.Marks), m.View.Tick / 960, m.Revealed != nil, c.table.plotted.Version, c.Palette(), c.view, m.View.Tick == 0,
	}
	if key != c.key {
		c.key = key
		c.Repaint()
	}
}

// chartKey is what the plot depends on, to half a pixel of air distance.
type chartKey struct {
	run       int64
	wind      units.Wind
	variation units.Variation
	marks     int
	minute    int64
	revealed  bool
	plotted   int
	p         *look.Palette
	view      picture.View
	start     bool
}

// Repaint draws everything anew at the next frame.
func (c *chart) Repaint() {
	c.stale = true
	if c.table.tools != nil { // the table is being built
		c.table.tools.place()
	}
	c.Painted.Repaint()
}

// Refresh is part of the toolkit's contract.
func (c *chart) Refresh() {
	c.stale = true
	c.BaseWidget.Refresh()
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
	box := paint.R(0, 0, w, h).Inset(math.Round(10*z.Device + picture.FrameWidth(z)))
	if !c.fitted {
		c.view = picture.Fit(box, 40*z.Part, c.positions()...)
		c.fitted = true
	}
	c.view = c.view.WithBox(box)
	c.want(request{
		view: c.view, w: int(w), h: int(h), palette: c.Palette(), size: z,
		planned: !c.table.screen.HidePlan, truth: c.truth() != nil, clouded: c.cloud.laid,
	}.without(&c.draft))
	c.table.curves.ask()
	switch {
	case c.base == nil || c.base.w != int(w) || c.base.h != int(h):
		kit.Paper(d, w, h, z, c.Palette())
	case c.Palette().Variant == look.Lamp && len(c.base.sheets) == 2:
		c.paintLamp(d, z)
	default:
		c.paintSheet(d, &c.base.sheets[0], z)
	}
}

// paintSheet draws ground and plot in the colours of the sheet.
func (c *chart) paintSheet(d *paint.Raster, s *sheet, z look.Size) {
	c.stale = false
	c.lay(d, s, z)
	if c.draft.Drafted != nil {
		c.paintDraft(d, s, z)
		return
	}
	c.table.curves.draw(d, s.palette, c.view)
	plot := picture.PlotOf(&c.table.moment.View)
	if !c.table.screen.HidePlan {
		plot.Required = c.required
	}
	p := &c.table.plotted
	plot.Lines, plot.Hat, plot.Ellipse = p.Lines, p.Hat, p.Ellipse
	plot.Fixes = slices.Concat(p.Fixes, c.table.curves.fixes())
	plot.Held = &c.held
	if c.base.cloud == nil {
		plot.Truth = c.truth()
	}
	brush, room := picture.NewBrush(d, s.palette, z), c.table.pins.beside(c.table.curves.beside(c.base.room), z)
	gap, seen := c.gap(z)
	if seen {
		room = room.Clone()
		gap.Take(c.view, room, z)
	}
	c.left = picture.DrawPlot(brush, c.view, &plot, room)
	if seen {
		picture.DrawGap(brush, c.view, c.left, gap, &c.held)
	}
	d.PushClip(c.view.Box)
	for _, over := range c.hands.overlays {
		over(brush, c.view)
	}
	d.PopClip()
}

// truth is the true track and position, nil if they are not to be seen.
func (c *chart) truth() *picture.Truth {
	if r := c.table.moment.Revealed; r != nil {
		return atlas.TruthOf(r.Now, r.Track)
	}
	return nil
}

// positions are those a fitted chart shows: the required track and the air plot.
func (c *chart) positions() []units.Position {
	if c.draft.Drafted != nil {
		return c.draft.Shown
	}
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
	c.lampToMarker()
	c.Repaint()
}

func (c *chart) toggleFollow() {
	c.following = !c.following
	if c.following {
		p := c.view.ToPixel(units.Position(c.table.moment.View.Marker))
		m := c.view.Box.Centre()
		c.view = c.view.Shift(m.X-p.X, m.Y-p.Y)
	}
	c.lampToMarker()
	c.Repaint()
	c.table.chartKeys[3].Set("", kit.FollowSign, c.following)
}

// zoom goes in or out about the middle.
func (c *chart) zoom(factor float64) {
	c.lampToMarker()
	c.zoomAt(c.view.Box.Centre(), factor)
}

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
