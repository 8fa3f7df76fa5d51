package gui

import (
	"bytes"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/drill"
	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/training/score"
	"stillair/sim"
)

// oneScreen opens an exercise at which trainer and trainee sit by turns, the trainee
// sitting; the clock of the presses is the test's.
func oneScreen(t *testing.T, name string) (w *Window, pass func(time.Duration)) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Preferences().SetBool(keepOneScreen, true)
	w = openedIn(t, app, name, true)
	require.Nil(t, w.school.second, "as the last time")
	require.Equal(t, trainerStand, w.stands)
	now := time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC)
	w.school.clock = func() time.Time { return now }
	test.Tap(w.bar.seat)
	require.Equal(t, traineeFront, w.front)
	return w, func(d time.Duration) { now = now.Add(d) }
}

func (w *Window) tapTrainee(t *testing.T, name string) {
	t.Helper()
	k, ok := w.school.trainee.Named()[name].(*kit.Key)
	require.True(t, ok && k.Visible(), name)
	test.Tap(k)
}

// On one screen the trainee's seat holds no way to the truth, whoever has sat before, with
// the truth revealed and faults broken by the trainer.
func TestTheSeatOfOneScreenHoldsNoTruth(t *testing.T) {
	w, pass := oneScreen(t, "find-the-two")
	look := func() {
		t.Helper()
		seen := walk(w.school.trainee)
		assert.Empty(t, seen.found)
		assert.Greater(t, seen.steps, 3000, "it has looked")
		assert.Empty(t, walk(w.screen.Hints).found)
	}
	look()
	w.helm.GoTo(30 * 60 * sim.TicksPerSecond)
	until(t, w, "half an hour", func(m *helm.Moment) bool {
		return m.View.Tick == 30*60*sim.TicksPerSecond && m.Revealed != nil && len(m.Revealed.Faults) == 2
	})
	w.pull()
	look()
	w.press(fyne.KeyInsert)
	look()
	pass(time.Second)
	w.press(fyne.KeyInsert)
	require.Equal(t, trainerStand, w.stands)
	test.Tap(w.trainer.Named()["trainer-link-drive"].(*kit.Key))
	w.pull()
	look() // while the trainer sits, too
	w.press(fyne.KeyInsert)
	require.Equal(t, traineeFront, w.front)
	w.pull()
	look()
	w.tapTrainee(t, "report")
	look()
}

// Nothing of the trainer's is to be seen from the trainee's seat, and no key struck once,
// or twice at once, leads there.
func TestTheTraineeDoesNotSlipIntoTheTruth(t *testing.T) {
	w, pass := oneScreen(t, "find-the-two")
	seated := func(why string) {
		t.Helper()
		assert.Equal(t, traineeFront, w.front, why)
		assert.False(t, w.table.Content().Visible(), why)
		assert.False(t, w.bar.Visible(), why)
		for _, k := range w.bar.keys() {
			assert.False(t, k.Visible(), "%s: %s %s", why, k.Word, k.Hint)
		}
	}
	for _, d := range w.deeds {
		for _, k := range d.Keys {
			w.press(k)
			seated(d.Label)
			pass(time.Second)
			w.press(fyne.KeyEscape) // which forgets a first press
			pass(time.Second)
			seated(d.Label)
		}
	}
	w.stand(debriefStand)
	seated("by the shell")
	w.press(fyne.KeyInsert)
	pass(100 * time.Millisecond)
	w.press(fyne.KeyInsert)
	seated("struck twice at once")
	pass(latest + time.Second)
	w.press(fyne.KeyInsert)
	seated("too late")
	pass(soonest)
	w.press(fyne.KeyInsert)
	assert.Equal(t, tableFront, w.front)
	assert.Equal(t, trainerStand, w.stands)
}

// Held down, the key of the keyboard repeats; half a second is enough, a tap is not.
func TestTheKeyHeldLeadsToTheTrainer(t *testing.T) {
	w, pass := oneScreen(t, "find-the-two")
	for range 12 {
		w.press(fyne.KeyInsert)
		pass(30 * time.Millisecond)
	}
	assert.Equal(t, traineeFront, w.front)
	w.tapTrainee(t, "trainee-trainer")
	assert.Equal(t, traineeFront, w.front)
	pass(100 * time.Millisecond)
	w.tapTrainee(t, "trainee-trainer")
	assert.Equal(t, tableFront, w.front, "by mouse as by key")
}

// The trainee finds the seat as it was left: reports, log, plot by hand, the card that was
// open, the aid that was looked through; and the clock stood meanwhile.
func TestNothingIsLostWhileTheTrainerSits(t *testing.T) {
	w, pass := oneScreen(t, "find-the-two")
	assert.False(t, w.helm.Moment().Playing, "the task is read first")
	w.tapTrainee(t, "task-close")
	until(t, w, "the clock", func(m *helm.Moment) bool { return m.Playing && m.View.Tick > 0 })
	w.school.book.Write(&w.helm.Moment().View, "all well")
	w.tapTrainee(t, "by-hand")
	w.tapTrainee(t, "hand-plot")
	drift := w.school.trainee.Named()["aid-drift"].(*kit.Key)
	eventually(t, "what the aids offer", func() bool {
		w.pull()
		return drift.Reason == "" && drift.Under != " "
	})
	w.tapTrainee(t, "aid-drift")
	until(t, w, "the scene", func(m *helm.Moment) bool { return m.Scene != nil })
	aim := w.helm.Moment().Scene.Aim
	w.tapTrainee(t, "report")
	w.tapTrainee(t, "suspect-drive")
	seat := w.school.trainee
	w.tapTrainee(t, "trainee-trainer")
	pass(time.Second)
	w.tapTrainee(t, "trainee-trainer")
	until(t, w, "a standing clock", func(m *helm.Moment) bool { return !m.Playing })
	tick := w.helm.Moment().View.Tick
	w.toggleStand(navigatorStand) // an aid of the trainer's own
	w.toggleStand(tableStand)
	assert.Equal(t, tick, w.helm.Moment().View.Tick)
	w.press(fyne.KeyInsert)
	w.press(fyne.KeyInsert)
	require.Equal(t, traineeFront, w.front)
	until(t, w, "the clock again", func(m *helm.Moment) bool { return m.Playing })
	until(t, w, "the scene again", func(m *helm.Moment) bool { return m.Scene != nil && m.Scene.Aim == aim })
	assert.Same(t, seat, w.school.trainee)
	assert.Len(t, w.school.book.Lines, 1)
	assert.Len(t, w.school.book.Hands, 1)
	w.tapTrainee(t, "suspect-drive-slip") // of the report that was begun
	w.tapTrainee(t, "sure")
	require.Len(t, w.school.book.Reports, 1)
	assert.Equal(t, "drive-slip", w.school.book.Reports[0].Fault)
}

// A window for the trainee may be had instead at any time, and given up again; either may
// be closed, and what has been written stays.
func TestFromTwoWindowsToOneScreenAndBack(t *testing.T) {
	w := schoolroom(t, "find-the-two", true)
	require.NotNil(t, w.school.second)
	w.school.book.Report(score.Report{At: 0, Link: "drive", Sure: true})
	test.Tap(w.bar.seat)
	assert.Nil(t, w.school.second)
	assert.Equal(t, traineeFront, w.front)
	w.pull()
	w.school.rise()
	w.pull()
	w.press(fyne.KeyInsert)
	assert.Equal(t, traineeFront, w.front, "no window is open")
	w.school.rise()
	w.school.openSecond()
	require.NotNil(t, w.school.second)
	assert.False(t, w.school.here())
	w.pull()
	w.school.second.Close()
	assert.Nil(t, w.school.trainee)
	w.pull()
	test.Tap(w.bar.seat)
	assert.Equal(t, traineeFront, w.front)
	assert.Len(t, w.school.book.Reports, 1)
	assert.Empty(t, walk(w.school.trainee).found)
	assert.True(t, w.app.Preferences().Bool(keepOneScreen))
}

// After landing the marks come to the seat, and from there the way leads on.
func TestMarksComeToTheSeat(t *testing.T) {
	w, _ := oneScreen(t, "find-the-quiet-dial")
	w.helm.GoTo(1 << 40)
	until(t, w, "landing", func(m *helm.Moment) bool { return m.Over && m.Revealed != nil })
	w.pull()
	require.NotNil(t, w.school.sheet)
	w.tapTrainee(t, "leave")
	assert.Equal(t, tableFront, w.front)
	assert.Equal(t, debriefStand, w.stands)
}

// A flight whose file is edited goes on as it was: the trainee sits, or the trainer does.
func TestAnEditedFlightKeepsTheSeats(t *testing.T) {
	w, pass := oneScreen(t, "find-the-two")
	again := func() {
		t.Helper()
		f, err := flights.OpenShipped("find-the-two")
		require.NoError(t, err)
		w.reload(w.show, f, nil)
		require.NotNil(t, w.trainer)
		require.Nil(t, w.school.second)
		require.True(t, w.school.here())
		assert.Empty(t, walk(w.school.trainee).found)
	}
	again()
	assert.Equal(t, traineeFront, w.front)
	assert.False(t, w.table.Content().Visible())
	w.press(fyne.KeyInsert)
	pass(time.Second)
	w.school.rise()
	again()
	assert.Equal(t, trainerStand, w.stands)
	assert.Equal(t, tableFront, w.front)
}

// A sealed flight tells nothing before landing; then the faults and the seed, on the sheet
// and in the table.
func TestASealedFlightFlownToItsLanding(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	f, err := flights.OpenShipped("first-look")
	require.NoError(t, err)
	f, err = f.Seal(77)
	require.NoError(t, err)
	w, err := Open(test.NewTempApp(t), f)
	require.NoError(t, err)
	t.Cleanup(w.stop)
	require.Equal(t, traineeFront, w.front)
	w.helm.GoTo(60 * 60 * sim.TicksPerSecond)
	until(t, w, "an hour", func(m *helm.Moment) bool { return m.View.Tick == 60*60*sim.TicksPerSecond })
	w.pull()
	assert.Nil(t, w.school.sheet)
	assert.Empty(t, walk(w.school.trainee).found)
	w.helm.GoTo(1 << 40)
	until(t, w, "landing", func(m *helm.Moment) bool { return m.Over })
	w.pull()
	until(t, w, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	w.pull()
	require.NotNil(t, w.school.sheet)
	assert.NotEmpty(t, w.school.sheet.Found)
	told := w.school.sheet.Tell(drill.Chain())
	assert.Contains(t, told.Sealed, "77")
	assert.Contains(t, told.Found[0], "not reported")
	var table bytes.Buffer
	require.NoError(t, score.WriteCSV(&table, w.school.sheet))
	assert.Contains(t, table.String(), "\nseed,,,77,")
}
