package chooser

import (
	"fyne.io/fyne/v2"

	"stillair/gui/look"
)

// part is the factor of drawn parts, as a layout needs it.
func (c *Chooser) part() float32 { return float32(c.screen.Size(1).Part) }

// The right column: its width at 1080 lines, and the least, units.
const (
	column      = 588
	leastColumn = 404
)

// leastChart is the height below which there is no chart under the facts.
const leastChart = 120

// Layout puts the shelf at the left and the cards that tell at the right; it is
// part of the toolkit's contract.
func (c *Chooser) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	c.ground.Resize(size)
	f := c.part()
	edge, gap := round(max(12, look.Edge*f)), round(max(8, look.GapCard*f))
	top := round(max(8, 16*f))
	right := round(max(leastColumn, column*f))
	x := size.Width - edge - right
	c.shelf.width = x - edge - edge
	c.shelf.scroll.Move(fyne.NewPos(edge-ring, top-ring))
	c.shelf.scroll.Resize(fyne.NewSize(c.shelf.width+2*ring, size.Height-top+ring))
	c.shelf.inner.Refresh()

	told := c.told.height()
	c.told.content.Move(fyne.NewPos(x, top))
	c.told.content.Resize(fyne.NewSize(right, told))
	y := top + told + gap
	rest := fyne.NewSize(right, size.Height-y-top)
	c.refusal.content.Move(fyne.NewPos(x, y))
	c.refusal.content.Resize(rest)
	c.chart.Move(fyne.NewPos(x, y))
	c.chart.Resize(rest)
	if rest.Height < leastChart || c.refusal.content.Visible() {
		c.chart.Hide()
	} else {
		c.chart.Show()
	}
}

// MinSize is part of the toolkit's contract.
func (c *Chooser) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 500) }
