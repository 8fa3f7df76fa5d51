package atlas

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
)

// The window of a view covers it on every side, across 180 and zoomed out to the
// whole circle, and is usable.
func TestWindowCoversTheView(t *testing.T) {
	box := paint.R(20, 20, 1300, 900)
	for _, v := range []picture.View{
		{Centre: units.At(-47, 179.9), Scale: 330, Box: box}, {Centre: units.At(51, -179.9), Scale: 40, Box: box},
		{Centre: units.At(0, 0), Scale: box.W / 360, Box: box}, {Centre: units.At(83, 20), Scale: 900, Box: box},
	} {
		w := WindowOf(v)
		assert.Greater(t, w.East, w.West)
		assert.Greater(t, w.North, w.South)
		assert.LessOrEqual(t, w.East-w.West, 360*units.Degree)
		for _, p := range []paint.Point{paint.Pt(box.X, box.Y), paint.Pt(box.Right(), box.Bottom()), box.Centre()} {
			at := v.FromPixel(p)
			if at.Lat > overlay.Steepest || at.Lat < -overlay.Steepest {
				continue
			}
			assert.True(t, at.Lat >= w.South && at.Lat <= w.North, "%v %v", v, at)
			east := units.Wrap(at.Lon - w.West)
			assert.LessOrEqual(t, east, w.East-w.West, "%v %v", v, at)
		}
	}
}

func TestFiguresOnThePlates(t *testing.T) {
	assert.Equal(t, "42°30′", AltitudeText(42*60+30, true))
	assert.Equal(t, "05°00′", AltitudeText(299.9, true))
	assert.Equal(t, "42°22.5′", AltitudeText(42*60+22.5, false))
	assert.Equal(t, "43°00.0′", AltitudeText(42*60+59.96, false))
	assert.Equal(t, "1828.5", DelayText(1828.46))
}

// The chain of the waters: M, A, B in the order of the sheet.
func TestChain(t *testing.T) {
	plan, _, err := scenarios.Open("first-look")
	require.NoError(t, err)
	c, ok := ChainOf(plan)
	require.True(t, ok)
	assert.Equal(t, [3]string{"Skerrow", "Mollyhawk", "Teal Holm"}, [3]string{c[0].Name, c[1].Name, c[2].Name})
	plan.Stations = plan.Stations[:0]
	_, ok = ChainOf(plan)
	assert.False(t, ok)
}

// What is printed is what was worked: plates of the levels, one fix with its time
// and place, dots west of the curves.
func TestStarOverlay(t *testing.T) {
	v := picture.View{Centre: units.At(-47, -178.6), Scale: 330, Box: paint.R(20, 20, 1300, 900)}
	here := units.At(-47.2, -178.3)
	o := overlay.StarOrder{
		Sky:    overlay.Sky{Time: time.Date(1957, 8, 14, 10, 30, 0, 0, time.UTC), Near: here, Thin: 0.8},
		Window: WindowOf(v), Step: AltitudeStep(v),
	}
	s := overlay.Stars(o)
	o.Pair[0], o.Pair[1] = s.Pair.A.Body, s.Pair.B.Body
	for i, b := range o.Pair {
		o.Read[i] = overlay.ReadAt(o.Altitude(b, here))
	}
	s = overlay.Stars(o)
	p := StarOverlay(o, &s)
	require.Len(t, p.Crossings, 1, "the other place is half the world away")
	assert.Equal(t, []string{"fix 1030Z", "47 12.0 S 178 18.0 W"}, p.Crossings[0].Words)
	assert.False(t, p.Crossings[0].Open)
	assert.Equal(t, o.Pair[0].String()+" "+AltitudeText(o.Read[0].Value, false), p.Inks[0].Plate)
	for _, c := range p.Inks[1].Curves {
		assert.Regexp(t, `^\d\d°\d0′$`, c.Plate)
	}
	require.NotNil(t, p.Going)
	assert.InDelta(t, 2*15.041, (p.Going.From.Lon - p.Going.To.Lon).Minutes(), 0.01)
}

// Where two places fit, both ask which.
func TestTwoPlacesAskWhich(t *testing.T) {
	plan, _, err := scenarios.Open("first-look")
	require.NoError(t, err)
	c, _ := ChainOf(plan)
	o := overlay.LatticeOrder{Master: c[0].At, A: c[1].At, B: c[2].At}
	here := units.At(-44.8, 177.6) // behind A, near the extension of its baseline
	for i, pair := range o.Pairs() {
		o.Read[i] = overlay.ReadAt(pair.At(here).Microseconds())
	}
	o.Near = here
	s := overlay.Lattice(o)
	require.NoError(t, s.Err)
	require.Len(t, s.Fixes, 2)
	p := LatticeOverlay(o, &s, "1031Z")
	require.Len(t, p.Crossings, 2)
	for _, x := range p.Crossings {
		assert.True(t, x.Open)
		assert.Equal(t, "which?", x.Words[0])
	}
}

// The whole earth, and a window of a mile: lines are found, in good time and without
// harm; what is printed at the two ends of the scale has at most some hundred curves.
func TestOverlaysAtTheEndsOfTheScale(t *testing.T) {
	plan, _, err := scenarios.Open("first-look")
	require.NoError(t, err)
	c, _ := ChainOf(plan)
	here := units.At(-47.2, -178.3)
	box := paint.R(20, 20, 900, 560)
	for _, v := range []picture.View{
		{Centre: units.At(0, 180), Scale: box.W / 360, Box: box}, {Centre: here, Scale: 36000, Box: box},
		{Centre: units.At(84, 20), Scale: 900, Box: box}, {Centre: units.At(-84, -179), Scale: 20, Box: box},
	} {
		o := overlay.StarOrder{
			Sky:    overlay.Sky{Time: time.Date(1957, 8, 14, 10, 30, 0, 0, time.UTC), Near: here, Thin: 0.8},
			Window: WindowOf(v), Step: AltitudeStep(v), Read: [2]overlay.Read{overlay.ReadAt(2500), overlay.ReadAt(2500)},
		}
		s := overlay.Stars(o)
		require.NotNil(t, StarOverlay(o, &s))
		l := overlay.LatticeOrder{Master: c[0].At, A: c[1].At, B: c[2].At, Window: WindowOf(v), Near: here, Step: LatticeStep(v)}
		sheet := overlay.Lattice(l)
		for _, f := range append(s.Curve[:], sheet.Curve[:]...) {
			assert.Less(t, len(f.Curves), 120)
			for _, curve := range f.Curves {
				for _, line := range curve.Lines {
					for _, p := range line {
						require.False(t, math.IsNaN(float64(p.Lat)) || math.IsNaN(float64(p.Lon)))
					}
				}
			}
		}
	}
}
