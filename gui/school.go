package gui

import (
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/atlas"
	"stillair/gui/drill"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/navigator"
	"stillair/gui/trainer"
	"stillair/gui/training/score"
	"stillair/gui/training/trainee"
	"stillair/sim"
)

// school is the exercise of a flight: what is marked, the book, and the trainee's window,
// which lies on this screen or is one of its own.
type school struct {
	window   *Window
	helm     *helm.Helm
	exercise score.Exercise
	book     *score.Book
	brief    trainee.Brief
	alone    bool // the trainee has this screen, and nobody sees the truth before landing
	left     bool // after landing, on to the rest of the program

	trainer *trainer.View // nil: nobody sets it
	trainee *trainee.View // nil while its window is closed
	second  fyne.Window   // nil on this screen
	screen  *kit.Screen   // of the trainee
	sheet   *score.Sheet  // after landing
	asked   bool          // the truth has been asked for, to mark
	seats
}

// newSchool is nil for a flight that is no exercise, or that was written down.
func newSchool(w *Window, s *show) (*school, error) {
	p := s.flight.Plan
	if p.Exercise == nil || s.flight.Record != nil {
		return nil, nil
	}
	waters, err := atlas.Of(p)
	if err != nil {
		return nil, err
	}
	c := &school{window: w, helm: s.helm, exercise: drill.ExerciseOf(p), book: &score.Book{}, alone: !s.flight.Trainer}
	c.clock = time.Now
	c.brief = trainee.Brief{
		Title: p.Title, Task: c.exercise.Task, Start: p.Start.UTC(), Waters: waters, Required: atlas.Required(p),
		Chain: drill.Chain(), LogEvery: c.exercise.LogEvery, Alone: c.alone,
	}
	if c.alone {
		c.screen = &w.screen
		c.trainee = trainee.New(c.brief, c.deeds(), c.book, seenOf(s.helm.Moment()), c.screen, w.window.Canvas)
	}
	return c, nil
}

// deeds are what the trainee can have done. They lead to the helm and show nothing of it.
func (c *school) deeds() trainee.Deeds {
	d := trainee.Deeds{
		Crew: navigator.CrewOf(c.helm), Play: c.helm.Play, Pause: c.helm.Pause, Rate: c.helm.ChangeRate,
		SavePage: c.savePage, SaveTable: c.saveTable,
	}
	if c.alone {
		d.Leave = c.leave
	}
	return d
}

// trainerDeeds are what the shell does for the trainer of a flight.
func (c *school) trainerDeeds(s *show) trainer.Deeds {
	return trainer.Deeds{Break: s.table.BreakHere, Mend: s.table.ToggleBreakage, Window: c.openSecond, SavePage: c.savePage, SaveTable: c.saveTable}
}

// seenOf is what a trainee sees of a moment: what those aboard see.
func seenOf(m *helm.Moment) *trainee.Seen {
	s := &trainee.Seen{Seen: *navigator.SeenOf(m), Playing: m.Playing}
	s.Truth = nil
	return s
}

// follow brings trainee and book up to a moment, and marks after landing.
func (c *school) follow(m *helm.Moment) {
	c.book.TakeBack(sim.TimeOf(max(m.Frontier, m.View.Tick)))
	switch {
	case !m.Over:
		c.asked, c.sheet = false, nil
		if c.trainee != nil {
			c.trainee.Aloft()
		}
	case c.sheet != nil:
	case m.Revealed != nil:
		c.sheet = drill.Sheet(c.exercise, c.book, m)
		c.tellMarks()
	case !c.asked:
		c.asked = true
		c.helm.Reveal(true)
	}
	if c.trainee != nil {
		c.trainee.See(seenOf(m))
	}
}

func (c *school) tellMarks() {
	if c.trainee != nil && c.sheet != nil {
		c.trainee.Landed(c.sheet.Tell(drill.Chain()))
	}
}

// hidden says whether the rest of the program is out of reach: a trainee at this screen
// would see what is wrong.
func (c *school) hidden() bool { return c != nil && (c.alone && !c.left || c.seated) }

// leave goes on to the debrief after landing.
func (c *school) leave() {
	if c.sheet == nil {
		return
	}
	c.left, c.seated = true, false
	c.window.stand(debriefStand)
}

// openSecond opens the trainee's window, or brings it to the front.
func (c *school) openSecond() {
	if c.second != nil {
		c.second.RequestFocus()
		return
	}
	c.unshare()
	w := c.window
	w.app.Preferences().SetBool(keepOneScreen, false)
	c.screen = w.screenOfItsOwn(1366, 768, c.typedKey)
	c.second = w.app.NewWindow(look.Text(look.TraineeWindow))
	c.trainee = trainee.New(c.brief, c.deeds(), c.book, seenOf(c.helm.Moment()), c.screen, c.second.Canvas)
	furnish(c.second, c.screen, c.trainee.Content(), c.closed)
	c.second.Show()
	c.tellMarks()
}

// closed lets go of the trainee's window; the exercise goes on.
func (c *school) closed() {
	if c.second == nil {
		return
	}
	c.second, c.trainee = nil, nil
	c.helm.WantOffers(false)
	c.helm.LookThrough(noAim)
}

// typedKey is a key of the keyboard that no control of the trainee uses.
func (c *school) typedKey(e *fyne.KeyEvent) {
	switch {
	case c.trainee == nil:
	case e.Name == fyne.KeyEscape:
		c.trainee.Shut()
	case e.Name == fyne.KeyF11 && c.second != nil:
		c.second.SetFullScreen(!c.second.FullScreen())
	case e.Name == fyne.KeySpace && c.here():
		c.toggleClock()
	}
	if e.Name != fyne.KeyInsert {
		c.disarm()
	}
}

func (c *school) toggleClock() {
	switch m := c.helm.Moment(); {
	case m.Playing:
		c.helm.Pause()
	case !m.Over:
		c.helm.Play()
	}
}

// repaint paints the trainee's window anew, in the colours of this one.
func (c *school) repaint() {
	if c == nil || c.trainee == nil {
		return
	}
	c.screen.Palette, c.screen.LargerText = c.window.screen.Palette, c.window.screen.LargerText
	c.trainee.Repaint()
}

// drop closes the trainee's window before the flight goes.
func (c *school) drop() {
	if c != nil {
		c.armed = time.Time{}
		c.closeSecond()
	}
}

// closeSecond closes the trainee's window, if it is open.
func (c *school) closeSecond() {
	if second := c.second; second != nil {
		c.closed()
		second.Close()
	}
}
