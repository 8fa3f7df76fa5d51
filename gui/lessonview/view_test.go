package lessonview

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/lesson"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// stage is a panel on a canvas without a display; what the window does is written
// down.
type stage struct {
	*View
	t     *testing.T
	helm  *helm.Helm
	stood []sim.LessonView
	pins  []lesson.Pin
	on    bool
	seen  []int
	ended int
	now   time.Time
}

// places are window sizes, and the height that the panel has in them: what bar,
// time strip and gaps leave.
var places = map[fyne.Size]float32{{Width: 1280, Height: 720}: 504, {Width: 1366, Height: 768}: 550, {Width: 1920, Height: 1080}: 828}

func newStage(t *testing.T, name string, size fyne.Size) *stage {
	t.Helper()
	test.NewTempApp(t)
	p, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	s := &stage{t: t, helm: helm.New(e), now: time.Unix(0, 0)}
	t.Cleanup(s.helm.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: size.Width, H: size.Height}
	s.View = New(s.helm, p, screen)
	s.clock = func() time.Time { return s.now }
	s.Stand = func(v sim.LessonView) { s.stood = append(s.stood, v) }
	s.Pins = func(on bool) { s.on = on }
	s.Unpin = func() { s.pins = nil }
	s.PinList = func() []lesson.Pin { return s.pins }
	s.Seen = func(step, _ int) { s.seen = append(s.seen, step) }
	s.End = func() { s.ended++ }
	s.Where = func(string) (kit.Box, Shape) { return kit.Box{X: 100, Y: 100, W: 60, H: 40}, Card }
	window := test.NewTempWindow(t, s.Content())
	window.SetPadded(false)
	window.Resize(fyne.NewSize(Width(size.Width, size.Height), places[size]))
	return s
}

// until waits for a moment and shows it; the bound is on a hang.
func (s *stage) until(what string, ok func(*helm.Moment) bool) {
	s.t.Helper()
	require.Eventually(s.t, func() bool { return ok(s.helm.Moment()) }, 20*time.Second, 2*time.Millisecond, what)
	s.Apply(s.helm.Moment())
}

// cued waits until the helm has carried out so many cues.
func (s *stage) cued(n int) {
	s.t.Helper()
	s.until("the cue", func(m *helm.Moment) bool { return m.Cues >= n })
}

// At every size every step of every lesson stands in its panel without scrolling,
// its parts under one another, answers given or not; with larger text it may scroll
// and loses nothing.
func TestEveryStepFitsThePanel(t *testing.T) {
	steps := 0
	for _, info := range scenarios.Shipped() {
		if info.Steps == 0 {
			continue
		}
		for size := range places {
			s := newStage(t, info.Name, size)
			for i := range s.course.Steps() {
				s.Begin(i)
				s.cued(i + 1)
				steps++
				for _, larger := range []bool{false, true} {
					s.screen.LargerText = larger
					s.Repaint()
					w, h := s.room()
					p := s.page(w, h)
					where := info.Name + ": " + s.course.Step().Title
					if !larger {
						assert.LessOrEqual(t, p.height, h, "%s at %v", where, size)
						assert.GreaterOrEqual(t, p.text, leastText, where)
					}
					s.checkPage(where, p)
					s.checkKeys(where)
				}
				s.screen.LargerText = false
				if q := s.course.Step().Question; q != nil && !s.naming() {
					s.take(q.Right)
					w, h := s.room()
					assert.LessOrEqual(t, s.page(w, h).height, h, "%s, answered", s.course.Step().Title)
				}
			}
		}
	}
	assert.Greater(t, steps, 150)
}

// checkPage: the parts follow one another and keep within the width; no word is wider
// than its line.
func (s *stage) checkPage(where string, p page) {
	s.t.Helper()
	foot := 0.0
	below := func(what string, r paint.Rect) {
		if r.W == 0 {
			return
		}
		assert.GreaterOrEqual(s.t, r.Y+6, foot, "%s: %s", where, what)
		assert.True(s.t, r.X >= -4 && r.Right() <= p.w+4, "%s: %s leaves the panel", where, what)
		foot = max(foot, r.Bottom()-6)
	}
	below("do", p.do)
	below("hint", p.hint)
	for i, r := range p.choices {
		if i > 0 && r.Y == p.choices[i-1].Y {
			assert.GreaterOrEqual(s.t, r.X, p.choices[i-1].Right(), where)
			continue
		}
		below("choice", r)
	}
	assert.LessOrEqual(s.t, foot, p.height, where)
	text := paint.Type{Font: look.Regular.Font(), Size: p.text}
	for _, lines := range p.paragraphs {
		for _, line := range lines {
			assert.LessOrEqual(s.t, text.Font.Width(line, text.Size), p.w+0.5, where)
		}
	}
	for i, words := range s.words() {
		small := paint.Type{Font: look.Semibold.Font(), Size: p.small}
		for _, word := range strings.Fields(words) {
			assert.LessOrEqual(s.t, small.Font.Width(word, small.Size), p.choices[i].W-2*choiceAside, "%s: %s", where, word)
		}
	}
}

// checkKeys: the keys at the foot lie apart, in the panel, and their words fit.
func (s *stage) checkKeys(where string) {
	s.t.Helper()
	right := float32(0)
	row := []*kit.Key{s.back, s.repeat, s.next}
	if s.WantsPins() {
		row = []*kit.Key{s.back, s.next, s.reveal}
	}
	for _, k := range row {
		assert.True(s.t, k.Visible(), where)
		assert.GreaterOrEqual(s.t, k.Position().X, right, "%s: %s", where, k.Word)
		assert.GreaterOrEqual(s.t, k.Size().Width, k.Needs(), "%s: %s", where, k.Word)
		assert.Equal(s.t, float32(kit.Target), k.Size().Height)
		right = k.Position().X + k.Size().Width
	}
	assert.LessOrEqual(s.t, right, s.content.Size().Width, where)
}

// The setting of the wind is seen, read out and ticked; the step can be repeated.
func TestTheWindIsSet(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.Begin(1)
	s.cued(1)
	assert.Equal(t, sim.ViewTable, s.stood[0])
	assert.Equal(t, []int{1}, s.seen)
	assert.Equal(t, look.Text(look.LessonStopped), s.note())
	assert.Equal(t, lesson.Live{Reading: "000/00"}, s.course.Live())
	s.helm.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 10 * units.Degree, Speed: 30 * units.Knot}})
	s.until("the wind", func(m *helm.Moment) bool { return m.View.WindSet.Speed > 0 })
	assert.True(t, s.course.Live().Done)
	s.Repeat()
	s.cued(2)
	assert.False(t, s.course.Live().Done)
}

// Back, Next and the end of the lesson.
func TestStepsAreTurned(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.Begin(0)
	s.cued(1)
	assert.NotEmpty(t, s.back.Reason)
	s.Back()
	assert.Equal(t, 0, s.At())
	for i := 1; i < len(s.course.Steps()); i++ {
		assert.Equal(t, look.Text(look.LessonNext), s.next.Word)
		test.Tap(s.next)
		assert.Equal(t, i, s.At())
	}
	assert.Empty(t, s.back.Reason)
	assert.Equal(t, look.Text(look.LessonEnd), s.next.Word)
	assert.Zero(t, s.ended)
	test.Tap(s.next)
	assert.Equal(t, 1, s.ended)
	test.Tap(s.back)
	assert.Equal(t, len(s.course.Steps())-2, s.At())
}

// A hint comes in its time, or when it is asked for.
func TestTheHint(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.Begin(0)
	s.cued(1)
	assert.False(t, s.hint.due)
	assert.Equal(t, "Hint, after 20 s", s.hint.Spoken())
	s.now = s.now.Add(21 * time.Second)
	s.Wait()
	assert.True(t, s.hint.due)
	assert.Equal(t, s.course.Step().Hint, s.hint.Spoken())
	s.Repeat()
	assert.False(t, s.hint.due)
	test.Tap(s.hint)
	assert.True(t, s.hint.due)
}

// An answer is told right with its reason, another sends back to think.
func TestAnswers(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.Begin(2)
	s.cued(1)
	assert.Empty(t, s.verdict())
	test.Tap(s.choices[1])
	assert.Equal(t, look.Text(look.LessonWrong), s.verdict())
	assert.True(t, s.choices[1].chosen)
	s.choices[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Contains(t, s.verdict(), s.course.Step().Question.Why)
	assert.False(t, s.choices[1].chosen)
	assert.False(t, s.choices[2].Visible(), "there are two")
	s = newStage(t, "lesson-broken-link", fyne.NewSize(1366, 768))
	s.Begin(2)
	s.cued(1)
	test.Tap(s.choices[0])
	assert.False(t, s.course.Done())
	test.Tap(s.choices[1])
	assert.True(t, s.course.Done())
	assert.Contains(t, s.verdict(), "tapped before the drive")
	s.Next()
	s.cued(2)
	s.Next() // of the reading
	s.cued(3)
	s.Pick(4)
	assert.False(t, s.course.Done())
	s.Pick(5) // the drive, in the order of the chain
	assert.True(t, s.course.Done())
}

// Pins of the chart are asked for, measured when the truth is shown, and taken away
// before the next question.
func TestPinsAreAskedForAndMeasured(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.pins = []lesson.Pin{{Letter: "A", At: units.At(0, 0)}}
	s.Begin(4)
	s.cued(1)
	assert.True(t, s.on)
	assert.Empty(t, s.pins)
	assert.True(t, s.reveal.Visible() && !s.repeat.Visible())
	assert.Equal(t, look.Text(look.LessonPins), s.doing())
	s.pins = []lesson.Pin{{Letter: "A", Name: "window side", At: units.At(-48, -178)}, {Letter: "B", At: units.At(-47, 179)}}
	test.Tap(s.reveal)
	s.cued(2)
	assert.Contains(t, s.title(), "NM out")
	assert.Len(t, s.course.Answers(), 2)
	assert.Empty(t, s.doing())
	assert.True(t, s.repeat.Visible() && !s.reveal.Visible())
	assert.False(t, s.WantsPins())
	w, h := s.room()
	assert.LessOrEqual(t, s.page(w, h).height, h)
	s.content.Refresh()
	test.WidgetRenderer(s.sheet).Refresh()
	d := paint.NewImage(400, 400)
	s.sheet.paint(d, 400, 400, s.screen.Size(1))
	s.Next()
	s.cued(3)
	assert.False(t, s.on)
	assert.Len(t, s.pins, 2, "the truth stays to be seen, so do they")
}

// Rings stand round the parts that can be seen, numbered if there are several, and
// let touches through.
func TestLights(t *testing.T) {
	s := newStage(t, "lesson-wind", fyne.NewSize(1366, 768))
	s.Begin(0)
	s.cued(1)
	l := s.lights
	for i := range l.rings {
		want := i < len(s.course.Step().Light)
		assert.Equal(t, want, l.rings[i].slate.Visible(), "%d", i)
		assert.Equal(t, want, l.rings[i].number.Visible(), "%d", i)
	}
	assert.Equal(t, fyne.NewPos(100, 100), l.rings[0].slate.Position())
	assert.Equal(t, fyne.NewPos(93, 93), l.rings[0].brass.Position())
	s.Begin(1)
	assert.True(t, l.rings[0].slate.Visible())
	assert.False(t, l.rings[0].number.Visible(), "one needs no number")
	s.Where = func(string) (kit.Box, Shape) { return kit.Box{}, Unseen }
	s.Wait()
	assert.False(t, l.rings[0].slate.Visible())
	for _, o := range l.content.Objects {
		_, touches := o.(fyne.Tappable)
		assert.False(t, touches)
	}
}

// With the list of pins right below it the panel says less, and all of it fits.
func TestAShortPanelLeavesTheListToTheCard(t *testing.T) {
	for _, name := range []string{"lesson-wind", "lesson-air-position"} {
		s := newStage(t, name, fyne.NewSize(1920, 1080))
		for i, step := range s.course.Steps() {
			if step.Predict == nil {
				continue
			}
			s.Begin(i)
			s.cued(1)
			s.content.Resize(fyne.NewSize(592, 366)) // what the list leaves at 1080 lines
			assert.Empty(t, s.doing())
			w, h := s.room()
			assert.LessOrEqual(t, s.page(w, h).height, h, name)
			s.pins = []lesson.Pin{{Letter: "A", At: units.At(-47, 179)}}
			s.on = true
			test.Tap(s.reveal)
			s.cued(2)
			assert.True(t, s.on, "the card stays")
			p := s.page(w, h)
			assert.Less(t, p.pins, 0.0)
			assert.LessOrEqual(t, p.height, h, name)
		}
	}
}

// In the smallest window the keys still stand apart with their words, and nothing of
// the step is lost: what has no room scrolls.
func TestTheSmallestWindow(t *testing.T) {
	s := newStage(t, "lesson-broken-link", fyne.NewSize(1024, 680))
	s.content.Resize(fyne.NewSize(Width(1024, 680), 468))
	for i := range s.course.Steps() {
		s.Begin(i)
		s.cued(i + 1)
		w, h := s.room()
		p := s.page(w, h)
		s.checkPage(s.course.Step().Title, p)
		s.checkKeys(s.course.Step().Title)
		assert.GreaterOrEqual(t, float64(s.inner.MinSize().Height), p.height)
	}
}
