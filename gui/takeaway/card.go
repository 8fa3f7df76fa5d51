package takeaway

import (
	"context"
	"errors"
	"path/filepath"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/sim"
)

// Film is the card of one flight, and the film that is being made.
type Film struct {
	board
	helm  *helm.Helm
	order order

	cues    *widget.Label
	noCues  *kit.Key
	cancel  context.CancelFunc // nil: nothing is being made
	turn    int
	began   time.Time
	spoke   time.Time
	clock   func() time.Time
	encoder func() string
}

// New makes the card of a flight; it is not open yet.
func New(h *helm.Helm, plan *sim.Plan, screen *kit.Screen, window fyne.Window) *Film {
	f := &Film{board: board{screen: screen, window: window, onMain: screen.Later}, helm: h, clock: time.Now, encoder: encoder}
	f.order = order{title: plan.Title, size: len(sizes) - 1, length: 1, rate: rateDefault}
	return f
}

// Open shows the card.
func (f *Film) Open() {
	if f.card != nil {
		return
	}
	f.open(look.FilmTitle, f.choices(), f.press)
	f.apply()
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

// The rows of keys, in their order.
const (
	viewRow = iota
	sizeRow
	rateRow
	lengthRow
	partRow
	formatRow
)

// choices are the rows of keys.
func (f *Film) choices() (all []fyne.CanvasObject) {
	o := &f.order
	row := func(name look.Key, words []string, at *int) {
		all = append(all, f.row(name, words, func() int { return *at }, func(i int) { *at = i; f.apply() }))
	}
	var words []string
	for _, v := range views {
		words = append(words, look.Text(v.word))
	}
	f.rows = nil
	row(look.FilmShow, words, &o.view)
	words = nil
	for _, s := range sizes {
		words = append(words, look.Text(s.word))
	}
	row(look.FilmSize, words, &o.size)
	words = nil
	for _, r := range rates {
		words = append(words, look.Textf(look.FilmRateWord, r.String()))
	}
	row(look.FilmRate, words, &o.rate)
	words = nil
	for _, d := range lengths {
		words = append(words, lengthText(d))
	}
	row(look.FilmLength, words, &o.length)
	part := func() int {
		if o.whole {
			return 1
		}
		return 0
	}
	all = append(all, f.row(look.FilmPart, keyWords(parts...), part, func(i int) { o.whole = i == 1; f.apply() }))
	row(look.FilmAs, keyWords(formats...), &o.format)
	f.rows[formatRow].keys[asMP4].Forbid(f.encoder())
	return append(all, f.cueRow())
}

// cueRow is the row of the cue file.
func (f *Film) cueRow() fyne.CanvasObject {
	f.cues = widget.NewLabel("")
	f.cues.Truncation = fyne.TextTruncateEllipsis
	f.noCues = kit.NewKey(f.screen, look.Text(look.FilmNoCues), kit.NoSign, 90, func() { f.chooseCues("") })
	choose := kit.NewKey(f.screen, look.Text(look.FilmChooseCues), kit.NoSign, 120, f.askCues)
	choose.Hint = look.Text(look.FilmCuesHint)
	return named(look.FilmCues, f.cues, f.noCues, choose)
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
	word := look.FilmMake
	if f.cancel != nil {
		word = look.FilmStop
	}
	f.make.Set(look.Text(word), kit.NoSign, false)
	by, words := "", look.Text(look.FilmNoCueFile)
	if f.order.cues != "" {
		by, words = look.Text(look.FilmByCues), filepath.Base(f.order.cues)
	}
	f.cues.SetText(words)
	kit.Show(f.order.cues != "", f.noCues)
	for _, k := range f.rows[lengthRow].keys {
		k.Forbid(by)
	}
	f.settle()
}

// askCues asks for a cue file.
func (f *Film) askCues() {
	ask := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err == nil && r != nil {
			_ = r.Close() // it is read by another hand
			f.chooseCues(r.URI().Path())
		}
	}, f.window)
	ask.SetFilter(storage.NewExtensionFileFilter([]string{".toml"}))
	from := f.into
	if f.order.cues != "" {
		from = filepath.Dir(f.order.cues)
	}
	if dir, err := storage.ListerForURI(storage.NewFileURI(from)); err == nil {
		ask.SetLocation(dir)
	}
	ask.SetTitleText(look.Text(look.FilmWhichCues))
	ask.SetConfirmText(look.Text(look.FilmThisFile))
	ask.SetDismissText(look.Text(look.Cancel))
	ask.Resize(f.dialogSize())
	ask.Show()
}

// chooseCues takes up a cue file, or none, and says what is wrong with it. A file with
// mistakes stays chosen: it is read again when the film is made.
func (f *Film) chooseCues(name string) {
	f.order.cues = name
	f.apply()
	if name == "" {
		f.tell("", 0)
		return
	}
	plan := f.order.plan(time.Hour)
	cues, err := readCues(name, plan.Rules())
	if err != nil {
		f.tell(brief(err), 0)
		return
	}
	f.tell(look.Textf(look.FilmCuesRead, filepath.Base(name), cueCount(cues)), 0)
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
	o.folder, o.reveal = f.into, f.helm.Moment().Revealed != nil
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
		words, share = look.Textf(look.FilmFailed, brief(err)), 0
	}
	f.ended(words, share)
	f.apply()
}
