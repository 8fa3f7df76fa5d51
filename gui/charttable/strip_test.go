package charttable

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
	"stillair/sim"
)

const minute = 60 * sim.TicksPerSecond

// windowSizes are those of the look, the bar's height off.
var windowSizes = []fyne.Size{{Width: 1280, Height: 656}, {Width: 1366, Height: 704}, {Width: 1600, Height: 836}, {Width: 1920, Height: 1008}, {Width: 3840, Height: 2016}}

func TestPartsOfTheStripStandApart(t *testing.T) {
	for _, size := range windowSizes {
		tab, _ := table(t, size.Width, size.Height)
		s := tab.strip
		tab.Layout(nil, size)
		var seen []box
		for _, o := range s.keys() {
			if o == s.spot || !o.Visible() {
				continue
			}
			b := box{o.Position().X, o.Position().Y, o.Size().Width, o.Size().Height}
			card := box{s.Position().X, s.Position().Y, s.Size().Width, s.Size().Height}
			assert.True(t, b.x >= card.x && b.y >= card.y && b.x+b.w <= card.x+card.w && b.y+b.h <= card.y+card.h, "%v: %T leaves the card", size, o)
			for _, a := range seen {
				assert.True(t, a.x+a.w <= b.x || b.x+b.w <= a.x || a.y+a.h <= b.y || b.y+b.h <= a.y, "%v: %T lies on another", size, o)
			}
			seen = append(seen, b)
		}
		assert.Equal(t, size.Width >= 1600, s.rates.all(), "%v", size)
		assert.Equal(t, size.Width >= 1600, s.step.Word != "", "%v", size)
		assert.GreaterOrEqual(t, s.line.Size().Width, size.Width*0.4, "%v: the time line is the greater part", size)
	}
}

func TestEveryRateHasItsCell(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	r := tab.strip.rates
	pitch := (r.Size().Width - 2*troughPad) / float32(len(helm.Rates))
	assert.GreaterOrEqual(t, pitch, float32(44))
	assert.GreaterOrEqual(t, r.Size().Height, float32(56))
	for i, rate := range helm.Rates {
		for _, part := range []float32{0.05, 0.95} {
			test.TapAt(r, fyne.NewPos(troughPad+pitch*(float32(i)+part), 30))
			wait(t, tab, h, rateText(rate), func(m *helm.Moment) bool { return m.Rate == rate })
		}
		tab.screen.LargerText = i%2 == 1
		width := look.Semibold.Font().Width(rateText(rate), rateSize(tab.screen.Size(1)))
		assert.Less(t, width, float64(pitch)-6, "%s fits its cell", rateText(rate))
	}
	assert.False(t, tab.strip.slower.Visible() || tab.strip.faster.Visible())
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	wait(t, tab, h, "x120", func(m *helm.Moment) bool { return m.Rate == 120 })
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	wait(t, tab, h, "x240", func(m *helm.Moment) bool { return m.Rate == 240 })
	passed := fyne.KeyName("")
	tab.screen.Keys = func(e *fyne.KeyEvent) { passed = e.Name }
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	assert.Equal(t, fyne.KeySpace, passed, "what it does not use goes on")
}

func TestOneRateWhereThereIsLittleRoom(t *testing.T) {
	tab, h := table(t, 1366, 704)
	s := tab.strip
	test.Tap(s.slower)
	wait(t, tab, h, "x5", func(m *helm.Moment) bool { return m.Rate == 5 })
	test.Tap(s.rates)
	wait(t, tab, h, "x1", func(m *helm.Moment) bool { return m.Rate == 1 })
	for range 2 {
		test.Tap(s.slower)
	}
	wait(t, tab, h, "x1/4", func(m *helm.Moment) bool { return m.Rate == 0.25 })
	assert.Equal(t, look.Text(look.SlowestRate), s.slower.Reason)
	assert.Empty(t, s.faster.Reason)
	assert.Equal(t, "Time rate x1/4: a minute of flight in 4 min", s.rates.Spoken())
}

func TestDateInTwoLines(t *testing.T) {
	day, year := dateLines(time.Date(1957, 8, 4, 23, 59, 0, 0, time.UTC))
	assert.Equal(t, []string{"4 Aug", "1957"}, []string{day, year})
}

// The clock has room for its drums, the letter and the longest date, with larger
// text too.
func TestClockFits(t *testing.T) {
	for i := range 2 * len(windowSizes) {
		size := windowSizes[i/2]
		tab, _ := table(t, size.Width, size.Height)
		tab.screen.LargerText = i%2 == 1
		c, z := tab.strip.clock, tab.screen.Size(1)
		row := picture.Counter{Reading: counter.Clock(86399), Row: picture.ClockRow}
		drum := c.drum(row, float64(c.Size().Width), float64(c.Size().Height), z)
		wide, tall := picture.CounterSize(row, drum)
		zulu, date := clockFaces(z)
		assert.LessOrEqual(t, wide+22+zulu.Font.Width("Z", zulu.Size)+date.Font.Width("30 Aug", date.Size), float64(c.Size().Width), "%v", size)
		assert.LessOrEqual(t, tall, float64(c.Size().Height), "%v", size)
		assert.Greater(t, drum, 30.0, "%v: large enough to read", size)
	}
}

// frame is the frame of the time line as it is laid out now, one pixel a unit.
func (l *timeLine) frame() lineFrame {
	z := l.strip.table.screen.Size(1)
	return frameOf(float64(l.Size().Width), float64(l.Size().Height), z, l.strip.total())
}

func (l *timeLine) picture() *paint.Raster {
	d := paint.NewImage(int(l.Size().Width), int(l.Size().Height))
	l.paint(d, float64(l.Size().Width), float64(l.Size().Height), l.strip.table.screen.Size(1))
	return d
}

// At every minute of the flight, at every size, the times under the line keep
// clear of one another, and now is among them.
func TestTimesKeepClearOfNow(t *testing.T) {
	for _, size := range windowSizes {
		tab, h := table(t, size.Width, size.Height)
		l := tab.strip.line
		f := l.frame()
		every, small := timeSpacing(f.total, f.bar.W/70)
		assert.Zero(t, every%small)
		for at := int64(0); at <= f.total; at += 4 * minute {
			h.GoTo(at)
			wait(t, tab, h, "the minute", func(m *helm.Moment) bool { return m.View.Tick == at })
			labels := l.timeLabels(&f, every)
			assert.Equal(t, tab.moment.View.Clock.Format("1504")+"Z", labels[0].words)
			assert.Greater(t, len(labels), 5)
			for i, a := range labels {
				for _, b := range labels[:i] {
					assert.Greater(t, max(a.x-b.x, b.x-a.x), (a.w+b.w)/2, "%v: %s on %s", size, a.words, b.words)
				}
				assert.True(t, a.x-a.w/2 >= 0 && a.x+a.w/2 <= float64(l.Size().Width), "%v: %s is whole", size, a.words)
			}
		}
	}
}

// The rows of the time line do not touch: sentence, marks, flags, bar, times;
// nor do they with larger text.
func TestRowsOfTheTimeLine(t *testing.T) {
	for i := range 2 * len(windowSizes) {
		size := windowSizes[i/2]
		tab, _ := table(t, size.Width, size.Height)
		tab.screen.LargerText = i%2 == 1
		f, z := tab.strip.line.frame(), tab.screen.Size(1)
		text := z.Text(look.TextSmall)
		assert.Greater(t, f.sentence-0.8*text, 0.0, "%v", size)
		assert.Less(t, f.sentence+0.25*text, f.marks-8.5*f.k+1, "%v: words on marks", size)
		assert.Less(t, f.marks+8*f.k, f.bar.Y-flagTall*f.k+1.5, "%v: marks on flags", size)
		_, plain := timeFaces(z)
		assert.Less(t, f.bar.Bottom()+10+0.85*plain.Size+2, float64(tab.strip.line.Size().Height), "%v: times below the card", size)
	}
}

// Flags stand apart, in order, clear of the pointer, whatever the time, down to
// moments a few pixels apart.
func TestFlagsStandApart(t *testing.T) {
	for _, size := range windowSizes {
		tab, _ := table(t, size.Width, size.Height)
		f := tab.strip.line.frame()
		wide := flagWide * f.k
		for now := int64(0); now < f.total; now += 20 * sim.TicksPerSecond {
			tab.strip.moment = &helm.Moment{View: aboard.View{Tick: now}}
			places := tab.strip.flagPlaces(&f)
			require.Len(t, places, 5)
			for i, x := range places {
				require.True(t, x+wide <= f.at(now)-pointerHalf || x >= f.at(now)+pointerHalf, "%v: flag %d under the pointer at %d", size, i+1, now/minute)
				require.True(t, x >= 0 && x+wide <= float64(tab.strip.line.Size().Width), "%v: flag %d is whole", size, i+1)
				if i > 0 {
					require.GreaterOrEqual(t, x, places[i-1]+wide, "%v, at %d: flag %d on the one before", size, now/minute, i+1)
				}
			}
		}
	}
}

// What has been flown, what had been, and what is to come have colours of their
// own, as far as the clock and the frontier say.
func TestBarShowsNowAndFrontier(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	l := tab.strip.line
	h.GoTo(50 * minute)
	h.Step(-20 * minute)
	wait(t, tab, h, "half an hour", func(m *helm.Moment) bool { return m.View.Tick == 30*minute && m.Frontier == 50*minute })
	for _, v := range []look.Variant{look.Paper, look.Night, look.Lamp} {
		tab.screen.Palette = look.Of(v)
		c, f, d := l.Palette(), l.frame(), l.picture()
		colour := func(tick int64) [3]uint8 {
			p := d.Pixels().RGBAAt(int(f.at(tick)), int(f.bar.Bottom())-4)
			return [3]uint8{p.R, p.G, p.B}
		}
		band := paint.Mix(c.Low, c.BrassHi, 0.32)
		assert.Equal(t, [3]uint8{c.BrassHi.R, c.BrassHi.G, c.BrassHi.B}, colour(29*minute), "flown, %v", v)
		assert.Equal(t, [3]uint8{band.R, band.G, band.B}, colour(32*minute), "flown before, %v", v)
		assert.Equal(t, [3]uint8{band.R, band.G, band.B}, colour(49*minute), "flown before, %v", v)
		assert.Equal(t, [3]uint8{c.Low.R, c.Low.G, c.Low.B}, colour(52*minute), "to come, %v", v)
		assert.NotEqual(t, band, c.Low)
	}
}

// A thousand events of a drag over a long way are at once at the last of them.
func TestDraggingEndsWhereThePointerRests(t *testing.T) {
	tab, h := table(t, 1366, 704)
	l := tab.strip.line
	width := l.Size().Width
	for i := range 1000 {
		l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(22+float32(i%700), 60)}})
	}
	l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(width/2, 60)}})
	want := l.tickAt(width / 2)
	wait(t, tab, h, "the middle", func(m *helm.Moment) bool { return m.View.Tick == want })
	l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(-100, 60)}})
	wait(t, tab, h, "the start", func(m *helm.Moment) bool { return m.View.Tick == 0 })
	l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(width+100, 60)}})
	wait(t, tab, h, "the end", func(m *helm.Moment) bool { return m.Over })
}

func TestMarksCanBePointedAt(t *testing.T) {
	tab, h := table(t, 1366, 704)
	l := tab.strip.line
	l.picture()
	// The first flight sets its counters at 40 min, which is 1010Z.
	var fix *hit
	for i := range l.hits {
		if l.hits[i].tick == 40*minute {
			fix = &l.hits[i]
		}
	}
	require.NotNil(t, fix)
	assert.Equal(t, "planned for 1010Z: counters set", fix.words)
	middle := fyne.NewPos(fix.x+fix.w/2, fix.y+fix.h/2)
	l.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: middle}})
	assert.GreaterOrEqual(t, l.under, 0)
	assert.Equal(t, desktop.PointerCursor, l.Cursor())
	assert.Equal(t, l.Position().AddXY(fix.x, fix.y), tab.strip.spot.Position(), "the slip stands at the mark")
	test.TapAt(l, middle)
	wait(t, tab, h, "the very tick", func(m *helm.Moment) bool { return m.View.Tick == 40*minute })
	l.MouseOut()
	assert.Equal(t, desktop.HResizeCursor, l.Cursor())
	h.Step(1)
	wait(t, tab, h, "a tick on", func(m *helm.Moment) bool { return m.View.Tick == 40*minute+1 })
	l.picture()
	assert.Contains(t, hitWords(l), "1010Z counters set")
}

func hitWords(l *timeLine) (all []string) {
	for _, h := range l.hits {
		all = append(all, h.words)
	}
	return all
}

func TestHidingWhatIsPlanned(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	l := tab.strip.line
	h.GoTo(20 * minute) // in the second leg, past the first two moments
	wait(t, tab, h, "twenty minutes", func(m *helm.Moment) bool { return m.View.Tick == 20*minute })
	f := l.frame()
	every, _ := timeSpacing(f.total, f.bar.W/70)
	words := func() (all []string) {
		for _, k := range l.timeLabels(&f, every) {
			all = append(all, k.words)
		}
		return all
	}
	l.picture()
	assert.Len(t, tab.strip.shownLegs(), 5)
	assert.Contains(t, words(), "1110")
	assert.Len(t, l.hits, 3+5, "marks and moments")
	before := tab.moment
	tab.screen.HidePlan = true
	tab.Apply(before)
	l.picture()
	assert.Len(t, tab.strip.shownLegs(), 2)
	assert.NotContains(t, words()[2:], "1110Z")
	assert.Contains(t, words(), "1040", "the scale stays")
	assert.Len(t, l.hits, 1+2, "what lies behind stays")
}

// A wind set in flight makes the last leg longer than was planned: the line
// grows with it, and what was flown is what is written.
func TestLineGrowsWithTheFlight(t *testing.T) {
	tab, h := table(t, 1366, 704)
	h.GoTo(85 * minute)
	h.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 278 * units.Degree, Speed: 120 * units.Knot}})
	h.GoTo(300 * minute)
	wait(t, tab, h, "the end", func(m *helm.Moment) bool { return m.Over })
	require.Greater(t, tab.moment.View.Tick, tab.survey.Ticks)
	l := tab.strip.line
	f := l.frame()
	assert.LessOrEqual(t, f.at(tab.moment.View.Tick), f.bar.Right())
	assert.Len(t, tab.strip.legs(), 5)
	assert.Equal(t, l.tickAt(l.Size().Width), tab.moment.View.Tick)
}

// Every part draws, at every size, in every light.
func TestStripIsDrawn(t *testing.T) {
	for _, size := range windowSizes {
		tab, _ := table(t, size.Width, size.Height)
		s := tab.strip
		for _, v := range []look.Variant{look.Paper, look.Night, look.Lamp} {
			tab.screen.Palette = look.Of(v)
			for name, part := range map[string]struct {
				draw func(d *paint.Raster, w, h float64, z look.Size)
				size fyne.Size
			}{
				"clock": {s.clock.paint, s.clock.Size()}, "rates": {s.rates.paint, s.rates.Size()},
				"time line": {s.line.paint, s.line.Size()}, "card": {s.paintStrip, s.Size()},
			} {
				w, h := part.size.Width, part.size.Height
				d := paint.NewImage(int(w), int(h))
				part.draw(d, float64(w), float64(h), tab.screen.Size(1))
				seen := map[[3]uint8]bool{}
				pix := d.Pixels().Pix
				for i := 0; i < len(pix); i += 4 {
					seen[[3]uint8(pix[i:i+3])] = true
				}
				assert.Greater(t, len(seen), 12, "%s, %v, %v", name, size, v)
			}
		}
	}
}
