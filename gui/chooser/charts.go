package chooser

import (
	"image"
	"math"

	"stillair/gui/atlas"
	"stillair/gui/flights"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// wish is what a chart depends on.
type wish struct {
	flight  *flights.Flight
	w, h    int
	palette *look.Palette
	size    look.Size
	whole   bool // with names and turning points, else small and without words
}

// repainter is told when its chart is done.
type repainter interface{ Repaint() }

// made is a chart that is done.
type made struct {
	wish
	image *image.RGBA
}

// kept is how many charts are kept for each owner: two or three lights.
const kept = 3

// charts draws charts one after the other on a goroutine and keeps them.
type charts struct {
	later   func(func())
	queue   []repainter
	wishes  map[repainter]wish
	done    map[repainter][]made
	working bool
	grounds map[*flights.Flight]*picture.Ground // the goroutine's
}

func newCharts(later func(func())) *charts {
	return &charts{later: later, wishes: map[repainter]wish{}, done: map[repainter][]made{},
		grounds: map[*flights.Flight]*picture.Ground{}}
}

// get gives a chart, or nil: then the owner is told when it is done. Only the
// newest wish of an owner is fulfilled.
func (c *charts) get(owner repainter, w wish) *image.RGBA {
	for _, m := range c.done[owner] {
		if m.wish == w {
			return m.image
		}
	}
	if _, waits := c.wishes[owner]; !waits {
		c.queue = append(c.queue, owner)
	}
	c.wishes[owner] = w
	c.work()
	return nil
}

// work draws the next chart, if none is being drawn.
func (c *charts) work() {
	if c.working || len(c.queue) == 0 {
		return
	}
	owner := c.queue[0]
	c.queue = c.queue[1:]
	w := c.wishes[owner]
	delete(c.wishes, owner)
	c.working = true
	go func() {
		im := c.draw(w)
		c.later(func() {
			all := append([]made{{w, im}}, c.done[owner]...)
			c.done[owner] = all[:min(len(all), kept)]
			c.working = false
			owner.Repaint()
			c.work()
		})
	}()
}

// draw draws a chart; waters that cannot be read leave the sea empty.
func (c *charts) draw(w wish) *image.RGBA {
	d := paint.NewImage(w.w, w.h)
	b := picture.NewBrush(d, w.palette, w.size)
	box := paint.R(0, 0, float64(w.w), float64(w.h))
	track := atlas.Required(w.flight.Plan)
	if !w.whole {
		waters, _ := atlas.Coasts(w.flight.Plan)
		picture.DrawMiniature(b, box, picture.NewGround(waters), track, 40*w.size.Part)
		return d.Pixels()
	}
	paper(d, box.W, box.H, box, w.size, w.palette, w.size.Hair(), w.palette.Line)
	box = box.Inset(math.Round(10*w.size.Device + picture.FrameWidth(w.size)))
	at := make([]units.Position, len(track))
	for i, p := range track {
		at[i] = p.At
	}
	view := picture.Fit(box, 60*w.size.Symbol(), at...)
	room := picture.DrawGround(b, view, c.ground(w.flight))
	picture.DrawRequired(b, view, track, room)
	return d.Pixels()
}

// ground is the chart of a flight, kept for other sizes and lights.
func (c *charts) ground(f *flights.Flight) *picture.Ground {
	g := c.grounds[f]
	if g == nil {
		waters, _ := atlas.Of(f.Plan)
		g = picture.NewGround(waters)
		if len(c.grounds) > 12 {
			clear(c.grounds)
		}
		c.grounds[f] = g
	}
	return g
}
