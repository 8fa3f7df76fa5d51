// Package trainer is the view of one who breaks things unseen and watches a trainee cope:
// what is broken and what waits, what the trainee's dials show beside the truth, how far
// off the position is, what the trainee does and reports, and the marks so far. It stands
// in the place of chart and instruments; the time strip and the card on which links are
// broken and mended are those of the Chart table. It is not part of gui/training, for it
// shows the truth.
package trainer

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/drill"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/training/score"
	"stillair/sim"
	"stillair/sim/fault"
)

// Deeds are what the shell does for the trainer.
type Deeds struct {
	Break               func(ids []string) // opens the card on which links are broken, at a link
	Mend                func()             // opens it at what is broken and waits
	Window              func()             // opens the trainee's window
	SavePage, SaveTable func()             // of the marks so far
}

// View is the view of one exercise.
type View struct {
	helm     *helm.Helm
	plan     *sim.Plan
	exercise score.Exercise
	book     *score.Book
	screen   *kit.Screen
	canvas   func() fyne.Canvas
	deeds    Deeds

	moment *helm.Moment
	sheet  *score.Sheet
	told   *score.Told
	worked workKey
	made   int

	content *fyne.Container
	pane    *pane
	links   []*kit.Key
	mend    *kit.Key
	keys    []*kit.Key
	freeze  *kit.Key
	signal  *kit.Key
	covered bool // the card on which links are broken lies over them
}

// workKey is what the marks depend on.
type workKey struct {
	seconds, frontier int64
	changes, deeds    int
	revealed          bool
}

// New builds the view.
func New(h *helm.Helm, plan *sim.Plan, x score.Exercise, book *score.Book, screen *kit.Screen, canvas func() fyne.Canvas, deeds Deeds) *View {
	v := &View{helm: h, plan: plan, exercise: x, book: book, screen: screen, canvas: canvas, deeds: deeds, moment: h.Moment()}
	v.pane = newPane(v)
	for _, l := range drill.Chain() {
		k := kit.NewKey(screen, l.Title, kit.NoSign, kit.Target, func() { deeds.Break([]string{l.Kinds[0].ID}) })
		k.Under, k.Plain = " ", true
		v.links = append(v.links, k)
	}
	key := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
		if hint != "" {
			k.Hint = look.Text(hint)
		}
		return k
	}
	v.mend = key(look.TrainerMend, look.TrainerMendHint, deeds.Mend)
	v.mend.Under, v.mend.Plain = " ", true
	v.freeze = key(look.TrainerFreeze, look.TrainerFreezeHint, v.toggleClock)
	v.signal = key(look.TrainerSignal, look.TrainerSignalHint, v.giveSignal)
	v.keys = []*kit.Key{
		v.freeze, key(look.TrainerAgain, look.TrainerAgainHint, v.again), v.signal,
		key(look.TrainerRandom, look.TrainerRandomHint, v.askRandom), key(look.TrainerNote, "", v.askNote),
		key(look.TrainerWindow, look.TrainerWindowHint, deeds.Window),
		key(look.SheetPage, "", deeds.SavePage), key(look.SheetTable, "", deeds.SaveTable),
	}
	v.content = container.New(v, v.objects()...)
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.TrainerWord) }

// Shape is part of charttable.Stage; the view does not stand beside the chart.
func (v *View) Shape() float32 { return 1 }

// CardRoom is where the card on which links are broken lies: in the place of the links and
// of what is broken, so that dials, marks and events stay in sight.
func (v *View) CardRoom(w, h float32) kit.Box { return placesOf(w, h).broken }

// Covered puts the links' keys out of reach while that card lies there.
func (v *View) Covered(on bool) {
	if v.covered != on {
		v.covered = on
		v.showLinks()
	}
}

func (v *View) showLinks() {
	for _, k := range v.links {
		kit.Show(!v.covered, k)
	}
	kit.Show(!v.covered, v.mend)
}

// Sheet is the marks so far, nil before there are any.
func (v *View) Sheet() *score.Sheet { return v.sheet }

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.pane}
	for _, k := range append(append([]*kit.Key{v.mend}, v.links...), v.keys...) {
		all = append(all, k)
	}
	return all
}

// Apply brings the view up to a moment; once a second of flight the marks are worked anew.
func (v *View) Apply(m *helm.Moment) {
	v.moment = m
	now := workKey{m.View.Tick / sim.TicksPerSecond, m.Frontier, v.book.Changes, m.Deeds, m.Revealed != nil}
	if m.Playing { // a minute of flight may pass in a second
		now.seconds, now.frontier = m.View.Tick/(10*sim.TicksPerSecond), 0
	}
	if now != v.worked || v.told == nil {
		v.worked = now
		v.sheet = drill.Sheet(v.exercise, v.book, m)
		if v.sheet != nil {
			v.told = v.sheet.Tell(drill.Chain())
		}
		v.made++
		v.labelLinks()
		v.labelMend()
	}
	word := look.TrainerFreeze
	if !m.Playing {
		word = look.TrainerGo
	}
	v.freeze.Set(look.Text(word), kit.NoSign, false)
	reason := ""
	if _, waits := v.waiting(); !waits {
		reason = look.Text(look.TrainerNoSignal)
	}
	v.signal.Forbid(reason)
	v.pane.Update(paneKey{v.made, m.View.Tick / 8, v.screen.Palette})
}

// labelLinks writes under each link how many of its faults are in force and wait.
func (v *View) labelLinks() {
	for i, l := range drill.Chain() {
		in, wait := 0, 0
		for _, f := range v.faults() {
			e, ok := fault.Lookup(f.Order.ID)
			switch {
			case !ok || e.Link != l.Name:
			case f.Stands == sim.FaultInForce:
				in++
			case f.Stands < sim.FaultInForce:
				wait++
			}
		}
		under := look.Textf(look.TrainerKinds, strconv.Itoa(len(l.Kinds)))
		switch {
		case in > 0 && wait > 0:
			under = look.Textf(look.TrainerInAndWait, strconv.Itoa(in), strconv.Itoa(wait))
		case in > 0:
			under = look.Textf(look.TrainerIn, strconv.Itoa(in))
		case wait > 0:
			under = look.Textf(look.TrainerWait, strconv.Itoa(wait))
		}
		if k := v.links[i]; k.Under != under {
			k.Under = under
			k.Repaint()
		}
	}
}

// labelMend writes on the key that mends how many faults stand or are to come.
func (v *View) labelMend() {
	n := 0
	for _, f := range v.faults() {
		if f.Stands <= sim.FaultInForce {
			n++
		}
	}
	reason := ""
	if n == 0 {
		reason = look.Text(look.TrainerNoneToMend)
	}
	v.mend.Forbid(reason)
	if under := look.Textf(look.TrainerToMend, strconv.Itoa(n)); v.mend.Under != under {
		v.mend.Under = under
		v.mend.Repaint()
	}
}

// faults are those of the flight, as far as they may be seen.
func (v *View) faults() []sim.FaultStatus {
	if v.moment.Revealed == nil {
		return nil
	}
	return v.moment.Revealed.Faults
}

// tokens are the faults as they are listed: what is in force, what is to come, what is
// over; of each the newest first.
func (v *View) tokens() []sim.FaultStatus {
	rank := func(f sim.FaultStatus) int {
		switch {
		case f.Stands == sim.FaultInForce:
			return 0
		case f.Stands < sim.FaultInForce:
			return 1
		}
		return 2
	}
	all := slices.Clone(v.faults())
	slices.Reverse(all)
	slices.SortStableFunc(all, func(a, b sim.FaultStatus) int { return rank(a) - rank(b) })
	return all
}

func (v *View) toggleClock() {
	if v.moment.Playing {
		v.helm.Pause()
	} else {
		v.helm.Play()
	}
}

// minuteTicks is a minute of flight.
const minuteTicks = 60 * sim.TicksPerSecond

// again goes back a minute and stops there: what was done since is taken back, and what
// was reported and written is struck out.
func (v *View) again() {
	v.helm.Cue(helm.Cue{Back: max(0, v.moment.View.Tick-minuteTicks), Clock: helm.StopClock})
}

// waiting is the first signal that a fault waits for.
func (v *View) waiting() (signal int, ok bool) {
	for _, f := range v.faults() {
		if f.Stands == sim.FaultWaiting && f.Order.Trigger.Kind == fault.BySignal {
			return f.Order.Trigger.Signal, true
		}
	}
	return 0, false
}

func (v *View) giveSignal() {
	if n, ok := v.waiting(); ok {
		v.helm.Signal(n)
	}
}

// askRandom has a fault drawn by a seed, to come from now on.
func (v *View) askRandom() {
	kit.Ask(v.canvas(), v.screen, look.Text(look.TrainerRandom), look.Text(look.SeedForm), "", func(text string) error {
		seed, err := strconv.ParseUint(strings.TrimSpace(text), 10, 63)
		if err != nil {
			return errorOf(look.SeedForm)
		}
		o, err := drill.Random(v.plan, seed, v.moment.View.Tick)
		if err != nil {
			return err
		}
		v.helm.Break(o)
		return nil
	})
}

func (v *View) askNote() {
	at := v.moment.View.Elapsed
	kit.Ask(v.canvas(), v.screen, look.Text(look.TrainerNote), look.Textf(look.TrainerNoteAt, v.clock(at)), "", func(text string) error {
		if text = strings.TrimSpace(text); text != "" {
			v.book.Note(at, text)
			v.Apply(v.moment)
		}
		return nil
	})
}

// Page writes the marks so far on a page.
func (v *View) Page() func(io.Writer, paint.Format) error {
	told := v.told
	return func(out io.Writer, _ paint.Format) error {
		if told == nil {
			return errorOf(look.TrainerHidden)
		}
		return score.WritePDF(out, told)
	}
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	for _, o := range v.objects() {
		o.Refresh()
	}
	v.content.Refresh()
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{"trainer": v.pane, "trainer-mend": v.mend}
	for i, name := range []string{"freeze", "again", "signal", "random", "note", "window", "page", "table"} {
		all["trainer-"+name] = v.keys[i]
	}
	for i, l := range drill.Chain() {
		all["trainer-link-"+l.Name] = v.links[i]
	}
	return all
}

// text is an error in words of the interface.
type text string

func (t text) Error() string { return string(t) }

func errorOf(k look.Key) error { return text(look.Text(k)) }
