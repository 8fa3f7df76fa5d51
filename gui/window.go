// Package gui is the window: bar, views, frame loop, keys, colours. It pulls
// the newest moment of the helm once a frame and paints what has changed.
package gui

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/calculator"
	"stillair/gui/charttable"
	"stillair/gui/chooser"
	"stillair/gui/debrief"
	"stillair/gui/editor"
	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/lessonview"
	"stillair/gui/linkage"
	"stillair/gui/look"
	"stillair/gui/navigator"
	"stillair/gui/navlog"
	"stillair/gui/spread"
	"stillair/gui/takeaway"
	"stillair/gui/trainer"
	"stillair/integrator/aboard"
)

// front says which view lies below the bar.
type front uint8

const (
	tableFront front = iota
	chooserFront
	helpFront
	traineeFront
)

// Window shows one flight at a time.
type Window struct {
	app    fyne.App
	window fyne.Window
	screen kit.Screen
	root   *fyne.Container
	front  front
	stands stand
	*show
	bar     *bar
	chooser *chooser.Chooser
	// calculator outlives a flight: what was worked on it stays.
	calculator *calculator.View
	editor     *editor.View // as does this
	help       *help
	lecture    *lecture // as do the notes
	spotlight  *spotlight
	blank      *blank
	anim       *fyne.Animation
	frames     frames
	resume     bool // the clock ran when another view came to the front
}

// show is a flight in hand: all that is made anew when another one is chosen.
type show struct {
	flight    *flights.Flight
	helm      *helm.Helm
	table     *charttable.Table
	linkage   *linkage.View
	navigator *navigator.View
	navlog    *navlog.View
	debrief   *debrief.View
	spread    *spread.View
	lesson    *lessonview.View // nil: the flight is none
	lessonOn  bool             // its panel is wanted
	film      *takeaway.Film
	papers    *takeaway.Papers
	school    *school       // nil: the flight is no exercise
	trainer   *trainer.View // nil: nobody sets it
	seen      *helm.Moment
	watch     *flights.Watcher
	record    *flights.Recorder
	deeds     []kit.Deed
}

// Open builds the window on a flight and shows it. The clock runs at once.
func Open(app fyne.App, f *flights.Flight) (*Window, error) { return open(app, f, nil) }

// open builds it with what does things on the toolkit's goroutine; nil: the toolkit.
func open(app fyne.App, f *flights.Flight, onMain func(func())) (*Window, error) {
	w := &Window{app: app, window: app.NewWindow(look.Text(look.Stillair))}
	w.screen = kit.Screen{W: 1366, H: 768, OnMain: onMain}
	w.screen.Keys = w.typedKey
	w.recallChoices()
	w.screen.Hints = kit.NewHints(&w.screen)
	app.Settings().SetTheme(themeOf(w.screen.Palette))
	w.spotlight, w.blank = newSpotlight(&w.screen), newBlank(w.unblank)
	w.bar, w.help, w.lecture = newBar(w), newHelp(w), newLecture(w)
	w.calculator = calculator.New(&w.screen, w.window.Canvas, w.dials)
	w.chooser = chooser.New(&w.screen, w.window.Canvas, w.window, w.fly)
	w.editor = w.newEditor()
	w.chooser.Refused = func() { w.bring(chooserFront) }
	w.chooser.Progress = w.keptStep
	var err error
	if w.show, err = w.take(f); err != nil {
		return nil, err
	}
	w.bar.show(w.show)
	w.root = container.New(w, w.objects()...)
	w.window.SetPadded(false)
	w.window.SetContent(w.root)
	w.window.Resize(fyne.NewSize(1366, 768))
	w.listen()
	w.window.SetOnDropped(func(_ fyne.Position, dropped []fyne.URI) { w.chooser.OpenPath(dropped[0].Path()) })
	w.window.SetOnClosed(w.stop)
	w.startLoop()
	w.bring(w.home())
	w.begin()
	w.beginLesson()
	w.window.Show()
	w.tell(f)
	return w, nil
}

// take makes ready all that shows a flight.
func (w *Window) take(f *flights.Flight) (*show, error) {
	engine, err := f.Engine()
	if err != nil {
		return nil, err
	}
	s := &show{flight: f, helm: helm.New(engine), record: flights.NewRecorder(flights.RecordFolder(), f, time.Now())}
	s.record.Failed = func(err error) {
		w.screen.Later(func() { w.say(look.Textf(look.RecordFailed, err)) })
	}
	s.helm.Note(s.record.Note)
	if s.table, err = charttable.New(s.helm, f.Plan, f.Survey, &w.screen, w.window.Canvas); err != nil {
		s.helm.Stop()
		return nil, err
	}
	if s.linkage, err = linkage.New(s.helm, f.Plan, &w.screen, w.window.Canvas); err != nil {
		s.helm.Stop()
		return nil, err
	}
	s.table.AddTools(w.tools()...)
	s.navigator = navigator.New(s.helm, f.Plan.Title, &w.screen, w.window.Canvas)
	s.navigator.Plot = s.table.Plot
	s.navigator.SitAt(s.table)
	s.navlog = navlog.New(s.helm, f.Plan, &w.screen, w.window.Canvas)
	s.debrief = debrief.New(s.helm, f.Plan, &w.screen)
	s.spread = spread.New(f.Plan, f.Source.Spread, &w.screen)
	s.film = takeaway.New(s.helm, f.Plan, &w.screen, w.window)
	s.film.Say = w.say
	s.papers = takeaway.NewPapers(f.Plan, &w.screen, w.window)
	s.papers.Say = w.say
	s.debrief.Failed = func(err error) { w.say(err.Error()) }
	s.table.SetStage(s.linkage)
	s.linkage.BreakHere = s.table.BreakHere
	s.linkage.Bring = func() { w.stand(linkageStand) }
	w.teach(s)
	s.deeds = append(append(s.table.Deeds(), s.linkage.Deeds()...), w.ownDeeds()...)
	if s.school, err = newSchool(w, s); err != nil {
		s.helm.Stop()
		return nil, err
	}
	if s.school != nil && !s.school.alone {
		s.trainer = trainer.New(s.helm, f.Plan, s.school.exercise, s.school.book, &w.screen, w.window.Canvas, s.school.trainerDeeds(s))
		s.school.trainer = s.trainer
	}
	if f.Path != "" && f.Record == nil {
		s.watch = flights.Watch(f.Path, func(f *flights.Flight, err error) { w.screen.Later(func() { w.reload(s, f, err) }) })
	}
	return s, nil
}

// drop lets go of a flight.
func (s *show) drop() {
	if s.watch != nil {
		s.watch.Stop()
	}
	s.spread.Stop()
	s.film.Stop()
	s.papers.Stop()
	s.school.drop()
	s.helm.Stop()
	s.record.Close(s.helm.Engine())
}

// fly takes up another flight; the old one is kept if that cannot be.
func (w *Window) fly(f *flights.Flight) {
	next, err := w.take(f)
	if err != nil {
		w.chooser.Refuse(f.Name, err)
		return
	}
	w.change(next)
	w.front, w.resume = chooserFront, false
	w.bring(w.home())
	w.begin()
	w.beginLesson()
	w.tell(f)
}

// tell says what is to be said of a flight that was written down.
func (w *Window) tell(f *flights.Flight) {
	if words := f.Told(); words != "" {
		w.say(words)
	}
}

// change puts another flight in the place of the one in hand; what stood over
// the time strip stays, but for the account of the old one.
func (w *Window) change(next *show) {
	stood := w.stands
	if stood >= trainerStand {
		stood = tableStand
	}
	w.show.drop()
	w.show = next
	w.place(stood)
	w.bar.show(next)
	w.root.Objects = w.objects()
	w.root.Refresh()
}

// reload goes on with a flight whose file has been edited, at the time of the
// old one.
func (w *Window) reload(of *show, f *flights.Flight, err error) {
	if of != w.show {
		return
	}
	var next *show
	if err == nil {
		f.Trainer = of.flight.Trainer
		next, err = w.take(f)
	}
	if err != nil {
		w.say(look.Textf(look.ReloadFailed, of.flight.Name, err))
		return
	}
	m := of.helm.Moment()
	w.change(next)
	w.helm.SetRate(m.Rate)
	w.helm.GoTo(m.View.Tick)
	w.helm.Reveal(m.Revealed != nil)
	if m.Playing {
		w.helm.Play()
	}
	w.bring(w.front)
	if w.lesson != nil {
		step := 0
		if of.lesson != nil {
			step = of.lesson.At()
		}
		w.lesson.Begin(step)
	}
	if w.trainer != nil {
		w.stand(trainerStand)
		w.school.again(of.school)
	}
	w.say(look.Textf(look.ReloadedHint, f.Name))
}

// Refuse shows what is wrong with a flight that was to be opened.
func (w *Window) Refuse(r *flights.Refused) { w.chooser.Refuse(r.Name, r) }

// sayFor is how long the window says something unasked.
const sayFor = 8 * time.Second

// say tells something on a slip under the name of the flight.
func (w *Window) say(words string) {
	w.screen.Hints.Tell(w.bar.flight, words)
	w.screen.After(sayFor, func() { w.screen.Hints.Leave(w.bar.flight) })
}

// bring brings a view to the front. The clock stops behind another view and
// goes on when the Chart table is back.
func (w *Window) bring(f front) {
	if w.flying(f) { // the table is nothing for a trainee alone
		f = w.home()
	}
	if w.flying(w.front) && !w.flying(f) {
		w.resume = w.helm.Moment().Playing
		w.helm.Pause()
	}
	if w.flying(f) && w.resume {
		w.helm.Play()
		w.resume = false
	}
	w.front = f
	if f == traineeFront {
		w.lecture.close()
	}
	w.bar.stand(f != traineeFront)
	w.screen.Hints.Clear()
	for i, o := range w.views() {
		if front(i) == f {
			o.Show()
		} else {
			o.Hide()
		}
	}
	switch f {
	case helpFront:
		w.help.show(slices.Concat(w.deeds, w.table.PinKeys(), w.lessonDeeds()))
	case chooserFront:
		w.chooser.Show(w.flight)
	}
	w.showLesson()
	w.bar.recolour()
}

// flying says whether a view is one in which the flight goes on.
func (w *Window) flying(f front) bool { return f == tableFront || f == traineeFront }

// home is the view in which the flight in hand is flown.
func (w *Window) home() front {
	if w.school.hidden() {
		return traineeFront
	}
	return tableFront
}

// begin starts the clock, unless a trainee reads what is asked first.
func (w *Window) begin() {
	w.resume = false
	one := w.trainer != nil && w.app.Preferences().Bool(keepOneScreen)
	if !one && (!w.school.hidden() || w.school.exercise.Task == "") {
		w.helm.Play()
	}
	if w.trainer != nil {
		w.helm.Reveal(true)
		w.stand(trainerStand)
		w.school.begin(one)
	}
}

// views are those of the constants of front, in their order.
func (w *Window) views() []fyne.CanvasObject {
	all := []fyne.CanvasObject{w.table.Content(), w.chooser.Content(), w.help.content}
	if w.school.here() {
		all = append(all, w.school.trainee.Content())
	}
	return all
}

func (w *Window) objects() []fyne.CanvasObject {
	all := append(w.bar.objects(), w.views()...)
	if w.lesson != nil {
		all = append(all, w.lesson.Lights())
	}
	return append(all, w.spotlight, w.blank, w.screen.Hints)
}

// Layout puts the bar above the view; it is part of the toolkit's contract.
func (w *Window) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if size.Width != w.screen.W || size.Height != w.screen.H {
		w.screen.W, w.screen.H = size.Width, size.Height
		w.screen.Hints.Clear()
		w.repaint()
	}
	h := w.bar.lay(size)
	for _, o := range w.views() {
		o.Move(fyne.NewPos(0, h))
		o.Resize(fyne.NewSize(size.Width, size.Height-h))
	}
	if w.school.here() { // which has a bar of its own
		w.school.trainee.Content().Move(fyne.NewPos(0, 0))
		w.school.trainee.Content().Resize(size)
	}
	for _, o := range []fyne.CanvasObject{w.spotlight, w.blank} {
		o.Move(fyne.NewPos(0, 0))
		o.Resize(size)
	}
}

// repaint paints everything anew.
func (w *Window) repaint() {
	w.table.Recolour()
	w.linkage.Repaint()
	w.navigator.Repaint()
	w.navlog.Repaint()
	w.debrief.Repaint()
	w.spread.Repaint()
	w.calculator.Repaint()
	if w.lesson != nil {
		w.showLesson()
		w.lesson.Repaint()
	}
	w.editor.Repaint()
	w.lecture.repaint()
	w.school.repaint()
	if w.trainer != nil {
		w.trainer.Repaint()
	}
	w.chooser.Repaint()
	w.help.mark()
	w.bar.recolour()
	if w.front == traineeFront { // a view may have brought its keys back
		w.bar.stand(false)
	}
}

// MinSize is part of the toolkit's contract.
func (w *Window) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1024, 680) }

// dials is what the dials of the flight in hand show now.
func (w *Window) dials() *aboard.View { return &w.helm.Moment().View }

// startLoop pulls the newest moment at each frame that is due.
func (w *Window) startLoop() {
	w.anim = fyne.NewAnimation(time.Hour, func(float32) {
		now := time.Now()
		if w.frames.stalled(now) {
			w.redraw()
		}
		if w.frames.due(now) {
			w.pull()
		}
	})
	w.anim.Curve, w.anim.RepeatCount = fyne.AnimationLinear, fyne.AnimationRepeatForever
	w.anim.Start()
}

// redraw has all windows drawn anew by their canvases, which forget nothing.
func (w *Window) redraw() {
	w.window.Canvas().Refresh(w.root)
	if w.school != nil && w.school.second != nil {
		w.school.second.Canvas().Refresh(w.school.second.Content())
	}
	if w.lecture.stands() {
		w.lecture.second.Canvas().Refresh(w.lecture.second.Content())
	}
}

func (w *Window) pull() {
	if m := w.helm.Moment(); m != w.seen {
		w.seen = m
		w.navigator.Follow(m)
		if w.school != nil {
			w.school.follow(m)
		}
		w.table.Apply(m)
		w.bar.apply(m)
		if w.lesson != nil && w.lessonGoes() {
			w.lesson.Apply(m)
		}
	}
	if w.lesson != nil {
		w.lesson.Wait()
	}
	w.lecture.follow()
	w.screen.Again()
}

// stop ends the flight before the window goes.
func (w *Window) stop() {
	w.anim.Stop()
	w.lecture.close()
	w.drop()
}

// FailureText is what a user is told when a flight cannot be opened.
func FailureText(name string, err error) string {
	return fmt.Sprintf("stillair: %s cannot be flown:\n%v", name, err)
}
