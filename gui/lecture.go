package gui

import (
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/lessonview"
	"stillair/gui/look"
	"stillair/gui/notes"
	"stillair/integrator/units"
	"stillair/sim"
)

// lecture is the lecturer's window with the notes; the window of the flight then has the
// picture alone. It outlives a flight.
type lecture struct {
	window *Window
	second fyne.Window // nil: the notes are put away
	screen *kit.Screen
	view   *notes.View
	clock  func() time.Time
	shown  time.Time // when the page was last made
}

// notesEvery is how often the page is made anew.
const notesEvery = 200 * time.Millisecond

// keepPlanned is the name under which it is kept how long a lecture may take, minutes.
const keepPlanned = "lecture_minutes"

func newLecture(w *Window) *lecture { return &lecture{window: w, clock: time.Now} }

// stands says whether the notes are to be seen.
func (l *lecture) stands() bool { return l.second != nil }

// open opens the notes, or brings them to the front.
func (l *lecture) open() {
	if l.stands() {
		l.second.RequestFocus()
		return
	}
	w := l.window
	if w.front == traineeFront { // they may tell what is wrong
		return
	}
	l.screen = w.screenOfItsOwn(900, 700, w.typedKey) // what the keyboard does, it does there too
	press := func(k fyne.KeyName) func() { return func() { w.typedKey(&fyne.KeyEvent{Name: k}) } }
	kept := w.app.Preferences()
	l.view = notes.New(notes.PlannedOf(kept.Int(keepPlanned)), l.screen, notes.Deeds{
		Back: press(fyne.KeyPageUp), On: press(fyne.KeyPageDown),
		Planned: func(d time.Duration) { kept.SetInt(keepPlanned, int(d/time.Minute)) },
	}, l.clock)
	l.second = w.app.NewWindow(look.Text(look.NotesWindow))
	furnish(l.second, l.screen, l.view.Content(), l.closed)
	w.lessonOn = true
	if w.table.TrayOpen() {
		w.toggleTools()
	}
	l.shown = time.Time{}
	l.follow()
	l.second.Show()
	w.showLesson()
}

// closed brings the panel of the lesson back to the window of the flight.
func (l *lecture) closed() {
	l.second = nil
	l.window.showLesson()
}

// close puts the notes away.
func (l *lecture) close() {
	if second := l.second; second != nil {
		second.Close()
	}
}

func (l *lecture) repaint() {
	if l.stands() {
		s := &l.window.screen
		l.screen.Palette, l.screen.LargerText = s.Palette, s.LargerText
		l.view.Repaint()
	}
}

// follow brings the notes up to the flight and to the clock on the wall.
func (l *lecture) follow() {
	now := l.clock()
	if since := now.Sub(l.shown); !l.stands() || l.window.seen == nil || since >= 0 && since < notesEvery {
		return
	}
	l.shown = now
	w := l.window
	m := w.seen
	var p notes.Page
	if w.lesson != nil {
		p = lessonPage(w.lesson)
	} else {
		p = l.momentPage(m)
	}
	p.Title = w.flight.Plan.Title
	clock := units.TimeText(w.flight.Plan.Start.Add(m.View.Elapsed))
	p.Clock = look.Textf(look.NotesStands, clock)
	if m.Playing {
		p.Clock = look.Textf(look.NotesRuns, clock, strconv.FormatFloat(m.Rate, 'g', 3, 64))
	}
	l.view.Show(p)
	l.screen.Again()
}

// lessonPage is the page of a step: with the answer, which the audience does not see.
func lessonPage(v *lessonview.View) notes.Page {
	steps := v.Steps()
	s := &steps[v.At()]
	p := notes.Page{Count: look.Textf(look.NotesStep, v.At()+1, len(steps)), Head: s.Title, Next: look.Text(look.NotesLast)}
	if v.At()+1 < len(steps) {
		p.Next = look.Textf(look.NotesNext, steps[v.At()+1].Title)
	}
	put := func(label look.Key, words string, strong bool) {
		if words != "" {
			p.Parts = append(p.Parts, notes.Part{Label: look.Text(label), Words: words, Strong: strong})
		}
	}
	put(look.NotesNote, s.Note, true)
	put(look.NotesSay, s.Text, true)
	do := look.NotesDo
	if s.Do != "" && v.Done() {
		do = look.NotesDone
	}
	put(do, s.Do, true)
	put(look.NotesHintIs, s.Hint, false)
	if q := s.Question; q != nil {
		put(look.NotesAsk, q.Text, true)
		put(look.NotesRight, q.Answers[q.Right], false)
		put(look.NotesWhy, q.Why, false)
	}
	return p
}

// momentPage is the page of a flight that is no lesson: its named moments.
func (l *lecture) momentPage(m *helm.Moment) (p notes.Page) {
	all := l.window.table.Moments()
	p.Head = look.Text(look.NotesBefore)
	if len(all) == 0 {
		p.Head, p.Parts = "", []notes.Part{{Words: look.Text(look.NotesNoMoments)}}
		return p
	}
	next := false
	for i, a := range all {
		at := units.TimeText(l.window.flight.Plan.Start.Add(sim.TimeOf(a.At)))
		p.Parts = append(p.Parts, notes.Part{Label: strconv.Itoa(i+1) + "  " + at, Words: a.Name, Strong: a.At > m.View.Tick})
		switch {
		case a.At <= m.View.Tick:
			p.Head = a.Name
		case !next:
			next = true
			p.Next = look.Textf(look.NotesNextAt, at, int(math.Ceil(sim.TimeOf(a.At-m.View.Tick).Minutes())), a.Name)
		}
	}
	return p
}
