package charttable

import (
	"image"
	"math"
	"sync/atomic"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// curvesWant is what an overlay depends on: two that are equal look the same.
type curvesWant struct {
	kind    laid
	view    picture.View
	w, h    int
	palette *look.Palette
	size    look.Size
	room    *picture.Room // of the ground; it does not change once drawn
	time    int64         // s
	near    units.Position
	thin    float64
	pair    [2]sky.Body
	read    [2]overlay.Read
	chain   [3]units.Position
}

// curvesDone is an overlay that is worked and drawn.
type curvesDone struct {
	curvesWant
	starOrder    overlay.StarOrder
	latticeOrder overlay.LatticeOrder
	stars        *overlay.StarSheet
	lattice      *overlay.LatticeSheet
	images       map[look.Variant]*image.RGBA
	taken        []paint.Rect
	crossings    []picture.Crossing
	stations     []picture.Station
}

// image is the overlay as the light of a palette has it, nil if it is not drawn.
func (d *curvesDone) image(p *look.Palette) *image.RGBA { return d.images[p.Variant] }

// curvesJob works overlays out of the way of the window: one at a time, the newest
// is done next.
type curvesJob struct {
	done    *curvesDone
	wanted  curvesWant
	working atomic.Bool
	deeds   int // how often it was forgotten
}

// forget drops what was done.
func (j *curvesJob) forget() {
	j.done = nil
	j.deeds++
}

// shift is by how many pixels curves go before they are drawn anew, and pace how
// often in a second that is done at most while the clock runs fast.
const (
	shift = 1.0
	pace  = 8
)

// rounded is the time of the curves in steps that move them by a pixel or more.
func (c *curves) rounded(v picture.View) int64 {
	if !c.held.IsZero() {
		return c.held.Unix()
	}
	perSecond := overlay.Turning(time.Second).Degrees() * v.Scale
	step := math.Max(1, math.Ceil(shift/perSecond))
	if m := c.table.moment; m.Playing {
		step = math.Max(step, math.Ceil(m.Rate/pace))
	}
	return int64(math.Floor(float64(c.time().Unix())/step) * step)
}

// want is the overlay that is wanted now; ok is false while the chart has no size.
func (c *curves) want() (w curvesWant, ok bool) {
	chart := c.table.chart
	r := chart.wanted
	if c.kind == noOverlay || r.w == 0 || !chart.fitted {
		return w, false
	}
	near := c.table.moment.View.Ground
	w = curvesWant{
		kind: c.kind, view: chart.view, w: r.w, h: r.h, palette: chart.Palette(), size: r.size,
		near: units.Position{Lat: tenth(near.Lat), Lon: tenth(near.Lon)}, read: c.reads(),
	}
	if b := chart.base; b != nil && b.view == w.view && b.w == w.w && b.h == w.h {
		w.room = b.room
	}
	if c.kind == starCurves {
		w.time, w.thin, w.pair = c.rounded(w.view), math.Round(c.thin()*200)/200, c.pair
		return w, true
	}
	for i, s := range c.chain {
		w.chain[i] = s.At
	}
	w.time = c.delaysAt.Unix()
	return w, true
}

// tenth is an angle to a tenth of a degree: nothing that is worked from where the
// crew believe to be depends on more.
func tenth(a units.Angle) units.Angle {
	return units.Angle(math.Round(a.Degrees()*10)/10) * units.Degree
}

// ask has the overlay worked, if it has changed.
func (c *curves) ask() {
	w, ok := c.want()
	if !ok {
		return
	}
	c.job.wanted = w
	if c.job.done != nil && c.job.done.curvesWant == w || c.job.working.Swap(true) {
		return
	}
	deeds, keep := c.job.deeds, c.table.tracks
	c.table.away(func() {
		made := w.work(keep)
		c.table.screen.Later(func() {
			c.job.working.Store(false)
			if deeds == c.job.deeds {
				c.job.done = made
				c.arrived()
			}
			c.ask()
		})
	})
}

// roomBeside is the room of the ground beside the lines that the plot will have.
func (w curvesWant) roomBeside(lines [][]units.Position) *picture.Room {
	if w.room == nil {
		return nil
	}
	room := w.room.Clone()
	for _, line := range lines {
		room.TakeLine(w.view.ToPixels(line))
	}
	return room
}

// on works an overlay for a view.
func (w curvesWant) on(v picture.View) (*curvesDone, *picture.Overlay) {
	d := &curvesDone{curvesWant: w, images: map[look.Variant]*image.RGBA{}}
	when := time.Unix(w.time, 0).UTC()
	if w.kind == starCurves {
		d.starOrder = overlay.StarOrder{
			Sky:    overlay.Sky{Time: when, Near: w.near, Thin: w.thin},
			Window: atlas.WindowOf(v), Step: atlas.AltitudeStep(v), Pair: w.pair, Read: w.read,
		}
		s := overlay.Stars(d.starOrder)
		d.stars = &s
		return d, atlas.StarOverlay(d.starOrder, &s)
	}
	d.latticeOrder = overlay.LatticeOrder{
		Master: w.chain[0], A: w.chain[1], B: w.chain[2],
		Window: atlas.WindowOf(v), Near: w.near, Step: atlas.LatticeStep(v), Read: w.read,
	}
	s := overlay.Lattice(d.latticeOrder)
	d.lattice = &s
	return d, atlas.LatticeOverlay(d.latticeOrder, &s, units.TimeText(when))
}

// work works an overlay and draws it in its lights; plates keep off the lines that
// the plot will have.
func (w curvesWant) work(keep [][]units.Position) *curvesDone {
	d, o := w.on(w.view)
	d.crossings, d.stations = o.Crossings, o.Stations
	room := w.roomBeside(keep)
	lights := []*look.Palette{w.palette}
	if w.palette.Variant == look.Lamp {
		lights = []*look.Palette{look.Of(look.LampUnlit), look.Of(look.LampLit)}
	}
	for _, p := range lights {
		surface := paint.NewImage(w.w, w.h)
		d.taken = picture.DrawOverlay(picture.NewBrush(surface, p, w.size), w.view, o, room)
		d.images[p.Variant] = surface.Pixels()
	}
	return d
}

// sheet is the overlay for a chart on a page of its own, nil if none is laid.
func (c *curves) sheet() func(picture.View) *picture.Overlay {
	w, ok := c.want()
	if !ok {
		return nil
	}
	put := c.job.done != nil && c.isPut(c.job.done)
	return func(v picture.View) *picture.Overlay {
		_, o := w.on(v)
		if put { // the plot has its words
			o.Crossings[0].Words = nil
		}
		return o
	}
}
