package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

func cloudView(lat, lon, scale float64) View {
	return View{Centre: units.At(lat, lon), Scale: scale, Box: testBox}
}

// The same view has the same cloud; dragged aside, with 180 in between or not,
// each circle goes along.
func TestCloudGoesWithTheChart(t *testing.T) {
	v := cloudView(-47, 179.9, 240)
	assert.Equal(t, NewCloud(v, full).puffs, NewCloud(v, full).puffs)
	before := map[[2]int]bool{}
	at := func(p paint.Point, dx, dy float64) [2]int {
		return [2]int{int(math.Round((p.X - dx) * 10)), int(math.Round((p.Y - dy) * 10))}
	}
	for _, p := range NewCloud(v, full).puffs {
		for _, dx := range []int{-1, 0, 1} {
			for _, dy := range []int{-1, 0, 1} { // to a tenth, whichever way it is rounded
				q := at(p.at, 0, 0)
				before[[2]int{q[0] + dx, q[1] + dy}] = true
			}
		}
	}
	for _, d := range [][2]float64{{-60, 0}, {-333, 40}, {217, -128}} {
		moved, same, inside := NewCloud(v.Shift(d[0], d[1]), full), 0, 0
		for _, p := range moved.puffs {
			if q := p.at.Add(-d[0], -d[1]); testBox.Contains(q) && testBox.Contains(p.at) {
				inside++
				same += b2i(before[at(p.at, d[0], d[1])])
			}
		}
		require.Greater(t, inside, 100)
		assert.Equal(t, inside, same, "dragged by %v", d)
	}
}

// Circles of 30 to 56 pixels (the rule of the look), from the top down, leave
// nothing of the chart open.
func TestWholeCloudCovers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := cloudView(rapid.Float64Range(-70, 70).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(5, 4000).Draw(t, "scale"))
		c := NewCloud(v, full)
		for i, p := range c.puffs {
			if p.r < 30 || p.r > 56 || i > 0 && p.at.Y < c.puffs[i-1].at.Y {
				t.Fatalf("circle %d: %v", i, p)
			}
		}
		for range 20 {
			p := drawPoint(t)
			if !c.Covers(v.FromPixel(p), Hole{}, full) {
				t.Fatalf("%v is open", p)
			}
		}
	})
}

// What is open in a hole grows from its middle to its size; the true position in
// the middle is in the open as soon as it has begun to part, and the hole is as
// wide as it should be: 45 NM, at least 90 pixels and at most a third of the
// chart to each side.
func TestHoleOpensRoundTheTruth(t *testing.T) {
	for scale, want := range map[float64]float64{30: 90, 240: 22.5 * 240 / 41.067, 5000: testBox.H / 3} {
		v := cloudView(-47, 180, scale)
		c, at := NewCloud(v, full), v.Centre
		r := HoleRadius(v, at, full)
		assert.InDelta(t, want, r, 0.05, "scale %v", scale)
		assert.True(t, c.Covers(at, Hole{At: at}, full))
		assert.False(t, c.Covers(at, Hole{At: at, Open: 0.99}, full))
		gone := func(open float64) (n int) {
			h := c.hole(Hole{At: at, Open: open}, full)
			for _, p := range c.puffs {
				n += b2i(h.gone(p))
			}
			return n
		}
		last := 0
		for _, open := range []float64{0.2, 0.5, 0.8, 1} {
			n := gone(open)
			assert.Greater(t, n, last, "open %v", open)
			last = n
		}
		for a := 0.0; a < 360; a += 30 { // a remaining circle reaches in by 0.45 of itself
			in, out := paint.Polar(testBox.Centre().X, testBox.Centre().Y, r-0.46*56, a), paint.Polar(testBox.Centre().X, testBox.Centre().Y, r+2*56, a)
			assert.False(t, c.Covers(v.FromPixel(in), Hole{At: at, Open: 1}, full), "%v degrees, inside", a)
			if testBox.Contains(out) {
				assert.True(t, c.Covers(v.FromPixel(out), Hole{At: at, Open: 1}, full), "%v degrees, outside", a)
			}
		}
	}
}

// A degree of longitude at 47 is 41.067 NM on WGS-84 (closed form, see
// TestScaleBarIsTrue).
func TestGapWords(t *testing.T) {
	g := Gap{units.GroundPosition(units.At(-47, 179.5)), units.At(-47, -179.5)}
	miles, towards := g.Words()
	assert.Equal(t, "41.1 NM", miles)
	assert.Equal(t, "from the marker, towards 090T", towards)
	g.True = units.At(-47.0005, 179.5) // printed alike
	miles, towards = g.Words()
	assert.Equal(t, "0.0 NM", miles)
	assert.Equal(t, "the marker stands on it", towards)
}

// Miles and bearing are those of the positions as they are printed.
func TestGapIsThatOfThePrintedPositions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() units.Position {
			return units.At(rapid.Float64Range(-75, 75).Draw(t, "lat"), rapid.Float64Range(178, 182).Draw(t, "lon"))
		}
		a, z := draw(), draw()
		a.Lon, z.Lon = units.WrapHalf(a.Lon), units.WrapHalf(z.Lon)
		read := func(p units.Position) units.Position {
			q, err := units.ParsePosition(p.String())
			if err != nil {
				t.Fatal(err)
			}
			return q
		}
		course, distance := geodesy.RhumbInverse(read(a), read(z))
		miles, towards := Gap{units.GroundPosition(a), z}.Words()
		if miles != units.DistanceText(distance) || distance.NM() > 0.1 && towards != look.Textf(look.GapTowards, units.TrueText(course)) {
			t.Fatalf("%s %s from %v to %v", miles, towards, a, z)
		}
	})
}

// The plate of the gap stands in the chart, off the marker and off lines where
// there is room.
func TestPlateKeepsOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r paint.Record
		b := NewBrush(&r, look.Of(look.Paper), full)
		v := cloudView(-47, 180, 240)
		marker, truth := drawPoint(t), drawPoint(t)
		room := NewRoom(testBox)
		g := Gap{units.GroundPosition(v.FromPixel(marker)), v.FromPixel(truth)}
		g.Take(v, room, full)
		q := b.plate(room, marker, truth, g, nil)
		if !testBox.Covers(q) || q.Overlaps(paint.R(marker.X-34, marker.Y-34, 68, 68)) {
			t.Fatalf("%v", q)
		}
		if _, _, cut := paint.ClipSegment(marker, truth, q); cut {
			t.Fatalf("the gap runs under %v", q)
		}
	})
}

func BenchmarkLid(b *testing.B) {
	s := paint.NewImage(1340, 820)
	brush, v := NewBrush(s, look.Of(look.Paper), full), cloudView(-47, 180, 240)
	c := NewCloud(v, full)
	for b.Loop() {
		DrawLid(brush, c, Hole{At: v.Centre, Open: 0.5})
	}
}

func BenchmarkCover(b *testing.B) {
	s := paint.NewImage(1340, 820)
	brush, v := NewBrush(s, look.Of(look.Paper), full), cloudView(-47, 180, 240)
	for b.Loop() {
		DrawCover(brush, NewCloud(v, full))
	}
}
