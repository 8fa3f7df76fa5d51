package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// closed makes a figure from an air vector and a wind, by plain arithmetic.
func closed(tas, heading, wind, from float64) *WindTriangle {
	rad := math.Pi / 180
	north := tas*math.Cos(heading*rad) - wind*math.Cos(from*rad)
	east := tas*math.Sin(heading*rad) - wind*math.Sin(from*rad)
	return &WindTriangle{TAS: tas, Heading: heading, Wind: wind, WindFrom: from, Groundspeed: math.Hypot(north, east),
		Track:       math.Mod(math.Atan2(east, north)/rad+360, 360),
		HeadingText: "050T", TASText: "178 kt", TrackText: "060T", GroundspeedText: "189 kt", WindText: "305/33", DriftText: "10 R"}
}

func triangleSize(w, h float64) look.Size { return look.SizeOf(w, h, 1) }

// The corners stand where plain trigonometry puts them, and the hand reads back what
// lies there.
func TestCornersOfTheTriangle(t *testing.T) {
	v := TriangleView{Box: paint.R(0, 0, 1000, 700), Origin: paint.Pt(100, 600), Scale: 4}
	tri := closed(100, 90, 30, 0)
	air, ground := v.Corners(tri)
	assert.InDelta(t, 500, air.X, 1e-9)
	assert.InDelta(t, 600, air.Y, 1e-9)
	assert.InDelta(t, 500, ground.X, 1e-9, "a north wind carries it to the south")
	assert.InDelta(t, 720, ground.Y, 1e-9)
	north, east := v.Knots(ground)
	assert.InDelta(t, -30, north, 1e-9)
	assert.InDelta(t, 100, east, 1e-9)
	assert.Equal(t, paint.Pt(100, 400), v.At(50, 0), "north is up, 50 kt are 200 px")
}

// Every figure fits with its knobs, whichever way it lies; the sheet on which it was
// fitted holds it, and does not hold one that has left.
func TestEveryTriangleFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tri := anyTriangle(t)
		z := triangleSize(1366, 768)
		box := paint.R(20, 50, rapid.Float64Range(560, 1100).Draw(t, "w"), rapid.Float64Range(240, 640).Draw(t, "h"))
		v := FitTriangle(z, box, tri)
		room := box.Inset(TriangleKnob(z))
		air, ground := v.Corners(tri)
		for _, p := range []paint.Point{air, ground, v.Origin} {
			require.True(t, room.Contains(p), "%v not in %v", p, room)
		}
		require.True(t, v.Holds(z, box, tri))
		far := *tri
		far.TAS, far.Groundspeed = 4*tri.TAS+200, 4*tri.Groundspeed+200
		require.False(t, v.Holds(z, box, &far))
		near := *tri
		near.TAS, near.Wind, near.Groundspeed = tri.TAS/4, tri.Wind/4, tri.Groundspeed/4
		if tri.extent().W > 4*triangleKnots && tri.extent().H > 4*triangleKnots {
			require.False(t, v.Holds(z, box, &near), "too small to be seen well")
		}
		require.False(t, v.Holds(z, box.Inset(1), tri))
	})
}

func anyTriangle(t *rapid.T) *WindTriangle {
	f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return closed(f(30, 500, "tas"), f(0, 360, "heading"), f(0, 150, "wind"), f(0, 360, "from"))
}

// textRoom is the ink of a recorded text.
func textRoom(k paint.Call) paint.Rect {
	ink, x := k.Type.Font.Ink(k.Text, k.Type.Size), k.At.X
	x -= k.Type.Font.Width(k.Text, k.Type.Size) * float64(k.Type.Anchor) / 2
	return paint.R(x+ink.X, k.At.Y+ink.Y, ink.W, ink.H)
}

// No word lies on another, on a vector or on a knob, and none leaves the sheet; the
// three sides are named wherever the figure is not tiny.
func TestWordsOfTheTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tri := anyTriangle(t)
		if rapid.Bool().Draw(t, "open") {
			tri.Groundspeed += 40
			tri.Missing, tri.DriftText = "40 kt missing", ""
		}
		z := triangleSize(1920, 1080)
		if rapid.Bool().Draw(t, "small") {
			z = triangleSize(1280, 720)
		}
		box := paint.R(10, 10, 980*z.Part, 560*z.Part)
		v := FitTriangle(z, box, tri)
		var rec paint.Record
		DrawWindTriangle(NewBrush(&rec, look.Of(look.Paper), z), v, tri)
		require.Zero(t, rec.Open())
		air, ground := v.Corners(tri)
		var seen []paint.Rect
		for _, k := range rec.Texts() {
			q := textRoom(k)
			require.True(t, box.Covers(q), "%q leaves the sheet", k.Text)
			require.GreaterOrEqual(t, k.Type.Size, 12.5)
			for i, other := range seen {
				require.False(t, q.Overlaps(other), "%q lies on %q", k.Text, rec.Texts()[i].Text)
			}
			seen = append(seen, q)
			for _, l := range [][2]paint.Point{{v.Origin, air}, {v.Origin, ground}, {air, ground}} {
				if l == [2]paint.Point{air, ground} && tri.Missing != "" {
					continue
				}
				_, _, hit := paint.ClipSegment(l[0], l[1], q)
				require.False(t, hit, "%q lies on a vector", k.Text)
			}
			for _, p := range []paint.Point{air, ground} {
				require.False(t, q.Overlaps(paint.R(p.X-8, p.Y-8, 16, 16)), "%q lies on a knob", k.Text)
			}
		}
	})
}

// One head for the air vector, two for the ground vector, three for the wind, each in
// its colour; rings each 50 kt.
func TestHeadsAndRings(t *testing.T) {
	z, c := triangleSize(1920, 1080), look.Of(look.Paper)
	box := paint.R(0, 0, 980, 640)
	tri := closed(178, 50, 33, 305)
	v := FitTriangle(z, box, tri)
	var rec paint.Record
	DrawWindTriangle(NewBrush(&rec, c, z), v, tri)
	heads, rings := map[colour]int{}, []float64{}
	for _, k := range rec.Calls {
		switch {
		case k.Name == "fill" && len(k.Path.Pts) == 4 && k.Path.Ops[1] == paint.Line: // a head has a notch
			heads[k.Col]++
		case k.Name == "stroke" && k.Col == c.Line && len(k.Path.Pts) == 13:
			rings = append(rings, k.Path.Bounds().W/2/v.Scale)
		}
	}
	assert.Equal(t, map[colour]int{c.Air: 1, c.Ink: 2, c.Wind: 3}, heads)
	require.GreaterOrEqual(t, len(rings), 3)
	for i, r := range rings {
		assert.InDelta(t, 50*float64(i+1), r, 1e-6)
	}
	var words []string
	for _, k := range rec.Texts() {
		words = append(words, k.Text)
	}
	for _, w := range []string{"through the air: 050T, 178 kt", "over the ground: 060T, 189 kt", "wind 305/33", "10 R", "050T", "N", "50", "100"} {
		assert.Contains(t, words, w)
	}
}

// A figure that does not close has its gap dashed, from the end of the wind to the tip
// of the ground vector, and says so.
func TestTheGapIsDashed(t *testing.T) {
	z, c := triangleSize(1920, 1080), look.Of(look.Paper)
	tri := &WindTriangle{TAS: 100, Heading: 90, Wind: 120, WindFrom: 90, Groundspeed: 50, Track: 0, Missing: "20 kt missing"}
	v := FitTriangle(z, paint.R(0, 0, 900, 600), tri)
	var rec paint.Record
	DrawWindTriangle(NewBrush(&rec, c, z), v, tri)
	found := false
	for _, k := range rec.Calls {
		if k.Name == "stroke" && k.Col == c.Verm {
			found = true
			require.NotEmpty(t, k.Pen.Dash)
			a, q := k.Path.Pts[0], k.Path.Pts[1]
			assert.InDelta(t, v.At(0, -20).X, a.X, 1e-6, "100 east, then 120 to the west")
			assert.InDelta(t, v.At(0, 0).Y, a.Y, 1e-6)
			assert.InDelta(t, v.At(50, 0).Y, q.Y, 1e-6)
		}
	}
	assert.True(t, found)
	tri.Groundspeed = 0 // the gap lies on the wind: it is drawn beside it
	d := newTriangleDraft(NewBrush(&rec, c, z), v, tri)
	a, q := d.gap()
	assert.InDelta(t, 9, math.Abs(a.Y-v.Origin.Y), 1e-6)
	assert.InDelta(t, a.Y, q.Y, 1e-6)
	assert.InDelta(t, v.Origin.X, q.X, 1e-6)
	said := ""
	for _, k := range rec.Texts() {
		said += k.Text + "\n"
	}
	assert.Contains(t, said, "20 kt missing")
	assert.NotContains(t, said, "through the air", "what is not known is not written")
}
