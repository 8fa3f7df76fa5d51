package gui

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/lesson"
	"stillair/gui/lessonview"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/sim"
)

// teach makes ready the panel of the lesson, if the flight is one. What has been
// flown and written down is not taught with: to act in it would drop it.
func (w *Window) teach(s *show) {
	if len(s.flight.Plan.Lessons) == 0 || s.flight.Record != nil {
		return
	}
	v := lessonview.New(s.helm, s.flight.Plan, &w.screen)
	v.Stand = w.standForStep
	v.Pins, v.Unpin = s.table.PinMode, s.table.Unpin
	v.End = func() {
		w.bring(chooserFront)
		w.chooser.ChooseNext(s.flight.Name)
	}
	v.PinList = func() (all []lesson.Pin) {
		for _, p := range s.table.PinPlaces() {
			all = append(all, lesson.Pin{Letter: p.Letter, Name: p.Name, At: p.At})
		}
		return all
	}
	v.Seen = func(step, of int) { w.keepStep(s.flight, step, of) }
	v.Where = w.where
	s.table.PinsRevealed(func() bool {
		if s.lessonOn && v.WantsPins() {
			v.Reveal()
			return true
		}
		return false
	})
	s.linkage.Opened = func(l picture.Link) {
		if s.lessonOn {
			v.Pick(int(l))
		}
	}
	s.table.SetAside(v.Content(), lessonview.Width)
	s.lesson, s.lessonOn = v, true
}

// beginLesson takes up the step at which the lesson was left.
func (w *Window) beginLesson() {
	if w.lesson != nil {
		step, seen := w.keptStep(w.flight.Name)
		if seen {
			step = 0
		}
		w.lesson.Begin(step)
	}
}

// The names under which the way through the lessons is kept.
const (
	keepStep = "lesson_step_"
	keepSeen = "lesson_seen_"
)

// keepStep keeps how far a shipped lesson has been taken.
func (w *Window) keepStep(f *flights.Flight, step, of int) {
	if f.Path != "" {
		return
	}
	kept := w.app.Preferences()
	kept.SetInt(keepStep+f.Name, step)
	if step == of-1 {
		kept.SetBool(keepSeen+f.Name, true)
	}
}

// keptStep is the step at which a lesson was left, and whether it has been seen to
// its end.
func (w *Window) keptStep(name string) (step int, seen bool) {
	kept := w.app.Preferences()
	return kept.Int(keepStep + name), kept.Bool(keepSeen + name)
}

// standForStep brings what a step wants to see.
func (w *Window) standForStep(v sim.LessonView) {
	stands := map[sim.LessonView]stand{sim.ViewTable: tableStand, sim.ViewLinkage: linkageStand, sim.ViewBoth: besideStand, sim.ViewNavigator: navigatorStand}
	s, ok := stands[v]
	if !ok {
		s = w.stands
	}
	w.linkage.Shut()
	for w.table.Shut() { // a card of the step before
	}
	w.linkage.Focus(w.lesson.Links())
	if s != w.stands || w.front != tableFront {
		w.stand(s)
	}
}

// lessonStands says whether the panel of the lesson is to be seen. The account of
// the errors needs the whole width of a small window.
func (w *Window) lessonStands() bool {
	return w.lesson != nil && w.lessonOn && !w.lecture.stands() && (w.stands < debriefStand || w.screen.W >= roomyBar)
}

// lessonGoes says whether the lesson is taken: its panel is to be seen, or the lecturer has
// it among the notes.
func (w *Window) lessonGoes() bool {
	return w.lessonStands() || w.lesson != nil && w.lecture.stands()
}

// showLesson shows the panel or hides it.
func (w *Window) showLesson() {
	if w.lesson == nil {
		return
	}
	kit.Show(w.lessonStands(), w.lesson.Content())
	kit.Show(w.lessonGoes() && w.front == tableFront, w.lesson.Lights())
	w.table.Content().Refresh()
}

// toggleLesson puts the panel away or brings it back.
func (w *Window) toggleLesson() {
	if w.lesson == nil {
		w.say(look.Text(look.LessonNone))
		return
	}
	if w.lecture.stands() { // the panel comes back
		w.lecture.close()
		w.lessonOn = true
		w.showLesson()
		return
	}
	w.lessonOn = !w.lessonOn
	w.showLesson()
}

// lessonDeeds are what the keyboard does while the panel is to be seen; they come
// before all others.
func (w *Window) lessonDeeds() []kit.Deed {
	if !w.lessonGoes() {
		return nil
	}
	return []kit.Deed{
		kit.On(fyne.KeyPageDown, "Page Down", look.DoLessonNext, w.lesson.Next),
		kit.On(fyne.KeyPageUp, "Page Up", look.DoLessonBack, w.lesson.Back),
		kit.On(fyne.KeyR, "R", look.DoLessonRepeat, w.lesson.Repeat),
	}
}

// roundLinks are the links that are lit with a circle.
var roundLinks = []picture.Link{
	picture.LinkResolver, picture.LinkNorthDisc, picture.LinkEastDisc, picture.LinkClock, picture.LinkWind, picture.LinkAdders,
}

// shelf is where the keys of the aids stand, if they are to be seen.
func (w *Window) shelf() (at kit.Box, shape lessonview.Shape) {
	parts := w.navigator.Named()
	first, last := parts["aid-drift"], parts["aid-pinpoint"]
	if w.stands != navigatorStand || !first.Visible() || !last.Visible() {
		return at, lessonview.Unseen
	}
	place := func(o fyne.CanvasObject) fyne.Position {
		return o.Position().Add(w.navigator.Content().Position()).Add(w.table.Content().Position())
	}
	from, to := place(first), place(last).Add(last.Size())
	const round = 5 // the ring goes round the keys
	return kit.Box{X: from.X - round, Y: from.Y - round, W: to.X - from.X + 2*round, H: to.Y - from.Y + 2*round}, lessonview.Card
}

// where is the place of a part in the window by its name in a lesson, and how it is
// lit.
func (w *Window) where(name string) (at kit.Box, shape lessonview.Shape) {
	if w.front != tableFront {
		return at, lessonview.Unseen
	}
	table := w.table.Content().Position()
	moved := func(at kit.Box, by fyne.Position) kit.Box {
		at.X, at.Y = at.X+by.X, at.Y+by.Y
		return at
	}
	if name == "reveal" {
		k := w.bar.reveal
		return kit.Box{X: k.Position().X, Y: k.Position().Y, W: k.Size().Width, H: k.Size().Height}, lessonview.Card
	}
	if name == "aids" {
		return w.shelf()
	}
	if i := slices.Index(sim.LinkNames(), name); i >= 0 {
		if at, seen := w.linkage.Part(picture.Link(i)); seen {
			shape := lessonview.Link
			if slices.Contains(roundLinks, picture.Link(i)) {
				shape = lessonview.Disc
			}
			at = moved(at, w.linkage.Content().Position())
			if cover, lies := w.table.Cover(); lies && at.Meets(cover) {
				return at, lessonview.Unseen
			}
			return moved(at, table), shape
		}
	}
	at, seen, round := w.table.Part(name)
	switch {
	case !seen:
		return at, lessonview.Unseen
	case round:
		return moved(at, table), lessonview.Mark
	}
	return moved(at, table), lessonview.Card
}
