package charttable

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// Slews show at once and are one action: their sum.
func TestSlewsAddUpToOneAction(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, nil)
	east := tab.counters.slews[longitude]
	before := tab.moment.View.Air
	for _, k := range []int{5, 5, 4, 3, 0, 3, 2} { // +10 +10 +1 +0.1 -10 +0.1 -0.1 = 11.1
		east.keys[k].MouseDown(primary)
		east.keys[k].MouseUp(primary)
		test.Tap(east.keys[k])
	}
	assert.Empty(t, deeds(tab, aboard.SlewLongitude))
	assert.Equal(t, "E 178 41.1", tab.counters.shown.Longitude.Arc(), "30.0 and 11.1, before it is handed over")
	tab.air.release(longitude)
	assert.Equal(t, "E 178 41.1", tab.air.reading(tab.moment).Longitude.Arc(), "nor does it jump back on its way")
	wait(t, tab, h, "the slew", func(m *helm.Moment) bool { return m.View.Air.Lon != before.Lon })
	done := deeds(tab, aboard.SlewLongitude)
	require.Len(t, done, 1)
	assert.InDelta(t, 11.1, done[0].Slew.Minutes(), 1e-9)
	assert.Zero(t, tab.air.pending(longitude))
	assert.Equal(t, "E 178 41.1", tab.counters.shown.Longitude.Arc())
	assert.Equal(t, before.Lat, tab.moment.View.Air.Lat)
	assert.Contains(t, why(&tab.moment.View), "slewed by hand")
}

func TestKnobArrowsAndWheelSlew(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, nil)
	s := tab.counters.slews[latitude]
	s.knob = ringPlace{40, 40, 30, 1}
	at := func(deg float64) fyne.Position {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return fyne.NewPos(float32(40+25*sin), float32(40-25*cos))
	}
	for deg := 170.0; deg < 206; deg += 6 { // a tenth of a turn, clockwise over the foot: 1 minute north
		from, to := at(deg), at(deg+6)
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
	}
	assert.Equal(t, 10, tab.air.pending(latitude))
	s.DragEnd()
	s.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -125)})
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyUp, fyne.KeyPageUp, fyne.KeyLeft, fyne.KeyDown, fyne.KeyPageDown, fyne.KeyRight} {
		s.TypedKey(&fyne.KeyEvent{Name: k})
	}
	assert.Equal(t, 11, tab.air.pending(latitude)) // 10 - 1 + 1 + 1 + 10 + 100 - 1 - 10 - 100 + 1
	tab.air.release(latitude)
	caughtUp(t, tab, h)
	total := 0.0
	for _, a := range deeds(tab, aboard.SlewLatitude) {
		total += a.Slew.Minutes()
	}
	assert.InDelta(t, 1.1, total, 1e-9)
}

func TestSlewStopsAtThePole(t *testing.T) {
	tab, _, _ := opened(t, 1366, 704, nil)
	tab.air.turn(latitude, -1_000_000)
	assert.InDelta(t, -5400, tab.moment.View.Air.Lat.Minutes()+float64(tab.air.pending(latitude))/10, 0.1)
	tab.air.drop(latitude)
}

// The lever throws the letter over; the figures stay where they stand (the
// mechanism's own law). Other designs have no lever.
func TestLeverMirrorsTheDrums(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, func(p *sim.Plan) { p.Mechanism.Longitude = integrator.HemisphereLever })
	l := tab.counters.lever
	require.True(t, l.Visible())
	assert.Equal(t, "E 178 30.0", tab.counters.shown.Longitude.Arc())
	test.Tap(l)
	wait(t, tab, h, "the lever over", func(m *helm.Moment) bool { return !m.View.LeverEast })
	assert.Equal(t, "W 178 30.0", tab.counters.shown.Longitude.Arc())
	require.Len(t, deeds(tab, aboard.SetLongitudeLever), 1)
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	caughtUp(t, tab, h)
	assert.Len(t, deeds(tab, aboard.SetLongitudeLever), 1, "it stands there already")
	tab.counters.entry.SetText("47 S 178 E")
	assert.Equal(t, look.Text(look.LeverFirst), tab.counters.cover.reason)
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	wait(t, tab, h, "the lever back", func(m *helm.Moment) bool { return m.View.LeverEast })
	assert.Empty(t, tab.counters.cover.reason)
}

func TestOtherDesignsHaveNoLever(t *testing.T) {
	tab, _, _ := opened(t, 1366, 704, func(p *sim.Plan) { p.Mechanism.Longitude = integrator.East360 })
	assert.False(t, tab.counters.lever.Visible())
	assert.Equal(t, "178 30.0", tab.counters.shown.Longitude.Arc())
	tab.air.turn(longitude, 1000)
	assert.Equal(t, "180 10.0", tab.counters.shown.Longitude.Arc())
	tab.air.drop(longitude)
}

// The drums run for 600 ms, the short way over 180, and end on the very reading
// of the mechanism.
func TestDrumsRunToTheSetting(t *testing.T) {
	tab, h, clock := opened(t, 1366, 704, nil)
	h.Do(aboard.Action{Kind: aboard.SetCounters, Position: units.At(-47.5, -179)})
	wait(t, tab, h, "the counters set", func(m *helm.Moment) bool { return m.View.Air.Lon < 0 })
	v := &tab.moment.View
	assert.Equal(t, "E 178 30.0", tab.air.reading(tab.moment).Longitude.Arc(), "from where they stood")
	clock.pass(runTime / 2)
	assert.Equal(t, "E 179 45.0", tab.air.reading(tab.moment).Longitude.Arc(), "half of 2 30.0 on, over 180 later")
	assert.Equal(t, "S 47 20.0", tab.air.reading(tab.moment).Latitude.Arc())
	clock.pass(runTime/2 - time.Millisecond)
	assert.NotEqual(t, v.AirCounters, tab.air.reading(tab.moment))
	clock.pass(time.Millisecond)
	assert.Equal(t, v.AirCounters, tab.air.reading(tab.moment))
}

func TestReducedMotionSetsAtOnce(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, nil)
	tab.screen.ReducedMotion = true
	h.Do(aboard.Action{Kind: aboard.SetCounters, Position: units.At(-47.5, -179)})
	wait(t, tab, h, "the counters set", func(m *helm.Moment) bool { return m.View.Air.Lon < 0 })
	assert.Equal(t, tab.moment.View.AirCounters, tab.air.reading(tab.moment))
}

// A moment that is gone to is there at once.
func TestGoingToAMomentDoesNotRun(t *testing.T) {
	tab, h, _ := opened(t, 1366, 704, nil)
	h.GoTo(60 * 60 * sim.TicksPerSecond) // the crew of this flight sets the counters at 41 minutes
	wait(t, tab, h, "an hour", func(m *helm.Moment) bool { return m.View.Elapsed == time.Hour })
	require.NotEmpty(t, deeds(tab, aboard.SetCounters))
	assert.Equal(t, tab.moment.View.AirCounters, tab.air.reading(tab.moment))
}
