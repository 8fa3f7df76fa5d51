package gui

import (
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/training/trainee"
	"stillair/integrator/aboard"
)

// With one screen, trainer and trainee sit at it by turns. The trainer gives the seat away
// with one press. Back wants two, or the key held down, lest the trainee slip into the
// truth. The trainee's view is kept between turns as it was left, half a report and all,
// and while the trainer sits the clock stands unless the trainer starts it.

// seats are what one screen for two needs.
type seats struct {
	shared bool       // both sit at this screen; the trainee's view stands ready
	seated bool       // the trainee sits
	ran    bool       // the clock ran when the trainee got up
	looked aboard.Aim // what the trainee was looking at through an aid
	armed  time.Time  // the first press for the trainer's seat; zero: none
	clock  func() time.Time
}

// A second press counts from soonest on, so that a key struck twice by a nervous hand does
// nothing, and up to latest.
const (
	soonest = 400 * time.Millisecond
	latest  = 5 * time.Second
)

// keepOneScreen is the name under which it is kept that one screen serves both.
const keepOneScreen = "one_screen"

// here says whether the trainee's view lies on this screen, to be seen or not.
func (c *school) here() bool { return c != nil && (c.alone || c.shared) }

// share makes this screen serve both; the trainee's window closes.
func (c *school) share() {
	if c.shared {
		return
	}
	c.closeSecond()
	w := c.window
	w.app.Preferences().SetBool(keepOneScreen, true)
	c.screen = &w.screen
	brief, deeds := c.brief, c.deeds()
	brief.Alone = true // whoever sits has the clock
	deeds.Leave, deeds.Trainer = c.leave, c.askTrainer
	c.trainee = trainee.New(brief, deeds, c.book, seenOf(c.helm.Moment()), c.screen, w.window.Canvas)
	c.shared = true
	w.root.Objects = w.objects()
	c.trainee.Content().Hide()
	c.tellMarks()
	w.root.Refresh()
}

// unshare gives the trainee a window again; the view on this screen goes.
func (c *school) unshare() {
	if !c.shared {
		return
	}
	c.seats = seats{clock: c.clock}
	c.trainee = nil
	c.window.root.Objects = c.window.objects()
	c.window.root.Refresh()
}

// sit gives this screen to the trainee. The clock goes on if it ran when the trainee got
// up; at first it starts when the task has been read.
func (c *school) sit() {
	if c == nil || c.trainer == nil || c.seated {
		return
	}
	first := !c.shared
	c.share()
	w := c.window
	runs := w.helm.Moment().Playing
	if first && c.exercise.Task != "" && w.helm.Moment().View.Tick == 0 {
		w.helm.Pause()
	} else if c.ran && !runs {
		w.helm.Play()
	}
	c.seated = true
	w.window.Canvas().Unfocus()
	c.helm.WantOffers(true)
	c.helm.LookThrough(c.looked) // the trainer may have looked elsewhere
	w.bring(traineeFront)
	c.trainee.Repaint()
	c.trainee.See(seenOf(w.helm.Moment()))
}

// askTrainer asks for the trainer's seat: the first time it only says so.
func (c *school) askTrainer() {
	if !c.seated {
		return
	}
	now := c.clock()
	switch since := now.Sub(c.armed); {
	case c.armed.IsZero() || since > latest:
		c.arm(now)
	case since >= soonest:
		c.rise()
	}
}

func (c *school) arm(now time.Time) {
	c.armed = now
	c.trainee.Armed(true)
	c.say(look.Text(look.SeatAgain))
	c.screen.After(latest, func() {
		if c.armed.Equal(now) {
			c.disarm()
		}
	})
}

// disarm forgets the first press.
func (c *school) disarm() {
	if c.armed.IsZero() {
		return
	}
	c.armed = time.Time{}
	if c.trainee != nil {
		c.trainee.Armed(false)
		c.screen.Hints.Leave(c.trainee.Content())
	}
}

// rise gives this screen to the trainer; the clock stops.
func (c *school) rise() {
	w := c.window
	m := w.helm.Moment()
	c.disarm()
	c.seated, c.ran, c.looked = false, m.Playing, noAim
	if m.Scene != nil {
		c.looked = m.Scene.Aim
	}
	w.helm.Pause()
	w.window.Canvas().Unfocus()
	w.stand(trainerStand)
}

// toTrainee goes from the trainer's view to the trainee: to the window, if it is open, else
// this screen is handed over.
func (c *school) toTrainee() {
	if c.second != nil {
		c.second.RequestFocus()
		return
	}
	c.sit()
}

// seatDeeds are the keys of the trainee's seat beside the trainer's.
func (w *Window) seatDeeds() []kit.Deed {
	return []kit.Deed{
		kit.On(fyne.KeyInsert, "Insert", look.DoTrainer, w.school.askTrainer),
		kit.On(fyne.KeyN, "N", look.DoLight, w.nextLight),
		kit.On(fyne.KeyF11, "F11", look.DoFullScreen, w.toggleFullScreen),
	}
}

// begin opens the trainee's window, or makes this screen serve both, as the last time.
func (c *school) begin(one bool) {
	if !one {
		c.openSecond()
		return
	}
	c.window.say(look.Text(look.SeatOneScreen))
}

// again is the school of a flight whose file has been edited: trainer and trainee sit as
// they did.
func (c *school) again(was *school) {
	switch {
	case was != nil && was.seated:
		c.share()
		c.sit()
	case was != nil && was.second == nil && was.shared:
		c.share()
	default:
		c.openSecond()
	}
}
