package takeaway

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// board is a card on which something is ordered: rows of keys of which one is chosen,
// the folder it goes to, what came of it, and the key that makes it.
type board struct {
	screen *kit.Screen
	window fyne.Window

	card   *widget.PopUp // nil: shut
	rows   []*choice
	into   string // the folder
	folder *widget.Label
	told   *widget.Label
	words  *container.Scroll // holds told
	bar    *bar
	make   *kit.Key
	onMain func(func()) // runs on the toolkit's goroutine; tests make it a queue

	// Say tells, when the card is shut, what came of it.
	Say func(words string)
}

// folderKept is the preference that remembers where films and papers go.
const folderKept = "film_folder"

// choice is a row of keys of which one is chosen.
type choice struct {
	keys []*kit.Key
	now  func() int
	box  fyne.CanvasObject
}

// cardWidth is the width of a card, units.
const cardWidth = 660

// open shows the card: its title, the rows, the folder, and the key that makes it.
func (b *board) open(title look.Key, rows []fyne.CanvasObject, make func()) {
	b.into = keptFolder()
	b.folder, b.told = widget.NewLabel(""), widget.NewLabel("")
	b.folder.Truncation, b.told.Wrapping = fyne.TextTruncateEllipsis, fyne.TextWrapWord
	b.bar = newBar(b.screen)
	b.make = kit.NewKey(b.screen, look.Text(look.FilmMake), kit.NoSign, 140, make)
	b.make.Main = true
	shut := kit.NewKey(b.screen, look.Text(look.FilmShut), kit.NoSign, 140, b.Shut)
	box := container.NewVBox(widget.NewLabelWithStyle(look.Text(title), fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	for _, r := range rows {
		box.Add(r)
	}
	box.Add(named(look.FilmFolder, b.folder, kit.NewKey(b.screen, look.Text(look.FilmChange), kit.NoSign, 120, b.askFolder)))
	b.words = container.NewVScroll(b.told)
	box.Add(b.words)
	box.Add(b.bar)
	box.Add(container.NewGridWithColumns(2, shut, b.make))
	b.card = widget.NewModalPopUp(container.NewPadded(box), b.window.Canvas())
	b.settle()
	b.card.Show()
	b.window.Canvas().Focus(b.make)
}

// What is told stands so far inside the card, and no higher than this; more is
// scrolled.
const toldInset, mostTold = 24, 84

// settle shows what is chosen, and makes the card as high as it has to be.
func (b *board) settle() {
	if b.card == nil {
		return
	}
	for _, r := range b.rows {
		for i, k := range r.keys {
			k.Set(k.Word, kit.NoSign, i == r.now())
		}
	}
	b.folder.SetText(b.into)
	b.told.Resize(fyne.NewSize(cardWidth-toldInset, b.told.Size().Height)) // it wraps: its height hangs on its width
	b.words.SetMinSize(fyne.NewSize(1, min(b.told.MinSize().Height, mostTold)))
	b.card.Resize(fyne.NewSize(cardWidth, b.card.MinSize().Height))
}

// Shut closes the card; what is being made goes on.
func (b *board) Shut() {
	if b.card != nil {
		b.card.Hide()
		b.card = nil
	}
}

// Escape closes the card if it is open, and says whether it was.
func (b *board) Escape() bool {
	open := b.card != nil
	b.Shut()
	return open
}

// keysInRow is how many keys stand beside one another.
const keysInRow = 4

// row is a row of keys, or several where there are many, of which one is chosen.
func (b *board) row(name look.Key, words []string, now func() int, choose func(int)) fyne.CanvasObject {
	c := &choice{now: now}
	box := container.NewGridWithColumns(keysInRow)
	for i, w := range words {
		k := kit.NewKey(b.screen, w, kit.NoSign, 120, func() { choose(i) })
		c.keys = append(c.keys, k)
		box.Add(k)
	}
	c.box = container.NewBorder(nil, nil, rowName(name), nil, box)
	b.rows = append(b.rows, c)
	return c.box
}

// keyWords are the words of keys.
func keyWords(all ...look.Key) (words []string) {
	for _, k := range all {
		words = append(words, look.Text(k))
	}
	return words
}

// named is a row with a text, and keys at its end.
func named(name look.Key, text fyne.CanvasObject, keys ...fyne.CanvasObject) fyne.CanvasObject {
	return container.NewBorder(nil, nil, rowName(name), container.NewHBox(keys...), container.NewVBox(layout.NewSpacer(), text, layout.NewSpacer()))
}

// rowName is the name of a row, as wide as all of them.
func rowName(k look.Key) fyne.CanvasObject {
	return container.NewGridWrap(fyne.NewSize(96, kit.Target), container.NewCenter(widget.NewLabel(look.Text(k))))
}

// keptFolder is where films and papers went last, or the home of the user.
func keptFolder() string {
	if dir := fyne.CurrentApp().Preferences().String(folderKept); dir != "" {
		if info, err := os.Stat(dir); err == nil && info.IsDir() {
			return dir
		}
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return os.TempDir()
	}
	return home
}

func (b *board) askFolder() {
	ask := dialog.NewFolderOpen(func(dir fyne.ListableURI, err error) {
		if err == nil && dir != nil {
			b.chooseFolder(dir.Path())
		}
	}, b.window)
	if dir, err := storage.ListerForURI(storage.NewFileURI(b.into)); err == nil {
		ask.SetLocation(dir)
	}
	ask.SetTitleText(look.Text(look.FilmWhichFolder))
	ask.SetConfirmText(look.Text(look.FilmHere))
	ask.SetDismissText(look.Text(look.Cancel))
	ask.Resize(b.dialogSize())
	ask.Show()
}

func (b *board) dialogSize() fyne.Size {
	size := b.window.Canvas().Size()
	return fyne.NewSize(size.Width*0.8, size.Height*0.85)
}

func (b *board) chooseFolder(dir string) {
	b.into = filepath.Clean(dir)
	fyne.CurrentApp().Preferences().SetString(folderKept, b.into)
	b.settle()
}

// tell says on the card how far it is.
func (b *board) tell(words string, share float64) {
	if b.card == nil {
		return
	}
	b.told.SetText(words)
	b.bar.share = share
	b.bar.Update(barKey{share, b.screen.Palette})
	b.settle()
}

// ended tells what came of it, on the card or, when that is shut, in the window.
func (b *board) ended(words string, share float64) {
	b.tell(words, share)
	if b.card == nil && b.Say != nil {
		b.Say(words)
	}
}

// mostLines is how many lines of what is wrong a card shows.
const mostLines = 5

// brief is an error in the words of who found it, its first lines if it has many.
func brief(err error) string {
	lines := strings.Split(err.Error(), "\n")
	if len(lines) > mostLines {
		lines = append(lines[:mostLines:mostLines], look.Textf(look.FilmMore, len(lines)-mostLines))
	}
	return strings.Join(lines, "\n")
}

// bar shows how much is made.
type bar struct {
	kit.Painted
	share float64
}

// barKey is what the bar depends on.
type barKey struct {
	share float64
	p     *look.Palette
}

func newBar(screen *kit.Screen) *bar {
	b := &bar{}
	b.Extend(b, screen, fyne.NewSize(200, 10), func(d *paint.Raster, w, h float64, z look.Size) {
		c := screen.Palette
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
		r := paint.R(0, 0, w, h).Inset(z.Device)
		d.Fill(path.Reset().RoundRect(r, r.H/2), c.Low)
		if b.share > 0 {
			r.W = max(r.H, r.W*min(1, b.share))
			d.Fill(path.Reset().RoundRect(r, r.H/2), c.Brass)
		}
	})
	return b
}
