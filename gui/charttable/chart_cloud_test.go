package charttable

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// clouded opens the default flight 20 minutes on, in cloud.
func clouded(t *testing.T) (*Table, *helm.Helm) {
	t.Helper()
	tab, h := table(t, 1366, 704)
	tab.screen.ReducedMotion = true
	h.GoTo(16 * 1200)
	wait(t, tab, h, "20 minutes", func(m *helm.Moment) bool { return m.View.Tick == 16*1200 })
	tab.LayCloud(true)
	wait(t, tab, h, "no truth", func(m *helm.Moment) bool { return m.Revealed == nil })
	return tab, h
}

// count is the number of pixels of a colour.
func count(d *paint.Raster, c [3]uint8) (n int) {
	pix := d.Pixels().Pix
	for i := 0; i < len(pix); i += 4 {
		if [3]uint8(pix[i:i+3]) == c {
			n++
		}
	}
	return n
}

// A whole cloud hides land and truth, whoever reveals it; broken it shows both
// in the hole and nowhere else; laid anew it hides them again.
func TestCloudHidesLandAndTruth(t *testing.T) {
	tab, h := clouded(t)
	c, pal := tab.chart, look.Of(look.Paper)
	verm, land := [3]uint8{pal.Verm.R, pal.Verm.G, pal.Verm.B}, [3]uint8{pal.Land.R, pal.Land.G, pal.Land.B}
	d := c.drawn(nil)
	assert.Zero(t, count(d, land))
	assert.Zero(t, count(d, verm))
	h.Reveal(true)
	wait(t, tab, h, "truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	c.stale = true
	assert.Zero(t, count(c.drawn(d), verm), "the truth lies under the cloud")

	tab.BreakCloud()
	laid, broken := tab.Cloud()
	require.True(t, laid && broken)
	c.drawn(d)
	assert.Greater(t, count(d, verm), 200, "gap, plate and diamond")
	hole := c.base.cloud.HoleBox(*c.cloud.hole, chartSize)
	truth := tab.moment.Revealed.Now.Truth.Position
	assert.Equal(t, truth, c.cloud.hole.At)
	assert.True(t, hole.Contains(c.view.ToPixel(truth)))
	assert.False(t, c.base.cloud.Covers(truth, *c.cloud.hole, chartSize))

	tab.LayCloud(true)
	wait(t, tab, h, "no truth", func(m *helm.Moment) bool { return m.Revealed == nil })
	_, broken = tab.Cloud()
	assert.False(t, broken)
	c.stale = true
	assert.Zero(t, count(c.drawn(d), verm))
	tab.LayCloud(false)
	assert.Greater(t, count(c.drawn(d), land), 500, "the land is seen again")
}

// A cloud that is ordered broken while the truth is hidden parts as soon as it
// has come.
func TestCloudPartsWhenTheTruthComes(t *testing.T) {
	tab, h := clouded(t)
	require.Nil(t, tab.moment.Revealed)
	tab.BreakCloud()
	wait(t, tab, h, "truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	_, broken := tab.Cloud()
	require.True(t, broken)
	assert.Equal(t, 1.0, tab.chart.cloud.hole.Open, "at once with reduced motion")
	tab.LayCloud(false)
	tab.BreakCloud()
	_, broken = tab.Cloud()
	assert.False(t, broken, "no cloud, nothing to break")
}

// When the aircraft has flown out of the hole, truth is covered again.
func TestTruthIsCoveredOutsideTheHole(t *testing.T) {
	tab, h := clouded(t)
	tab.BreakCloud()
	wait(t, tab, h, "truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	tab.chart.drawn(nil)
	g, seen := tab.chart.gap(chartSize)
	require.True(t, seen)
	assert.Equal(t, tab.moment.View.Marker, g.Marker)
	h.GoTo(16 * 3000)
	wait(t, tab, h, "50 minutes", func(m *helm.Moment) bool { return m.View.Tick == 16*3000 && m.Revealed != nil })
	_, seen = tab.chart.gap(chartSize)
	assert.False(t, seen)
	at := tab.chart.view.ToPixel(tab.moment.Revealed.Now.Truth.Position)
	require.True(t, tab.chart.view.Box.Contains(at), "it is on the chart, under the cloud")
	assert.Greater(t, at.Dist(tab.chart.view.ToPixel(units.Position(tab.chart.cloud.hole.At))), 100.0)
	tab.BreakCloud()
	assert.Equal(t, tab.moment.Revealed.Now.Truth.Position, tab.chart.cloud.hole.At, "broken anew")
}
