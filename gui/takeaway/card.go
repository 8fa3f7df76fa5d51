package takeaway

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim"
)

// Film is the card of one flight, and the film that is being made.
type Film struct {
	helm   *helm.Helm
	screen *kit.Screen
	window fyne.Window
	order  order

	card    *widget.PopUp // nil: shut
	rows    []*choice
	folder  *widget.Label
	told    *widget.Label
	bar     *bar
	make    *kit.Key
	cancel  context.CancelFunc // nil: nothing is being made
	turn    int
	began   time.Time
	spoke   time.Time
	onMain  func(func()) // runs on the toolkit's goroutine; tests make it a queue
	clock   func() time.Time
	encoder func() string

	// Say tells, when the card is shut, what came of it.
	Say func(words string)
}

// folderKept is the preference that remembers where films go.
const folderKept = "film_folder"

// New makes the card of a flight; it is not open yet.
func New(h *helm.Helm, plan *sim.Plan, screen *kit.Screen, window fyne.Window) *Film {
	f := &Film{helm: h, screen: screen, window: window, onMain: screen.Later, clock: time.Now, encoder: encoder}
	f.order = order{title: plan.Title, size: len(sizes) - 1, length: 1}
	return f
}

// choice is a row of keys of which one is chosen.
type choice struct {
	keys []*kit.Key
	now  func() int
}

// Open shows the card.
func (f *Film) Open() {
	if f.card != nil {
		return
	}
	f.order.folder = keptFolder()
	title := widget.NewLabelWithStyle(look.Text(look.FilmTitle), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	f.folder, f.told = widget.NewLabel(""), widget.NewLabel("")
	f.folder.Truncation, f.told.Wrapping = fyne.TextTruncateEllipsis, fyne.TextWrapWord
	f.bar = newBar(f)
	f.make = kit.NewKey(f.screen, "", kit.NoSign, 140, f.press)
	f.make.Main = true
	shut := kit.NewKey(f.screen, look.Text(look.FilmShut), kit.NoSign, 140, f.Shut)
	change := kit.NewKey(f.screen, look.Text(look.FilmChange), kit.NoSign, 120, f.askFolder)
	f.rows = nil
	box := container.NewVBox(title)
	for _, r := range f.choices() {
		box.Add(r)
	}
	box.Add(container.NewBorder(nil, nil, rowName(look.FilmFolder), change, container.NewVBox(layout.NewSpacer(), f.folder, layout.NewSpacer())))
	box.Add(f.told)
	box.Add(f.bar)
	box.Add(container.NewGridWithColumns(2, shut, f.make))
	f.card = widget.NewModalPopUp(container.NewPadded(box), f.window.Canvas())
	f.card.Resize(fyne.NewSize(660, f.card.MinSize().Height))
	f.apply()
	f.card.Show()
	f.window.Canvas().Focus(f.make)
}

// Shut closes the card; a film that is being made goes on.
func (f *Film) Shut() {
	if f.card != nil {
		f.card.Hide()
		f.card = nil
	}
}

// Stop shuts the card and ends what is being made, for good.
func (f *Film) Stop() {
	f.Shut()
	f.turn++
	if f.cancel != nil {
		f.cancel()
		f.cancel = nil
	}
}

// choices are the rows of keys.
func (f *Film) choices() (all []fyne.CanvasObject) {
	o := &f.order
	row := func(name look.Key, words []string, at *int) {
		c := &choice{now: func() int { return *at }}
		box := container.NewGridWithColumns(4)
		for i, w := range words {
			k := kit.NewKey(f.screen, w, kit.NoSign, 120, func() { *at = i; f.apply() })
			c.keys = append(c.keys, k)
			box.Add(k)
		}
		f.rows = append(f.rows, c)
		all = append(all, container.NewBorder(nil, nil, rowName(name), nil, box))
	}
	words := func(n int, of func(i int) look.Key) (all []string) {
		for i := range n {
			all = append(all, look.Text(of(i)))
		}
		return all
	}
	row(look.FilmShow, words(len(views), func(i int) look.Key { return views[i].word }), &o.view)
	row(look.FilmSize, words(len(sizes), func(i int) look.Key { return sizes[i].word }), &o.size)
	var times []string
	for _, d := range lengths {
		times = append(times, lengthText(d))
	}
	row(look.FilmLength, times, &o.length)
	row(look.FilmPart, words(len(parts), func(i int) look.Key { return parts[i] }), new(int))
	part := f.rows[len(f.rows)-1]
	part.now = func() int {
		if o.whole {
			return 1
		}
		return 0
	}
	for i, k := range part.keys {
		k.Press = func() { o.whole = i == 1; f.apply() }
	}
	row(look.FilmAs, words(len(formats), func(i int) look.Key { return formats[i] }), &o.format)
	f.rows[len(f.rows)-1].keys[asMP4].Forbid(f.encoder())
	return all
}

// rowName is the name of a row, as wide as all of them.
func rowName(k look.Key) fyne.CanvasObject {
	return container.NewGridWrap(fyne.NewSize(96, kit.Target), container.NewCenter(widget.NewLabel(look.Text(k))))
}

func lengthText(d time.Duration) string {
	if d < time.Minute {
		return look.Textf(look.SpreadSeconds, strconv.Itoa(int(d.Seconds())))
	}
	return look.Textf(look.SpreadMinutes, strconv.Itoa(int(d.Minutes())))
}

// apply shows what is chosen.
func (f *Film) apply() {
	if f.card == nil {
		return
	}
	for _, r := range f.rows {
		for i, k := range r.keys {
			k.Set(k.Word, kit.NoSign, i == r.now())
		}
	}
	f.folder.SetText(f.order.folder)
	word := look.FilmMake
	if f.cancel != nil {
		word = look.FilmStop
	}
	f.make.Set(look.Text(word), kit.NoSign, false)
}

// keptFolder is where films went last, or the home of the user.
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

func (f *Film) askFolder() {
	ask := dialog.NewFolderOpen(func(dir fyne.ListableURI, err error) {
		if err == nil && dir != nil {
			f.chooseFolder(dir.Path())
		}
	}, f.window)
	if dir, err := storage.ListerForURI(storage.NewFileURI(f.order.folder)); err == nil {
		ask.SetLocation(dir)
	}
	ask.SetConfirmText(look.Text(look.FilmHere))
	ask.SetDismissText(look.Text(look.Cancel))
	size := f.window.Canvas().Size()
	ask.Resize(fyne.NewSize(size.Width*0.8, size.Height*0.85))
	ask.Show()
}

func (f *Film) chooseFolder(dir string) {
	f.order.folder = filepath.Clean(dir)
	fyne.CurrentApp().Preferences().SetString(folderKept, f.order.folder)
	f.apply()
}

// press makes the film, or stops it.
func (f *Film) press() {
	if f.cancel != nil {
		f.cancel()
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	f.turn++
	turn, o := f.turn, f.order
	o.reveal = f.helm.Moment().Revealed != nil
	if f.screen.Palette.Variant != look.Paper { // under the lamp it is night
		o.light = look.Night
	}
	f.cancel, f.began = cancel, f.clock()
	f.tell(look.Text(look.SpreadBegins), 0)
	f.helm.Aside(func(e *sim.Engine, _ int) {
		defer cancel()
		name, err := o.make(ctx, e, func(done, total int) { f.progress(turn, done, total) })
		f.onMain(func() { f.take(turn, name, err) })
	})
	f.apply()
}

// tellEvery is how often the progress is shown.
const tellEvery = 250 * time.Millisecond

// progress is told by the goroutine that writes.
func (f *Film) progress(turn, done, total int) {
	now := f.clock()
	if done < total && now.Sub(f.spoke) < tellEvery {
		return
	}
	f.spoke = now
	left := now.Sub(f.began).Seconds() / float64(done) * float64(total-done)
	f.onMain(func() {
		if turn == f.turn && f.cancel != nil {
			f.tell(look.Textf(look.FilmProgress, done, total, look.TimeLeft(left)), float64(done)/float64(total))
		}
	})
}

// tell says on the card how far it is.
func (f *Film) tell(words string, share float64) {
	if f.card == nil {
		return
	}
	f.told.SetText(words)
	f.bar.share = share
	f.bar.Update(barKey{share, f.screen.Palette})
}

// take tells what came of a film.
func (f *Film) take(turn int, name string, err error) {
	if turn != f.turn {
		return
	}
	f.cancel = nil
	words, share := look.Textf(look.Saved, name), 1.0
	switch {
	case errors.Is(err, context.Canceled):
		words, share = look.Text(look.FilmStopped), 0
	case err != nil:
		words, share = look.Textf(look.FilmFailed, err), 0
	}
	f.tell(words, share)
	if f.card == nil && f.Say != nil {
		f.Say(words)
	}
	f.apply()
}

// bar shows how much of a film is made.
type bar struct {
	kit.Painted
	share float64
}

// barKey is what the bar depends on.
type barKey struct {
	share float64
	p     *look.Palette
}

func newBar(f *Film) *bar {
	b := &bar{}
	b.Extend(b, f.screen, fyne.NewSize(200, 10), func(d *paint.Raster, w, h float64, z look.Size) {
		c := f.screen.Palette
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
