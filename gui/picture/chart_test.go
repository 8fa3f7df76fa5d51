package picture

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

var full = look.SizeOf(1920, 1080, 1)

// island is a ring of n points of a radius in degrees.
func island(lat, lon, r float64, n int) Coast {
	c := Coast{Name: "isle"}
	for i := range n {
		s, co := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		c.Points = append(c.Points, units.At(lat+r*co, units.WrapHalfDegrees(lon+r*1.4*s)))
	}
	return c
}

func testWaters() Waters {
	v := units.Variation(24 * units.Degree)
	return Waters{
		Title: "Tern Islands", Line: "an invented sea", Rose: &v, Year: 1957,
		Coasts: []Coast{island(-47, 179.9, 0.2, 60), island(-46.3, -178.2, 0.12, 30)},
		Places: []Place{
			{Name: "Skerrow", At: units.At(-47, 179.62), Mark: true},
			{Name: "Hob Fell", At: units.At(-46.3, -178.2), Rank: 3, Mark: true},
		},
	}
}

// testPlot flies east along 47 15 S, sets the counters, flies on.
func testPlot() Plot {
	start := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	p := Plot{Start: start, Clock: start.Add(40 * time.Minute), Heading: units.TrueHeading(90 * units.Degree)}
	at := func(lon, off float64) (units.AirPosition, units.GroundPosition) {
		return units.AirPosition(units.At(-47.25, lon)), units.GroundPosition(units.At(-47.25-off, lon+off))
	}
	for m := 0; m <= 40; m++ {
		air, ground := at(179+float64(m)*0.05, float64(m)*0.004)
		mark := aboard.Mark{Elapsed: time.Duration(m) * time.Minute, Air: air, Ground: ground}
		switch m {
		case 0, 10, 30:
			mark.Event = aboard.LegBegun
		case 25:
			mark.Event = aboard.CountersSet
			mark.Air = units.AirPosition(mark.Ground)
		}
		p.Marks = append(p.Marks, mark)
	}
	last := p.Marks[40]
	p.Air, p.Ground, p.Marker = last.Air, last.Ground, last.Ground
	return p
}

func chart(b *Brush, g *Ground, p Plot) View {
	v := Fit(testBox, 90, p.Positions()...)
	DrawPlot(b, v, &p, DrawGround(b, v, g))
	return v
}

func recordChart(k look.Size, w Waters, p Plot) (*paint.Record, View) {
	var r paint.Record
	v := chart(NewBrush(&r, look.Of(look.Paper), k), NewGround(w), p)
	return &r, v
}

func textsOf(r *paint.Record) (all []string) {
	for _, c := range r.Texts() {
		all = append(all, c.Text)
	}
	return all
}

// Expected words: the notation of the design.
func TestChartWords(t *testing.T) {
	p := testPlot()
	wind := units.Wind{From: 307 * units.Degree, Speed: 32 * units.Knot}
	p.Fixes = []Fix{{At: units.Position(p.Marks[25].Ground), Time: p.Start.Add(25 * time.Minute), From: p.Marks[24].Air, Found: &wind}}
	p.Required = []Waypoint{{At: units.At(-47.4, 178.9)}, {At: units.At(-46.9, -178.9), Label: "B 1018Z"}}
	src := units.At(-46.3, -178.2)
	p.Lines = []Line{{From: units.At(-46.8, 179.2), To: units.At(-47.1, -179.5), Label: "1012 Gannet Rock", Source: &src}}
	p.Truth = &Truth{Position: units.At(-47.6, -179.2), Track: []units.Position{units.At(-47.3, 179), units.At(-47.6, -179.2)}}
	r, _ := recordChart(full, testWaters(), p)
	words := textsOf(r)
	for _, w := range []string{
		"Tern Islands", "Skerrow", "24 E  1957", "47 00 S", "180", "179 40 E", "179 20 W", "ground position 1010Z",
		"air 1010Z", "wind found 307/32", "fix 0955Z", "B 1018Z", "1012 Gannet Rock", "true position",
		units.Position(p.Marker).String(),
	} {
		assert.Contains(t, words, w)
	}
	assert.NotContains(t, words, "Hob Fell", "a name of rank 3 shows from near by only")
	assert.Zero(t, r.Open(), "every clip is undone")
}

func TestSmallChartLeavesWordsOut(t *testing.T) {
	r, _ := recordChart(look.SizeOf(1366, 768, 1), testWaters(), testPlot())
	words := textsOf(r)
	assert.NotContains(t, words, "Tern Islands")
	assert.NotContains(t, words, units.Position(testPlot().Marker).String())
	assert.Contains(t, words, "ground position 1010Z")
}

// The truth shows only if it is handed in, and then in its own colour.
func TestTruthIsAnOverlay(t *testing.T) {
	verm := func(r *paint.Record) (n int) {
		for _, c := range r.Calls {
			if c.Col == look.Of(look.Paper).Verm {
				n++
			}
		}
		return n
	}
	p := testPlot()
	r, _ := recordChart(full, testWaters(), p)
	assert.Zero(t, verm(r))
	p.Truth = &Truth{Position: units.At(-47.3, -179.4)}
	r, v := recordChart(full, testWaters(), p)
	assert.Equal(t, 2, verm(r), "outline of the diamond, and the words")
	diamond := boundsOf(r, "stroke", look.Of(look.Paper).Verm)
	require.Len(t, diamond, 1)
	at := v.ToPixel(p.Truth.Position)
	assert.InDelta(t, at.X, diamond[0].Centre().X, 1e-6)
	assert.InDelta(t, at.Y, diamond[0].Centre().Y, 1e-6)
}

func boundsOf(r *paint.Record, name string, c color.NRGBA) (all []paint.Rect) {
	for _, k := range r.Calls {
		if k.Name == name && k.Col == c {
			all = append(all, k.Path.Bounds())
		}
	}
	return all
}

// The brass disc of the marker lies at the marker, the cross at the air
// position, wherever the ground position by air position and wind is.
func TestMarkerAndCrossStandWhereTheyAre(t *testing.T) {
	p := testPlot()
	p.Marker = units.GroundPosition(units.At(-47.1, -179.2)) // lifted and put down elsewhere
	r, v := recordChart(full, testWaters(), p)
	discs := boundsOf(r, "fill", look.Of(look.Paper).Brass)
	require.Len(t, discs, 1)
	at := v.ToPixel(units.Position(p.Marker))
	assert.InDelta(t, at.X, discs[0].Centre().X, 1e-6)
	assert.InDelta(t, at.Y, discs[0].Centre().Y, 1e-6)
	cross := 0
	for _, q := range boundsOf(r, "stroke", look.Of(look.Paper).Air) {
		if c := q.Centre(); c.Dist(v.ToPixel(units.Position(p.Air))) < 1e-6 && math.Abs(q.W+q.H-18) < 1e-6 {
			cross++
		}
	}
	assert.Equal(t, 2, cross, "two arms of 18")
}

// Heads: one on each leg of the air plot, two on the ground track, three on the
// wind (the convention of the trade, as the design has it). A head is a fill of
// four corners in the line's colour; the blocks of the scale are level on top.
func TestHeadsTellTheKindOfLine(t *testing.T) {
	r, _ := recordChart(full, testWaters(), testPlot())
	heads := func(c color.NRGBA) (n int) {
		for _, k := range r.Calls {
			if k.Name == "fill" && k.Col == c && len(k.Path.Pts) == 4 && k.Path.Bounds().H < 20 && k.Path.Pts[0].Y != k.Path.Pts[1].Y {
				n++
			}
		}
		return n
	}
	pal := look.Of(look.Paper)
	// Legs: 0 to 10, 10 to 25 | 25 to 30, 30 to 40 minutes.
	assert.Equal(t, 4, heads(pal.Air))
	// The heading arrow of the marker is a fill of four corners too.
	assert.Equal(t, 4*2+1, heads(pal.Ink))
	assert.Equal(t, 2*3, heads(pal.Wind), "when the counters were set, and now")
}

// Labels keep off one another, off coasts, and inside the chart.
func TestLabelsKeepOff(t *testing.T) {
	for lat := -47.35; lat < -46.2; lat += 0.05 {
		w, p := testWaters(), testPlot()
		for i := range w.Places {
			w.Places[i].Rank = 1
		}
		p.Marker = units.GroundPosition(units.At(lat, -179.4))
		r, v := recordChart(full, w, p)
		var boxes []paint.Rect
		for _, c := range r.Texts() {
			if c.Type.HaloWidth == 0 || c.Type.Font == look.Engraved.Font() || c.Text == "24 E  1957" || strings.HasPrefix(c.Text, "NM") {
				continue // rose and graticule stand by rules of their own
			}
			w := c.Type.Font.Width(c.Text, c.Type.Size)
			boxes = append(boxes, paint.R(c.At.X-w*float64(c.Type.Anchor)/2, c.At.Y-c.Type.Size*0.75, w, c.Type.Size*0.8))
		}
		require.GreaterOrEqual(t, len(boxes), 5)
		for i, a := range boxes {
			assert.True(t, v.Box.Covers(a), "lat %.2f: %v leaves the chart", lat, a)
			for _, b := range boxes[:i] {
				assert.False(t, a.Overlaps(b), "lat %.2f: %v and %v", lat, a, b)
			}
		}
	}
}

// The coast is drawn once whole, whichever side of 180 the view's middle is,
// and where it lies.
func TestIslandAcross180IsWhole(t *testing.T) {
	for _, lon := range []float64{179.5, 180, -180, -179.5} {
		var r paint.Record
		b := NewBrush(&r, look.Of(look.Paper), full)
		v := View{Centre: units.At(-47, lon), Scale: 400, Box: testBox}
		DrawGround(b, v, NewGround(Waters{Coasts: []Coast{island(-47, 179.9, 0.2, 60)}}))
		land := boundsOf(&r, "fill", look.Of(look.Paper).Land)
		require.Len(t, land, 1)
		assert.InDelta(t, 0.2*1.4*2*400, land[0].W, 1, "lon %v", lon)
		assert.InDelta(t, v.ToPixel(units.At(-47, 179.9)).X, land[0].Centre().X, 1, "lon %v", lon)
	}
}

func TestGraticuleAdapts(t *testing.T) {
	for scale, want := range map[float64]string{3.7: "30 00 N", 40: "05 00 N", 240: "00 30 N", 3000: "00 02 N"} {
		var r paint.Record
		v := View{Centre: units.At(0.01, 10), Scale: scale, Box: testBox}
		DrawGround(NewBrush(&r, look.Of(look.Paper), full), v, NewGround(Waters{}))
		assert.Contains(t, textsOf(&r), want, "at %v pixels to a degree", scale)
		meridians := v.meridians(v.step(85))
		require.GreaterOrEqual(t, len(meridians), 3)
		gap := meridians[1].at - meridians[0].at
		assert.GreaterOrEqual(t, gap, 85.0)
		assert.LessOrEqual(t, gap, 85*3.01, "a next step is at most three times the last")
	}
}

// A Mercator chart has equal steps of longitude and growing steps of latitude.
func TestBlocksOfTheFrameAlternate(t *testing.T) {
	v := View{Centre: units.At(-47, 180), Scale: 240, Box: testBox}
	step := v.step(22)
	assert.Equal(t, 10.0, step, "ten-minute blocks, as in the design")
	seen := map[int]bool{}
	for _, l := range v.meridians(step) {
		require.Zero(t, l.minutes%10)
		require.False(t, seen[l.minutes])
		seen[l.minutes] = true
	}
	assert.True(t, isDateLine(10800) && isDateLine(-10800) && isDateLine(32400))
	assert.False(t, isDateLine(0) || isDateLine(21600) || isDateLine(10790))
}

// The scale bar: its length in pixels is the miles it names. Closed form: a
// degree of longitude at 47 on WGS-84 is a cos(lat)/sqrt(1 - e2 sin2(lat)) x
// pi/180 = 6378137 x 0.681998/0.998208 x 0.0174533 m = 41.067 NM.
func TestScaleBarIsTrue(t *testing.T) {
	var r paint.Record
	v := View{Centre: units.At(-47, 180), Scale: 240, Box: testBox}
	DrawGround(NewBrush(&r, look.Of(look.Paper), full), v, NewGround(Waters{}))
	assert.InDelta(t, 41.067, milesToDegree(-47*units.Degree), 0.001)
	marks := map[string]float64{}
	for _, c := range r.Texts() {
		if c.Type.Anchor == paint.Middle && c.Type.Size == full.Text(14) {
			marks[c.Text] = c.At.X
		}
	}
	require.Contains(t, marks, "20")
	assert.InDelta(t, 20*240/41.067, marks["20"]-marks["0"], 0.2)
	assert.InDelta(t, 10*240/41.067, marks["10"]-marks["0"], 0.1)
	assert.Contains(t, textsOf(&r), "NM at 47 00 S")
}

// Raster: land, sea and marker have their colours where they are.
func TestChartPixels(t *testing.T) {
	for _, variant := range []look.Variant{look.Paper, look.Night, look.Lamp, look.LampLit} {
		s := paint.NewImage(1340, 820)
		pal := look.Of(variant)
		p := testPlot()
		v := chart(NewBrush(s, pal, full), NewGround(testWaters()), p)
		at := func(q units.Position, dx, dy float64) color.RGBA {
			px := v.ToPixel(q)
			return s.Pixels().RGBAAt(int(px.X+dx), int(px.Y+dy))
		}
		opaque := func(c color.NRGBA) color.RGBA { return color.RGBA(c) }
		assert.Equal(t, opaque(pal.Land), at(units.At(-47, 180.02), 3, 3), variant)
		assert.Equal(t, opaque(pal.Brass), at(units.Position(p.Marker), 5, -3), variant)
		assert.Equal(t, opaque(pal.Sea), at(units.At(-46.85, -179.2), 4, 4), variant)
		assert.Equal(t, color.RGBA{}, s.Pixels().RGBAAt(2, 2), "outside the frame nothing is drawn")
	}
}

func TestGroundIsNotChangedByPlots(t *testing.T) {
	var r paint.Record
	b := NewBrush(&r, look.Of(look.Paper), full)
	p := testPlot()
	v := Fit(testBox, 90, p.Positions()...)
	room := DrawGround(b, v, NewGround(testWaters()))
	before := append([]uint8(nil), room.used...)
	DrawPlot(b, v, &p, room)
	assert.Equal(t, before, room.used)
	DrawPlot(b, v, &p, nil) // nothing to keep off
	var empty Plot
	DrawPlot(b, v, &empty, room)
	assert.Zero(t, r.Open())
}

func TestPlotOfAView(t *testing.T) {
	now := time.Date(1957, 8, 14, 10, 51, 20, 0, time.UTC)
	view := aboard.View{Clock: now, Elapsed: 81*time.Minute + 20*time.Second, Marks: testPlot().Marks}
	p := PlotOf(&view)
	assert.Equal(t, time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), p.Start)
	assert.Equal(t, fmt.Sprintf("%p", view.Marks), fmt.Sprintf("%p", p.Marks), "shared, not copied")
	assert.Len(t, p.stretches(), 2)
}

func TestSheetInEveryFormat(t *testing.T) {
	p := testPlot()
	sheet := Sheet{
		Title: "A flight & its chart", Line: "14 Aug 1957", Ground: NewGround(testWaters()), Plot: p,
		Facts: FactsOf(&p, units.Wind{From: 295 * units.Degree, Speed: 27 * units.Knot}, 241.3*units.NM),
	}
	w, h := SheetSize(1471)
	assert.Equal(t, 1040, h) // 1471 x 210/297
	var r paint.Record
	ChartSheet(&r, float64(w), float64(h), sheet)
	words := textsOf(&r)
	for _, s := range []string{
		"For teaching and display only: not for navigation in flight.", sheet.Title, "ground track", "Mercator, WGS-84",
		"295/27", "241.3 NM", "1010Z, 14 Aug 1957", "090T",
	} {
		assert.Contains(t, words, s)
	}
	for _, c := range r.Texts() {
		width := c.Type.Font.Width(c.Text, c.Type.Size)
		left := c.At.X - width*float64(c.Type.Anchor)/2
		assert.True(t, left >= 0 && left+width <= float64(w) && c.At.Y <= float64(h), "%q leaves the page", c.Text)
	}
	for format, head := range map[paint.Format]string{paint.PNG: "\x89PNG", paint.SVGFile: "<?xml", paint.PDFFile: "%PDF-"} {
		var b bytes.Buffer
		require.NoError(t, paint.Export(&b, format, w, h, sheet.Title, func(s paint.Surface) { ChartSheet(s, float64(w), float64(h), sheet) }))
		assert.True(t, strings.HasPrefix(b.String(), head), head)
		if format != paint.SVGFile {
			continue
		}
		for d := xml.NewDecoder(&b); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else {
				require.NoError(t, err)
			}
		}
	}
}

func TestEveryRowOfTheKeyIsDrawn(t *testing.T) {
	rows := []KeyRow{RowRequired, RowAirPlot, RowGround, RowDR, RowWind, RowWinds, RowSymbols, RowMarker, RowTruth, RowPosition, RowTransferred, RowPencil}
	require.Len(t, rowWords, len(rows))
	for _, row := range rows {
		var r paint.Record
		b := NewBrush(&r, look.Of(look.Night), full)
		card := Key(b, 10, 10, []KeyRow{row})
		assert.Equal(t, []string{look.Text(rowWords[row])}, textsOf(&r))
		assert.Greater(t, len(r.Calls), 3, "card, sign, words: row %d", row)
		for _, c := range r.Calls {
			if c.Name == "fill" || c.Name == "stroke" {
				assert.True(t, card.Inset(-1).Covers(c.Path.Bounds()), "row %d leaves the card", row)
			}
		}
	}
}

func BenchmarkGround(b *testing.B) {
	s, g, p := paint.NewImage(1340, 820), NewGround(testWaters()), testPlot()
	brush, v := NewBrush(s, look.Of(look.Paper), full), Fit(testBox, 90, p.Positions()...)
	for b.Loop() {
		DrawGround(brush, v, g)
	}
}

func BenchmarkPlot(b *testing.B) {
	s, g, p := paint.NewImage(1340, 820), NewGround(testWaters()), testPlot()
	brush, v := NewBrush(s, look.Of(look.Paper), full), Fit(testBox, 90, p.Positions()...)
	room := DrawGround(brush, v, g)
	for b.Loop() {
		DrawPlot(brush, v, &p, room)
	}
}
