package calculator

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// leftShare is the part of the width that the triangle has.
const leftShare = 0.54

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 300) }

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	z := v.screen.Size(1)
	gap := kit.Whole(max(8, float32(z.Px(look.GapColumn))))
	left := kit.Whole((size.Width - gap) * leftShare)
	kit.Box{W: left, H: size.Height}.Put(v.figure)
	kit.Box{X: left + gap, W: size.Width - left - gap, H: size.Height}.Put(v.rings)
	take, free := max(kit.Target, v.take.Needs()), max(kit.Target, v.letGo.Needs())
	v.left = picture.TriangleCardLayout(z, roomOf(v.figure), float64(take+8+free))
	v.right = picture.ComputerCardLayout(z, roomOf(v.rings))
	v.layLeft(take, free)
	v.layRight()
	v.lookAt()
}

// roomOf is the room of an object, from its own corner.
func roomOf(o fyne.CanvasObject) paint.Rect {
	return paint.R(0, 0, float64(o.Size().Width), float64(o.Size().Height))
}

// put places an object at a rectangle of a pane.
func put(pane, o fyne.CanvasObject, r paint.Rect) {
	at := pane.Position()
	kit.Box{X: at.X + float32(r.X), Y: at.Y + float32(r.Y), W: float32(r.W), H: float32(r.H)}.Put(o)
}

func (v *View) layLeft(take, free float32) {
	for i, b := range v.boxes {
		put(v.figure, b, v.left.Boxes[i])
	}
	k := v.left.Keys
	put(v.figure, v.letGo, paint.R(k.X, k.Y, float64(free), k.H))
	put(v.figure, v.take, paint.R(k.Right()-float64(take), k.Y, float64(take), k.H))
}

func (v *View) layRight() {
	p := v.right
	for i, k := range []*kit.Key{v.height, v.temp, v.less, v.more} {
		put(v.rings, k, p.Keys[i])
	}
	oneCard := p.Curve.H == 0
	kit.Show(oneCard, v.curveKey)
	if oneCard {
		put(v.rings, v.curveKey, p.CurveKey)
	}
	turned := oneCard && v.curve
	d := p.Dial
	put(v.rings, v.ring, paint.R(d.X-d.R, d.Y-d.R, 2*d.R, 2*d.R))
	kit.Show(!turned, v.ring)
	height, temperature := d.Windows(v.screen.Size(1))
	for i, r := range []paint.Rect{p.CAS, p.TAS, height, temperature} {
		put(v.rings, v.plates[i], r)
		kit.Show(i < 2 || !turned, v.plates[i])
	}
}
