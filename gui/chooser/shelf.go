package chooser

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// shelf is the left part of the view: the lessons, the other shipped flights, the exercises and,
// below them, the files used lately and the records of what was flown. It scrolls when it is higher than the window.
type shelf struct {
	chooser *Chooser
	scroll  *container.Scroll
	inner   *fyne.Container
	heads   [5]*heading
	none    *heading
	width   float32 // of the cards' place, units
}

func newShelf(c *Chooser) *shelf {
	s := &shelf{chooser: c}
	s.heads[0] = newHeading(c.screen, look.ChooserShipped, look.ChooserShippedNote, false)
	s.heads[1] = newHeading(c.screen, look.ChooserRecent, "", false)
	s.heads[2] = newHeading(c.screen, look.ChooserKept, look.ChooserKeptNote, false)
	s.heads[3] = newHeading(c.screen, look.ChooserLessons, look.ChooserLessonsNote, false)
	s.heads[4] = newHeading(c.screen, look.ChooserExercises, look.ChooserExercisesNote, false)
	s.none = newHeading(c.screen, look.ChooserRecentNone, "", true)
	s.inner = container.New(s)
	s.scroll = container.NewVScroll(s.inner)
	s.fill()
	return s
}

// fill puts the cards on the shelf.
func (s *shelf) fill() {
	all := []fyne.CanvasObject{s.heads[3], s.heads[0], s.heads[4], s.heads[1], s.none, s.heads[2]}
	for _, e := range s.chooser.entries() {
		all = append(all, e.card)
	}
	s.inner.Objects = all
	kit.Show(len(s.chooser.files) == 0, s.none)
	kit.Show(len(s.chooser.kept) > 0, s.heads[2])
	s.inner.Refresh()
	s.scroll.Refresh()
}

func (s *shelf) repaint() {
	for _, h := range []*heading{s.heads[3], s.heads[0], s.heads[4], s.heads[1], s.none, s.heads[2]} {
		h.Refresh()
	}
	s.inner.Refresh()
}

// leastCard is the least width of a card's body, units; wantCard is its width
// at 1080 lines.
const (
	leastCard = 216
	wantCard  = 306
)

func (s *shelf) gap() float32 { return max(8, look.GapCard*s.chooser.part()) }

// columns is how many cards stand side by side.
func (s *shelf) columns() int {
	least := max(leastCard, wantCard*s.chooser.part())
	return max(1, int((s.width+s.gap()+1)/(least+s.gap())))
}

// places lays everything out and gives the height of all.
func (s *shelf) places(put func(o fyne.CanvasObject, x, y, w, h float32)) float32 {
	z := s.chooser.screen.Size(1)
	n, gap := s.columns(), s.gap()
	w := (s.width - float32(n-1)*gap) / float32(n)
	head := float32(math.Ceil(z.Text(look.TextLabel)*1.3 + max(8, z.Px(12))))
	y := float32(0)
	row := func(list []*entry, h float32) {
		for i, e := range list {
			x := float32(i%n) * (w + gap)
			put(e.card, x-ring, y+float32(i/n)*(h+gap)-ring, w+2*ring, h+2*ring)
		}
		y += float32((len(list)+n-1)/n) * (h + gap)
	}
	put(s.heads[3], 0, y, s.width, head)
	y += head + ring
	row(s.chooser.lessons, lessonHeight(z))
	put(s.heads[0], 0, y, s.width, head)
	y += head + ring
	row(s.chooser.shipped, flightHeight(w, z))
	put(s.heads[4], 0, y, s.width, head)
	y += head + ring
	row(s.chooser.exercises, flightHeight(w, z))
	put(s.heads[1], 0, y, s.width, head)
	y += head + ring
	if len(s.chooser.files) == 0 {
		put(s.none, 0, y-ring, s.width, head)
		y += head
	}
	row(s.chooser.files, fileHeight(z))
	if len(s.chooser.kept) > 0 {
		put(s.heads[2], 0, y, s.width, head)
		y += head + ring
		row(s.chooser.kept, fileHeight(z))
	}
	return y
}

// Layout is part of the toolkit's contract. Cards reach a ring beyond their
// place at every side; the scroll does so too.
func (s *shelf) Layout([]fyne.CanvasObject, fyne.Size) {
	s.places(func(o fyne.CanvasObject, x, y, w, h float32) {
		x, y = x+ring, y+ring
		left, top := round(x), round(y)
		o.Move(fyne.NewPos(left, top))
		o.Resize(fyne.NewSize(round(x+w)-left, round(y+h)-top))
	})
}

// MinSize is part of the toolkit's contract.
func (s *shelf) MinSize([]fyne.CanvasObject) fyne.Size {
	h := s.places(func(fyne.CanvasObject, float32, float32, float32, float32) {})
	return fyne.NewSize(100, round(h)+2*ring)
}

// reveal scrolls until a card is in sight.
func (s *shelf) reveal(e *entry) {
	top, h := e.card.Position().Y, e.card.Size().Height
	at, room := s.scroll.Offset.Y, s.scroll.Size().Height
	to := at
	if top+h > at+room {
		to = top + h - room
	}
	if top < to {
		to = top
	}
	if e.card == s.chooser.lessons[0].card {
		to = 0 // with the heading above it
	}
	if to != at {
		s.scroll.ScrollToOffset(fyne.NewPos(0, to))
	}
}

// heading is a line of text over cards, with a note at the right; faint is one
// that stands in place of cards.
type heading struct {
	kit.Painted
	words, note look.Key
	faint       bool
}

func newHeading(screen *kit.Screen, words, note look.Key, faint bool) *heading {
	h := &heading{words: words, note: note, faint: faint}
	h.Extend(h, screen, fyne.NewSize(100, 24), h.paint)
	return h
}

func (g *heading) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := g.Palette()
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Ground)
	text, ink := typeOf(look.Semibold, z, look.TextLabel), c.Ink
	if g.faint {
		text, ink = typeOf(look.Regular, z, look.TextSmall), c.Ink2
	}
	y := text.Size * 1.05
	d.Text(0, y, look.Text(g.words), text, ink)
	if g.note == "" {
		return
	}
	room := w - text.Font.Width(look.Text(g.words), text.Size) - 24*z.Device
	note := typeOf(look.Regular, z, look.TextSmall)
	note.Anchor = paint.End
	if note.Font.Width(look.Text(g.note), note.Size) < room {
		d.Text(w, y, look.Text(g.note), note, c.Ink2)
	}
}

func round(v float32) float32 { return float32(math.Round(float64(v))) }
