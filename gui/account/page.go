package account

import (
	"io"

	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// pagePixels is the width of a page: A4 on its side at 200 to the inch.
const pagePixels = 2339

// WritePage writes an account as a picture on a page of its own.
func WritePage(out io.Writer, f paint.Format, title string, a *picture.Account) error {
	line := a.When + ", " + units.DateText(a.Start)
	return paint.Export(out, f, pagePixels, picture.AccountPage(pagePixels), title, func(d paint.Surface) {
		picture.DrawAccountPage(d, pagePixels, title, line, a)
	})
}
