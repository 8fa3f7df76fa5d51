// Package spread is the view in which a flight is flown many times, each time with
// errors of its own, to see how far the instrument as such can be trusted: how the
// error grows, and which link has the greatest part in it.
package spread

import (
	"context"
	"errors"
	"io"
	"runtime"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/atlas"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
	"stillair/sim/spread"
)

// counts are how many flights may be asked for.
var counts = [...]int{100, 400, 1000}

// View is the view of one flight.
type View struct {
	plan   *sim.Plan
	laws   []spread.Law // the flight's own, if it has one, and the presets
	screen *kit.Screen

	law, count  int // those chosen
	shown       *picture.Spread
	cancel      context.CancelFunc // nil: nothing is being flown
	turn        int                // the newest job
	done, total int
	began       time.Time
	made        int // how often what is shown has changed

	content *fyne.Container
	pane    *pane
	fly     *kit.Key
	which   *kit.Key
	many    *kit.Key
	onMain  func(func()) // runs on the toolkit's goroutine; tests make it a queue
	clock   func() time.Time
}

// New builds the view; own is the law of the flight, nil if it has none.
func New(plan *sim.Plan, own *spread.Law, screen *kit.Screen) *View {
	v := &View{plan: plan, screen: screen, count: 1, onMain: screen.Later, clock: time.Now}
	if own != nil {
		v.laws = append(v.laws, *own)
	}
	for _, name := range spread.Presets() {
		law, _ := spread.Preset(name)
		if own == nil && name == spread.Default {
			v.law = len(v.laws)
		}
		v.laws = append(v.laws, law)
	}
	v.pane = newPane(v)
	v.fly = kit.NewKey(screen, look.Text(look.SpreadFly), kit.NoSign, 120, v.press)
	v.fly.Main = true
	v.which = kit.NewKey(screen, "", kit.NoSign, 200, v.nextLaw)
	v.many = kit.NewKey(screen, "", kit.NoSign, 140, v.nextCount)
	v.which.Hint, v.many.Hint = look.Text(look.SpreadLawHint), look.Text(look.SpreadCountHint)
	v.content = container.New(v, v.pane, v.which, v.many, v.fly)
	v.apply()
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.SpreadWord) }

// Shape is part of charttable.Stage; the view does not stand beside the chart.
func (v *View) Shape() float32 { return 1 }

// Apply is part of charttable.Stage; the view does not hang on the moment.
func (v *View) Apply(*helm.Moment) {}

// Stop ends what is being flown, for good.
func (v *View) Stop() {
	v.turn++
	if v.cancel != nil {
		v.cancel()
	}
}

// apply brings keys and picture up to what is chosen.
func (v *View) apply() {
	v.which.Set(v.lawText(), kit.NoSign, false)
	v.many.Set(look.Textf(look.SpreadCount, counts[v.count]), kit.NoSign, false)
	word := look.SpreadFly
	if v.cancel != nil {
		word = look.SpreadStop
	}
	v.fly.Set(look.Text(word), kit.NoSign, false)
	v.made++
	v.pane.Update(paneKey{v.made, v.screen.Palette})
}

// lawText is the law chosen in words.
func (v *View) lawText() string {
	switch v.laws[v.law].Name {
	case "well-kept":
		return look.Text(look.SpreadWell)
	case "ordinary":
		return look.Text(look.SpreadOrdinary)
	case "neglected":
		return look.Text(look.SpreadNeglected)
	}
	return look.Text(look.SpreadOwn)
}

func (v *View) nextLaw() {
	v.law = (v.law + 1) % len(v.laws)
	v.again()
}

func (v *View) nextCount() {
	v.count = (v.count + 1) % len(counts)
	v.again()
}

// again flies anew what is being flown, as it is chosen now.
func (v *View) again() {
	if v.cancel != nil {
		v.begin()
		return
	}
	v.apply()
}

// Begin flies the flights if none have been flown: who comes to the view wants to see them.
func (v *View) Begin() {
	if v.cancel == nil && v.shown == nil {
		v.begin()
	}
}

// press flies the flights, or stops them and keeps those that have been flown.
func (v *View) press() {
	if v.cancel != nil {
		v.cancel()
		return
	}
	v.begin()
}

// begin flies the flights; those of an earlier turn are forgotten.
func (v *View) begin() {
	v.Stop()
	ctx, cancel := context.WithCancel(context.Background())
	turn := v.turn
	v.cancel, v.began, v.done, v.total = cancel, v.clock(), 0, 0
	job := spread.Job{
		Plan: v.plan, Law: v.laws[v.law], Seed: v.plan.Seed, Every: every(v.plan), Flights: counts[v.count], Workers: runtime.NumCPU(),
		Progress: (&teller{view: v, turn: turn}).progress,
	}
	go func() {
		defer cancel()
		r, err := spread.Run(ctx, job)
		v.onMain(func() { v.take(turn, r, err) })
	}()
	v.apply()
}

// every is how often the flights are looked at: some ten times.
func every(p *sim.Plan) time.Duration {
	ticks := int64(0)
	for i := range p.Legs {
		ticks += p.Legs[i].Ticks
	}
	for _, d := range []time.Duration{5 * time.Minute, 10 * time.Minute} {
		if sim.TimeOf(ticks) < 12*d {
			return d
		}
	}
	return 15 * time.Minute
}

// How often the progress is told, and what has been flown is drawn; of how many
// flights a picture is made at the least.
const (
	tellEvery = 250 * time.Millisecond
	drawEvery = time.Second
	fewest    = 12
)

// teller hears from the goroutines of one run, one at a time.
type teller struct {
	view        *View
	turn        int
	told, drawn time.Time // the last
}

func (l *teller) progress(done, total int, soFar func() *spread.Result) {
	v, now := l.view, l.view.clock()
	if done < total && now.Sub(l.told) < tellEvery {
		return
	}
	l.told = now
	var s *picture.Spread
	if now.Sub(l.drawn) >= drawEvery {
		s, l.drawn = v.picture(soFar(), fewest), now
	}
	v.onMain(func() {
		if l.turn == v.turn {
			v.done, v.total = done, total
			if s != nil {
				v.shown = s
			}
			v.made++
			v.pane.Update(paneKey{v.made, v.screen.Palette})
		}
	})
}

// take takes up what was flown; what was stopped shows what there is.
func (v *View) take(turn int, r *spread.Result, err error) {
	if turn != v.turn {
		return
	}
	v.cancel = nil
	if err == nil || errors.Is(err, context.Canceled) {
		if s := v.picture(r, 2); s != nil {
			v.shown = s
		}
	}
	v.apply()
}

// picture is that of what was flown, nil of fewer flights than least.
func (v *View) picture(r *spread.Result, least int) *picture.Spread {
	if r == nil || len(r.Flights) < least {
		return nil
	}
	s := atlas.SpreadOf(&spread.File{Head: spread.Head{Title: v.plan.Title}, Result: r})
	return &s
}

// told is the progress in words, "" if nothing is flown.
func (v *View) told() string {
	switch {
	case v.cancel == nil:
		return ""
	case v.done == 0:
		return look.Text(look.SpreadBegins)
	}
	left := v.clock().Sub(v.began).Seconds() / float64(v.done) * float64(v.total-v.done)
	return look.Textf(look.SpreadProgress, v.done, v.total, look.TimeLeft(left))
}

// Page is the picture on a page of its own.
func (v *View) Page() func(io.Writer, paint.Format) error {
	shown := v.shown
	return func(out io.Writer, f paint.Format) error {
		if shown == nil {
			return errors.New(look.Text(look.SpreadNone))
		}
		return atlas.WriteSpread(out, f, *shown)
	}
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	for _, o := range v.content.Objects {
		o.Refresh()
	}
}

// row is the height of the row of keys.
const row = kit.Target + 8

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 300) }

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.pane)
	x := float32(0)
	for _, k := range []*kit.Key{v.which, v.many, v.fly} {
		w := max(k.MinSize().Width, k.Needs())
		kit.Box{X: x, W: w, H: kit.Target}.Put(k)
		x += w + 8
	}
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	return map[string]fyne.CanvasObject{"spread": v.pane, "spread-fly": v.fly, "spread-law": v.which, "spread-count": v.many}
}
