package charttable

import (
	"image/color"
	"regexp"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

func TestTrayKeysReachWhatTheySay(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, _ := table(t, 1366, 704)
	assert.False(t, tab.TrayOpen() || tab.tray.pins.Visible())
	tab.ToggleTray()
	require.True(t, tab.TrayOpen() && tab.tray.pins.Visible())
	test.Tap(tab.tray.part)
	_, broken := tab.Cloud()
	assert.False(t, broken || tab.tray.part.Reason == "", "there is none to break")
	test.Tap(tab.tray.cloud)
	laid, _ := tab.Cloud()
	assert.True(t, laid && tab.tray.cloud.Chosen)
	assert.Empty(t, tab.tray.part.Reason)
	test.Tap(tab.tray.cloud)
	laid, _ = tab.Cloud()
	assert.False(t, laid || tab.tray.cloud.Chosen)
	test.Tap(tab.tray.pins)
	assert.True(t, tab.PinsOn() && tab.tray.pins.Chosen)
	test.Tap(tab.tray.pins)
	assert.False(t, tab.PinsOn() || tab.tray.pins.Chosen)
	test.Tap(tab.tray.plan)
	assert.True(t, tab.screen.HidePlan && tab.tray.plan.Chosen)
	test.Tap(tab.tray.plan)
	assert.False(t, tab.screen.HidePlan || tab.tray.plan.Chosen)
	test.Tap(tab.tray.save)
	require.NotNil(t, tab.canvas().Overlays().Top(), "it asks where to")
	tab.ToggleTray()
	assert.False(t, tab.TrayOpen() || tab.tray.pins.Visible())
}

// Each key says what it does and which key of the keyboard does it, too.
func TestTrayKeysNameTheKeyboard(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, _ := table(t, 1366, 704)
	labels := map[string]bool{}
	for _, d := range tab.Deeds() {
		labels[d.Label] = true
	}
	require.Len(t, tab.tray.keys, 13)
	for _, k := range tab.tray.keys {
		parts := regexp.MustCompile(`^.{12,} \((.+)\)$`).FindStringSubmatch(k.Hint)
		require.NotNil(t, parts, "%s: %s", k.Word, k.Hint)
		assert.True(t, labels[parts[1]], k.Hint)
	}
}

// The tray fits over the chart in every window, in larger text too, and each of
// its keys says what it does.
func TestTrayFits(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	for _, size := range []fyne.Size{{Width: 1280, Height: 656}, {Width: 1366, Height: 704}, {Width: 1920, Height: 1008}} {
		for _, larger := range []bool{false, true} {
			tab, _ := table(t, size.Width, size.Height)
			tab.screen.LargerText = larger
			pressed := 0
			for _, word := range []string{"Spotlight", "Blank"} {
				tab.AddTools(kit.NewKey(tab.screen, word, kit.NoSign, kit.Target, func() { pressed++ }))
			}
			tab.ToggleTray()
			var before []fyne.CanvasObject
			for _, k := range tab.tray.keys {
				p, s := k.Position(), k.Size()
				assert.True(t, p.X >= tab.chart.Position().X && p.X+s.Width <= tab.chart.Position().X+tab.chart.Size().Width, "%v %s", size, k.Word)
				assert.GreaterOrEqual(t, s.Height, float32(kit.Target))
				assert.GreaterOrEqual(t, s.Width, float32(kit.Target))
				for _, o := range before {
					apart := p.X+s.Width <= o.Position().X || o.Position().X+o.Size().Width <= p.X || p.Y >= o.Position().Y+o.Size().Height
					assert.True(t, apart, "%v %s lies on another", size, k.Word)
				}
				before = append(before, k)
			}
			for _, k := range tab.tray.keys[len(tab.tray.keys)-2:] {
				test.Tap(k)
			}
			assert.Equal(t, 2, pressed, "keys of the window's")
		}
	}
}

// settled paints the chart with the ground that belongs to the present state,
// drawn here and now.
func settled(tab *Table) *paint.Raster {
	c, d := tab.chart, paint.NewImage(int(tab.chart.Size().Width), int(tab.chart.Size().Height))
	draw := func() { c.paint(d, float64(c.Size().Width), float64(c.Size().Height), look.SizeOf(1366, 768, 1)) }
	c.working.Store(true) // no worker begins
	draw()
	c.base = drawBase(c.wanted, c.ground)
	draw()
	return d
}

// inked counts the pixels of ink in a rectangle.
func inked(d *paint.Raster, r paint.Rect, ink color.NRGBA) (n int) {
	for y := int(r.Y); y < int(r.Bottom()); y++ {
		for x := int(r.X); x < int(r.Right()); x++ {
			if c := d.Pixels().RGBAAt(x, y); c.R == ink.R && c.G == ink.G && c.B == ink.B {
				n++
			}
		}
	}
	return n
}

func TestHiddenPlanIsOffTheChart(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, _ := table(t, 1366, 704)
	shown := settled(tab)
	at := tab.chart.view.ToPixel(tab.chart.required[1].At) // A, at sea
	round := paint.R(at.X-60, at.Y-30, 120, 60)
	assert.Greater(t, inked(shown, round, tab.screen.Palette.Ink), 40, "a circle, a name and a time")
	tab.HidePlan(true)
	hidden := settled(tab)
	assert.Zero(t, inked(hidden, round, tab.screen.Palette.Ink))
	assert.False(t, tab.chart.wanted.planned, "nor is it in the key")
	tab.HidePlan(false)
	settled(tab)
	assert.True(t, tab.chart.wanted.planned)
}
