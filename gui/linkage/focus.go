package linkage

import (
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// leastPart is the scale below which the words of the whole picture lie on one
// another, at one device pixel to a unit.
const leastPart = 0.6

// Focus says which links a narrow view should show: it then keeps the height of the
// picture and leaves out what is left or right of its room. Without any the whole
// picture shows, however small.
func (v *View) Focus(links []picture.Link) {
	if slices.Equal(links, v.focus) {
		return
	}
	v.focus = slices.Clone(links)
	v.content.Refresh()
	v.pane.Repaint()
}

// box is where the picture lies in the view, whose size is w by h at so many device
// pixels to a unit.
func (v *View) box(w, h, device float64) paint.Rect {
	whole := boxOf(w, h, v.beside)
	f := whole.W / pictureW
	if v.beside || len(v.focus) == 0 || f >= leastPart*device {
		return whole
	}
	f = min(h/pictureH, 0.7*device)
	seen := w / f
	return paint.R(-from(v.focus, seen)*f, (h-pictureH*f)/2, pictureW*f, pictureH*f)
}

// focusMargin is what should be seen beside a link, in units of the design.
const focusMargin = 36.0

// from is where what is seen begins, in units of the design: at the left unless a
// link would be out of sight.
func from(links []picture.Link, seen float64) float64 {
	design := paint.R(0, 0, pictureW, pictureH)
	left, right := pictureW, 0.0
	for _, l := range links {
		b := picture.LinkBounds(look.Size{}, design, l)
		left, right = min(left, b.X), max(right, b.Right())
	}
	at := max(0, right+focusMargin-seen)
	return max(0, min(at, left-focusMargin, pictureW-seen))
}
