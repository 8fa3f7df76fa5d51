package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// panel is a card that lies over others.
type panel = kit.Panel

func newPanel(screen *kit.Screen, inner func(d *paint.Raster, w, h float64, z look.Size)) *panel {
	return kit.NewPanel(screen, inner)
}

// show makes objects seen or not.
func show(seen bool, objects ...fyne.CanvasObject) { kit.Show(seen, objects...) }
