package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// LinkagePage is the height of a page with the picture of the mechanism that is w
// pixels wide.
func LinkagePage(w int) int { return w * 960 / 1920 }

// DrawLinkagePage draws the mechanism on a page of its own, w by LinkagePage(w)
// pixels: the flight and the moment on top, the caution at the foot.
func DrawLinkagePage(s paint.Surface, w int, title, line string, l *Linkage) {
	f := float64(w) / 1920
	z := look.Size{Part: f, Device: f}
	b := NewBrush(s, look.Of(look.Paper), z)
	tall := float64(LinkagePage(w))
	b.rect(paint.R(0, 0, float64(w), tall), 0, b.C.Ground, none, 0)
	b.write(24*f, 46*f, title, look.Bold, 27*f, paint.Start, b.C.Ink)
	b.write(float64(w)-24*f, 46*f, line, look.Regular, 19*f, paint.End, b.C.Ink2)
	NewLinkageScene(z, paint.R(24*f, 72*f, LinkageW*f, LinkageH*f)).Draw(b, l)
	b.write(24*f, tall-20*f, look.Text(look.Caution), look.Regular, 17*f, paint.Start, b.C.Ink2)
}
