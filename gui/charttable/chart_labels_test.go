package charttable

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// labelsOf draws a moment of a flight and gives the words of ground and plot with
// the boxes of their letters; a name that is written twice stands once.
func labelsOf(e *sim.Engine, g *picture.Ground, required []picture.Waypoint, v picture.View, z look.Size) map[string]paint.Rect {
	var r paint.Record
	b := picture.NewBrush(&r, look.Of(look.Paper), z)
	view := e.View()
	plot := picture.PlotOf(&view)
	plot.Required = required
	plot.Truth = atlas.TruthOf(e.Snapshot(), e.TrueTrack())
	picture.DrawPlot(b, v, &plot, picture.DrawGround(b, v, g))
	out := map[string]paint.Rect{}
	for _, c := range r.Texts() {
		if c.Type.HaloWidth == 0 || c.Type.Font == look.Engraved.Font() {
			continue // key, rose and graticule stand by rules of their own
		}
		w := c.Type.Font.Width(c.Text, c.Type.Size)
		out[fmt.Sprintf("%s at %.0f %.0f", c.Text, c.At.X, c.At.Y)] =
			paint.R(c.At.X-w*float64(c.Type.Anchor)/2, c.At.Y-c.Type.Size*0.72, w, c.Type.Size*0.74)
	}
	return out
}

// On the charts of all flights that come with the program, through the whole of
// each, no words lie on other words and none leave the chart; ground position and
// true position are always named.
func TestLabelsOfAllFlightsKeepOff(t *testing.T) {
	flights, pictures := 0, 0
	for _, f := range scenarios.Shipped() {
		plan, _, err := scenarios.Open(f.Name)
		require.NoError(t, err)
		flights++
		waters, err := atlas.Of(plan)
		require.NoError(t, err)
		required := atlas.Required(plan)
		g := picture.NewGround(waters)
		for _, size := range [][4]float64{{1366, 768, 921, 544}, {1920, 1080, 1394, 829}} {
			z := look.SizeOf(size[0], size[1], 1)
			var all []units.Position
			for _, w := range required {
				all = append(all, w.At)
			}
			v := picture.Fit(paint.R(18, 18, size[2]-36, size[3]-36), 40*z.Part, all...)
			e, err := sim.New(plan)
			require.NoError(t, err)
			for more := true; more; more = e.Advance(16*60*9) > 0 {
				pictures++
				labels := labelsOf(e, g, required, v, z)
				at := fmt.Sprintf("%s, %v lines, tick %d", f.Name, size[1], e.Tick())
				checkApart(t, at, v, labels)
			}
		}
	}
	assert.GreaterOrEqual(t, flights, 3)
	assert.Greater(t, pictures, 60)
}

func checkApart(t *testing.T, at string, v picture.View, labels map[string]paint.Rect) {
	t.Helper()
	for a, p := range labels {
		assert.True(t, v.Box.Covers(p), "%s: %s leaves the chart", at, a)
		for b, q := range labels {
			assert.False(t, a < b && p.Overlaps(q), "%s: %s on %s", at, a, b)
		}
	}
}
