package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
)

// AccountPage is the height of a page with the account that is w pixels wide: the
// shape of A4 on its side.
func AccountPage(w int) int { _, h := SheetSize(w); return h }

// DrawAccountPage draws the account on a page of its own, w by AccountPage(w)
// pixels: the flight and the moment on top, the caution at the foot.
func DrawAccountPage(s paint.Surface, w int, title, line string, a *Account) {
	f, tall := float64(w)/1920, float64(AccountPage(w))
	z := look.Size{Part: f, Device: f}
	b := NewBrush(s, look.Of(look.Paper), z)
	b.rect(paint.R(0, 0, float64(w), tall), 0, b.C.Ground, none, 0)
	b.write(24*f, 50*f, title, look.Bold, 29*f, paint.Start, b.C.Ink)
	b.write(float64(w)-24*f, 50*f, line, look.Regular, 20*f, paint.End, b.C.Ink2)
	shown := *a
	shown.OnPaper = true
	DrawAccount(b, AccountLayout(z, paint.R(24*f, 76*f, float64(w)-48*f, tall-136*f), 0), &shown)
	b.write(24*f, tall-24*f, look.Text(look.Caution), look.Regular, 18*f, paint.Start, b.C.Ink2)
}
