// Package lessonview is the panel of a lesson, which stands beside any view: what
// the step says, what is to be done and how far it is done, hint and question; and
// the rings that light up what it speaks of. It shows a lesson.Course.
package lessonview

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/lesson"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// View is the panel of one flight. What it needs of the window are the functions;
// all must be set before Begin.
type View struct {
	Stand   func(sim.LessonView)                        // brings what the step wants to see
	Pins    func(on bool)                               // pins can be put on the chart
	Unpin   func()                                      // the pins of an earlier question are to go
	End     func()                                      // the last step is over
	PinList func() []lesson.Pin                         // those that have been
	Seen    func(step, of int)                          // a step has begun, from 0
	Where   func(name string) (at kit.Box, shape Shape) // of a part in the window

	helm   *helm.Helm
	plan   *sim.Plan
	screen *kit.Screen
	course *lesson.Course
	moment *helm.Moment
	clock  func() time.Time

	content *fyne.Container
	paper   *kit.Panel
	scroll  *container.Scroll
	inner   *fyne.Container
	sheet   *sheet
	hint    *hintBox
	choices [maxChoices]*choice
	back    *kit.Key
	repeat  *kit.Key
	next    *kit.Key
	reveal  *kit.Key
	lights  *lights
	laid    layKey
	headed  headKey
}

// maxChoices is how many answers or faults a step has at most.
const maxChoices = 4

// New builds the panel; the flight has steps.
func New(h *helm.Helm, plan *sim.Plan, screen *kit.Screen) *View {
	v := &View{helm: h, plan: plan, screen: screen, course: lesson.New(plan.Lessons), moment: h.Moment(), clock: time.Now}
	v.paper = kit.NewPanel(screen, v.paintHead)
	v.sheet, v.hint = newSheet(v), newHintBox(v)
	inside := []fyne.CanvasObject{v.sheet, v.hint}
	for i := range v.choices {
		v.choices[i] = newChoice(v, i)
		inside = append(inside, v.choices[i])
	}
	v.inner = container.New((*insides)(v), inside...)
	v.scroll = container.NewVScroll(v.inner)
	v.back = kit.NewKey(screen, look.Text(look.LessonBack), kit.NoSign, 92, v.Back)
	v.repeat = kit.NewKey(screen, look.Text(look.LessonRepeat), kit.NoSign, 112, v.Repeat)
	v.next = kit.NewKey(screen, look.Text(look.LessonNext), kit.NoSign, 112, v.Next)
	v.reveal = kit.NewKey(screen, look.Text(look.Reveal), kit.RevealSign, 132, v.Reveal)
	v.reveal.Main = true
	v.repeat.Hint = look.Text(look.LessonRepeatHint)
	v.content = container.New(v, v.paper, v.scroll, v.back, v.repeat, v.next, v.reveal)
	v.lights = newLights(v)
	return v
}

// Content is the panel for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Lights are the rings that lie over everything; they take no touch.
func (v *View) Lights() fyne.CanvasObject { return v.lights.content }

// Begin takes up a step, from 0.
func (v *View) Begin(step int) { v.carry(v.course.Begin(step, v.helm.Moment(), v.clock())) }

// Next goes on to the next step, at any time; from the last one to the list of
// lessons.
func (v *View) Next() {
	cue, ok := v.course.Next(v.helm.Moment(), v.clock())
	if !ok {
		v.End()
		return
	}
	v.carry(cue)
}

// Back begins the step before.
func (v *View) Back() {
	if cue, ok := v.course.Back(v.helm.Moment(), v.clock()); ok {
		v.carry(cue)
	}
}

// At is the number of the step in hand, from 0.
func (v *View) At() int { return v.course.At() }

// Steps are the steps of the lesson.
func (v *View) Steps() []sim.Lesson { return v.course.Steps() }

// Done says whether what the step in hand asks has been done.
func (v *View) Done() bool { return v.course.Done() }

// Repeat begins the step anew.
func (v *View) Repeat() { v.carry(v.course.Repeat(v.helm.Moment(), v.clock())) }

// Reveal shows the truth at the time for which pins were asked.
func (v *View) Reveal() {
	v.course.Pins(v.PinList())
	if cue, ok := v.course.Reveal(); ok {
		v.helm.Cue(cue)
	}
}

// WantsPins says whether the step in hand asks for pins that have not been held
// against the truth yet.
func (v *View) WantsPins() bool { return v.course.Step().Predict != nil && !v.course.Truth().Known }

// carry hands the cue of a step that begins to the helm, and shows the step.
func (v *View) carry(cue helm.Cue) {
	v.helm.Cue(cue)
	s := v.course.Step()
	v.Stand(s.View)
	if s.Predict != nil || s.Start.Truth == nil || !*s.Start.Truth {
		v.Unpin()
	}
	v.Pins(s.Predict != nil)
	v.Seen(v.course.At(), len(v.course.Steps()))
	v.scroll.ScrollToTop()
	v.show()
}

// Links are the links that the step in hand speaks of, and the one to be picked.
func (v *View) Links() (all []picture.Link) {
	s := v.course.Step()
	for _, name := range append([]string{s.Until.Word}, s.Light...) {
		if i := slices.Index(sim.LinkNames(), name); i >= 0 {
			all = append(all, picture.Link(i))
		}
	}
	return all
}

// Pick takes up that the card of a link has been opened in the Linkage.
func (v *View) Pick(link int) {
	if names := sim.LinkNames(); link >= 0 && link < len(names) {
		v.course.Pick(names[link])
		v.show()
	}
}

// Apply brings the panel up to a moment.
func (v *View) Apply(m *helm.Moment) {
	v.moment = m
	if v.course.Step().Predict != nil {
		v.course.Pins(v.PinList())
	}
	wanted := v.WantsPins()
	if cue, has := v.course.Observe(m); has {
		v.helm.Cue(cue)
	}
	if wanted && !v.WantsPins() && !v.short() { // the panel lists them from now on
		v.Pins(false)
	}
	v.show()
}

// Wait looks at the clock on the wall, for the hint; it may be called each frame.
func (v *View) Wait() {
	if due := v.course.HintDue(v.clock()); due != v.hint.due {
		v.show()
	}
	v.lights.follow()
}

// show brings all parts up to the course.
func (v *View) show() {
	s := v.course.Step()
	v.hint.due = v.course.HintDue(v.clock())
	pins := v.WantsPins()
	kit.Show(!pins, v.repeat)
	kit.Show(pins, v.reveal)
	kit.Show(v.hinting(), v.hint)
	first := ""
	if v.course.At() == 0 {
		first = look.Text(look.LessonFirst)
	}
	v.back.Forbid(first)
	if word := v.nextWord(); word != v.next.Word {
		v.next.Set(word, kit.NoSign, false)
	}
	if v.next.Main == pins {
		v.next.Main = !pins
		v.next.Repaint()
	}
	v.showChoices()
	v.lights.show(s.Light)
	v.sheet.Update(v.key())
	v.hint.Update(hintKey{v.course.At(), v.hint.due, v.screen.Palette})
	if head := (headKey{v.course.At(), v.note(), v.title(), v.screen.Palette}); head != v.headed {
		v.headed = head
		v.paper.Repaint()
	}
	if lay := v.layKey(); lay != v.laid {
		v.laid = lay
		v.content.Refresh()
		v.inner.Refresh()
	}
}

// hinting says whether there is a box for the hint: not once the truth is shown.
func (v *View) hinting() bool { return v.course.Step().Hint != "" && !v.course.Truth().Known }

func (v *View) showChoices() {
	words := v.words()
	for i, c := range v.choices {
		kit.Show(i < len(words), c)
		if i < len(words) {
			c.set(words[i], v.chosen(i))
		}
	}
}

func (v *View) nextWord() string {
	if v.course.Last() {
		return look.Text(look.LessonEnd)
	}
	return look.Text(look.LessonNext)
}

// headKey is what the head of the panel shows.
type headKey struct {
	step        int
	note, title string
	p           *look.Palette
}

// layKey is what changes where things stand.
type layKey struct {
	step     int
	answered int
	named    string
	known    bool
	pins     int
	larger   bool
}

func (v *View) layKey() layKey {
	return layKey{v.course.At(), v.course.Answered(), v.course.Named(), v.course.Truth().Known, len(v.course.Answers()), v.screen.LargerText}
}

// sheetKey is what the sheet shows.
type sheetKey struct {
	layKey
	live  lesson.Live
	share int
	p     *look.Palette
}

func (v *View) key() sheetKey {
	l := v.course.Live()
	share := int(l.Share * 400)
	l.Share = 0
	return sheetKey{v.layKey(), l, share, v.screen.Palette}
}

// title is that of the step, or how far the marker was out.
func (v *View) title() string {
	if t := v.course.Truth(); t.Known {
		return look.Textf(look.LessonOut, units.DistanceText(t.Ground))
	}
	return v.course.Step().Title
}

// note says what the clock does.
func (v *View) note() string {
	k := v.course.Clock()
	switch {
	case !k.Running:
		return look.Text(look.LessonStopped)
	case k.Until >= 0:
		return look.Textf(look.LessonRuns, units.TimeText(v.plan.Start.Add(sim.TimeOf(k.Until))))
	}
	return ""
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.laid, v.headed = layKey{step: -1}, headKey{step: -1}
	v.show()
	for _, o := range append(v.inner.Objects, v.content.Objects...) {
		o.Refresh()
	}
	v.lights.recolour()
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	return map[string]fyne.CanvasObject{
		"lesson": v.paper, "lesson-back": v.back, "lesson-repeat": v.repeat, "lesson-next": v.next, "lesson-reveal": v.reveal,
		"lesson-hint": v.hint, "answer-1": v.choices[0], "answer-2": v.choices[1], "answer-3": v.choices[2],
	}
}
