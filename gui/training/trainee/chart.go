package trainee

import (
	"image"
	"math"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/units"
)

// chart is the trainee's: the ground is drawn once for a view, out of the way of the
// window, and the plot over a copy of it.
type chart struct {
	kit.Painted
	view   *View
	ground *picture.Ground
	on     plotting.Marks
	made   int // how often on has changed
	at     picture.View
	fitted bool
	held   picture.Held
	sheet  *sheet
	lamp   lamp
	busy   atomic.Bool
	away   func(func()) // does slow work; tests do it at once
}

// sheet is a ground that is drawn.
type sheet struct {
	want
	pixels *image.RGBA
	lit    *image.RGBA // the same as the lamp shows it; nil under another light
	room   *picture.Room
}

type want struct {
	view    picture.View
	w, h    int
	palette *look.Palette
	size    look.Size
}

func newChart(v *View) *chart {
	c := &chart{view: v, ground: picture.NewGround(v.brief.Waters), away: func(work func()) { go work() }}
	c.Extend(c, v.screen, fyne.NewSize(300, 200), c.paint)
	return c
}

// plot takes up what the navigator has plotted.
func (c *chart) plot(m plotting.Marks) {
	c.on = m
	c.made++
	if c.view.content != nil {
		c.apply()
	}
}

// chartKey is what the plot depends on, to half a pixel of air distance.
type chartKey struct {
	run             int64
	marks, made     int
	changes         int
	minute, heading int64
	wind            units.Wind
	p               *look.Palette
	view            picture.View
}

func (c *chart) apply() {
	v := &c.view.now.View
	miles := c.at.MilesPerPixel(v.Marker.Lat)
	c.Update(chartKey{
		int64(v.AirLog.NM() / math.Max(1e-6, miles*0.5)), len(v.Marks), c.made, c.view.book.Changes, v.Tick / 320,
		int64(v.Heading.Degrees()), v.WindSet, c.Palette(), c.at,
	})
}

// lights are the colours of the chart: under the lamp, those where it does not shine.
func (c *chart) lights() *look.Palette {
	if c.Palette().Variant == look.Lamp {
		return look.Of(look.LampUnlit)
	}
	return c.Palette()
}

func (c *chart) paint(d *paint.Raster, w, h float64, z look.Size) {
	box := paint.R(0, 0, w, h).Inset(math.Round(10*z.Device + picture.FrameWidth(z)))
	if !c.fitted {
		var all []units.Position
		for _, p := range c.view.brief.Required {
			all = append(all, p.At)
		}
		c.at = picture.Fit(box, 40*z.Part, append(all, units.Position(c.view.now.View.Ground))...)
		c.fitted = true
	}
	c.at = c.at.WithBox(box)
	c.draw(want{c.at, int(w), int(h), c.lights(), z})
	if c.sheet == nil || c.sheet.w != int(w) || c.sheet.h != int(h) {
		kit.Paper(d, w, h, z, c.Palette())
		return
	}
	c.plotOn(d, c.sheet.pixels, c.lights(), box, z)
	if c.Palette().Variant == look.Lamp && c.sheet.lit != nil {
		c.shine(d, box, z)
	}
}

// plotOn draws ground and plot under a light.
func (c *chart) plotOn(d *paint.Raster, ground *image.RGBA, light *look.Palette, box paint.Rect, z look.Size) {
	if c.sheet.view == c.at {
		copy(d.Pixels().Pix, ground.Pix)
	} else {
		kit.Paper(d, float64(c.sheet.w), float64(c.sheet.h), z, light)
		picture.DrawEmpty(picture.NewBrush(d, light, z), c.at)
	}
	p := picture.PlotOf(&c.view.now.View)
	p.Required, p.Lines, p.Fixes, p.Hat, p.Ellipse, p.Held = c.view.brief.Required, c.on.Lines, c.on.Fixes, c.on.Hat, c.on.Ellipse, &c.held
	b := picture.NewBrush(d, light, z)
	picture.DrawPlot(b, c.at, &p, c.sheet.room)
	d.PushClip(box)
	c.drawHand(b)
	d.PopClip()
}

// drawHand draws the DR track of the manual air plot and where it has come to.
func (c *chart) drawHand(b *picture.Brush) {
	hands := c.view.book.Hands
	now := c.view.now.View.Elapsed
	var path paint.Path
	for i := range hands {
		h := &hands[i]
		until := now
		if i+1 < len(hands) {
			until = min(until, hands[i+1].At)
		}
		if h.Done || h.At > now {
			continue
		}
		from, to := c.at.ToPixel(h.From), c.at.ToPixel(h.Position(until))
		b.Stroke(path.Reset().MoveTo(from.X, from.Y).LineTo(to.X, to.Y), paint.Pen{Width: 2.6 * b.K.Symbol()}, b.C.Ink)
		if until == now {
			b.DRSquare(to, 1)
			t := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextSmall), Halo: b.C.Sea, HaloWidth: 5 * b.K.Symbol()}
			b.Text(to.X+11*b.K.Symbol(), to.Y-6*b.K.Symbol(), look.Text(look.TraineeDR), t, b.C.Ink)
		}
	}
}

// draw has a ground drawn; one at a time, the newest wish is looked at when it is done.
func (c *chart) draw(w want) {
	if c.sheet != nil && c.sheet.want == w || c.busy.Swap(true) {
		return
	}
	g := c.ground
	c.away(func() {
		one := func(light *look.Palette) (*image.RGBA, *picture.Room) {
			d := paint.NewImage(w.w, w.h)
			kit.Paper(d, float64(w.w), float64(w.h), w.size, light)
			room := picture.DrawGround(picture.NewBrush(d, light, w.size), w.view, g)
			return d.Pixels(), room
		}
		made := &sheet{want: w}
		if w.palette.Variant == look.LampUnlit {
			made.lit, _ = one(look.Of(look.LampLit))
		}
		made.pixels, made.room = one(w.palette)
		c.view.screen.Later(func() {
			c.sheet = made
			c.busy.Store(false)
			c.Repaint()
		})
	})
}

// Scrolled zooms about the pointer.
func (c *chart) Scrolled(e *fyne.ScrollEvent) {
	c.at = c.at.ZoomAt(c.pixel(e.Position), math.Pow(1.25, math.Copysign(1, float64(e.Scrolled.DY))))
	c.Repaint()
}

// Dragged moves the chart.
func (c *chart) Dragged(e *fyne.DragEvent) {
	k := c.device()
	c.at = c.at.Shift(float64(e.Dragged.DX)*k, float64(e.Dragged.DY)*k)
	c.Repaint()
}

// DragEnd is part of the toolkit's contract.
func (c *chart) DragEnd() {}

// DoubleTapped fits the chart to the flight again.
func (c *chart) DoubleTapped(*fyne.PointEvent) {
	c.fitted = false
	c.Repaint()
}

func (c *chart) pixel(p fyne.Position) paint.Point {
	return paint.Pt(float64(p.X)*c.device(), float64(p.Y)*c.device())
}

// device is the number of device pixels to a unit.
func (c *chart) device() float64 {
	if w := c.Size().Width; w > 0 && c.sheet != nil {
		return float64(c.sheet.w) / float64(w)
	}
	return 1
}
