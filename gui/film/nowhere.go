package film

import (
	"image"
	"image/color"

	"stillair/gui/paint"
)

// nowhere is a surface on which nothing is drawn: for a picture of which only the
// places are wanted.
type nowhere struct{}

func (nowhere) Fill(*paint.Path, color.NRGBA)                          {}
func (nowhere) Stroke(*paint.Path, paint.Pen, color.NRGBA)             {}
func (nowhere) Text(float64, float64, string, paint.Type, color.NRGBA) {}
func (nowhere) Turned(paint.Affine, string, paint.Type, color.NRGBA)   {}
func (nowhere) Shade(paint.Rect, color.NRGBA, color.NRGBA)             {}
func (nowhere) Image(paint.Rect, *image.RGBA)                          {}
func (nowhere) PushClip(paint.Rect)                                    {}
func (nowhere) PopClip()                                               {}
