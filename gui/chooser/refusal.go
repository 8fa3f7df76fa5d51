package chooser

import (
	"errors"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// refusal is the card with everything that is wrong with a flight.
type refusal struct {
	chooser *Chooser
	content *fyne.Container
	sheet   *refusalSheet
	scroll  *container.Scroll
	inner   *fyne.Container
	check   *kit.Key
	copy    *kit.Key
	close   *kit.Key
	width   float32 // of the list, units

	name  string
	path  string
	text  string
	count int
	rows  []*problem
}

// refusalSheet is the paper of the card.
type refusalSheet struct {
	kit.Painted
	refusal *refusal
}

func newRefusal(c *Chooser) *refusal {
	r := &refusal{chooser: c}
	r.sheet = &refusalSheet{refusal: r}
	r.sheet.Extend(r.sheet, c.screen, fyne.NewSize(300, 200), r.sheet.paint)
	r.inner = container.New(problems{r})
	r.scroll = container.NewVScroll(r.inner)
	r.check = kit.NewKey(c.screen, look.Text(look.RefusedCheck), kit.NoSign, 130, r.checkAgain)
	r.check.Main = true
	r.copy = kit.NewKey(c.screen, look.Text(look.RefusedCopy), kit.NoSign, 100, r.copyList)
	r.close = kit.NewKey(c.screen, look.Text(look.RefusedClose), kit.NoSign, 80, r.hide)
	r.content = container.New(r, r.sheet, r.scroll, r.check, r.copy, r.close)
	r.content.Hide()
	return r
}

// show lists what is wrong.
func (r *refusal) show(name string, err error) {
	if r.content.Visible() && r.name == name && r.text == err.Error() {
		return // nothing new: leave it where it has been scrolled to
	}
	list, count := flights.Explain(err)
	r.name, r.text, r.count, r.path = name, err.Error(), count, ""
	var refused *flights.Refused
	if errors.As(err, &refused) {
		r.path = refused.Path
	}
	r.rows = nil
	r.inner.Objects = nil
	for _, w := range list {
		r.add(newProblem(r.chooser.screen, w))
	}
	if more := count - len(list); more > 0 {
		r.add(newProblem(r.chooser.screen, flights.Wrong{What: look.Textf(look.RefusedMore, more)}))
	}
	r.copy.Set(look.Text(look.RefusedCopy), kit.NoSign, false)
	if r.path == "" {
		r.check.Hide()
	} else {
		r.check.Show()
	}
	r.scroll.Offset = fyne.Position{}
	r.content.Show()
	r.chooser.content.Refresh()
	r.repaint()
	r.chooser.told.apply()
}

func (r *refusal) add(p *problem) {
	r.rows = append(r.rows, p)
	r.inner.Add(p)
}

func (r *refusal) hide() {
	if r.content.Visible() {
		r.content.Hide()
		r.chooser.content.Refresh()
		r.chooser.told.apply()
	}
}

// checkAgain reads the file anew; the program changes nothing in it.
func (r *refusal) checkAgain() {
	r.chooser.load(r.path, func(*flights.Flight) {
		r.hide()
		r.chooser.screen.Hints.Tell(r.chooser.told.fly, look.Text(look.RefusedChecked))
	})
}

func (r *refusal) copyList() {
	fyne.CurrentApp().Clipboard().SetContent(r.text + "\n")
	r.copy.Set(look.Text(look.RefusedCopied), kit.NoSign, false)
}

func (r *refusal) repaint() {
	for _, o := range []fyne.CanvasObject{r.sheet, r.check, r.copy, r.close} {
		o.Refresh()
	}
	for _, p := range r.rows {
		p.Refresh()
	}
	r.inner.Refresh()
	r.content.Refresh()
}

// head is the room for the two lines at the top, units.
func (r *refusal) head() float32 {
	z := r.chooser.screen.Size(1)
	return float32(math.Ceil(1.5*z.Text(look.TextLarge) + 1.9*z.Text(look.TextSmall) + float64(r.chooser.told.inset())*0.5))
}

// Layout is part of the toolkit's contract.
func (r *refusal) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	inset := r.chooser.told.inset()
	r.sheet.Resize(size)
	r.width = size.Width - 2*inset
	y := size.Height - inset - kit.Target
	r.scroll.Move(fyne.NewPos(inset, r.head()))
	r.scroll.Resize(fyne.NewSize(r.width+6, y-r.head()-8))
	x := inset
	keys := []*kit.Key{r.check, r.copy, r.close}
	shares := []float32{0.44, 0.3, 0.26}
	for i, k := range keys {
		w := round((r.width - 16) * shares[i])
		if i == 2 {
			w = inset + r.width - x
		}
		k.Move(fyne.NewPos(x, y))
		k.Resize(fyne.NewSize(w, kit.Target))
		if k.Visible() {
			x += w + 8
		}
	}
	r.inner.Refresh()
}

// MinSize is part of the toolkit's contract.
func (r *refusal) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 200) }

func (s *refusalSheet) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, r := s.Palette(), s.refusal
	paper(d, w, h, paint.R(0, 0, w, h), z, c, max(2*z.Device, z.Px(2)), c.Verm)
	inset := float64(r.chooser.told.inset()) * z.Device
	title, small := typeOf(look.Bold, z, look.TextLarge), typeOf(look.Regular, z, look.TextSmall)
	y := inset*0.6 + title.Size
	name := printable(r.name, look.Bold)
	room := w - 2*inset - title.Font.Width(look.Textf(look.RefusedTitle, ""), title.Size)
	d.Text(inset, y, look.Textf(look.RefusedTitle, title.Shorten(name, room)), title, c.Ink)
	words := look.Text(look.RefusedOne)
	if r.count != 1 {
		words = look.Textf(look.RefusedMany, r.count)
	}
	d.Text(inset, y+1.6*small.Size, small.Shorten(words, w-2*inset), small, c.Ink2)
}
