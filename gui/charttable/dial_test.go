package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

func TestDialsSpeak(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	v := &tab.moment.View
	v.AirCounters = aboard.Counters{Latitude: counter.Latitude(-(47*60 + 28.5)), Longitude: counter.Hemisphere(-(179*60 + 13.2))}
	v.AirLogCounter = counter.Miles(241.3)
	v.Heading, v.Compass = units.TrueHeading(268*units.Degree), units.CompassHeading(5*units.Degree)
	v.TAS, v.IAS, v.PressureAltitude, v.AirTemperature = 178*units.Knot, 158*units.Knot, 8000*units.Foot, units.Celsius(-1)
	tab.wind.value = units.Wind{From: 307 * units.Degree, Speed: 32 * units.Knot}
	tab.variation.value, tab.variation.follows = units.Variation(-23.5*units.Degree), true
	for want, d := range map[string]interface{ Spoken() string }{
		"air position, south 47 degrees 28.5 minutes, west 179 degrees 13.2 minutes": tab.position,
		"air log counter, 241.3 nautical miles":                                      tab.airLog,
		"true heading, 268 degrees":                                                  tab.heading,
		"true airspeed, 178 knots":                                                   tab.speed,
		"wind set, from 307 degrees true, 32 knots":                                  tab.wind,
		"variation set, 23.5 degrees west, follows the field":                        tab.variation,
		"pressure altitude, 8000 feet":                                               tab.small[0],
		"thermometer, minus 1 degrees Celsius":                                       tab.small[1],
		"indicated airspeed, 158 knots":                                              tab.small[2],
		"standby compass, 5 degrees":                                                 tab.small[3],
	} {
		assert.Equal(t, want, d.Spoken())
	}
	assert.Equal(t, "north 0 degrees 0.3 minutes", spokenArc(counter.Latitude(0.34)), "what the drums have passed")
	assert.Equal(t, "east 180 degrees 46.8 minutes", spokenArc(counter.East360(180*60+46.8)), "no letter: it counts east")
	assert.Equal(t, "wind set, none", spokenWind(units.Wind{}))
}

// Tab goes through all cards of the column, each with its ring outside it and
// nothing else of the column under the ring.
func TestTabGoesThroughTheColumn(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	c := tab.canvas()
	assert.Contains(t, tab.content.Objects, fyne.CanvasObject(tab.ring.Rectangle), "the toolkit draws only what it knows")
	reached := map[fyne.CanvasObject]bool{}
	for range 60 {
		c.(interface{ FocusNext() }).FocusNext()
		o := c.Focused()
		if o == nil {
			continue
		}
		for _, d := range tab.column() {
			if o != fyne.Focusable(d.(fyne.Focusable)) {
				continue
			}
			reached[d] = true
			require.True(t, tab.ring.Visible())
			card, ring := boxOf(d), boxOf(tab.ring)
			assert.Equal(t, box{card.x - 6, card.y - 6, card.w + 12, card.h + 12}, ring)
			for _, other := range tab.column() {
				b := boxOf(other)
				apart := ring.x+ring.w <= b.x || b.x+b.w <= ring.x || ring.y+ring.h <= b.y || b.y+b.h <= ring.y
				assert.True(t, apart || other == d, "the ring lies on the next card")
			}
		}
	}
	assert.Len(t, reached, len(tab.column()))
	c.Unfocus()
	assert.False(t, tab.ring.Visible())
}

func TestDialPassesOnWhatItDoesNotUse(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	var passed []fyne.KeyName
	tab.screen.Keys = func(e *fyne.KeyEvent) { passed = append(passed, e.Name) }
	tab.heading.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	tab.wind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyN})
	assert.Equal(t, []fyne.KeyName{fyne.KeySpace, fyne.KeyN}, passed)
	tab.position.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.True(t, tab.counters.open)
	assert.False(t, tab.position.Visible())
}

// What was set stays in sight until the log has it, and gives way to a refusal.
func TestSetterDoesNotJumpBack(t *testing.T) {
	tab, h := table(t, 1366, 704)
	for range 4 {
		tab.wind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	old := tab.moment
	tab.wind.release()
	tab.Apply(old)
	assert.Equal(t, "295/31", tab.wind.value.String())
	wait(t, tab, h, "the wind", func(m *helm.Moment) bool { return len(m.View.Log) > len(old.View.Log) })
	assert.Equal(t, "295/31", tab.moment.View.WindSet.String())
	assert.False(t, tab.wind.busy())
	h.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: units.Degree, Speed: 9 * units.Knot}})
	wait(t, tab, h, "another's wind", func(m *helm.Moment) bool { return m.View.WindSet.String() == "001/09" })
	assert.Equal(t, "001/09", tab.wind.value.String(), "free for others again")
}

func TestHandedEnds(t *testing.T) {
	tab, _ := table(t, 1366, 704)
	h := handed{actions: []aboard.Kind{aboard.SlewLatitude, aboard.SlewLatitude}, log: 1}
	m := &helm.Moment{}
	m.View.Log = []aboard.Entry{{}, {Action: aboard.Action{Kind: aboard.SlewLatitude}}}
	assert.True(t, h.waits(m), "one of two")
	m.Refusal = "the flight has ended"
	assert.False(t, h.waits(m))
	h = handed{actions: []aboard.Kind{aboard.SetWind}, log: 3}
	assert.False(t, h.waits(m), "gone back beyond its start")
	_ = tab
}

// At large sizes the wind has keys for the speed, clear of ring and knob.
func TestWindKeys(t *testing.T) {
	small, _ := table(t, 1366, 704)
	assert.False(t, small.wind.keys[0].Visible())
	tab, h := table(t, 1920, 1008)
	w := tab.wind
	require.True(t, w.keys[0].Visible())
	card := boxOf(w)
	for _, k := range w.keys {
		b := boxOf(k)
		assert.Equal(t, float32(kit.Target), b.w)
		assert.True(t, b.x >= card.x && b.y >= card.y && b.x+b.w <= card.x+card.w && b.y+b.h <= card.y+card.h)
	}
	z := tab.screen.Size(1)
	x, y, r := w.fit(float64(card.w), float64(card.h), z)
	for _, k := range w.keys {
		b := boxOf(k)
		dx := max(float64(b.x-card.x)-x, 0, x-float64(b.x+b.w-card.x))
		dy := max(float64(b.y-card.y)-y, 0, y-float64(b.y+b.h-card.y))
		assert.GreaterOrEqual(t, dx*dx+dy*dy, 1.17*r*1.17*r, "the knob goes round without touching a key")
	}
	assert.Greater(t, r, 50.0)
	w.keys[1].MouseDown(primary)
	w.keys[1].MouseUp(primary)
	w.keys[1].MouseDown(primary)
	w.keys[1].MouseUp(primary)
	assert.Equal(t, "295/29", w.value.String())
	w.release()
	wait(t, tab, h, "the wind", func(m *helm.Moment) bool { return m.View.WindSet.String() == "295/29" })
}
