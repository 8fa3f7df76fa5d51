package picture

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// sample is an account of n links, each with its own part of a mile or two.
func sample(n int) *Account {
	a := &Account{
		Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), When: "1122Z", Minute: 112,
		True: units.At(-48.257, -179.868), Ground: NewGround(testWaters()), Near: NewGround(testWaters()),
		Plot: testPlot(),
	}
	for i := range n {
		p := AccountPart{
			Name: fmt.Sprintf("link with a long name %d", i), Note: "flexible drive or clutch slips, from 1020Z; another fault, from 1040Z",
			Family: Family(i % 7), North: float64(i%5) - 1.7, East: 2.3 - float64(i%4),
		}
		p.Printed = [3]int{int(math.Round(10 * p.North)), int(math.Round(10 * p.East)), int(math.Round(10 * p.East))}
		a.Parts = append(a.Parts, p)
	}
	a.sum()
	for m := range 113 {
		a.AsFlown = append(a.AsFlown, AccountPoint{Minute: float64(m), NM: math.Abs(float64(m-42)) / 7, Jump: m == 42})
	}
	a.Events = []AccountEvent{{0, AccountBreak, "a fault 0930Z"}, {42, AccountReset, "counters set 1012Z"}, {42, AccountSetting, "wind set 308/39"}, {50, AccountBreak, "drive slips 1020Z"}, {90, AccountMend, "mended 1100Z"}}
	for range 6 {
		a.Lessons = append(a.Lessons, Lesson{"The drive cost 5.9 NM, and more than one line of it where the card is narrow.", "The air log counter is tapped before the drive and went on counting. Hold it against the miles wound on, on every log line."})
	}
	return a
}

// sum adds up what is in the chain.
func (a *Account) sum() {
	a.North, a.East, a.Sum = 0, 0, [3]int{}
	for _, p := range a.Parts {
		if !p.Right {
			a.North, a.East = a.North+p.North, a.East+p.East
			for c := range a.Sum {
				a.Sum[c] += p.Printed[c]
			}
		}
	}
	a.Shown = a.aside(a.North, a.East)
}

// TestChainLeadsFromTruthToBelief: head to tail, each vector as long as its miles,
// and pulled out one closes up.
func TestChainLeadsFromTruthToBelief(t *testing.T) {
	a := sample(9)
	v := a.insetView(paint.R(0, 0, 700, 400), full)
	links := a.links(v)
	require.Len(t, links, 9)
	perMile := 1 / v.MilesPerPixel(a.True.Lat)
	at := v.ToPixel(a.True)
	for i, l := range links {
		assert.Equal(t, at, l.a)
		at = l.z
		assert.InDelta(t, math.Hypot(a.Parts[i].North, a.Parts[i].East), l.a.Dist(l.z)/perMile, 0.01*3, "%d", i) // minutes of arc called miles
	}
	assert.Less(t, at.Dist(v.ToPixel(a.Shown)), 0.01)
	for _, l := range links {
		assert.True(t, v.Box.Contains(l.z))
	}
	a.Parts[3].Right = true
	a.sum()
	links = a.links(v)
	require.Len(t, links, 8)
	assert.Equal(t, links[2].z, links[3].a, "closed up")
	assert.Less(t, links[7].z.Dist(v.ToPixel(a.aside(a.North, a.East))), 0.01)
}

// TestAccountWordsKeepOff: at no size lies a word of table, plot or lessons on
// another, or leaves its card.
func TestAccountWordsKeepOff(t *testing.T) {
	for _, s := range []struct{ w, h, boxH float64 }{{1280, 720, 516}, {1366, 768, 560}, {1920, 1080, 848}, {3840, 2160, 1700}} {
		for _, larger := range []bool{false, true} {
			for _, n := range []int{1, 6, 9, 15} {
				z := look.SizeOf(s.w, s.h, 1)
				z.Larger = larger
				name := fmt.Sprintf("%vx%v, larger %v, %d links", s.w, s.h, larger, n)
				a := sample(n)
				for page := range AccountPages(z) {
					c := AccountLayout(z, paint.R(0, 0, s.w-32, s.boxH), page)
					if c.Table.W > 0 {
						keepsOff(t, name+", table", z, c.Table, func(b *Brush) { b.accountTable(c.Table, a) })
					}
					if c.Time.W > 0 {
						keepsOff(t, name+", time", z, c.Time, func(b *Brush) { b.accountTime(c.Time, a) })
						keepsOff(t, name+", words", z, c.Words, func(b *Brush) { b.accountWords(c.Words, a) })
					}
				}
			}
		}
	}
}

// keepsOff draws a card and looks at its words.
func keepsOff(t *testing.T, name string, z look.Size, card paint.Rect, draw func(*Brush)) {
	t.Helper()
	var rec paint.Record
	draw(NewBrush(&rec, look.Of(look.Paper), z))
	var seen []paint.Call
	room := func(k paint.Call) paint.Rect {
		r := k.Type.Font.Ink(k.Text, k.Type.Size)
		return paint.R(k.At.X+r.X-float64(k.Type.Anchor)/2*k.Type.Font.Width(k.Text, k.Type.Size), k.At.Y+r.Y, r.W, r.H)
	}
	for _, k := range rec.Calls {
		if k.Name != "text" || k.Text == "" {
			continue
		}
		r := room(k)
		assert.True(t, card.Covers(r), "%s: %q leaves its card", name, k.Text)
		for _, o := range seen {
			assert.False(t, r.Inset(0.5).Overlaps(room(o).Inset(0.5)), "%s: %q lies on %q", name, k.Text, o.Text)
		}
		seen = append(seen, k)
	}
	assert.NotEmpty(t, seen, name)
}

// TestBarsGoOnFromOneAnother: the bars of the column along the line are as long as
// its figures, and the last is the sum.
func TestBarsGoOnFromOneAnother(t *testing.T) {
	a := sample(7)
	var rec paint.Record
	b := NewBrush(&rec, look.Of(look.Paper), full)
	card := paint.R(0, 0, 1000, 420)
	l := b.ledgerOf(b.cardRoom(card), len(a.Parts))
	b.accountBars(&l, a)
	var bars []paint.Rect
	for _, k := range rec.Calls {
		if k.Name == "stroke" && k.Col == b.C.Ink && len(k.Path.Pts) > 2 {
			bars = append(bars, k.Path.Bounds())
		}
	}
	require.Len(t, bars, len(a.Parts)+1)
	sum := bars[len(a.Parts)]
	perTenth := sum.W / math.Abs(float64(a.Sum[2]))
	at := sum.X
	for i, p := range a.Parts {
		assert.InDelta(t, math.Max(1, math.Abs(float64(p.Printed[2]))*perTenth), bars[i].W, 1e-6, "%d", i)
		from, to := bars[i].X, bars[i].Right()
		if p.Printed[2] < 0 {
			from, to = to, from
		}
		assert.InDelta(t, at, from, 1e-6, "%d", i)
		at = to
	}
	assert.InDelta(t, sum.Right(), at, 1e-6)
}

func TestNiceStep(t *testing.T) {
	for v, want := range map[float64]float64{0: 1, 0.03: 0.05, 0.2: 0.2, 1.1: 2, 4.9: 5, 6: 10, 38: 50} {
		assert.InDelta(t, want, NiceStep(v), want*1e-9, "%v", v)
	}
}
