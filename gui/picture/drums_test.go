package picture

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
)

// fullSize is a window of 1920 by 1080 on a plain screen.
var fullSize = look.SizeOf(1920, 1080, 1)

// Readings of one moment of the demonstration flight, as the design's pictures
// show it.
var (
	southRow = Counter{Reading: counter.Latitude(-(47*60 + 28.525)), Row: LatitudeRow}
	westRow  = Counter{Reading: counter.Hemisphere(-(179*60 + 13.22)), Row: LongitudeRow}
	milesRow = Counter{Reading: counter.Miles(241.34), Row: MilesRow}
	clockRow = Counter{Reading: counter.Clock(10*3600 + 51*60 + 20.35), Row: ClockRow}
)

func record(k look.Size, draw func(*Brush)) *paint.Record {
	r := &paint.Record{}
	draw(NewBrush(r, look.Of(look.Paper), k))
	return r
}

// drum is what a test sees of one cell: the characters in it and how far each
// stands below its place of rest, in drum heights.
type drum struct {
	x    float64
	text []string
	down []float64
}

// window is the character nearest to the middle.
func (d drum) window() string {
	best := 0
	for i := range d.down {
		if math.Abs(d.down[i]) < math.Abs(d.down[best]) {
			best = i
		}
	}
	return d.text[best]
}

// read takes a row of height 100 apart, from left to right.
func read(t require.TestingT, c Counter) (drums []drum, signs string) {
	const h = 100
	r := record(fullSize, func(b *Brush) { DrumCounter(b, 0, 0, h, c) })
	require.Zero(t, r.Open(), "clips left open")
	clipped := false
	for _, call := range r.Calls {
		switch {
		case call.Name == "clip":
			clipped = true
			drums = append(drums, drum{x: call.Rect.Centre().X})
		case call.Name == "unclip":
			clipped = false
		case call.Name == "text" && clipped:
			d := &drums[len(drums)-1]
			require.InDelta(t, d.x, call.At.X, 0.6, "not in the middle of its drum")
			require.Equal(t, 74.0, call.Type.Size)
			d.text = append(d.text, call.Text)
			d.down = append(d.down, (call.At.Y-(12+50+0.36*74))/h)
		case call.Name == "text":
			signs += call.Text
			require.Equal(t, 70.0, call.Type.Size)
		}
	}
	return drums, signs
}

func windows(drums []drum) (s string) {
	for _, d := range drums {
		s += d.window()
	}
	return s
}

// Expected: the readings in the design's picture of the Chart table.
func TestDrumsReadAsTheReading(t *testing.T) {
	for _, c := range []struct {
		row           Counter
		digits, signs string
	}{
		{southRow, "S47285", "°.′"},
		{westRow, "W179132", "°.′"},
		{milesRow, "02413", "."},
		{clockRow, "105120", "::"},
		{Counter{Reading: counter.East360(180*60 + 46.8), Row: LongitudeRow}, "180468", "°.′"},
	} {
		drums, signs := read(t, c.row)
		assert.Equal(t, c.digits, windows(drums))
		assert.Equal(t, c.signs, signs)
		assert.True(t, slices.IsSortedFunc(drums, func(a, b drum) int { return int(a.x - b.x) }))
	}
}

// The design: next digit from below, pitch 0.92 h; a quarter on, the lowest
// digit stands 0.23 h high and the next 0.69 h low, the others at rest.
func TestLowestDrumRollsOn(t *testing.T) {
	drums, _ := read(t, southRow)
	low := drums[len(drums)-1]
	require.Equal(t, []string{"5", "6"}, low.text)
	assert.InDelta(t, -0.25*0.92, low.down[0], 0.001)
	assert.InDelta(t, 0.75*0.92, low.down[1], 0.001)
	for _, d := range drums[:len(drums)-1] {
		assert.Len(t, d.text, 1, "only the lowest drum moves")
		assert.InDelta(t, 0, d.down[0], 0.001)
	}
}

// Half a unit before everything goes over to 0, every drum that goes over
// stands half-way between its last digit and 0, the top one too.
func TestAllDrumsGoOverTogether(t *testing.T) {
	for _, c := range []struct {
		row         Counter
		above, next string
	}{
		{Counter{Reading: counter.Clock(23*3600 + 59*60 + 59.5), Row: ClockRow}, "235959", "000000"},
		{Counter{Reading: counter.Clock(9*3600 + 59*60 + 59.5), Row: ClockRow}, "095959", "100000"},
		{Counter{Reading: counter.East360(359*60 + 59.95), Row: LongitudeRow}, "359599", "000000"},
		{Counter{Reading: counter.Hemisphere(99*60 + 59.95), Row: LongitudeRow}, "E099599", "E100000"},
		{Counter{Reading: counter.Miles(9999.95), Row: MilesRow}, "99999", "00000"},
	} {
		drums, _ := read(t, c.row)
		for i, d := range drums {
			if c.above[i] == c.next[i] {
				assert.Equal(t, string(c.next[i]), d.window())
				continue
			}
			require.Equal(t, []string{string(c.above[i]), string(c.next[i])}, d.text, "drum %d of %s", i, c.above)
			assert.InDelta(t, -0.46, d.down[0], 0.001)
			assert.InDelta(t, 0.46, d.down[1], 0.001)
		}
	}
}

// Whatever the time, the drums show the figures that arithmetic gives, and no
// drum shows a figure that it does not have.
func TestClockDrumsAtAnyTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.IntRange(0, 86399).Draw(t, "second")
		part := rapid.Float64Range(0, 0.49).Draw(t, "part")
		drums, _ := read(t, Counter{Reading: counter.Clock(float64(whole) + part), Row: ClockRow})
		want := two(whole/3600) + two(whole/60%60) + two(whole%60)
		require.Equal(t, want, windows(drums))
		for i, most := range [6]string{"2", "9", "5", "9", "5", "9"} {
			for _, s := range drums[i].text {
				require.LessOrEqual(t, s, most)
			}
		}
	})
}

func two(n int) string { return strconv.Itoa(n/10) + strconv.Itoa(n%10) }

// At the equator the letter stands half-way between S and N.
func TestLetterDrumTurns(t *testing.T) {
	drums, _ := read(t, Counter{Reading: counter.Latitude(0), Row: LatitudeRow})
	require.Equal(t, []string{"N", "S"}, drums[0].text)
	assert.InDelta(t, -0.46, drums[0].down[0], 1e-6)
	assert.InDelta(t, 0.46, drums[0].down[1], 1e-6)
	drums, _ = read(t, Counter{Reading: counter.Hemisphere(10800), Row: LongitudeRow})
	assert.ElementsMatch(t, []string{"W", "E"}, drums[0].text)
	drums, _ = read(t, southRow)
	assert.Equal(t, []string{"S"}, drums[0].text)
}

func TestFastDrumHasNoDigit(t *testing.T) {
	c := southRow
	c.Fast = true
	drums, _ := read(t, c)
	require.Len(t, drums, 5, "letter and the four upper digits")
	assert.Equal(t, "S4728", windows(drums))
	r := record(fullSize, func(b *Brush) { DrumCounter(b, 0, 0, 100, c) })
	band := 0
	for _, call := range r.Calls {
		if call.Name == "fill" && call.Col.A != 0 && call.Col.A != 255 {
			band++
		}
	}
	assert.Equal(t, 2, band, "a band with softer sides")
}

// Expected: measured in the design's picture of the Chart table, drums 54
// high, to a pixel.
func TestHousingIsAsLargeAsInThePicture(t *testing.T) {
	w, h := CounterSize(southRow, 54)
	assert.InDelta(t, 262, w, 1)
	assert.InDelta(t, 67, h, 1)
	w, _ = CounterSize(westRow, 54)
	assert.InDelta(t, 297, w, 1)
	house := DrumCounter(NewBrush(&paint.Record{}, look.Of(look.Paper), fullSize), 7.4, 3, 54, southRow)
	assert.Equal(t, paint.Pt(7, 3), paint.Pt(house.X, house.Y), "on whole pixels, so that the faces are sharp")
}

// No letter or figure at rest is cut by the sides of its drum, nor by top and
// foot.
func TestCharactersFitTheirDrums(t *testing.T) {
	f := look.Engraved.Font()
	for _, s := range strings.Split("0123456789NSEW", "") {
		ink := f.Ink(s, digitSize)
		assert.LessOrEqual(t, ink.W, drumWidth, s)
		assert.Less(t, f.Width(s, digitSize), drumWidth+2*drumGap+0.001, s)
		assert.InDelta(t, 0, ink.Y+ink.H/2+digitDown*digitSize, 0.02, "%s stands in the middle of its height", s)
		assert.LessOrEqual(t, ink.H, 0.8*digitSize, s)
	}
}

// Nothing is painted beside the housing; all of the housing is covered.
func TestDrumsStayInTheirHousing(t *testing.T) {
	for _, h := range []float64{23, 34, 54, 108} {
		for _, row := range []Counter{southRow, westRow, milesRow, clockRow} {
			s := paint.NewImage(800, 200)
			house := DrumCounter(NewBrush(s, look.Of(look.Paper), fullSize), 10, 10, h, row)
			checkInk(t, s, house, "drums")
			m := house.Centre()
			assert.Equal(t, uint8(255), s.Pixels().RGBAAt(int(m.X), int(m.Y)).A)
			assert.Equal(t, uint8(255), s.Pixels().RGBAAt(int(house.Right())-8, int(house.Bottom())-3).A)
		}
	}
}

// checkInk fails where anything is painted more than a pixel outside the box.
func checkInk(t require.TestingT, s *paint.Raster, box paint.Rect, name string) {
	box = box.Inset(-1)
	im := s.Pixels()
	for y := range im.Rect.Dy() {
		for x := range im.Rect.Dx() {
			if im.RGBAAt(x, y).A != 0 && !box.Contains(paint.Pt(float64(x)+0.5, float64(y)+0.5)) {
				require.Failf(t, "painted outside", "%s: pixel %d,%d is outside %v", name, x, y, box)
			}
		}
	}
}

// The brass is the lowest drum's alone, and a held or failed reading says so.
func TestConditionsShow(t *testing.T) {
	c := look.Of(look.Paper)
	count := func(row Counter, name string, col colour) (n int) {
		for _, call := range record(fullSize, func(b *Brush) { DrumCounter(b, 0, 0, 100, row) }).Calls {
			if call.Name == name && call.Col == col {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, count(southRow, "fill", c.BrassHi))
	assert.Zero(t, count(southRow, "stroke", c.Verm))
	stale, failed := southRow, southRow
	stale.Condition, failed.Condition = Stale, Failed
	assert.Equal(t, 1, count(stale, "stroke", c.Ink2))
	assert.Equal(t, 1, count(failed, "stroke", c.Verm))
}

func benchmarkRow(b *testing.B, h float64, row Counter) {
	w, high := CounterSize(row, h)
	s := paint.NewImage(int(w)+2, int(high)+2)
	brush := NewBrush(s, look.Of(look.Paper), fullSize)
	b.ReportAllocs()
	for b.Loop() {
		DrumCounter(brush, 0, 0, h, row)
	}
}

func BenchmarkDrumRow54(b *testing.B)  { benchmarkRow(b, 54, westRow) }
func BenchmarkDrumRow108(b *testing.B) { benchmarkRow(b, 108, westRow) }
func BenchmarkClock40(b *testing.B)    { benchmarkRow(b, 40, clockRow) }
