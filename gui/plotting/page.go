package plotting

import (
	"errors"
	"io"
	"time"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/papers"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// The page: A5 upright at 200 to the inch.
const (
	pageWidth  = 1165
	pageHeight = 1654
	pageMargin = 80
)

// WritePage writes list and fix as a picture on a page of its own.
func WritePage(out io.Writer, f paint.Format, title, when string, rows []picture.ReadingRow, card picture.FixCard) error {
	return paint.Export(out, f, pageWidth, pageHeight, title, func(d paint.Surface) {
		z := look.SizeOf(1920, 1080, 1.75)
		b := picture.NewBrush(d, look.Of(look.Paper), z)
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, pageWidth, pageHeight)), b.C.Card)
		room := paint.R(pageMargin, pageMargin, pageWidth-2*pageMargin, pageHeight-2*pageMargin)
		write := func(y float64, words string, face look.Face, size float64) {
			t := paint.Type{Font: face.Font(), Size: size}
			for i, line := range t.Wrap(words, room.W) {
				d.Text(room.X, y+1.3*float64(i)*size, line, t, b.C.Ink)
			}
		}
		write(room.Y+30, title, look.Semibold, 40)
		write(room.Y+80, when, look.Regular, 26)
		write(room.Y+150, look.Text(look.PlotLines), look.Semibold, 30)
		n, pitch := picture.ReadingRows(z, 0.55*room.H)
		rows = rows[max(0, len(rows)-n):]
		picture.DrawReadings(b, paint.R(room.X, room.Y+170, room.W, 0.55*room.H), rows)
		y := room.Y + 220 + float64(len(rows))*pitch
		write(y+30, look.Text(look.PlotFix)+" "+card.When, look.Semibold, 30)
		picture.DrawFix(b, paint.R(room.X, y+50, room.W, 400), &card)
		write(room.Bottom()-20, look.Text(look.Caution), look.Regular, 22)
	})
}

// WriteSwing writes a deviation card with its curve and its readings as a PDF.
func WriteSwing(out io.Writer, f paint.Format, title string, when time.Time, s *Swing) error {
	if f != paint.PDFFile {
		return errors.New(look.Text(look.SwingPDF))
	}
	line := title + ", " + units.DateText(when)
	return papers.Write(out, papers.A4, title, []papers.Page{papers.SwungPage(line, s.Told(), s.Card, s.Rows())})
}
