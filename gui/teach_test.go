package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/lessonview"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// taught is a window in which a lesson has begun.
func taught(t *testing.T, name string) *Window {
	t.Helper()
	w := window(t)
	w.root.Resize(fyne.NewSize(1366, 768))
	f, err := flights.OpenShipped(name)
	require.NoError(t, err)
	w.fly(f)
	cued(t, w, 1)
	return w
}

func cued(t *testing.T, w *Window, n int) {
	t.Helper()
	until(t, w, "the cue", func(m *helm.Moment) bool { return m.Cues >= n })
	w.pull()
}

func TestALinkHasOneNumberEverywhere(t *testing.T) {
	assert.Len(t, sim.LinkNames(), int(picture.LinkCount))
	for i, l := range []picture.Link{picture.LinkPitot, picture.LinkStatic, picture.LinkCapsules, picture.LinkAirLog, picture.LinkCounter, picture.LinkDrive,
		picture.LinkCompass, picture.LinkDeviation, picture.LinkVariation, picture.LinkRepeater, picture.LinkResolver, picture.LinkNorthDisc,
		picture.LinkEastDisc, picture.LinkLatitude, picture.LinkSecant, picture.LinkLongitude, picture.LinkClock, picture.LinkWind,
		picture.LinkAdders, picture.LinkGroundSecant, picture.LinkGround, picture.LinkMarker} {
		assert.Equal(t, picture.Link(i), l, sim.LinkNames()[i])
	}
}

// A lesson brings its panel, the view that a step wants, and turns with a clicker; R
// and Page Up and Down are its own while it stands.
func TestALessonStandsBesideTheView(t *testing.T) {
	w := taught(t, "lesson-pitot-to-miles")
	require.NotNil(t, w.lesson)
	assert.True(t, w.lesson.Content().Visible())
	assert.Equal(t, linkageStand, w.stands)
	until(t, w, "the clock stops", func(m *helm.Moment) bool { return !m.Playing })
	w.press(fyne.KeyPageDown)
	cued(t, w, 2)
	assert.Equal(t, 1, w.lesson.At())
	w.press(fyne.KeyPageDown, fyne.KeyR, fyne.KeyPageUp)
	cued(t, w, 5)
	assert.Equal(t, 1, w.lesson.At())
	assert.Equal(t, linkageStand, w.stands, "R did not open the Debrief")
	w.press(fyne.KeyF9)
	assert.False(t, w.lesson.Content().Visible())
	assert.False(t, w.lesson.Lights().Visible())
	w.press(fyne.KeyR)
	assert.Equal(t, debriefStand, w.stands, "without the panel R is the Debrief's")
	w.press(fyne.KeyR, fyne.KeyF9)
	assert.True(t, w.lesson.Content().Visible())
	w.press(fyne.KeyF1)
	assert.False(t, w.lesson.Lights().Visible(), "not over the help")
	assert.Len(t, w.help.deeds, len(w.deeds)+len(w.table.PinKeys())+3)
}

// A touch on a link is a pick; the picture shows what the step speaks of.
func TestALinkIsPicked(t *testing.T) {
	w := taught(t, "lesson-pitot-to-miles")
	w.linkage.Open(picture.LinkStatic)
	w.pull()
	assert.False(t, w.lesson.Done())
	w.linkage.Open(picture.LinkPitot)
	assert.True(t, w.lesson.Done())
}

// What a step lights is found where it stands: every name in the view that the step
// wants, inside the window and off the panel.
func TestWhatIsLitIsFound(t *testing.T) {
	for _, info := range scenarios.Shipped() {
		if info.Steps == 0 {
			continue
		}
		w := taught(t, info.Name)
		w.window.Resize(fyne.NewSize(1366, 768))
		for i, s := range w.flight.Plan.Lessons {
			w.lesson.Begin(i)
			cued(t, w, i+2)
			for _, name := range s.Light {
				if name == "marker" {
					w.window.Canvas().Capture() // the chart is fitted when it is first drawn
				}
				at, shape := w.where(name)
				where := info.Name + ", " + s.Title + ": " + name
				require.NotEqual(t, lessonview.Unseen, shape, where)
				right := w.lesson.Content().Position().X + w.table.Content().Position().X
				assert.True(t, at.X >= 0 && at.Y >= 0 && at.W > 10 && at.H > 10 && at.Y+at.H <= 768, "%s %v", where, at)
				if name != "reveal" && name != "time-strip" {
					assert.LessOrEqual(t, at.X+at.W, right+1, where)
				}
			}
		}
	}
}

// How far a lesson was taken is kept: it goes on there, is ticked when its end has
// been seen, and then begins anew.
func TestTheWayThroughALessonIsKept(t *testing.T) {
	w := taught(t, "lesson-wind")
	w.press(fyne.KeyPageDown, fyne.KeyPageDown)
	cued(t, w, 3)
	step, seen := w.keptStep("lesson-wind")
	assert.Equal(t, 2, step)
	assert.False(t, seen)
	other, err := flights.OpenShipped(scenarios.Default)
	require.NoError(t, err)
	w.fly(other)
	assert.Nil(t, w.lesson)
	w.press(fyne.KeyF9)
	f, err := flights.OpenShipped("lesson-wind")
	require.NoError(t, err)
	w.fly(f)
	cued(t, w, 1)
	assert.Equal(t, 2, w.lesson.At())
	for range len(f.Plan.Lessons) - 3 {
		w.press(fyne.KeyPageDown)
	}
	_, seen = w.keptStep("lesson-wind")
	assert.True(t, seen)
	assert.Equal(t, tableFront, w.front)
	w.press(fyne.KeyPageDown)
	assert.Equal(t, chooserFront, w.front, "after the last step come the lessons")
	w.fly(f)
	cued(t, w, 1)
	assert.Zero(t, w.lesson.At())
}

// V at a question of pins shows the truth of the time that was asked for, and the
// card of the pins gives the instruments back.
func TestRevealAtTheTimeAskedFor(t *testing.T) {
	w := taught(t, "lesson-wind")
	w.lesson.Begin(4)
	cued(t, w, 2)
	assert.True(t, w.table.PinsOn())
	w.press(fyne.KeyV)
	until(t, w, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	w.pull()
	assert.Equal(t, int64(3600*sim.TicksPerSecond), w.helm.Moment().View.Tick)
	assert.False(t, w.table.PinsOn())
	w.press(fyne.KeyV)
	until(t, w, "hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
}

// In a small window the account of the errors has the whole width.
func TestTheDebriefNeedsTheWidth(t *testing.T) {
	w := taught(t, "lesson-wind")
	w.press(fyne.KeyF9, fyne.KeyR, fyne.KeyF9)
	assert.False(t, w.lesson.Content().Visible())
	w.root.Resize(fyne.NewSize(1920, 1080))
	w.showLesson()
	assert.True(t, w.lesson.Content().Visible())
}

// A setting made on the Chart table counts while the panel stands.
func TestASettingCounts(t *testing.T) {
	w := taught(t, "lesson-wind")
	w.press(fyne.KeyPageDown)
	cued(t, w, 2)
	assert.False(t, w.lesson.Done())
	w.helm.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 10 * units.Degree, Speed: 30 * units.Knot}})
	until(t, w, "the wind", func(m *helm.Moment) bool { return m.View.WindSet.Speed > 0 })
	w.pull()
	assert.True(t, w.lesson.Done())
	assert.Equal(t, look.Text(look.LessonWord), "Lesson")
}

// A step that wants a reading stands in the Navigator, its aids lit, until one is open.
func TestAStepInTheNavigator(t *testing.T) {
	w := taught(t, "lesson-fix-and-reset")
	w.window.Resize(fyne.NewSize(1366, 768))
	w.lesson.Begin(2)
	cued(t, w, 2)
	w.pull()
	assert.Equal(t, navigatorStand, w.stands)
	at, shape := w.where("aids")
	assert.Equal(t, lessonview.Card, shape)
	parts := w.navigator.Named()
	for _, name := range []string{"aid-drift", "aid-loop", "aid-pinpoint"} {
		o := parts[name]
		by := w.navigator.Content().Position().Add(w.table.Content().Position())
		assert.GreaterOrEqual(t, o.Position().X+by.X, at.X, name)
		assert.LessOrEqual(t, o.Position().Y+by.Y+o.Size().Height, at.Y+at.H, name)
	}
	until(t, w, "offers", func(m *helm.Moment) bool { return len(m.Offers) > 0 })
	w.pull()
	test.Tap(parts["aid-loop"].(*kit.Key))
	_, shape = w.where("aids")
	assert.Equal(t, lessonview.Unseen, shape, "what it is pointed at is asked there now")
	w.lesson.Begin(0)
	_, shape = w.where("aids")
	assert.Equal(t, lessonview.Unseen, shape)
}

// A ring does not lie over a card.
func TestNoRingLiesOverACard(t *testing.T) {
	w := taught(t, "lesson-broken-link")
	w.window.Resize(fyne.NewSize(1366, 768))
	w.lesson.Begin(7)
	cued(t, w, 2)
	_, shape := w.where("drive")
	assert.Equal(t, lessonview.Link, shape)
	w.table.ToggleBreakage()
	_, shape = w.where("drive")
	assert.Equal(t, lessonview.Unseen, shape)
	w.table.ToggleBreakage()
	w.linkage.Open(picture.LinkCapsules)
	seen := 0
	for _, name := range sim.LinkNames() {
		if _, shape := w.where(name); shape != lessonview.Unseen {
			seen++
		}
	}
	assert.Positive(t, seen)
	w.linkage.Shut()
	for _, name := range sim.LinkNames() {
		if _, shape := w.where(name); shape != lessonview.Unseen {
			seen--
		}
	}
	assert.Negative(t, seen, "without the card more is to be seen")
}
