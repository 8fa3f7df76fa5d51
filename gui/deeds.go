package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
)

// ownDeeds are what the keyboard does whatever view is in front.
func (w *Window) ownDeeds() []kit.Deed {
	return []kit.Deed{
		kit.On(fyne.KeyO, "O", look.DoChoose, func() { w.toggle(chooserFront) }),
		kit.On(fyne.KeyY, "Y", look.DoLinkage, func() { w.toggleStand(linkageStand) }),
		kit.On(fyne.KeyD, "D", look.DoBeside, func() { w.toggleStand(besideStand) }),
		kit.On(fyne.KeyF2, "F2", look.DoNavigator, func() { w.toggleStand(navigatorStand) }),
		kit.On(fyne.KeyR, "R", look.DoDebrief, func() { w.toggleStand(debriefStand) }),
		kit.On(fyne.KeyF3, "F3", look.DoCalculator, func() { w.toggleStand(calculatorStand) }),
		kit.On(fyne.KeyF12, "F12", look.DoEditor, w.toggleEditor),
		kit.On(fyne.KeyInsert, "Insert", look.DoTrainer, w.toggleTrainer),
		kit.On(fyne.KeyV, "V", look.DoReveal, w.reveal),
		kit.On(fyne.KeyL, "L", look.DoTools, w.toggleTools),
		kit.On(fyne.KeyN, "N", look.DoLight, w.nextLight),
		kit.On(fyne.KeyT, "T", look.DoSpotlight, w.toggleSpotlight),
		kit.On(fyne.KeyB, "B  .", look.DoBlank, w.toggleBlank).Also(fyne.KeyPeriod),
		kit.On(fyne.KeyF11, "F11", look.DoFullScreen, w.toggleFullScreen),
		kit.On(fyne.KeyF1, "F1  H", look.DoHelp, func() { w.toggle(helpFront) }).Also(fyne.KeyH),
		kit.On(fyne.KeyF10, "F10", look.DoLog, func() { w.toggleStand(logStand) }),
		kit.On(fyne.KeyF9, "F9", look.DoLesson, w.toggleLesson),
		kit.On(fyne.KeyEscape, "Esc", look.DoClose, w.close),
		{Label: "Tab", Does: look.DoTab}, // the toolkit does it
	}
}

// listen has the keyboard do the deeds while no control has the focus.
func (w *Window) listen() {
	c := w.window.Canvas()
	c.SetOnTypedKey(w.typedKey)
	for _, d := range w.deeds {
		if !d.Ctrl {
			continue
		}
		for _, k := range d.Keys {
			c.AddShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierControl}, func(fyne.Shortcut) {
				_ = w.front != traineeFront && kit.Perform(w.deeds, k, true)
			})
		}
	}
}

func (w *Window) typedKey(e *fyne.KeyEvent) {
	if w.blank.Visible() && e.Name != fyne.KeyB && e.Name != fyne.KeyPeriod {
		w.unblank()
		return
	}
	switch {
	case w.front == traineeFront:
		w.school.typedKey(e)
		kit.Perform(w.traineeDeeds(), e.Name, false)
	case w.front == tableFront:
		_ = kit.Perform(w.lessonDeeds(), e.Name, false) || kit.Perform(w.table.PinDeeds(), e.Name, false) || kit.Perform(w.deeds, e.Name, false)
	case w.front == chooserFront && w.chooser.TypedKey(e):
	case w.school.hidden():
		if e.Name == fyne.KeyEscape {
			w.close()
		}
		kit.Perform(w.traineeDeeds(), e.Name, false)
	default:
		kit.Perform(w.ownDeeds(), e.Name, false) // the chart's keys rest while it is out of sight
	}
}

// traineeDeeds are what the keyboard does while a trainee flies alone: nothing that shows
// what is wrong.
func (w *Window) traineeDeeds() []kit.Deed {
	if w.school.seated {
		return w.seatDeeds()
	}
	return []kit.Deed{
		kit.On(fyne.KeyO, "O", look.DoChoose, func() { w.toggle(chooserFront) }),
		kit.On(fyne.KeyN, "N", look.DoLight, w.nextLight),
		kit.On(fyne.KeyF11, "F11", look.DoFullScreen, w.toggleFullScreen),
	}
}

// toggle brings a view to the front, or the Chart table if it is there.
func (w *Window) toggle(f front) {
	if w.front == f {
		f = tableFront
	}
	w.bring(f)
}

// close closes what is open, the topmost first.
func (w *Window) close() {
	switch {
	case w.film.Escape(), w.papers.Escape():
	case w.spotlight.Visible():
		w.spotlight.Hide()
	case !w.flying(w.front):
		w.bring(tableFront)
	case w.table.Shut(): // its cards lie over what stands beside the chart
	case w.navigator.Shut():
	case w.editor.Shut():
	case w.linkage.Shut():
	case w.table.TrayOpen():
		w.toggleTools()
	case w.window.FullScreen():
		w.toggleFullScreen()
	}
}

// tools are the window's own keys among the tools of a lecture.
func (w *Window) tools() []*kit.Key {
	tool := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(&w.screen, look.Text(word), kit.NoSign, kit.Target, press)
		k.Hint = look.Text(hint)
		return k
	}
	return []*kit.Key{
		tool(look.BesideWord, look.BesideHint, func() { w.toggleStand(besideStand) }),
		tool(look.NavigatorWord, look.NavigatorHint, func() { w.toggleStand(navigatorStand) }),
		tool(look.LogWord, look.LogHint, func() { w.toggleStand(logStand) }),
		tool(look.SpreadWord, look.SpreadHint, w.toSpread),
		tool(look.CalcWord, look.CalcToolHint, func() { w.toggleStand(calculatorStand) }),
		tool(look.LessonWord, look.LessonHint, w.toggleLesson),
		tool(look.NotesWord, look.NotesHint, w.lecture.open),
		tool(look.DataTitle, look.DataHint, func() { w.table.SaveData() }),
		tool(look.PapersWord, look.PapersHint, func() { w.papers.Open() }),
		tool(look.FilmTitle, look.FilmHint, func() { w.film.Open() }),
		tool(look.EditorWord, look.EditorHint, w.toggleEditor),
		tool(look.Spotlight, look.SpotlightHint, w.toggleSpotlight),
		tool(look.Blank, look.BlankHint, w.toggleBlank),
	}
}

// toggleTools opens or shuts the tools of a lecture.
func (w *Window) toggleTools() {
	w.table.ToggleTray()
	w.bar.recolour()
}

func (w *Window) reveal() {
	if w.lessonGoes() && w.lesson.WantsPins() && w.helm.Moment().Revealed == nil {
		w.lesson.Reveal() // at the time for which pins were asked
		return
	}
	w.helm.Reveal(w.helm.Moment().Revealed == nil)
}

func (w *Window) toggleFullScreen() { w.window.SetFullScreen(!w.window.FullScreen()) }

func (w *Window) toggleSpotlight() {
	if w.spotlight.Visible() {
		w.spotlight.Hide()
		return
	}
	if w.spotlight.at.IsZero() {
		w.spotlight.at = fyne.NewPos(w.screen.W/2, w.screen.H/2)
	}
	w.spotlight.Show()
	w.spotlight.lay()
}

func (w *Window) toggleBlank() {
	if w.blank.Visible() {
		w.unblank()
		return
	}
	w.blank.Show()
}

func (w *Window) unblank() { w.blank.Hide() }
