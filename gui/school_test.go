package gui

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/training/score"
	"stillair/sim"
	"stillair/sim/fault"
)

// schoolroom opens an exercise without a display.
func schoolroom(t *testing.T, name string, trainer bool) *Window {
	t.Helper()
	return schoolroomOf(t, test.NewTempApp(t), name, trainer)
}

func schoolroomOf(t *testing.T, app fyne.App, name string, trainer bool) *Window {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	f, err := flights.OpenShipped(name)
	require.NoError(t, err)
	f.Trainer = trainer
	w, err := Open(app, f)
	require.NoError(t, err)
	t.Cleanup(w.stop)
	return w
}

// truths are what a trainee's window must not hold: the engine and what leads to it.
var truths = []reflect.Type{
	reflect.TypeFor[sim.Snapshot](), reflect.TypeFor[sim.Truth](), reflect.TypeFor[sim.Engine](), reflect.TypeFor[sim.Plan](),
	reflect.TypeFor[sim.TruePoint](), reflect.TypeFor[sim.FaultStatus](), reflect.TypeFor[fault.Order](),
	reflect.TypeFor[helm.Helm](), reflect.TypeFor[helm.Moment](), reflect.TypeFor[helm.Revealed](), reflect.TypeFor[flights.Flight](),
	reflect.TypeFor[score.Flown](), reflect.TypeFor[score.Sheet](), reflect.TypeFor[Window](), reflect.TypeFor[school](),
}

// walker walks through all that a value holds: fields, also those of others, through
// pointers, interfaces, lists and maps. A function is a door that shows nothing and is not
// opened.
type walker struct {
	seen  map[[2]uintptr]bool
	found map[reflect.Type]string
	steps int
}

func walk(x any) *walker {
	w := &walker{seen: map[[2]uintptr]bool{}, found: map[reflect.Type]string{}}
	w.at(reflect.ValueOf(x), "it")
	return w
}

func (w *walker) at(v reflect.Value, path string) {
	if !v.IsValid() || len(path) > 4000 {
		return
	}
	w.steps++
	for _, t := range truths {
		if v.Type() == t {
			w.found[t] = path
			return
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if key := [2]uintptr{v.Pointer(), reflect.ValueOf(v.Type()).Pointer()}; !v.IsNil() && !w.seen[key] {
			w.seen[key] = true
			w.at(v.Elem(), path)
		}
	case reflect.Interface:
		w.at(v.Elem(), path)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type() == reflect.TypeFor[kit.Screen]() && v.Type().Field(i).Name == "owed" {
				continue // the window's pictures, of any view, that are still to be drawn: none can ask for them
			}
			w.at(v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice, reflect.Array:
		if k := v.Type().Elem().Kind(); k == reflect.Uint8 || k == reflect.Float64 {
			return
		}
		for i := range v.Len() {
			w.at(v.Index(i), path+"[]")
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			w.at(v.MapIndex(k), path+"{}")
		}
	}
}

// The trainee's window holds no way to the truth, on this screen and in one of its own, in
// flight and with its cards open.
func TestTheTraineesWindowHoldsNoTruth(t *testing.T) {
	for _, trainer := range []bool{false, true} {
		w := schoolroom(t, "find-the-two", trainer)
		w.helm.GoTo(30 * 60 * sim.TicksPerSecond)
		w.helm.Reveal(trainer)
		until(t, w, "half an hour", func(m *helm.Moment) bool { return m.View.Tick == 30*60*sim.TicksPerSecond })
		w.pull()
		seen := walk(w.school.trainee)
		assert.Empty(t, seen.found)
		assert.Greater(t, seen.steps, 3000, "it has looked")
		assert.Empty(t, walk(w.school.book).found)
	}
}

// The same walk finds the truth where it is.
func TestTheWalkFindsWhatIsThere(t *testing.T) {
	w := schoolroom(t, "find-the-two", false)
	assert.NotEmpty(t, walk(w.table).found)
	assert.NotEmpty(t, walk(w.navigator.Content()).steps)
	assert.NotEmpty(t, walk(w.helm.Moment()).found)
}

// Alone, no key of the keyboard leads from the trainee's window to the truth.
func TestTheTraineeAloneStaysInTheSeat(t *testing.T) {
	withAnAccount(t)
	w := schoolroom(t, "find-the-quiet-dial", false)
	assert.Equal(t, traineeFront, w.front)
	assert.False(t, w.helm.Moment().Playing, "the task is read first")
	for _, d := range w.deeds {
		for _, k := range d.Keys {
			w.press(k)
			w.press(fyne.KeyEscape)
			assert.Equal(t, traineeFront, w.front, "%s", d.Label)
			assert.False(t, w.table.Content().Visible(), "%s", d.Label)
			assert.False(t, w.bar.reveal.Visible(), "%s", d.Label)
		}
	}
	w.stand(debriefStand)
	assert.Equal(t, traineeFront, w.front)
}

func TestMarksComeWithTheLanding(t *testing.T) {
	w := schoolroom(t, "find-the-quiet-dial", false)
	w.helm.GoTo(14 * 60 * sim.TicksPerSecond)
	until(t, w, "14 min", func(m *helm.Moment) bool { return m.View.Tick == 14*60*sim.TicksPerSecond })
	w.pull()
	parts := func() map[string]fyne.CanvasObject { return w.school.trainee.Named() }
	tap := func(name string) {
		k, ok := parts()[name].(*kit.Key)
		require.True(t, ok && k.Visible(), name)
		test.Tap(k)
	}
	tap("report")
	tap("suspect-air data")
	tap("suspect-pitot-ram-blocked")
	tap("sure")
	require.Len(t, w.school.book.Reports, 1)
	assert.Equal(t, "pitot-ram-blocked", w.school.book.Reports[0].Fault)
	tap("by-hand")
	tap("hand-plot")
	require.NotNil(t, w.school.book.ByHand(w.helm.Moment().View.Elapsed))
	assert.Nil(t, w.school.sheet)
	w.helm.GoTo(1 << 40)
	until(t, w, "landing", func(m *helm.Moment) bool { return m.Over })
	w.pull()
	until(t, w, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	w.pull()
	require.NotNil(t, w.school.sheet)
	assert.Equal(t, 60.0, w.school.sheet.Marks[score.Detection].Got+w.school.sheet.Marks[score.Link].Got+w.school.sheet.Marks[score.Fault].Got)
	tap("save-page")
	tap("save-table")
	saved, err := os.ReadDir(flights.MarksFolder())
	require.NoError(t, err)
	require.Len(t, saved, 2)
	text, err := os.ReadFile(filepath.Join(flights.MarksFolder(), saved[0].Name()))
	require.NoError(t, err)
	assert.NotEmpty(t, text)
	leave, ok := parts()["leave"].(*kit.Key)
	require.True(t, ok && leave.Visible())
	assert.Equal(t, traineeFront, w.home())
	w.school.left = true // which that key does, and then goes to the debrief
	assert.Equal(t, tableFront, w.home())
}

// Either window may be closed; the exercise goes on, and the trainee's opens again.
func TestEitherWindowCloses(t *testing.T) {
	w := schoolroom(t, "find-the-two", true)
	require.NotNil(t, w.school.second)
	assert.Equal(t, tableFront, w.front)
	w.school.second.Close()
	assert.Nil(t, w.school.trainee)
	w.helm.Step(16)
	until(t, w, "a second", func(m *helm.Moment) bool { return m.View.Tick >= 16 })
	w.pull()
	w.school.openSecond()
	require.NotNil(t, w.school.trainee)
	w.pull()
	f, err := flights.OpenShipped("first-look")
	require.NoError(t, err)
	w.fly(f)
	assert.Nil(t, w.school)
}

// The trainer breaks a link, the trainee's window shows nothing of it, marks and events
// follow, and a minute is taken back with what was written in it.
func TestTheTrainersSide(t *testing.T) {
	w := schoolroom(t, "find-the-two", true)
	assert.Equal(t, trainerStand, w.stands)
	until(t, w, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	w.helm.GoTo(25 * 60 * sim.TicksPerSecond)
	until(t, w, "25 min", func(m *helm.Moment) bool { return m.View.Tick == 25*60*sim.TicksPerSecond })
	w.pull()
	require.NotNil(t, w.trainer.Sheet())
	assert.Len(t, w.trainer.Sheet().Found, 2)
	assert.False(t, w.trainer.Sheet().Ended)
	at := w.helm.Moment().View.Elapsed
	w.school.book.Report(score.Report{At: at, Link: "drive", Fault: "drive-slip", Sure: true})
	w.helm.Step(30 * sim.TicksPerSecond)
	until(t, w, "half a minute", func(m *helm.Moment) bool { return m.View.Elapsed > at })
	w.pull()
	assert.Equal(t, 0, w.trainer.Sheet().False)
	assert.GreaterOrEqual(t, w.trainer.Sheet().Found[1].First, 0)
	parts := w.trainer.Named()
	test.Tap(parts["trainer-link-resolver"].(*kit.Key))
	assert.True(t, w.table.BreakageOpen())
	before := w.helm.Moment().View.Elapsed
	test.Tap(parts["trainer-again"].(*kit.Key))
	until(t, w, "a minute before", func(m *helm.Moment) bool { return m.View.Elapsed < before && !m.Playing })
	w.pull()
	assert.Equal(t, before-time.Minute, w.helm.Moment().View.Elapsed)
	assert.Empty(t, w.school.book.Reports)
	assert.Empty(t, walk(w.school.trainee).found)
}

// Every key of the trainer's view is as wide as its word needs, at the least size too.
func TestTheTrainersKeysFit(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1366, Height: 768}, {Width: 1920, Height: 1080}} {
		w := schoolroom(t, "find-the-two", true)
		w.window.Resize(size)
		w.pull()
		n := 0
		for name, o := range w.trainer.Named() {
			if k, ok := o.(*kit.Key); ok && k.Under == "" {
				n++
				assert.GreaterOrEqual(t, k.Size().Width, k.Needs()-1, name)
			}
		}
		assert.Equal(t, 8, n)
		assert.Less(t, w.bar.flight.Position().X+w.bar.flight.Size().Width, w.bar.reveal.Position().X)
	}
}
