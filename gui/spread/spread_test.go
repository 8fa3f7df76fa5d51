package spread

import (
	"bytes"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// desk is the view of ten minutes of a flight, and what waits to be done on the
// toolkit's goroutine.
type desk struct {
	*View
	come chan func()
}

func deskOf(t *testing.T) *desk {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	plan, src, err := scenarios.Open("first-look")
	require.NoError(t, err)
	plan.Legs = plan.Legs[:1]
	plan.Legs[0].Ticks = sim.TicksOf(10 * time.Minute)
	d := &desk{come: make(chan func(), 4096)}
	d.View = New(plan, src.Spread, &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768})
	d.onMain = func(do func()) { d.come <- do }
	window := test.NewTempWindow(t, d.Content())
	window.Resize(fyne.NewSize(1366, 560))
	return d
}

// until does what has come until something is so.
func (d *desk) until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	end := time.After(4 * time.Minute)
	for !ok() {
		select {
		case do := <-d.come:
			do()
		case <-end:
			require.Fail(t, "never: "+what)
		}
	}
}

func TestManyAreFlownAndShown(t *testing.T) {
	d := deskOf(t)
	assert.Equal(t, look.Text(look.SpreadOrdinary), d.which.Word)
	var page bytes.Buffer
	require.Error(t, d.Page()(&page, paint.SVGFile))
	test.Tap(d.which)
	assert.Equal(t, look.Text(look.SpreadNeglected), d.which.Word)
	test.Tap(d.many)
	test.Tap(d.many)
	assert.Equal(t, "100 flights", d.many.Word)
	test.Tap(d.fly)
	assert.Equal(t, look.Text(look.SpreadStop), d.fly.Word)
	test.Tap(d.many)
	assert.Equal(t, "100 flights", d.many.Word, "not while they fly")
	d.until(t, "some flown", func() bool { return d.done > 0 })
	assert.Contains(t, d.told(), "left")
	d.until(t, "all flown", func() bool { return d.cancel == nil })
	require.NotNil(t, d.shown)
	assert.Equal(t, 100, d.shown.Flights)
	assert.Len(t, d.shown.Dots, 100)
	assert.NotEmpty(t, d.shown.Shares)
	assert.Empty(t, d.told())
	require.NoError(t, d.Page()(&page, paint.SVGFile))
	assert.Contains(t, page.String(), look.Text(look.Caution))
}

// TestStoppedKeepsWhatWasFlown: and a view that goes takes nothing up any more.
func TestStoppedKeepsWhatWasFlown(t *testing.T) {
	d := deskOf(t)
	d.count = 2
	test.Tap(d.fly)
	d.until(t, "a few flown", func() bool { return d.done > 40 })
	test.Tap(d.fly)
	d.until(t, "stopped", func() bool { return d.cancel == nil })
	require.NotNil(t, d.shown)
	assert.Less(t, d.shown.Flights, 1000)
	assert.Greater(t, d.shown.Flights, 1)
	test.Tap(d.fly)
	before := d.shown
	d.Stop()
	last := <-d.come
	for last != nil {
		last()
		select {
		case last = <-d.come:
		case <-time.After(2 * time.Second):
			last = nil
		}
	}
	assert.Equal(t, before, d.shown)
}

func TestTimeLeftInWords(t *testing.T) {
	assert.Equal(t, "12 s", look.TimeLeft(11.2))
	assert.Equal(t, "2 min", look.TimeLeft(95))
}
