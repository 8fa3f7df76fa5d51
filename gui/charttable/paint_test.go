package charttable

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// generateOnce paints the chart as the toolkit would.
func (c *chart) generateOnce(t *testing.T) {
	t.Helper()
	w, h := c.Size().Width, c.Size().Height
	d := paint.NewImage(int(w), int(h))
	c.paint(d, float64(w), float64(h), look.SizeOf(1366, 768, 1))
}

// Every card draws something else than its empty paper, at every size, in both
// lights.
func TestEveryCardIsDrawn(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	cards := map[string]*card{
		"position": &tab.position.card, "air log": &tab.airLog.card, "heading": &tab.heading.card, "speed": &tab.speed.card,
		"wind": &tab.wind.card, "variation": &tab.variation.card,
	}
	for _, light := range []look.Variant{look.Paper, look.Night} {
		tab.screen.Palette = look.Of(light)
		for name, c := range cards {
			d := paint.NewImage(404, 160)
			c.paint(d, 404, 160, look.SizeOf(1366, 768, 1))
			seen := map[[3]uint8]int{}
			pix := d.Pixels().Pix
			for i := 0; i < len(pix); i += 4 {
				seen[[3]uint8(pix[i:i+3])]++
			}
			paper := tab.screen.Palette.Card
			assert.Greater(t, len(seen), 40, "%s, %v: too few colours", name, light)
			assert.Less(t, seen[[3]uint8{paper.R, paper.G, paper.B}], 404*160*98/100, "%s, %v: almost empty", name, light)
		}
	}
}
