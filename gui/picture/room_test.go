package picture

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Labels that need not be written stand inside the chart, on nothing, apart
// from each other, and nearest to their own point.
func TestLabelsStandFreeByTheirPoints(t *testing.T) {
	written := 0
	rapid.Check(t, func(t *rapid.T) {
		var r paint.Record
		b := NewBrush(&r, look.Of(look.Paper), full)
		room := NewRoom(testBox)
		n := rapid.IntRange(1, 30).Draw(t, "n")
		points := make([]paint.Point, n)
		for i := range points {
			points[i] = drawPoint(t)
			room.Take(paint.R(points[i].X-5, points[i].Y-5, 10, 10))
			room.marks = append(room.marks, points[i])
		}
		a, z := drawPoint(t), drawPoint(t)
		room.TakeLine([]paint.Point{a, z})
		var boxes []paint.Rect
		for i, p := range points {
			l := label{at: p, clear: 5, far: i%2 == 0, first: place(i % int(placeCount)),
				lines: []words{{fmt.Sprintf("B %d", 1000+i), look.Bold, 16, b.C.Ink}}}
			box, ok := b.label(room, l, b.C.Sea)
			if !ok {
				continue
			}
			written++
			if !testBox.Covers(box) {
				t.Fatalf("%v leaves the chart", box)
			}
			if p, q, cut := paint.ClipSegment(a, z, box); cut && p.Dist(q) > 0 {
				t.Fatalf("the line crosses %v", box)
			}
			for _, other := range boxes {
				if box.Overlaps(other) {
					t.Fatalf("%v and %v", box, other)
				}
			}
			for _, q := range points {
				if q.Dist(p) > 8 && distanceTo(box, q) <= distanceTo(box, p) {
					t.Fatalf("%v of %v seems to belong to %v", box, p, q)
				}
			}
			boxes = append(boxes, box)
		}
	})
	assert.Greater(t, written, 100, "most labels find a place")
}

// What must be written is written, and where it is free if it can be.
func TestMustLabels(t *testing.T) {
	var r paint.Record
	b := NewBrush(&r, look.Of(look.Paper), full)
	room := NewRoom(testBox)
	l := label{at: testBox.Centre(), clear: 5, must: true, lines: []words{{"ground position 1051Z", look.Bold, 16, b.C.Ink}}}
	room.Take(paint.R(testBox.Centre().X, testBox.Y, testBox.W, testBox.H)) // all to the right
	box, ok := b.label(room, l, b.C.Sea)
	assert.True(t, ok)
	assert.Less(t, box.Right(), testBox.Centre().X)
	room.Take(testBox)
	_, ok = b.label(room, l, b.C.Sea)
	assert.True(t, ok, "where nothing is free all the same")
	for _, not := range []label{{}, {keen: true}, {far: true}} {
		not.at, not.clear, not.lines = l.at, l.clear, l.lines
		_, ok = b.label(room, not, b.C.Sea)
		assert.False(t, ok)
	}
}

// Cells of land against the slow, obviously correct version: is the middle of
// the cell inside? (Even-odd; a middle on the outline itself may go either way.)
func TestLandCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := NewRoom(paint.R(20, 30, 200, 160))
		ring := make([]paint.Point, rapid.IntRange(3, 12).Draw(t, "n"))
		for i := range ring {
			ring[i] = paint.Pt(rapid.Float64Range(-50, 300).Draw(t, "x")+0.0137, rapid.Float64Range(-50, 300).Draw(t, "y")+0.0071)
		}
		room.takeLand(ring)
		for y := range room.h {
			for x := range room.w {
				p := paint.Pt(20+(float64(x)+0.5)*roomCell, 30+(float64(y)+0.5)*roomCell)
				if got := room.land[y*room.w+x]; got != inside(ring, p) && fromRing(ring, p) > 1e-6 {
					t.Fatalf("cell %d %d: %v", x, y, got)
				}
			}
		}
	})
}

func inside(ring []paint.Point, p paint.Point) (in bool) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

func fromRing(ring []paint.Point, p paint.Point) float64 {
	least := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		d2 := (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y)
		t := math.Max(0, math.Min(1, ((p.X-a.X)*(b.X-a.X)+(p.Y-a.Y)*(b.Y-a.Y))/math.Max(d2, 1e-12)))
		least = math.Min(least, p.Dist(paint.Pt(a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y))))
	}
	return least
}

// Key, rose and scale bar stand in the sea, off coasts, tracks and each other;
// their rectangles are found by their cards, their outermost ring, their bar.
func TestFurnitureStandsInTheSea(t *testing.T) {
	shown, charts := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		charts++
		w := testWaters()
		w.Coasts, w.Places = nil, nil
		for range rapid.IntRange(0, 6).Draw(t, "islands") {
			w.Coasts = append(w.Coasts, island(rapid.Float64Range(-48, -46).Draw(t, "lat"),
				rapid.Float64Range(178, 182).Draw(t, "lon"), rapid.Float64Range(0.02, 0.9).Draw(t, "r"), 48))
		}
		w.Keep = [][]units.Position{{units.At(-47.8, rapid.Float64Range(178, 182).Draw(t, "from")), units.At(-46.2, 180)}}
		w.Key = []KeyRow{RowAirPlot, RowGround, RowMarker}
		var r paint.Record
		b := NewBrush(&r, look.Of(look.Paper), full)
		v := View{Centre: units.At(-47, 180), Scale: 300, Box: testBox}
		DrawGround(b, v, NewGround(w))
		var rects []paint.Rect
		for _, c := range r.Calls {
			if q := c.Path.Bounds(); c.Name == "fill" && c.Col == b.C.Card && q.W > 100 { // the key
				rects = append(rects, q)
			}
			if q := c.Path.Bounds(); c.Name == "stroke" && c.Col == b.C.Ink && math.Abs(q.W-168) < 1e-6 { // the rose
				rects = append(rects, q)
			}
		}
		shown += len(rects)
		for i, q := range rects {
			if !testBox.Covers(q) {
				t.Fatalf("%v leaves the chart", q)
			}
			if i > 0 && q.Overlaps(rects[0]) {
				t.Fatalf("%v and %v", q, rects[0])
			}
			for _, c := range w.Coasts {
				for _, p := range c.Points {
					if q.Contains(v.ToPixel(p)) {
						t.Fatalf("a coast in %v", q)
					}
				}
				if inside(v.ToPixels(c.Points), q.Centre()) {
					t.Fatalf("%v stands on land", q)
				}
			}
			line := v.ToPixels(w.Keep[0])
			if _, _, cut := paint.ClipSegment(line[0], line[1], q); cut {
				t.Fatalf("the track runs through %v", q)
			}
		}
	})
	assert.Greater(t, shown, charts, "more than one to a chart, or the check sees too little")
}

// The ground kept as an image with the plot drawn on it is the chart drawn at
// once, pixel for pixel; and drawn again it is the same.
func TestGroundKeptAsAnImage(t *testing.T) {
	pal, g, p := look.Of(look.Paper), NewGround(testWaters()), testPlot()
	v := Fit(testBox, 90, p.Positions()...)
	draw := func() (*paint.Raster, *Room) {
		s := paint.NewImage(1340, 820)
		return s, DrawGround(NewBrush(s, pal, full), v, g)
	}
	kept, room := draw()
	again, room2 := draw()
	assert.Equal(t, kept.Pixels().Pix, again.Pixels().Pix)
	assert.True(t, bytes.Equal(room.used, room2.used))
	assert.Equal(t, room.names, room2.names)
	assert.Equal(t, room.marks, room2.marks)
	require.Equal(t, len(room.furniture), len(room2.furniture))
	for i, f := range room.furniture {
		assert.Equal(t, f.at, room2.furniture[i].at)
	}
	at := func(minutes int) Plot {
		q := p
		q.Marks = p.Marks[:minutes+1]
		last := q.Marks[minutes]
		q.Clock, q.Air, q.Ground, q.Marker = p.Start.Add(last.Elapsed), last.Air, last.Ground, last.Ground
		return q
	}
	frame := image.NewRGBA(kept.Pixels().Rect)
	for _, minutes := range []int{3, 24, 39} {
		q := at(minutes)
		copy(frame.Pix, kept.Pixels().Pix)
		DrawPlot(NewBrush(paint.NewRaster(frame), pal, full), v, &q, room)
		whole, fresh := draw()
		DrawPlot(NewBrush(whole, pal, full), v, &q, fresh)
		require.Equal(t, whole.Pixels().Pix, frame.Pix, "after %d minutes", minutes)
		require.NotEqual(t, kept.Pixels().Pix, frame.Pix)
	}
}

// A line with points left out passes all of them within the tolerance, in
// their order, and what is straight is one piece.
func TestStraightened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := []paint.Point{drawPoint(t)}
		at := pts[0]
		for range rapid.IntRange(1, 6).Draw(t, "legs") {
			u := paint.Polar(0, 0, 1, rapid.Float64Range(0, 360).Draw(t, "course"))
			for range rapid.IntRange(1, 40).Draw(t, "points") {
				at = at.Add(u.X*1.3+rapid.Float64Range(-0.3, 0.3).Draw(t, "dx"), u.Y*1.3)
				pts = append(pts, at)
			}
		}
		kept := straightened(pts, 0.2)
		if kept[0] != pts[0] || kept[len(kept)-1] != at {
			t.Fatal("the ends are kept")
		}
		k := 0
		for _, p := range pts {
			// A kept point begins the next piece, else p lies by the present one.
			if k+1 < len(kept) && p == kept[k+1] {
				k++
			}
			d := p.Dist(kept[k])
			if k+1 < len(kept) {
				d = math.Min(d, fromRing([]paint.Point{kept[k], kept[k+1]}, p))
			}
			if d > 0.41 { // to the direction followed, and from that to the piece drawn
				t.Fatalf("%v lies %.3f off", p, d)
			}
		}
	})
	var line []paint.Point
	for i := range 500 {
		line = append(line, paint.Pt(float64(i), 3*float64(i)))
	}
	assert.Len(t, straightened(line, 0.2), 2)
	back := append(line, paint.Pt(100, 300))
	assert.Len(t, straightened(back, 0.2), 3, "a turn back is a corner")
	assert.Len(t, straightened(line[:2], 0.2), 2)
}

// The light lies under the lines, the marker on them.
func TestLightUnderTheLines(t *testing.T) {
	r, _ := recordChart(full, testWaters(), testPlot())
	pal := look.Of(look.Paper)
	first := map[string]int{}
	for i, c := range r.Calls {
		note := func(what string, is bool) {
			if _, seen := first[what]; is && !seen {
				first[what] = i
			}
		}
		note("light", c.Name == "fill" && c.Col == paint.Alpha(pal.BrassHi, pal.Pool[0]))
		note("air plot", c.Name == "stroke" && c.Col == pal.Air)
		note("wind", c.Name == "stroke" && c.Col == pal.Wind)
		note("marker", c.Name == "fill" && c.Col == pal.Brass)
	}
	require.Len(t, first, 4)
	assert.Less(t, first["light"], first["air plot"])
	assert.Less(t, first["air plot"], first["wind"])
	assert.Less(t, first["wind"], first["marker"])
}

// Turning points: an open circle of radius 5.5 each, letter and time beside it.
func TestTurningPoints(t *testing.T) {
	p := testPlot()
	p.Required = []Waypoint{{At: units.At(-47.1, 179)}, {At: units.At(-46.9, 179.8), Label: "A 0944Z"}, {At: units.At(-46.9, -179.2), Label: "B 1016Z"}}
	r, v := recordChart(full, testWaters(), p)
	for _, w := range p.Required {
		at, circles, words := v.ToPixel(w.At), 0, 0
		for _, c := range r.Calls {
			if q := c.Path.Bounds(); c.Name == "stroke" && c.Col == look.Of(look.Paper).Ink && math.Abs(q.W-11) < 1e-6 && q.Centre().Dist(at) < 1e-6 {
				circles++
			}
			if c.Name == "text" && w.Label != "" && c.Text == w.Label && c.At.Dist(at) < 100 {
				words++
			}
		}
		assert.Equal(t, b2i(w.Label != ""), circles, w.Label)
		assert.Equal(t, b2i(w.Label != ""), words, w.Label)
	}
	facts := TurningPoints(p.Required)
	require.Len(t, facts, 2)
	assert.Equal(t, Fact{"B 1016Z", "46 54.0 S 179 12.0 W"}, facts[1])
}

// longPlot is five and a half hours: 2000 points of air plot and ground track
// each, a turn every twenty minutes.
func longPlot() Plot {
	start := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	p := Plot{Start: start}
	lat, lon := -47.0, 179.0
	for i := range 2000 {
		s, c := math.Sincos(float64(i/120) * 1.3)
		lat, lon = lat+0.008*c, lon+0.011*s
		off := float64(i) * 0.0004
		m := aboard.Mark{
			Elapsed: time.Duration(i*10) * time.Second,
			Air:     units.AirPosition(units.At(lat, lon)), Ground: units.GroundPosition(units.At(lat-off, lon+off)),
		}
		if i%120 == 0 {
			m.Event = aboard.LegBegun
		}
		p.Marks = append(p.Marks, m)
	}
	last := p.Marks[1999]
	p.Clock, p.Air, p.Ground, p.Marker = start.Add(last.Elapsed), last.Air, last.Ground, last.Ground
	return p
}

func BenchmarkLongPlot(b *testing.B) {
	s, g, p := paint.NewImage(1340, 820), NewGround(testWaters()), longPlot()
	brush, v := NewBrush(s, look.Of(look.Paper), full), Fit(testBox, 90, p.Positions()...)
	room := DrawGround(brush, v, g)
	for b.Loop() {
		DrawPlot(brush, v, &p, room)
	}
}

// A label that was driven from its first place stays where it went when that is
// free again, and moves on only when it would cover something.
func TestHeldLabelsStay(t *testing.T) {
	var r paint.Record
	var held Held
	b := NewBrush(&r, look.Of(look.Paper), full)
	at := testBox.Centre()
	write := func(h *Held, blocked ...paint.Rect) paint.Rect {
		room := NewRoom(testBox)
		for _, q := range blocked {
			room.Take(q)
		}
		box, ok := b.label(room, label{at: at, clear: 5, key: "air", held: h, lines: []words{{"air 1051Z", look.Bold, 16, b.C.Ink}}}, b.C.Sea)
		require.True(t, ok)
		return box
	}
	right := paint.R(at.X+8, at.Y-200, 300, 400)
	free, driven := write(nil), write(&held, right)
	require.Greater(t, free.X, at.X)
	require.False(t, driven.Overlaps(right))
	assert.Equal(t, driven, write(&held), "stays")
	assert.Equal(t, free, write(nil))
	moved := write(&held, driven)
	assert.False(t, moved.Overlaps(driven))
	assert.Equal(t, moved, write(&held))
}

// Where the plot runs through the key or a name, they are written over it, and
// only then.
func TestKeyAndNamesLieOverThePlot(t *testing.T) {
	w := testWaters()
	w.Key = []KeyRow{RowAirPlot, RowGround, RowMarker}
	var r paint.Record
	b := NewBrush(&r, look.Of(look.Paper), full)
	v := View{Centre: units.At(-47, 180), Scale: 300, Box: testBox}
	room := DrawGround(b, v, NewGround(w))
	require.Len(t, room.furniture, 3)
	require.NotEmpty(t, room.names)
	key, name := room.furniture[0].at, room.names[0]
	writes := func(at paint.Rect) (keys, names int) {
		r.Calls = nil
		m := at.Centre()
		p := Plot{Required: []Waypoint{{At: v.FromPixel(m.Add(0, -200))}, {At: v.FromPixel(m.Add(0, 200))}}}
		p.Marker = units.GroundPosition(units.At(-20, 180))
		p.Air, p.Ground = units.AirPosition(p.Marker), p.Marker
		DrawPlot(b, v, &p, room)
		for _, c := range r.Texts() {
			keys += b2i(c.Text == look.Text(look.KeyGroundTrack))
			names += b2i(c.Text == name.label.lines[0].text)
		}
		return keys, names
	}
	keys, _ := writes(key)
	assert.Equal(t, 1, keys)
	_, names := writes(name.box)
	assert.Equal(t, 1, names)
	free := paint.R(v.ToPixel(units.At(-47, 180)).X+250, testBox.Y+300, 10, 10)
	keys, names = writes(free)
	assert.Equal(t, [2]int{0, 0}, [2]int{keys, names})
}
