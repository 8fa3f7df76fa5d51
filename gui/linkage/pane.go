package linkage

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// pane is the picture of the mechanism. Only what has moved is painted again.
type pane struct {
	kit.Painted
	view  *View
	scene *picture.LinkageScene
	made  made
}

// made is what a scene depends on.
type made struct {
	w, h    float64
	size    look.Size
	palette *look.Palette
	box     paint.Rect
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(400, 300), p.paint)
	return p
}

// The picture at 1080 lines, and where its right part begins, which stands
// beside the chart: the part from the resolver to the marker.
const (
	pictureW, pictureH = picture.LinkageW, picture.LinkageH
	rightPart          = 904.0
)

// boxOf is where the picture lies in a pane of w by h: whole, or its right part
// alone, with the rest out of sight to the left.
func boxOf(w, h float64, beside bool) paint.Rect {
	seen := pictureW
	if beside {
		seen -= rightPart
	}
	f := min(w/seen, h/pictureH)
	x := (w - seen*f) / 2
	if beside {
		x -= rightPart * f
	}
	return paint.R(x, (h-pictureH*f)/2, pictureW*f, pictureH*f)
}

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	b, box := picture.NewBrush(d, p.Palette(), z), p.view.box(w, h, z.Device)
	now := made{w, h, z, p.Palette(), box}
	if p.scene == nil || p.made != now {
		p.made = now
		p.scene = picture.NewLinkageScene(z, box)
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Palette().Ground)
	}
	if p.view.beside { // what stands left of the right part does not show
		edge := box.X + rightPart*box.W/pictureW
		d.PushClip(paint.R(edge, 0, w-edge, h))
		defer d.PopClip()
	}
	p.scene.Repaint(b, d, &p.view.shown)
	p.cut(d, box, w, h, z)
}

// cut draws a torn edge where the picture goes on beyond the view.
func (p *pane) cut(d *paint.Raster, box paint.Rect, w, h float64, z look.Size) {
	if p.view.beside {
		return
	}
	c, u := p.Palette(), z.Device
	edge := func(x, way float64) {
		var path paint.Path
		path.MoveTo(x, -u)
		for y, in := 0.0, false; y < h+12*u; y, in = y+12*u, !in {
			deep := 4 * u
			if in {
				deep = 10 * u
			}
			path.LineTo(x+way*deep, y)
		}
		path.LineTo(x, h+u).Close()
		d.Fill(&path, c.Ground)
		d.Stroke(&path, paint.Pen{Width: z.Hair()}, c.Line)
	}
	if box.X < -u {
		edge(0, 1)
	}
	if box.Right() > w+u {
		edge(w, -1)
	}
}
