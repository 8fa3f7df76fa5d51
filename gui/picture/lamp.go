package picture

import (
	"image"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// The pool of the lamp over the chart, pixels at 1080 lines.
const (
	lampRadius = 265
	lampRing   = 12
)

// lampDark is how dark the rings of its rim are, from the rim inwards.
var lampDark = []float64{0.55, 0.36, 0.20, 0.10}

// LampPool is the pool of red light over a chart whose box is clip.
func LampPool(at paint.Point, k look.Size, clip paint.Rect) paint.Pool {
	q := clip.Snap()
	return paint.Pool{
		At: at, Radius: k.Px(lampRadius), Ring: k.Px(lampRing), Dark: lampDark,
		Shade: look.Of(look.LampUnlit).Sea,
		Clip:  image.Rect(int(q.X), int(q.Y), int(q.Right()), int(q.Bottom())),
	}
}
