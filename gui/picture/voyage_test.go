package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

func recordVoyage(t *testing.T, truth, goal *units.Position) (*paint.Record, View) {
	t.Helper()
	p := testPlot()
	p.Marks = p.Marks[:24] // before the counters are set
	last := p.Marks[23]
	p.Air, p.Ground, p.Marker = last.Air, last.Ground, last.Ground
	marker := units.Position(p.Marker)
	marker.Lat -= 20 * units.ArcMinute
	p.Marker = units.GroundPosition(marker)
	y := Voyage{Plot: p, Words: VoyageWords{"air", "wind", "marker", "truth"}, Large: 1.3, Text: 28, Miss: true}
	if truth != nil {
		y.Plot.Truth = &Truth{Position: *truth, Track: []units.Position{units.At(-47.25, 179), *truth}}
	}
	if goal != nil {
		y.Goal = &Place{Name: "goal", At: *goal}
	}
	var r paint.Record
	v := Fit(testBox, 90, append(p.Positions(), units.At(-46.7, 179), units.At(-48, -179.5))...)
	b := NewBrush(&r, look.Of(look.Paper), full)
	DrawVoyage(b, v, &y, NewRoom(v.Box))
	assert.Zero(t, r.Open())
	return &r, v
}

// TestAVoyageSaysWhereThingsAre: each word once, none on another, the marks where the
// positions are.
func TestAVoyageSaysWhereThingsAre(t *testing.T) {
	r, _ := recordVoyage(t, nil, nil)
	assert.ElementsMatch(t, []string{"air", "wind", "marker"}, textsOf(r))
	truth, goal := units.At(-47.6, -179.4), units.At(-46.8, -179.9)
	r, v := recordVoyage(t, &truth, &goal)
	assert.ElementsMatch(t, []string{"air", "wind", "marker", "truth", "goal"}, textsOf(r))
	var boxes []paint.Rect
	for _, c := range r.Texts() {
		w := c.Type.Font.Width(c.Text, c.Type.Size)
		x := c.At.X
		switch c.Type.Anchor {
		case paint.Middle:
			x -= w / 2
		case paint.End:
			x -= w
		}
		box := paint.R(x, c.At.Y-0.72*c.Type.Size, w, 0.9*c.Type.Size)
		assert.True(t, v.Box.Covers(box), c.Text)
		for _, o := range boxes {
			assert.False(t, box.Overlaps(o), c.Text)
		}
		boxes = append(boxes, box)
	}
	var diamond *paint.Rect
	miss := 0
	for _, c := range r.Calls {
		q := c.Path.Bounds()
		if c.Name == "stroke" && c.Col == look.Of(look.Paper).Verm && len(c.Path.Pts) == 4 {
			diamond = &q
		}
		if c.Name == "stroke" && c.Col == look.Of(look.Paper).Verm && len(c.Path.Pts) == 2 && len(c.Pen.Dash) == 0 {
			miss++
			assert.InDelta(t, v.ToPixel(truth).Dist(v.ToPixel(goal)), c.Path.Pts[0].Dist(c.Path.Pts[1]), 40, "from the goal to the truth, clear of both signs")
		}
	}
	require.NotNil(t, diamond)
	assert.InDelta(t, 0, diamond.Centre().Dist(v.ToPixel(truth)), 1e-6)
	assert.Equal(t, 1, miss)
}

// TestTheAttractPictureGrows: nothing at first, then air, wind, track; all of it on the
// screen, lying and upright.
func TestTheAttractPictureGrows(t *testing.T) {
	for _, size := range [][2]float64{{1920, 1080}, {1366, 768}, {1080, 1920}} {
		vectors := func(a Attract) (n int) {
			a.From, a.Lat, a.Lon = 302, counter.Latitude(-47*60), counter.Hemisphere(178*60)
			var r paint.Record
			DrawAttract(NewBrush(&r, look.Of(look.Night), full), size[0], size[1], &a)
			assert.Zero(t, r.Open())
			c := look.Of(look.Night)
			for _, k := range r.Calls {
				if k.Name == "stroke" && k.Pen.Cap == paint.Round && len(k.Path.Pts) == 2 && (k.Col == c.Air || k.Col == c.Wind || k.Col == c.Ink) && k.Pen.Width > 4 {
					n++
					q := k.Path.Bounds()
					assert.True(t, paint.R(0, 0, size[0], size[1]).Covers(q), "%v: %v", size, q)
				}
			}
			return n
		}
		assert.Equal(t, 0, vectors(Attract{}))
		assert.Equal(t, 1, vectors(Attract{Air: 0.4}))
		assert.Equal(t, 2, vectors(Attract{Air: 1, Wind: 0.7}))
		assert.Equal(t, 3, vectors(Attract{Air: 1, Wind: 1, Track: 1}))
	}
}

// TestThePeepPartsWhereItIsBroken: stripes behind the gap and only then.
func TestThePeepPartsWhereItIsBroken(t *testing.T) {
	verm := func(p Peep) (n int) {
		var r paint.Record
		DrawPeep(NewBrush(&r, look.Of(look.Paper), full), paint.R(0, 0, 560, 96), p)
		assert.Zero(t, r.Open())
		for _, k := range r.Calls {
			if k.Col == look.Of(look.Paper).Verm {
				n++
				assert.GreaterOrEqual(t, k.Path.Bounds().X, map[PeepPart]float64{PeepCapsules: -20, PeepShaft: 190, PeepDisc: 350, PeepDrum: 460}[p.Broken], "nothing before it is wrong")
			}
		}
		return n
	}
	assert.Zero(t, verm(Peep{Turns: 0.3, Drum: 4}))
	assert.Zero(t, verm(Peep{Fast: true}))
	last := 1 << 20
	for part := PeepCapsules; part <= PeepDrum; part++ {
		n := verm(Peep{Broken: part, Fast: part == PeepShaft})
		assert.Less(t, n, last, "the later it breaks, the less is striped")
		last = n
	}
	assert.Equal(t, 1, last, "the ring alone")
}
