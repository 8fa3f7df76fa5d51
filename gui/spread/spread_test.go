package spread

import (
	"bytes"
	"sync/atomic"
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
	d.Begin()
	assert.Equal(t, look.Text(look.SpreadStop), d.fly.Word)
	test.Tap(d.many) // while they fly: begins anew
	assert.Equal(t, "100 flights", d.many.Word)
	assert.Equal(t, look.Text(look.SpreadStop), d.fly.Word)
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
	d.Begin()
	assert.Nil(t, d.cancel, "they have been flown")
}

// TestTheCloudGrows: what has been flown is shown while the rest is flown.
func TestTheCloudGrows(t *testing.T) {
	d := deskOf(t)
	var seconds atomic.Int64
	d.clock = func() time.Time { return time.Unix(seconds.Add(1), 0) }
	test.Tap(d.many) // 1000
	d.Begin()
	d.until(t, "some shown", func() bool { return d.shown != nil })
	assert.NotNil(t, d.cancel)
	few := d.shown.Flights
	assert.Less(t, few, 1000)
	assert.Len(t, d.shown.Dots, few)
	d.until(t, "more shown", func() bool { return d.shown.Flights > few })
	d.press()
	d.until(t, "stopped", func() bool { return d.cancel == nil })
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
