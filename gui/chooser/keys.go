package chooser

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"stillair/gui/flights"
	"stillair/gui/look"
)

// TypedKey does what a key stands for and says whether it stands for anything:
// arrows walk from card to card, Enter flies, Esc shuts the list of errors. The
// file dialog has all keys to itself, and Esc shuts it.
func (c *Chooser) TypedKey(e *fyne.KeyEvent) bool {
	if c.asking != nil {
		if e.Name == fyne.KeyEscape {
			c.asking.Dismiss()
		}
		return true
	}
	switch e.Name {
	case fyne.KeyLeft:
		c.walk(-1)
	case fyne.KeyRight:
		c.walk(1)
	case fyne.KeyUp:
		c.rise(-1)
	case fyne.KeyDown:
		c.rise(1)
	case fyne.KeyHome:
		c.goTo(0)
	case fyne.KeyEnd:
		c.goTo(len(c.entries()) - 1)
	case fyne.KeyPageUp, fyne.KeyPageDown:
		c.page(e.Name == fyne.KeyPageDown)
	case fyne.KeyReturn, fyne.KeyEnter:
		c.flyChosen()
	case fyne.KeyEscape:
		return c.shutRefusal()
	default:
		return false
	}
	return true
}

// shutRefusal takes the list of errors away, if it is there.
func (c *Chooser) shutRefusal() bool {
	if !c.refusal.content.Visible() {
		return false
	}
	c.refusal.hide()
	return true
}

// page scrolls what is longer than its place: the errors if they show, else the
// cards.
func (c *Chooser) page(down bool) {
	scroll := c.shelf.scroll
	if c.refusal.content.Visible() {
		scroll = c.refusal.scroll
	}
	by := scroll.Size().Height * 0.8
	if !down {
		by = -by
	}
	most := max(0, scroll.Content.Size().Height-scroll.Size().Height)
	scroll.ScrollToOffset(fyne.NewPos(0, max(0, min(most, scroll.Offset.Y+by))))
}

func (c *Chooser) index() int {
	for i, e := range c.entries() {
		if e == c.chosen {
			return i
		}
	}
	return 0
}

// walk goes along the cards, in reading order.
func (c *Chooser) walk(by int) { c.goTo(c.index() + by) }

// rise goes a row up or down, to the card over or under, or the last of a shorter
// row.
func (c *Chooser) rise(by int) {
	i, columns := c.index(), c.shelf.columns()
	var rows [][2]int // the first card of each, and how many there are
	at, first, column := 0, 0, 0
	for _, group := range [][]*entry{c.lessons, c.shipped, c.exercises, c.files, c.kept} {
		for n := 0; n < len(group); n += columns {
			row := [2]int{first + n, min(columns, len(group)-n)}
			if i >= row[0] && i < row[0]+row[1] {
				at, column = len(rows), i-row[0]
			}
			rows = append(rows, row)
		}
		first += len(group)
	}
	if at += by; at >= 0 && at < len(rows) {
		c.goTo(rows[at][0] + min(column, rows[at][1]-1))
	}
}

// goTo chooses a card, gives it the focus and brings it in sight.
func (c *Chooser) goTo(i int) {
	all := c.entries()
	e := all[max(0, min(len(all)-1, i))]
	c.choose(e)
	c.shelf.reveal(e)
	if canvas := c.canvas(); canvas != nil {
		canvas.Focus(e.card)
	}
}

// askFile opens the toolkit's file dialog in the folder of the last file.
func (c *Chooser) askFile() {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		c.asking = nil
		if r == nil { // shut without a choice
			return
		}
		path := r.URI().Path()
		_ = r.Close() // it is read by its name
		c.OpenPath(path)
	}, c.window)
	d.SetFilter(storage.NewExtensionFileFilter([]string{flights.Suffix, flights.RecordSuffix}))
	d.SetView(dialog.ListView) // names stand whole
	d.SetTitleText(look.Text(look.ChooserOpen))
	if folder := c.recent.Folder(); folder != "" {
		if at, err := storage.ListerForURI(storage.NewFileURI(folder)); err == nil {
			d.SetLocation(at)
		}
	}
	d.Resize(fyne.NewSize(min(960, c.screen.W-80), min(720, c.screen.H-80)))
	c.asking = d
	d.Show()
}
