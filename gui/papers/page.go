package papers

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Paper is a size of paper, on its side.
type Paper struct {
	Name string
	W, H float64 // mm
}

// The papers: ISO 216 A4, and ANSI Letter of 11 by 8.5 inches.
var (
	A4     = Paper{"A4", 297, 210}
	Letter = Paper{"Letter", 279.4, 215.9}
)

// PaperOf finds a paper by its name.
func PaperOf(name string) (Paper, error) {
	for _, p := range []Paper{A4, Letter} {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("size = %s: must be A4 or Letter", name)
}

// Page is one side of paper, as a value.
type Page interface {
	draw(d *draft)
}

// pointsPerMM are the points (1/72 inch) to a millimetre.
const pointsPerMM = 72 / 25.4

// Write writes the pages as one PDF.
func Write(out io.Writer, on Paper, title string, pages []Page) error {
	pdf := paint.NewPDF(on.W, on.H, on.W*pointsPerMM, title)
	for i, p := range pages {
		if i > 0 {
			pdf.Page()
		}
		Draw(pdf, on, p)
	}
	_, err := pdf.WriteTo(out)
	return err
}

// Draw draws one page on a surface whose pixels are millimetres.
func Draw(s paint.Surface, on Paper, p Page) {
	p.draw(newDraft(s, on))
}

// Kinds are the names of the papers, as reckon has them.
func Kinds() []string { return slices.Clone(kinds[:]) }

var kinds = [...]string{"sheet", "stars", "log", "log-short", "plan", "readings", "problems", "deviation", "landfall", "rule"}

// sheetOf says which of several pages this is; nothing of a single one.
func sheetOf(i, n int) string {
	if n < 2 {
		return ""
	}
	return look.Textf(look.PaperSheetOf, i+1, n)
}
