package navlog

import (
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// View is the log of one flight in the window.
type View struct {
	book   *Book
	title  string
	screen *kit.Screen
	canvas func() fyne.Canvas
	moment *helm.Moment
	made   int

	content *fyne.Container
	sheet   *sheet
	keys    [3]*kit.Key // short form, by hand, look it over
}

// New builds the view.
func New(h *helm.Helm, p *sim.Plan, screen *kit.Screen, canvas func() fyne.Canvas) *View {
	v := &View{book: NewBook(p), title: p.Title, screen: screen, canvas: canvas, moment: h.Moment()}
	v.sheet = newSheet(v)
	key := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(screen, look.Text(word), kit.NoSign, 130, func() { press(); v.change() })
		k.Hint = look.Text(hint)
		return k
	}
	v.keys = [3]*kit.Key{
		key(look.LogShort, look.LogShortHint, func() { v.book.Short = !v.book.Short }),
		key(look.LogHand, look.LogHandHint, func() { v.book.Hand = !v.book.Hand }),
		key(look.LogCheck, look.LogCheckHint, func() { v.book.Check = !v.book.Check }),
	}
	v.content = container.New(v, v.sheet, v.keys[0], v.keys[1], v.keys[2])
	v.apply()
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.LogWord) }

// Shape is part of charttable.Stage; the view does not stand beside the chart.
func (v *View) Shape() float32 { return 1 }

// Apply brings the view up to a moment.
func (v *View) Apply(m *helm.Moment) {
	more := len(m.View.Log) != len(v.moment.View.Log) || m.Deeds != v.moment.Deeds
	v.moment = m
	if more {
		v.sheet.first = max(0, len(m.View.Log)-v.sheet.room())
		v.change()
	}
}

func (v *View) change() {
	v.made++
	v.apply()
}

func (v *View) apply() {
	v.keys[0].Set(v.keys[0].Word, kit.NoSign, v.book.Short)
	v.keys[1].Set(v.keys[1].Word, kit.NoSign, v.book.Hand)
	v.keys[2].Set(v.keys[2].Word, kit.NoSign, v.book.Check)
	reason := ""
	if !v.book.Hand {
		reason = look.Text(look.LogCheckNot)
	}
	v.keys[2].Forbid(reason)
	v.sheet.Update(sheetKey{v.made, v.sheet.first, v.screen.Palette})
}

// Page writes the log on a page of its own.
func (v *View) Page() func(io.Writer, paint.Format) error {
	t := picture.LogTable{Columns: v.book.Columns(), Rows: v.book.Rows(&v.moment.View)}
	title, when := v.title, units.DateText(v.moment.View.Clock)
	return func(out io.Writer, f paint.Format) error { return writePage(out, f, title, when, &t) }
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.made++
	for _, o := range v.content.Objects {
		o.Refresh()
	}
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.sheet)
	x := size.Width - 12
	for i := len(v.keys) - 1; i >= 0; i-- {
		w := max(v.keys[i].MinSize().Width, v.keys[i].Needs())
		x -= w
		kit.Box{X: x, Y: 4, W: w, H: kit.Target}.Put(v.keys[i])
		x -= 6
	}
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	return map[string]fyne.CanvasObject{"log": v.sheet, "log-short": v.keys[0], "log-hand": v.keys[1], "log-check": v.keys[2]}
}
