package charttable

import (
	"bytes"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

var chartSize = look.SizeOf(1366, 768, 1)

// drawn paints the chart on d with a ground made for it here and now: no worker
// hands one over in between.
func (c *chart) drawn(d *paint.Raster) *paint.Raster {
	w, h := float64(c.Size().Width), float64(c.Size().Height)
	if d == nil {
		d = paint.NewImage(int(w), int(h))
	}
	c.working.Store(true)
	c.paint(d, w, h, chartSize)
	if c.base == nil || c.base.request != c.wanted {
		c.base = drawBase(c.wanted, c.ground)
		c.stale = true
		c.paint(d, w, h, chartSize)
	}
	return d
}

func inLight(v look.Variant) func(*chart) *paint.Raster {
	return func(c *chart) *paint.Raster {
		b := c.base
		d := paint.NewImage(b.w, b.h)
		for i := range b.sheets {
			if b.sheets[i].palette.Variant == v {
				c.paintSheet(d, &b.sheets[i], chartSize)
			}
		}
		return d
	}
}

func hover(c *chart, x, y float32) {
	c.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}})
}

// Inside the rings of the pool each pixel is that of the lit chart, outside the
// pool that of the unlit one, wherever it has been before. Radius and rings: the
// table of the look, at 768 lines.
func TestLampShowsTheLitChart(t *testing.T) {
	tab, h := table(t, 1366, 704)
	tab.screen.Palette = look.Of(look.Lamp)
	h.GoTo(16 * 1200)
	wait(t, tab, h, "20 minutes", func(m *helm.Moment) bool { return m.View.Tick == 16*1200 })
	c := tab.chart
	d := c.drawn(nil)
	lit, unlit := inLight(look.LampLit)(c).Pixels(), inLight(look.LampUnlit)(c).Pixels()
	require.NotEqual(t, lit.Pix, unlit.Pix)
	c.stale = true
	c.drawn(d)
	for _, at := range []paint.Point{{X: 300, Y: 250}, {X: 20, Y: 500}, {X: 610, Y: 100}} {
		hover(c, float32(at.X), float32(at.Y))
		c.drawn(d)
		assert.False(t, c.stale)
		r, ring := 265*768.0/1080, 12*768.0/1080
		for y := range d.Pixels().Rect.Dy() {
			for x := range d.Pixels().Rect.Dx() {
				p := paint.Pt(float64(x)+0.5, float64(y)+0.5)
				got := d.Pixels().RGBAAt(x, y)
				switch q := p.Dist(at); {
				case !c.view.Box.Inset(-1).Contains(p) || q > r+1:
					require.Equal(t, unlit.RGBAAt(x, y), got, "%v, outside the pool at %v", p, at)
				case c.view.Box.Inset(1).Contains(p) && q < r-4*ring-1:
					require.Equal(t, lit.RGBAAt(x, y), got, "%v, in the pool at %v", p, at)
				}
			}
		}
	}
}

// The lamp stands on the marker until a pointer comes, and when the chart is
// moved with keys or the pointer goes.
func TestLampStandsOnTheMarker(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	tab.screen.Palette = look.Of(look.Lamp)
	c := tab.chart
	c.drawn(nil)
	marker := func() paint.Point { return c.view.ToPixel(units.Position(tab.moment.View.Marker)) }
	assert.Equal(t, marker(), c.lampAt())
	hover(c, 400, 300)
	assert.Equal(t, paint.Pt(400, 300), c.lampAt())
	c.zoom(zoomStep)
	assert.InDelta(t, 0, c.lampAt().Dist(paint.Pt(math.Max(c.view.Box.X, marker().X), marker().Y)), 1e-9)
	drag(c, 410, 300, 10, 0)
	assert.Equal(t, paint.Pt(420, 300), c.lampAt(), "a drag tells where the pointer is")
	c.DragEnd()
	c.MouseOut()
	assert.NotEqual(t, paint.Pt(420, 300), c.lampAt())
}

// What others draw over the plot is drawn for both lights, and again when they
// ask.
func TestOverlayInBothLights(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	tab.screen.Palette = look.Of(look.Lamp)
	c := tab.chart
	var lights []look.Variant
	c.overlay(func(b *picture.Brush, v picture.View) {
		lights = append(lights, b.C.Variant)
		assert.Equal(t, c.view, v)
	})
	d := c.drawn(nil)
	assert.Equal(t, []look.Variant{look.LampLit, look.LampUnlit}, lights)
	hover(c, 300, 200)
	c.drawn(d)
	assert.Len(t, lights, 2, "the lamp alone moves without them")
	c.Repaint()
	c.drawn(d)
	assert.Len(t, lights, 4)
}

// Under the lamp nothing is told by colour alone: each line and symbol of the
// plot is drawn there in the same shapes as by day.
func TestLampChangesColoursOnly(t *testing.T) {
	tab, h := table(t, 1366, 704)
	h.Reveal(true)
	wait(t, tab, h, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	shapes := func(v look.Variant) []byte {
		var r paint.Record
		plot := picture.PlotOf(&tab.moment.View)
		plot.Required, plot.Truth = tab.chart.required, tab.chart.truth()
		picture.DrawPlot(picture.NewBrush(&r, look.Of(v), chartSize), tab.chart.view, &plot, nil)
		var out bytes.Buffer
		for _, call := range r.Calls {
			out.WriteString(call.Name + call.Text)
			for _, p := range call.Path.Pts {
				out.WriteString(units.Figure(p.X, 3) + units.Figure(p.Y, 3))
			}
			for _, dash := range call.Pen.Dash {
				out.WriteString(units.Figure(dash, 1))
			}
		}
		return out.Bytes()
	}
	tab.chart.drawn(nil)
	day := shapes(look.Paper)
	require.Greater(t, len(day), 1000)
	assert.Equal(t, day, shapes(look.LampLit))
	assert.Equal(t, day, shapes(look.LampUnlit))
}

// BenchmarkLampMoves is one movement of the pointer under the lamp.
func BenchmarkLampMoves(b *testing.B) {
	l := lamp{lit: paint.NewImage(1340, 820), on: paint.NewImage(1340, 820).Pixels()}
	for i := range l.lit.Pixels().Pix {
		l.lit.Pixels().Pix[i] = 200
	}
	x := 300.0
	for b.Loop() {
		l.lift()
		x = 300 + math.Mod(x, 500)
		pool := picture.LampPool(paint.Pt(x, 400), look.SizeOf(1920, 1080, 1), paint.R(10, 10, 1320, 800))
		l.keep(pool.Box())
		pool.Compose(l.on, l.lit.Pixels())
	}
}

// While a dragged chart waits for its ground, the frame stands, the piece of it
// that was drawn goes along, and what is new is sea.
func TestDraggedChartKeepsItsFrame(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	c := tab.chart
	d := c.drawn(nil)
	before := append([]uint8(nil), d.Pixels().Pix...)
	drag(c, 400, 200, 100, 60)
	w, h := float64(c.Size().Width), float64(c.Size().Height)
	c.paint(d, w, h, chartSize) // the worker is held back
	pixel := func(pix []uint8, x, y float64) [3]uint8 {
		return [3]uint8(pix[d.Pixels().PixOffset(int(x), int(y)):])
	}
	box, pal := c.view.Box, look.Of(look.Paper)
	ink := [3]uint8{pal.Ink.R, pal.Ink.G, pal.Ink.B}
	blocks := 0
	for y := box.Y; y < box.Bottom(); y++ {
		blocks += b2i(pixel(d.Pixels().Pix, box.X-4, y) == ink)
	}
	assert.InDelta(t, box.H/2, float64(blocks), box.H/6, "every second block of the frame at the left")
	assert.Equal(t, [3]uint8{pal.Sea.R, pal.Sea.G, pal.Sea.B}, pixel(d.Pixels().Pix, box.X+7, box.Y+7))
	same := 0
	for y := box.Y + 100; y < box.Bottom()-10; y += 7 {
		for x := box.X + 300; x < box.Right()-10; x += 7 {
			same += b2i(pixel(d.Pixels().Pix, x, y) == pixel(before, x-100, y-60))
		}
	}
	assert.Greater(t, same, 4000, "most of the chart has moved along; the plot moves by parts of a pixel")
}

func b2i(v bool) int {
	if v {
		return 1
	}
	return 0
}
