package charttable

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// withTool lays a tool between two places.
func withTool(t *testing.T, which tool, a, b units.Position) *Table {
	t.Helper()
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	tab, _ := table(t, 1366, 704)
	settled(tab)
	tab.layTool(which)
	tab.tools.ends[which] = [2]units.Position{a, b}
	return tab
}

// The rule says the rhumb line's direction and miles: one degree of the equator of
// WGS-84 is 6378137 pi/180/1852 NM = 60.107; across the date line the short way; a
// degree of latitude about 47 S is 60.03 NM (GeographicLib's RhumbSolve gives 46.5 S
// to 47.5 S as 111164.0 m, from memory of its meridian arc).
func TestRuleMeasuresRhumbLines(t *testing.T) {
	for _, c := range []struct {
		a, b  units.Position
		words string
	}{
		{units.At(0, 0), units.At(0, 1), "090T  60.1 NM"},
		{units.At(0, 179.5), units.At(0, -179.5), "090T  60.1 NM"},
		{units.At(0, -179.5), units.At(0, 179.5), "270T  60.1 NM"},
		{units.At(-46.5, 180), units.At(-47.5, 180), "180T  60.0 NM"},
	} {
		tab := withTool(t, rule, c.a, c.b)
		assert.Equal(t, c.words, tab.tools.say(rule))
	}
}

// The protractor reads its arm true, and magnetic by the variation set: 24 E is taken
// off, variation east, magnetic least.
func TestProtractorReadsTrueAndMagnetic(t *testing.T) {
	tab := withTool(t, protractor, units.At(0, 179.9), units.At(0, -179.9))
	moment := *tab.moment
	moment.View.VariationSet = 24 * units.Variation(units.Degree)
	tab.moment = &moment
	assert.Equal(t, "090T  066M", tab.tools.say(protractor))
}

// Dividers carried by their hinge keep their opening on paper: the same opening is
// half the miles in 60 degrees of latitude as on the equator, but for the flattening
// (cos 60; WGS-84 within half a per cent).
func TestDividersKeepTheirOpening(t *testing.T) {
	tab := withTool(t, dividers, units.At(0, 10), units.At(0, 11))
	s := tab.tools
	v := picture.View{Centre: units.At(30, 10), Scale: 20, Box: tab.chart.view.Box}
	tab.chart.view = v
	_, before := picture.Ruled(s.ends[dividers][0], s.ends[dividers][1])
	to := v.ToPixel(units.At(60, 10)).Add(s.at(dividers, hinge, v).X-v.ToPixel(units.At(0, 10)).X, s.at(dividers, hinge, v).Y-v.ToPixel(units.At(0, 10)).Y)
	s.move(dividers, hinge, to, v)
	assert.InDelta(t, 60, s.ends[dividers][0].Lat.Degrees(), 1e-6)
	_, after := picture.Ruled(s.ends[dividers][0], s.ends[dividers][1])
	assert.InDelta(t, 0.5, float64(after/before), 0.0025)
	// One foot moved changes the opening, and only that foot.
	foot := s.ends[dividers][0]
	s.move(dividers, second, v.ToPixel(units.At(60, 12)), v)
	assert.InDelta(t, foot.Lat.Degrees(), s.ends[dividers][0].Lat.Degrees(), 1e-9)
	_, wider := picture.Ruled(s.ends[dividers][0], s.ends[dividers][1])
	assert.InDelta(t, 2, float64(wider/after), 0.001)
}

// A tool is taken hold of at its grips and dragged, not the chart under it; where
// there is no grip the chart is dragged.
func TestToolsAreDragged(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-47, -179.5))
	c, s := tab.chart, tab.tools
	view := c.view
	from := c.view.ToPixel(s.ends[rule][1])
	k := float32(c.device())
	drag := func(x, y, dx, dy float64) {
		c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x+dx)/k, float32(y+dy)/k)}, Dragged: fyne.NewDelta(float32(dx)/k, float32(dy)/k)})
		c.DragEnd()
	}
	drag(from.X+4, from.Y-3, 20, 30)
	assert.Equal(t, view, c.view, "the chart stays")
	to := c.view.ToPixel(s.ends[rule][1])
	assert.InDelta(t, from.X+20, to.X, 0.01)
	assert.InDelta(t, from.Y+30, to.Y, 0.01)
	assert.InDelta(t, -47, s.ends[rule][0].Lat.Degrees(), 1e-9, "the other end stays")
	drag(c.view.Box.X+20, c.view.Box.Bottom()-20, 10, 0)
	assert.NotEqual(t, view, c.view)
}

// A touch on the plate of the rule leaves a line, which stays when the rule goes; a
// touch on its words rubs it out.
func TestPencilLines(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-46.8, -179.5))
	s, c := tab.tools, tab.chart
	settled(tab)
	require.True(t, s.tapped(c.view.FromPixel(s.plate.Centre())))
	require.Len(t, s.pencil.Lines(), 1)
	words := s.say(rule)
	assert.Equal(t, words, s.pencil.Lines()[0].Words)
	require.True(t, s.tapped(c.view.FromPixel(s.plate.Centre())))
	assert.Empty(t, s.pencil.Lines(), "again: rubbed out")
	s.rulePencil()
	s.ends[rule] = [2]units.Position{units.At(-46.5, 179.5), units.At(-46.4, -179.5)}
	tab.layTool(rule)
	settled(tab)
	require.Len(t, s.words, 1)
	assert.Equal(t, words, s.pencil.Lines()[0].Words, "a line says what it was")
	assert.False(t, s.tapped(c.view.FromPixel(s.words[0].Centre().Add(0, 80))))
	assert.True(t, s.tapped(c.view.FromPixel(s.words[0].Centre())))
	assert.Empty(t, s.pencil.Lines())
}

// The keyboard lays tools, reaches their grips and moves them by a mile.
func TestToolsByKeyboard(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-47, -179.8))
	s := tab.tools
	require.True(t, kit.Perform(tab.Deeds(), fyne.KeyF5, false))
	require.True(t, kit.Perform(tab.Deeds(), fyne.KeyF6, false))
	assert.Equal(t, [toolCount]bool{true, true, true}, s.laid)
	s.place()
	seen := 0
	for _, p := range s.spots {
		if p.Visible() {
			seen++
		}
	}
	assert.Equal(t, 7, seen)
	before := s.ends[rule][0]
	s.spots[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	_, moved := picture.Ruled(before, s.ends[rule][0])
	assert.InDelta(t, 1, moved.NM(), 1e-6)
	assert.Greater(t, s.ends[rule][0].Lat, before.Lat)
	s.spots[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Len(t, s.pencil.Lines(), 1)
	assert.Contains(t, s.spots[0].Spoken(), s.say(rule))
	require.True(t, kit.Perform(tab.Deeds(), fyne.KeyF4, false))
	assert.False(t, s.laid[rule] || s.spots[0].Visible())
}

// A tool that has been left out of sight is brought back into it.
func TestToolsComeIntoSight(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-47, -179.8))
	tab.layTool(rule)
	tab.chart.view.Centre = units.At(30, 20)
	tab.layTool(rule)
	v := tab.chart.view
	for _, p := range tab.tools.ends[rule] {
		assert.True(t, v.Box.Contains(v.ToPixel(p)))
	}
}

// Each tool is drawn, in every light.
func TestToolsAreDrawn(t *testing.T) {
	for _, variant := range []look.Variant{look.Paper, look.Night} {
		for which := range toolCount {
			tab := withTool(t, which, units.At(-46.9, 179.6), units.At(-46.8, -179.8))
			tab.screen.Palette = look.Of(variant)
			with := settled(tab)
			tab.layTool(which)
			without, differ := settled(tab), 0
			for i, v := range with.Pixels().Pix {
				if v != without.Pixels().Pix[i] {
					differ++
				}
			}
			assert.Greater(t, differ, 4000, "%v", which)
		}
	}
}
