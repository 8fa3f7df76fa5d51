package film

import (
	"fmt"
	"image"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// TestNothingOverlaps: in any size that may be asked for and any view, all that
// stands in a frame lies within it, has room, and covers nothing else.
func TestNothingOverlaps(t *testing.T) {
	side := func(t *rapid.T, name string) int { return rapid.IntRange(leastSide, 3000).Draw(t, name) }
	rapid.Check(t, func(t *rapid.T) {
		s := Size{side(t, "w"), side(t, "h")}
		view := rapid.SampledFrom(Views()).Draw(t, "view")
		link := picture.Link(rapid.IntRange(0, int(picture.NoLink)).Draw(t, "link"))
		l := arrange(s, view, link, rapid.Bool().Draw(t, "captioned"))
		frame := paint.R(0, 0, float64(s.W), float64(s.H))
		for i, a := range l.spots {
			require.True(t, frame.Covers(a.at), "%v %v in %v", a.kind, a.at, s)
			require.Greater(t, math.Min(a.at.W, a.at.H), 12*s.unit(), "kind %v", a.kind)
			for _, b := range l.spots[i+1:] {
				require.False(t, a.at.Overlaps(b.at), "%v %v and %v %v", a.kind, a.at, b.kind, b.at)
			}
		}
	})
}

// TestWordsStayOnTheirCards: no word of a card is cut off at its edge or lies on
// another.
func TestWordsStayOnTheirCards(t *testing.T) {
	e, end := flown(t, "weather-triangle")
	s, err := NewScript(Plan{Rate: Rate{1, 1}, Speed: fastSpeed, View: ChartView}, end)
	require.NoError(t, err)
	for _, size := range []Size{{1920, 1080}, {1080, 1920}, {1080, 1080}, {1366, 768}, {720, 1280}, {640, 480}} {
		st, err := NewStudio(e, s, Look{Size: size})
		require.NoError(t, err)
		for _, view := range Views() {
			m := take(e, s.Shot(s.Frames()/2), false)
			m.Shot.View = view
			m.Caption = "The resolver splits the distance flown into its north and east parts, whatever the heading."
			st.captioned = true
			set := st.set(&m.Shot)
			for _, spot := range set.spots {
				if spot.kind == chartKind || spot.kind == worksKind {
					continue // their own tests see to it
				}
				p := newPane(st, set, spot)
				var rec paint.Record
				p.brush = picture.NewBrush(&rec, p.palette, p.size)
				p.paint(p, m)
				onCard(t, fmt.Sprintf("%v %s kind %d", size, view, spot.kind), &rec, paint.R(0, 0, p.w, p.h))
			}
		}
	}
}

// onCard checks the words of a card; those on drums are clipped by them.
func onCard(t *testing.T, what string, rec *paint.Record, card paint.Rect) {
	var boxes []paint.Rect
	var words []string
	clips := 0
	for _, c := range rec.Calls {
		switch c.Name {
		case "clip":
			clips++
		case "unclip":
			clips--
		case "text":
			if clips > 0 {
				continue
			}
			q := c.Type.Font.Ink(c.Text, c.Type.Size)
			w := c.Type.Font.Width(c.Text, c.Type.Size)
			q.X += c.At.X - w*float64(c.Type.Anchor)/2
			q.Y += c.At.Y
			assert.True(t, card.Covers(q), "%s: %q at %v leaves its card %v", what, c.Text, q, card)
			for i, b := range boxes {
				assert.False(t, q.Inset(0.5).Overlaps(b.Inset(0.5)), "%s: %q lies on %q", what, c.Text, words[i])
			}
			boxes, words = append(boxes, q), append(words, c.Text)
		}
	}
	require.NotEmpty(t, words, what)
}

// TestLongestCaption: a caption of 200 characters stands whole on its card, in
// letters that can be read.
func TestLongestCaption(t *testing.T) {
	e, end := flown(t, "first-look")
	long := strings.Repeat("Every mile of it is wound on. ", 7)[:199] + "a"
	for _, size := range []Size{{1920, 1080}, {1080, 1920}, {1080, 1080}} {
		s, err := NewScript(Plan{Rate: Rate{1, 1}, Speed: fastSpeed, View: ChartView}, end)
		require.NoError(t, err)
		st, err := NewStudio(e, s, Look{Size: size})
		require.NoError(t, err)
		st.captioned = true
		m := take(e, s.Shot(3), false)
		m.Caption = long
		set := st.set(&m.Shot)
		for _, spot := range set.spots {
			if spot.kind != captionKind {
				continue
			}
			p := newPane(st, set, spot)
			var rec paint.Record
			p.brush = picture.NewBrush(&rec, p.palette, p.size)
			p.paint(p, m)
			onCard(t, size.String(), &rec, paint.R(0, 0, p.w, p.h))
			said := ""
			for _, c := range rec.Texts() {
				said += c.Text + " "
				assert.GreaterOrEqual(t, c.Type.Size, p.size.Px(17), size.String())
			}
			assert.Equal(t, long, strings.TrimSpace(said))
		}
	}
}

// TestLongTitle: the name of a flight gives way to the clock.
func TestLongTitle(t *testing.T) {
	e, end := flown(t, "first-look")
	for _, size := range []Size{{1920, 1080}, {1080, 1920}, {1080, 1080}} {
		s, err := NewScript(Plan{Rate: Rate{1, 1}, Speed: fastSpeed, View: ChartView}, end)
		require.NoError(t, err)
		st, err := NewStudio(e, s, Look{Size: size})
		require.NoError(t, err)
		short := st.set(&Shot{View: ChartView, Link: picture.NoLink})
		st.title = strings.Repeat("Round the islands and home again ", 6)
		long := st.drawStill()
		var clock paint.Rect
		for _, spot := range short.spots {
			if spot.kind == clockKind {
				clock = spot.at
			}
		}
		box := image.Rect(int(clock.X), int(clock.Y), int(clock.Right()), int(clock.Bottom()))
		ground := look.Of(look.Paper).Ground
		for y := box.Min.Y; y < box.Max.Y; y++ {
			for x := box.Min.X; x < box.Max.X; x++ {
				c := long.RGBAAt(x, y)
				require.Equal(t, [3]uint8{ground.R, ground.G, ground.B}, [3]uint8{c.R, c.G, c.B}, "%v: (%d, %d)", size, x, y)
			}
		}
		assert.NotEqual(t, st.still.Pix, long.Pix)
	}
}

// TestFade: nothing of the picture at its very edge, all of it further in; none
// where the picture ends.
func TestFade(t *testing.T) {
	black := look.Of(look.Paper).Ink
	assert.Nil(t, newFade(spot{at: paint.R(0, 0, 100, 50), part: allWorks}, 10, black))
	f := newFade(spot{at: paint.R(0, 0, 100, 50), part: rightWorks}, 10, black)
	row := make([]byte, 400)
	for i := range row {
		row[i] = 255
	}
	f.row(row, 0, 20)
	assert.InDelta(t, float64(black.R), float64(row[0]), 3, "the ground")
	assert.Equal(t, byte(255), row[4*10], "the picture")
	assert.Equal(t, byte(255), row[4*99], "its own edge")
	for x := 1; x < 10; x++ {
		assert.Greater(t, row[4*x], row[4*(x-1)])
	}
}

// TestAroundHoldsTheLink: a link that is framed is seen whole, in every shape.
func TestAroundHoldsTheLink(t *testing.T) {
	for l := range picture.LinkCount {
		for _, shape := range []float64{0.6, 1, 16.0 / 9, 2.2} {
			q := around(l, shape)
			assert.True(t, allWorks.Covers(q.Inset(1e-9)), "%d %v: %v", l, shape, q)
			assert.InDelta(t, shape, q.W/q.H, 1e-9)
			assert.True(t, q.Covers(picture.LinkRoom(l).Intersect(allWorks)), "%d %v: %v", l, shape, q)
		}
	}
}

// TestChartHoldsTheFlight: what is flown in the film lies within its chart.
func TestChartHoldsTheFlight(t *testing.T) {
	e, end := flown(t, "weather-triangle")
	for _, from := range []int64{0, 600} {
		p := Plan{Rate: Rate{1, 1}, Speed: fastSpeed, View: ChartView}
		p.From = sim.TimeOf(from * sim.TicksPerSecond)
		s, err := NewScript(p, end)
		require.NoError(t, err)
		st, err := NewStudio(e, s, Look{Size: Size{1080, 1080}, Reveal: true})
		require.NoError(t, err)
		set := st.set(&Shot{View: ChartView})
		for i := 0; i < s.Frames(); i += 20 {
			m := take(e, s.Shot(i), true)
			for _, at := range []paint.Point{set.chart.view.ToPixel(m.Truth.Position), set.chart.view.ToPixel(posOf(m)), set.chart.view.ToPixel(airOf(m))} {
				require.True(t, set.chart.view.Box.Contains(at), "frame %d: %v", i, at)
			}
		}
	}
}
