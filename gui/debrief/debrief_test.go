package debrief

import (
	"bytes"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// desk is the view of a flight, and what waits to be done on the toolkit's
// goroutine.
type desk struct {
	*View
	h    *helm.Helm
	come chan func()
}

func deskOf(t *testing.T, w, h float32) *desk {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	plan, _, err := scenarios.Open("slipping-drive")
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	d := &desk{h: helm.New(e), come: make(chan func(), 8)}
	t.Cleanup(d.h.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: w, H: h}
	screen.Hints = kit.NewHints(screen)
	d.View = New(d.h, plan, screen)
	d.onMain = func(do func()) { d.come <- do }
	window := test.NewTempWindow(t, nil)
	window.SetPadded(false)
	window.SetContent(d.Content())
	window.Resize(fyne.NewSize(w, h-200)) // bar and strip have the rest
	return d
}

// flyTo flies and takes up the account of it.
func (d *desk) flyTo(t *testing.T, tick int64) {
	t.Helper()
	d.h.GoTo(tick)
	require.Eventually(t, func() bool { return d.h.Moment().View.Tick == tick }, 2*time.Minute, time.Millisecond)
	d.Apply(d.h.Moment())
	d.settle(t)
}

// settle waits for what was asked for.
func (d *desk) settle(t *testing.T) {
	t.Helper()
	select {
	case do := <-d.come:
		do()
	case <-time.After(2 * time.Minute):
		require.Fail(t, "no account came")
	}
}

func (d *desk) row(t *testing.T, id string) int {
	t.Helper()
	for i, r := range d.rows {
		if r.ID == id {
			return i
		}
	}
	require.Fail(t, "no row "+id)
	return -1
}

const fifty = 50 * sim.MinuteTicks

func TestLinksArePulledOutAndPutBack(t *testing.T) {
	d := deskOf(t, 1920, 1080)
	d.Apply(d.h.Moment())
	d.settle(t) // of a flight that has not begun
	d.flyTo(t, fifty)
	all := d.shown.NM()
	drive := d.row(t, "drive")
	assert.Greater(t, all, 1.0)
	assert.NotEmpty(t, d.keys[0].Spoken())
	test.Tap(d.spots[drive])
	d.settle(t)
	assert.True(t, d.shown.Parts[d.row(t, "drive")].Right)
	assert.Less(t, d.shown.NM(), all/2)
	assert.NotEmpty(t, d.shown.If)
	d.spots[drive].FocusGained()
	assert.Contains(t, d.spoken(drive), "put the drive back")
	d.spots[drive].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.InDelta(t, all, d.shown.NM(), 1e-12, "put back at once")
	test.Tap(d.spots[drive])
	d.settle(t)
	test.Tap(d.keys[0])
	assert.InDelta(t, all, d.shown.NM(), 1e-12)
	test.Tap(d.spots[d.row(t, "earth")])
	assert.InDelta(t, all, d.shown.NM(), 1e-12, "nobody is to blame for the earth")
	assert.Empty(t, d.right)
}

// TestTheAccountIsOfTheMoment: going back shows the account of that minute from what
// is known already; acting asks for another one.
func TestTheAccountIsOfTheMoment(t *testing.T) {
	d := deskOf(t, 1920, 1080)
	d.flyTo(t, fifty)
	late := d.shown.NM()
	d.h.GoTo(30 * sim.MinuteTicks)
	require.Eventually(t, func() bool { return d.h.Moment().View.Tick == 30*sim.MinuteTicks }, 2*time.Minute, time.Millisecond)
	d.Apply(d.h.Moment())
	assert.False(t, d.asked)
	assert.Less(t, d.shown.NM(), late)
	assert.InDelta(t, 30, d.shown.Minute, 1e-9)
	made := d.made
	d.Apply(d.h.Moment())
	assert.Equal(t, made, d.made, "nothing is made anew for a moment of the same minute")

	d.h.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 0, Speed: 50 * units.Knot}})
	require.Eventually(t, func() bool { return d.h.Moment().Deeds == 1 }, 2*time.Minute, time.Millisecond)
	d.Apply(d.h.Moment())
	assert.True(t, d.asked)
	d.settle(t)
	assert.EqualValues(t, 30*sim.MinuteTicks, d.told.Tick, "what came after is no more")
	assert.False(t, d.asked)
}

// TestRowsLieUnderTheHand at every size, and small windows have two pages.
func TestRowsLieUnderTheHand(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 720}, {Width: 1366, Height: 768}, {Width: 1920, Height: 1080}} {
		d := deskOf(t, size.Width, size.Height)
		d.flyTo(t, fifty)
		last := float32(0)
		for i := range d.rows {
			s := d.spots[i]
			require.True(t, s.Visible())
			assert.GreaterOrEqual(t, s.Position().Y, last)
			last = s.Position().Y + s.Size().Height
			assert.NotEmpty(t, d.spoken(i))
		}
		assert.LessOrEqual(t, last, d.content.Size().Height)
		assert.False(t, d.spots[len(d.rows)].Visible())
		assert.Equal(t, size.Width < 1536, d.Pages() > 1)
		if d.Pages() > 1 {
			d.turnPage()
			assert.False(t, d.spots[0].Visible(), "the table is on the other page")
		}
	}
}

func TestPageOfTheDebrief(t *testing.T) {
	d := deskOf(t, 1366, 768)
	var page bytes.Buffer
	require.ErrorContains(t, d.Page()(&page, paint.SVGFile), look.Text(look.AccountNone))
	d.flyTo(t, fifty)
	require.NoError(t, d.Page()(&page, paint.SVGFile))
	assert.Contains(t, page.String(), d.shown.When)
	assert.NotContains(t, page.String(), look.Text(look.AccountTouch), "paper is not touched")
}
