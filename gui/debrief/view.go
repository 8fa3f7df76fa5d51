// Package debrief is the view in which the error of a flight is accounted for: the
// links' parts head to tail on a large-scale chart, a table, the error against time,
// and what to take away. A link can be pulled out of the chain. It shows a
// helm.Moment and has the helm do the accounting.
package debrief

import (
	"errors"
	"io"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/account"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
	"stillair/sim/debrief"
)

// View is the view of one flight.
type View struct {
	helm   *helm.Helm
	plan   *sim.Plan
	screen *kit.Screen

	moment *helm.Moment
	told   *account.Material // nil: not yet
	deeds  int               // of the moment at which it was asked for
	story  *account.Story
	right  []string // links taken as right
	shown  picture.Account
	rows   []account.Part
	seen   tellKey
	made   int // how often shown was made anew
	page   int

	asked    bool      // an account is being worked out
	turn     int       // the newest question what if
	supposed int       // the newest one answered
	rested   time.Time // before this no other account is asked for

	content *fyne.Container
	pane    *pane
	spots   []*kit.Spot
	keys    []*kit.Key // all links, the other page

	// Failed is told what keeps the account from being shown; nil: nobody.
	Failed func(error)
	onMain func(func()) // runs on the toolkit's goroutine; tests make it a queue
	clock  func() time.Time
}

// New builds the view.
func New(h *helm.Helm, plan *sim.Plan, screen *kit.Screen) *View {
	v := &View{helm: h, plan: plan, screen: screen, onMain: screen.Later, clock: time.Now}
	v.pane = newPane(v)
	for i := range debrief.IDs() {
		v.spots = append(v.spots, kit.NewSpot(screen, func() { v.pull(i) }, func(tell func(fyne.CanvasObject, string)) { tell(v.spots[i], v.spoken(i)) }))
	}
	v.keys = []*kit.Key{
		kit.NewKey(screen, look.Text(look.AccountAll), kit.NoSign, kit.Target, v.putBack),
		kit.NewKey(screen, look.Text(look.AccountPage), kit.NoSign, kit.Target, v.turnPage),
	}
	v.keys[0].Hint, v.keys[1].Hint = look.Text(look.AccountAllHint), look.Text(look.AccountPageHint)
	v.content = container.New(v, v.objects()...)
	v.moment = h.Moment()
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.DebriefWord) }

// Keys are the keys of the view for the bar of the window; the second is of use where
// there are more pages than one.
func (v *View) Keys() []*kit.Key { return v.keys }

// Pages is how many pages the account needs in a window of this size.
func (v *View) Pages() int { return picture.AccountPages(v.screen.Size(1)) }

// Shape is part of charttable.Stage; the view does not stand beside the chart.
func (v *View) Shape() float32 { return 1 }

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.pane}
	for _, s := range v.spots {
		all = append(all, s)
	}
	return all
}

// Apply brings the view up to a moment.
func (v *View) Apply(m *helm.Moment) {
	v.moment = m
	if v.told == nil || v.told.Tick != m.Frontier || v.deeds != m.Deeds {
		v.ask()
	}
	v.take()
}

// tellKey is what is told depends on.
type tellKey struct {
	story    *account.Story
	supposed int
	at       int64
}

// restFor is how long after an account no other one is asked for while the clock
// runs, in times of what it took.
const restFor = 4

// ask has the flight accounted for, one at a time.
func (v *View) ask() {
	if v.asked || v.moment.Playing && v.clock().Before(v.rested) {
		return
	}
	v.asked = true
	began := v.clock()
	v.helm.Aside(func(e *sim.Engine, deeds int) {
		a := account.Gather(e)
		v.onMain(func() {
			v.asked, v.rested = false, v.clock().Add(restFor*v.clock().Sub(began))
			v.deeds = deeds
			v.tell(a)
		})
	})
}

// tell takes an account up.
func (v *View) tell(a *account.Material) {
	story, err := account.New(v.plan, a)
	if err != nil {
		if v.Failed != nil {
			v.Failed(err)
		}
		return
	}
	v.told, v.story = a, story
	v.suppose()
	v.Apply(v.moment)
}

// suppose has the account with what is taken as right worked out.
func (v *View) suppose() {
	v.turn++
	turn := v.turn
	if len(v.right) == 0 {
		v.story.Suppose(nil, nil)
		v.supposed = turn
		return
	}
	right := slices.Clone(v.right)
	v.helm.Aside(func(e *sim.Engine, _ int) {
		r, err := debrief.If(e, right...)
		v.onMain(func() {
			if turn == v.turn && err == nil { // only links that can be right are pulled
				v.story.Suppose(right, &r)
				v.supposed = turn
				v.take()
			}
		})
	})
}

// take works out what the picture shows, once for each minute of the flight.
func (v *View) take() {
	if v.story != nil {
		if now := (tellKey{v.story, v.supposed, v.story.Moment(v.moment.View.Tick)}); now != v.seen {
			v.seen = now
			v.shown, v.rows = v.story.At(v.moment.View.Tick)
			v.made++
			v.content.Refresh()
		}
	}
	v.pane.Update(v.key())
	v.keys[0].Forbid("")
	if len(v.right) == 0 {
		v.keys[0].Forbid(look.Text(look.AccountAllHint))
	}
	v.keys[1].Set(v.keys[1].Word, kit.NoSign, v.page == 1)
}

// pull takes the link of a row out of the chain, or puts it back.
func (v *View) pull(row int) {
	if row >= len(v.rows) || v.story == nil {
		return
	}
	r := v.rows[row]
	if !r.CanPull {
		v.screen.Hints.Tell(v.spots[row], look.Textf(look.AccountFixed, look.Capital(v.shown.Parts[row].Name)))
		return
	}
	if i := slices.Index(v.right, r.ID); i >= 0 {
		v.right = slices.Delete(slices.Clone(v.right), i, i+1)
	} else {
		v.right = append(slices.Clone(v.right), r.ID)
	}
	v.screen.Hints.Leave(v.spots[row]) // what it says is no longer so
	v.suppose()
	v.take()
}

// putBack puts all links back.
func (v *View) putBack() {
	v.right = nil
	if v.story != nil {
		v.suppose()
		v.take()
	}
}

func (v *View) turnPage() {
	v.page = 1 - v.page
	v.content.Refresh()
	v.take()
}

// spoken is what a row says when it is pointed at.
func (v *View) spoken(row int) string {
	if row >= len(v.rows) {
		return ""
	}
	p := v.shown.Parts[row]
	name := look.Capital(p.Name)
	said := p.Say(name)
	if !v.rows[row].CanPull {
		return said + ".\n" + look.Textf(look.AccountFixed, name)
	}
	what := look.AccountPull
	if p.Right {
		what = look.AccountPut
	}
	return said + ".\n" + p.Note + "\n" + look.Textf(what, look.Lower(v.story.Subject(v.rows[row].ID)))
}

// Page is the account of this moment as a picture on a page of its own: it writes
// it whenever it is called, from anywhere. Before there is an account it waits for
// none and says so.
func (v *View) Page() func(io.Writer, paint.Format) error {
	title, shown := v.plan.Title, v.shown
	if v.story == nil {
		return func(io.Writer, paint.Format) error { return errors.New(look.Text(look.AccountNone)) }
	}
	return func(out io.Writer, f paint.Format) error { return account.WritePage(out, f, title, &shown) }
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.content.Refresh()
	v.pane.Refresh()
	for _, s := range v.spots {
		s.Mark()
	}
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.pane)
	z := v.screen.Size(1)
	if v.Pages() == 1 {
		v.page = 0
	}
	cards := picture.AccountLayout(z, paint.R(0, 0, float64(size.Width), float64(size.Height)), v.page)
	var rows []paint.Rect
	if cards.Table.W > 0 {
		rows = picture.AccountRows(z, cards.Table, len(v.rows))
	}
	for i, s := range v.spots {
		kit.Show(i < len(rows), s)
		if i < len(rows) {
			r := rows[i]
			kit.Box{X: float32(r.X), Y: float32(r.Y), W: float32(r.W), H: float32(r.H)}.Put(s)
		}
	}
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{"debrief": v.pane, "account-all": v.keys[0], "account-page": v.keys[1]}
	for i, r := range v.rows {
		all["account-"+r.ID] = v.spots[i]
	}
	return all
}
