package charttable

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/units"
)

// What is drawn with the rule, and the pins, are handed to whoever checks them; each change
// is told; a line is called something, rubbed out and brought back.
func TestWhatIsDrawnByHand(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-46.8, -179.5))
	told := 0
	tab.WhenDrawn(func() { told++ })
	tab.tools.rulePencil()
	require.Equal(t, 1, told)
	all, made := tab.Drawn()
	require.Len(t, all, 1)
	assert.Equal(t, tab.tools.say(rule), all[0].Measured)

	// a millimetre at 96 units to the inch is 3.78 units, here pixels
	v := tab.chart.view
	assert.InDelta(t, 96/25.4*v.MilesPerPixel(-46.9*units.Degree), all[0].PerMM.NM(), 1e-6)

	tab.CallDrawn(all[0], plotting.Name{What: plotting.WindDrawn}, "270/30")
	all, now := tab.Drawn()
	assert.Greater(t, now, made)
	assert.Equal(t, "270/30", all[0].Words)
	assert.True(t, tab.tools.drawn()[0].Meant)
	tab.ChooseDrawn(all[0].ID)
	assert.True(t, tab.tools.drawn()[0].Chosen)
	assert.False(t, tab.tools.onPaper()[0].Chosen)

	require.True(t, tab.pins.put(units.At(-46.9, 180)))
	all, _ = tab.Drawn()
	require.Len(t, all, 2)
	assert.Equal(t, "A", all[1].Mark)
	assert.Equal(t, units.At(-46.9, 180), all[1].Line.From)
	tab.CallDrawn(all[1], plotting.Name{What: plotting.AirMarked}, "")
	all, _ = tab.Drawn()
	assert.Equal(t, plotting.AirMarked, all[1].Means.What)
	tab.RubOut(all[1])
	tab.RubOut(all[0])
	all, _ = tab.Drawn()
	assert.Empty(t, all)
	require.True(t, tab.CanUndoPencil())
	tab.UndoPencil()
	all, _ = tab.Drawn()
	require.Len(t, all, 1)
	assert.Equal(t, "270/30", all[0].Words)
	assert.True(t, tab.RuleLaid())
	before := told
	tab.LayRule()
	assert.False(t, tab.RuleLaid())
	assert.Equal(t, before+1, told)
}

// The chart that is saved has the navigator's lines and what was drawn by hand, with a row of
// the key for it; how far apart they lie is seen on the chart alone.
func TestSavedChartHasBothPlots(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.5), units.At(-46.8, -179.5))
	assert.NotContains(t, written(t, tab), look.Text(look.KeyPencil))
	tab.tools.rulePencil()
	tab.Plot(Plotted{Lines: []picture.Line{{From: units.At(-47.2, 179.4), To: units.At(-46.6, 179.8), Label: "0942Z Gannet Rock"}}, Version: 1})
	texts := written(t, tab)
	for _, want := range []string{"0942Z Gannet Rock", tab.tools.say(rule), look.Text(look.KeyPencil)} {
		assert.Contains(t, texts, want)
	}
	tab.LayRule()
	plain := settled(tab).Pixels().Pix
	tab.ShowChecked([]plotting.Checked{{Worked: units.At(-47, 179.6), Hand: units.At(-46.7, 179.9)}})
	differ := 0
	for i, x := range settled(tab).Pixels().Pix {
		if x != plain[i] {
			differ++
		}
	}
	assert.Greater(t, differ, 100)
	tab.ShowChecked([]plotting.Checked{{Worked: units.At(-47, 179.6), Hand: units.At(-47, 179.6)}})
	assert.Equal(t, plain, settled(tab).Pixels().Pix, "nothing is apart")
}

// The words of pencil lines stand clear of one another.
func TestPencilWordsStandClear(t *testing.T) {
	tab := withTool(t, rule, units.At(-47, 179.2), units.At(-46.9, -179.8))
	tab.tools.rulePencil()
	tab.tools.ends[rule] = [2]units.Position{units.At(-46.95, 179.2), units.At(-46.85, -179.8)}
	tab.tools.rulePencil()
	tab.LayRule()
	settled(tab)
	require.Len(t, tab.tools.words, 2)
	assert.False(t, tab.tools.words[0].Overlaps(tab.tools.words[1]))
	for _, q := range tab.tools.words {
		assert.NotEqual(t, paint.Rect{}, q)
	}
}
