package navlog

import (
	"errors"
	"io"
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// sheet is the paper of the log.
type sheet struct {
	kit.Control
	view   *View
	first  int    // row on top
	marked [2]int // row and column that the keyboard is on
}

// sheetKey is what the paper depends on.
type sheetKey struct {
	made, first int
	p           *look.Palette
}

// The paper, units: its edge, and the room of the keys above the table.
const (
	edge = 12
	head = 68
)

func newSheet(v *View) *sheet {
	s := &sheet{view: v, marked: [2]int{0, 1}}
	s.Begin(s, v.screen, fyne.NewSize(400, 300), s.paint, nil, nil)
	return s
}

// tableRoom is the room of the table in a paper of w by h pixels.
func tableRoom(w, h, u float64) paint.Rect {
	return paint.R(edge*u, head*u, w-2*edge*u, h-(head+edge)*u)
}

// places are where the cells are, units.
func (s *sheet) places() picture.LogPlaces {
	size := s.Size()
	return picture.LogLayout(s.view.screen.Size(1), tableRoom(float64(size.Width), float64(size.Height), 1), s.view.book.Columns())
}

func (s *sheet) room() int {
	p := s.places()
	return p.Rows
}

func (s *sheet) paint(d *paint.Raster, w, h float64, z look.Size) {
	kit.Paper(d, w, h, z, s.Palette())
	u, book := z.Device, s.view.book
	b := picture.NewBrush(d, s.Palette(), z)
	name := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	d.Text(edge*u, 26*u, look.Text(look.LogWord), name, b.C.Ink)
	what := look.Text(look.LogByItself)
	if book.Hand {
		right, all := book.Kept(&s.view.moment.View)
		what = look.Text(look.LogByHand)
		if book.Check {
			what = look.Textf(look.LogKept, right, all)
		}
	}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	free := float64(s.view.keys[0].Position().X)*u - 2*edge*u
	d.Text(edge*u, 50*u, small.Shorten(what, free), small, b.C.Ink2)
	t := picture.LogTable{Columns: book.Columns(), Rows: book.Rows(&s.view.moment.View), First: s.first, Marked: s.marked, Hand: book.Hand && s.Focused}
	picture.DrawLog(b, tableRoom(w, h, u), &t)
}

// Tapped writes in the cell that is touched.
func (s *sheet) Tapped(e *fyne.PointEvent) {
	p := s.places()
	row, column, ok := p.At(float64(e.Position.X), float64(e.Position.Y))
	if ok {
		s.marked = [2]int{s.first + row, column}
		s.ask()
	}
}

// ask has the cell that is marked written in.
func (s *sheet) ask() {
	v := s.view
	now, name, ok := v.book.Word(&v.moment.View, s.marked[0], s.marked[1])
	if !ok {
		if !v.book.Hand {
			s.Tell(look.Text(look.LogNotByHand))
		}
		return
	}
	row, column := s.marked[0], s.marked[1]
	kit.Ask(v.canvas(), v.screen, name, look.Text(look.LogWrite), now, func(words string) error {
		if len(words) > 60 || strings.ContainsAny(words, "\n\t") {
			return errors.New(look.Text(look.LogTooLong))
		}
		v.book.Write(&v.moment.View, row, column, words)
		v.change()
		return nil
	})
}

// Scrolled is part of the toolkit's contract.
func (s *sheet) Scrolled(e *fyne.ScrollEvent) {
	s.scroll(-int(math.Copysign(1, float64(e.Scrolled.DY))))
}

func (s *sheet) scroll(by int) {
	s.first = max(0, min(len(s.view.moment.View.Log)-s.room(), s.first+by))
	s.view.apply()
}

// TypedKey is part of the toolkit's contract.
func (s *sheet) TypedKey(k *fyne.KeyEvent) {
	move := map[fyne.KeyName][2]int{fyne.KeyUp: {-1, 0}, fyne.KeyDown: {1, 0}, fyne.KeyLeft: {0, -1}, fyne.KeyRight: {0, 1}}
	by, moves := move[k.Name]
	switch {
	case moves && s.view.book.Hand:
		rows, cols := len(s.view.moment.View.Log), len(s.view.book.shown())
		s.marked[0] = max(0, min(rows-1, s.marked[0]+by[0]))
		s.marked[1] = max(1, min(cols-1, s.marked[1]+by[1]))
		if s.marked[0] < s.first || s.marked[0] >= s.first+s.room() {
			s.scroll(by[0])
		}
		s.view.change()
	case kit.Presses(k) && s.view.book.Hand:
		s.ask()
	default:
		s.PassOn(k)
	}
}

// The page: A4 on its side at 200 to the inch.
const (
	pageWide = 2339
	pageHigh = 1654
)

// writePage writes the newest lines of a log as a picture on a page.
func writePage(out io.Writer, f paint.Format, title, when string, t *picture.LogTable) error {
	return paint.Export(out, f, pageWide, pageHigh, title, func(d paint.Surface) {
		z := look.SizeOf(1920, 1080, 1.5)
		b := picture.NewBrush(d, look.Of(look.Paper), z)
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, pageWide, pageHigh)), b.C.Card)
		write := func(y float64, words string, face look.Face, size float64) {
			d.Text(90, y, words, paint.Type{Font: face.Font(), Size: size}, b.C.Ink)
		}
		write(120, look.Text(look.LogWord)+": "+title, look.Semibold, 40)
		write(170, when, look.Regular, 28)
		room := paint.R(90, 210, pageWide-180, pageHigh-330)
		p := picture.LogLayout(z, room, t.Columns)
		page := *t
		page.First = max(0, len(t.Rows)-p.Rows)
		picture.DrawLog(b, room, &page)
		write(pageHigh-60, look.Text(look.Caution), look.Regular, 24)
	})
}
