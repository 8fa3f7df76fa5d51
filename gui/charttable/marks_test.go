package charttable

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

func (t *Table) marks() []mark {
	return marksOf(&t.strip.past, t.moment, t.plan, t.screen.HidePlan)
}

// short writes a mark for comparison: minute of flight, words, + for ahead.
func short(all []mark) (s []string) {
	for _, m := range all {
		ahead := ""
		if m.ahead {
			ahead = "+"
		}
		s = append(s, spell(time.Duration(m.tick)*time.Minute/minute)+" "+m.words+ahead)
	}
	return s
}

func at(t *testing.T, tab *Table, h *helm.Helm, tick int64) {
	t.Helper()
	h.GoTo(tick)
	wait(t, tab, h, "the tick", func(m *helm.Moment) bool { return m.View.Tick == tick })
}

func TestMarksBehindAndAhead(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	planned := []string{"0 min counters set", "40 min counters set+", "40 min wind set 307/32+"}
	assert.Equal(t, planned, short(tab.marks()))
	at(t, tab, h, 40*minute)
	assert.Equal(t, planned, short(tab.marks()), "at its tick it is not done yet: the clock stands before it")
	at(t, tab, h, 41*minute)
	assert.Equal(t, []string{"0 min counters set", "40 min counters set", "40 min wind set 307/32"}, short(tab.marks()))
	at(t, tab, h, 20*minute)
	assert.Equal(t, planned, short(tab.marks()), "gone back, they are ahead again, each once")
	tab.screen.HidePlan = true
	assert.Equal(t, planned[:1], short(tab.marks()))
}

// An action given in flight stays in sight when the flight is taken back, and
// goes when the flight goes on another way.
func TestMarksOfActionsGivenInFlight(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	at(t, tab, h, 10*minute)
	h.Do(aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(22 * units.Degree)})
	wait(t, tab, h, "the variation", func(m *helm.Moment) bool { return !m.View.FollowsField })
	assert.Contains(t, short(tab.marks()), "10 min variation set 22.0 E")
	at(t, tab, h, 15*minute)
	at(t, tab, h, 5*minute)
	assert.Contains(t, short(tab.marks()), "10 min variation set 22.0 E+")
	h.Do(aboard.Action{Kind: aboard.SlewLatitude, Slew: units.ArcMinute})
	wait(t, tab, h, "the slew", func(m *helm.Moment) bool {
		return len(m.View.Log) > 0 && m.View.Log[len(m.View.Log)-1].Action.Kind == aboard.SlewLatitude
	})
	assert.Equal(t, []string{"0 min counters set", "5 min latitude counter slewed", "40 min counters set+", "40 min wind set 307/32+"}, short(tab.marks()))
}

func TestFaultsShowOnlyWhenRevealed(t *testing.T) {
	tab, h := table(t, 1920, 1008)
	at(t, tab, h, 20*minute)
	breaks := []helm.Break{{Tick: 10 * minute, Words: "drive slips"}, {Tick: 15 * minute, Words: "drive mended", Mended: true}, {Tick: 30 * minute, Words: "static leaks"}}
	m := *tab.moment
	m.Revealed = &helm.Revealed{Breaks: breaks}
	tab.Apply(&m)
	got := short(tab.marks())
	assert.Subset(t, got, []string{"10 min drive slips", "15 min drive mended", "30 min static leaks+"})
	assert.Equal(t, brokenMark, tab.marks()[1].kind)
	assert.Equal(t, mendedMark, tab.marks()[2].kind)
	hidden := *tab.moment
	hidden.Revealed = nil
	tab.Apply(&hidden)
	assert.Len(t, tab.marks(), 3)
}

// Words of every action, so that none is without.
func TestEveryActionHasWords(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range []aboard.Action{
		{Kind: aboard.SetVariation}, {Kind: aboard.FollowField}, {Kind: aboard.SetWind}, {Kind: aboard.SetCounters}, {Kind: aboard.SlewLatitude},
		{Kind: aboard.SlewLongitude}, {Kind: aboard.SetLongitudeLever}, {Kind: aboard.SetLongitudeLever, East: true},
		{Kind: aboard.AlternateStatic}, {Kind: aboard.AlternateStatic, On: true}, {Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aboard.Aim{Aid: aboard.Loop, Source: "Gannet Rock"}}}, {Kind: 200},
	} {
		m := markOf(5, &a, false)
		assert.NotEmpty(t, m.words)
		assert.False(t, seen[m.words], m.words)
		seen[m.words] = true
	}
	assert.True(t, seen["lever to E"] && seen["lever to W"])
}

// Whatever lies on the line: symbols do not lie on one another, keep their
// order, stay between the edges as long as there is room, and stand at their
// time if nobody is near.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const pitch, left, right = 20.0, 10.0, 990.0
		var all []mark
		for range rapid.IntRange(0, 40).Draw(t, "n") {
			all = append(all, mark{tick: rapid.Int64Range(0, 1000).Draw(t, "tick"), kind: markKind(rapid.IntRange(0, 7).Draw(t, "kind")),
				words: rapid.StringMatching("[a-z]{1,30}").Draw(t, "words"), value: rapid.StringMatching("[0-9]{0,6}").Draw(t, "value")})
		}
		got := spread(byTime(all), func(tick int64) float64 { return float64(tick) }, pitch, left, right)
		told := 0
		for i, m := range got {
			told += len(m.told)
			require.True(t, m.x >= left-1e-9 && m.x <= right+1e-9, "%v", m.x)
			if i > 0 {
				require.GreaterOrEqual(t, m.x-got[i-1].x, pitch-1e-9)
			}
		}
		require.Len(t, all, told, "none is lost")
		if len(got) == 1 && got[0].at >= left && got[0].at <= right {
			require.Equal(t, got[0].at, got[0].x)
		}
		checkCaptions(t, got, captions(got, pitch, 0, 1000, func(s string) float64 { return 6 * float64(len(s)) }), pitch)
	})
}

// No words lie on a symbol, on other words or beyond the edges.
func checkCaptions(t *rapid.T, marks []placed, words []caption, pitch float64) {
	for i, c := range words {
		end := c.x + 6*float64(len(c.words))
		require.True(t, c.x >= 0 && end <= 1000)
		for _, m := range marks {
			require.True(t, end <= m.x-pitch/2 || c.x >= m.x+pitch/2, "words on a symbol")
		}
		for _, o := range words[:i] {
			require.True(t, o.x+6*float64(len(o.words)) <= c.x || end <= o.x, "words on words")
		}
	}
}

// The captions of the pictures: to the right; at the right edge to the left; and
// none where neither has room.
func TestCaptions(t *testing.T) {
	mk := func(x float64, words string) placed { return placed{mark: mark{words: words}, x: x, at: x} }
	width := func(s string) float64 { return 6 * float64(len(s)) }
	got := captions([]placed{mk(10, "counters set"), mk(400, "counters set"), mk(420, "wind set 307/32"), mk(990, "fix due")}, 20, 0, 1000, width)
	require.Len(t, got, 3)
	assert.Equal(t, "counters set", got[0].words)
	assert.Equal(t, caption{"counters set, wind set 307/32", 435, false}, got[1])
	assert.Equal(t, caption{"fix due", 990 - 10 - 5 - 42, false}, got[2])
	full := mark{words: "wind set 296/28", value: "296/28"}
	got = captions([]placed{{mark: full, x: 10}, mk(80, "x")}, 20, 0, 86, width)
	assert.Equal(t, []caption{{"296/28", 25, false}}, got, "the value alone where there is no more room")
	assert.Len(t, captions([]placed{mk(10, "long words"), mk(60, "long words"), mk(110, "long words")}, 20, 0, 130, width), 0)
}

// Each kind has a drawing of its own, and a hollow one.
func TestSignsDiffer(t *testing.T) {
	pictures := map[string]string{}
	for k := countersMark; k <= mendedMark; k++ {
		for _, ahead := range []bool{false, true} {
			if k == mendedMark && ahead {
				continue // mended is struck through either way
			}
			d := paint.NewImage(40, 40)
			b := &signBrush{picture.NewBrush(d, look.Of(look.Lamp), look.SizeOf(1920, 1080, 1)), 1}
			b.mark(&mark{kind: k, ahead: ahead}, paint.Pt(20, 20))
			pixels := string(d.Pixels().Pix)
			name := []string{"counters", "wind", "variation", "lever", "slew", "other", "broken", "mended"}[k]
			assert.Empty(t, pictures[pixels], "%s %v", name, ahead)
			pictures[pixels] = name
		}
	}
}

func TestSentenceFits(t *testing.T) {
	width := func(s string) float64 { return float64(len(s)) }
	assert.Equal(t, "One. Two.", fitted("One. Two.", 9, width))
	assert.Equal(t, "One.", fitted("One. Two.", 8, width))
	assert.Equal(t, "One.", fitted("One.", 2, width), "the first is never lost")
}
