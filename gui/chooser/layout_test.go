package chooser

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// frame is a place on the view.
type frame struct {
	name string
	at   fyne.Position
	size fyne.Size
}

func (f frame) right() float32  { return f.at.X + f.size.Width }
func (f frame) bottom() float32 { return f.at.Y + f.size.Height }

func frameOf(name string, o fyne.CanvasObject) frame {
	return frame{name, fyne.CurrentApp().Driver().AbsolutePositionForObject(o), o.Size()}
}

// assertApart checks that no two parts lie on each other; the rings of two cards
// may share their room.
func assertApart(t *testing.T, parts []frame, ring float32) {
	t.Helper()
	for i, a := range parts {
		assert.True(t, a.size.Width > 0 && a.size.Height > 0, "%s has no size", a.name)
		for _, b := range parts[:i] {
			apart := a.right()-ring <= b.at.X+ring || b.right()-ring <= a.at.X+ring ||
				a.bottom()-ring <= b.at.Y+ring || b.bottom()-ring <= a.at.Y+ring
			assert.True(t, apart, "%s lies on %s", a.name, b.name)
		}
	}
}

func TestNothingOverlapsOrLeavesTheView(t *testing.T) {
	var recent []string
	for i := range 8 {
		recent = append(recent, write(t, fmt.Sprintf("flight-%d.toml", i)))
	}
	bad := write(t, "bad.toml", "tas_kt = 180", "tas_kt = 950")
	s := newStage(t, sizes[0], recent...)
	s.keep(6)
	for _, size := range sizes {
		for _, larger := range []bool{false, true} {
			s.screen.LargerText = larger
			s.resize(size)
			s.checkCards()
			s.checkColumn(size, s.chart)
			s.OpenPath(bad)
			s.until("the errors", func() bool { return s.refusal.content.Visible() })
			s.checkColumn(size, s.refusal.content)
			inside := []frame{frameOf("list", s.refusal.scroll), frameOf("check", s.refusal.check), frameOf("copy", s.refusal.copy), frameOf("close", s.refusal.close)}
			assertApart(t, inside, 0)
			assert.GreaterOrEqual(t, s.refusal.scroll.Size().Height, float32(90), "%v: room for an error", size)
			s.press(fyne.KeyEscape)
		}
	}
}

// checkCards: cards lie apart, inside the width, and the shelf scrolls to the
// last of them.
func (s *stage) checkCards() {
	s.t.Helper()
	var parts []frame
	for i, h := range s.shelf.heads {
		if !h.Visible() {
			continue
		}
		parts = append(parts, frame{fmt.Sprint("heading ", i), h.Position(), h.Size()})
	}
	for _, e := range s.entries() {
		f := frame{e.called(), e.card.Position(), e.card.Size()}
		parts = append(parts, f)
		assert.LessOrEqual(s.t, f.right(), s.shelf.inner.Size().Width, f.name)
		assert.LessOrEqual(s.t, f.bottom(), s.shelf.inner.Size().Height, f.name)
	}
	assertApart(s.t, parts, ring)
	s.press(fyne.KeyEnd)
	last := s.files[len(s.files)-1].card
	assert.LessOrEqual(s.t, last.Position().Y+last.Size().Height, s.shelf.scroll.Offset.Y+s.shelf.scroll.Size().Height+0.5)
	s.press(fyne.KeyHome)
	assert.Zero(s.t, s.shelf.scroll.Offset.Y)
}

// checkColumn: the card that tells and what is below it lie apart and inside
// the view.
func (s *stage) checkColumn(size fyne.Size, below fyne.CanvasObject) {
	s.t.Helper()
	parts := []frame{frameOf("told", s.told.content), frameOf("below", below), frameOf("shelf", s.shelf.scroll)}
	assertApart(s.t, parts, 0)
	for _, p := range parts {
		assert.True(s.t, p.at.X >= 0 && p.right() <= size.Width && p.bottom() <= size.Height-bar(size), "%v: %s leaves the view", size, p.name)
	}
	assertApart(s.t, []frame{frameOf("fly", s.told.fly), frameOf("open", s.told.open)}, 0)
}

func TestFourCardsAcrossAtFullSizeAndAsManyAsFitElse(t *testing.T) {
	s := newStage(t, sizes[0])
	for size, want := range map[fyne.Size]int{sizes[0]: 3, sizes[1]: 4, sizes[2]: 4, {Width: 3840, Height: 2160}: 4, {Width: 1024, Height: 680}: 2} {
		s.resize(size)
		assert.Equal(t, want, s.shelf.columns(), "%v", size)
	}
	s.resize(sizes[2])
	assert.InDelta(t, 306, s.shipped[0].card.Size().Width-2*ring, 1)
	assert.InDelta(t, 318, s.shipped[0].card.Size().Height-2*ring, 2)
}

// A sentence of a shipped flight stands whole on its card at every size.
func TestSentencesFitTheirCards(t *testing.T) {
	s := newStage(t, sizes[0])
	for _, size := range sizes {
		s.resize(size)
		z := s.screen.Size(1)
		for _, e := range s.shipped {
			w := float64(s.shipped[0].card.Size().Width) - 2*ring
			chart := chartOf(paint.R(0, 0, w, 0), z)
			lines := fold(e.summary, typeOf(look.Regular, z, look.TextSmall), chart.W-2*z.Px(8), 2)
			assert.Equal(t, e.summary, strings.Join(lines, " "), "%v", size)
		}
	}
}

// Charts are drawn once for each light and kept.
func TestChartsAreDrawnForEachLightAndKept(t *testing.T) {
	s := newStage(t, sizes[1])
	card := s.shipped[0].card
	capture := func() { s.window.Canvas().Capture() }
	wait := func() {
		capture()
		s.until("the charts drawn", func() bool { return !s.charts.working && len(s.charts.queue) == 0 })
		capture()
	}
	wait()
	require.Len(t, s.charts.done[card], 1)
	paper := s.charts.done[card][0].image
	s.screen.Palette = look.Of(look.Night)
	s.Recolour()
	wait()
	require.Len(t, s.charts.done[card], 2)
	s.screen.Palette = look.Of(look.Paper)
	s.Recolour()
	capture()
	assert.False(t, s.charts.working, "the paper one was kept")
	w := s.charts.done[card][1]
	assert.Same(t, paper, w.image)
	assertInk(t, paper.Pix)
}

// assertInk: a chart is more than an empty sea.
func assertInk(t *testing.T, pix []uint8) {
	t.Helper()
	seen := map[[3]uint8]int{}
	for i := 0; i < len(pix); i += 4 {
		seen[[3]uint8(pix[i:i+3])]++
	}
	assert.Greater(t, len(seen), 30)
	land := look.Of(look.Paper).Land
	assert.Greater(t, seen[[3]uint8{land.R, land.G, land.B}], 200, "there is land")
}

func TestWords(t *testing.T) {
	text := typeOf(look.Regular, look.SizeOf(1920, 1080, 1), look.TextBody)
	width := text.Font.Width("First look: Port", text.Size)
	assert.Equal(t, "First look", shortTitle("First look: Port Aldous to Skerrow", text, width))
	assert.Equal(t, "Far south", shortTitle("Far south", text, width))
	for _, line := range fold(strings.Repeat("x", 100)+" and so on", text, width, 0) {
		assert.LessOrEqual(t, text.Font.Width(line, text.Size), width)
	}
	assert.Equal(t, strings.Repeat("x", 100)+"andsoon", strings.Join(strings.Fields(strings.Join(fold(strings.Repeat("x", 100)+" and so on", text, width, 0), "")), ""))
	two := fold(strings.Repeat("word ", 40), text, width, 2)
	require.Len(t, two, 2)
	assert.True(t, strings.HasSuffix(two[1], "\u2026"))
	assert.Empty(t, fold("", text, width, 2))
	assert.Equal(t, "a b?c", printable("a\tb\u4e00c\x07", look.Regular))
}

// The pointer over a card changes its outline and nothing else; keys that a card
// does not use go on to the window.
func TestCardsPassKeysOn(t *testing.T) {
	s := newStage(t, sizes[1])
	var passed []fyne.KeyName
	s.screen.Keys = func(e *fyne.KeyEvent) { passed = append(passed, e.Name) }
	s.press(fyne.KeyRight)
	test.Type(s.window.Canvas().Focused(), "x")
	s.shipped[1].card.TypedKey(&fyne.KeyEvent{Name: fyne.KeyN})
	s.shipped[1].card.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Equal(t, []fyne.KeyName{fyne.KeyN}, passed)
	assert.Equal(t, s.shipped[2], s.chosen)
}
