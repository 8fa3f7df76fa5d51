package navlog

import (
	"bytes"
	"encoding/csv"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// kept is the log of a flight after some time.
func kept(t *testing.T, name string, at time.Duration) (*Book, *aboard.View, *sim.Engine) {
	t.Helper()
	p, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	e.GoTo(sim.TicksOf(at))
	v := e.View()
	return NewBook(p), &v, e
}

// TestEveryLineHasItsColumns: one line for each entry, the forms as wide as their heads,
// the figures those of the entry.
func TestEveryLineHasItsColumns(t *testing.T) {
	b, v, _ := kept(t, "weather-triangle", time.Hour)
	for _, short := range []bool{false, true} {
		b.Short = short
		rows := b.Rows(v)
		require.Len(t, rows, len(v.Log))
		for i, row := range rows {
			require.Len(t, row, len(b.Columns()))
			assert.Contains(t, v.Log[i].Air.String(), row[map[bool]int{false: 11, true: 5}[short]].Word)
		}
	}
	b.Short = false
	last := v.Log[len(v.Log)-1]
	row := b.Rows(v)[len(v.Log)-1]
	assert.Equal(t, last.Wind.String(), row[13].Word)
	assert.Equal(t, "wind set 301/40", row[19].Word)
	assert.Equal(t, units.Figure(v.Log[3].Elapsed.Minutes(), 0), b.Rows(v)[3][9].Word, "minutes since the counters were set")
}

// TestByHand: nothing stands in the log but the times; what is written is looked over.
func TestByHand(t *testing.T) {
	b, v, _ := kept(t, "weather-triangle", time.Hour)
	b.Write(v, 0, 1, "nobody asked")
	b.Hand = true
	for _, row := range b.Rows(v) {
		for i, c := range row {
			assert.Equal(t, i == 0, c.Word != "")
		}
	}
	should := b.line(v, &v.Log[0])
	b.Write(v, 0, 8, should[8])
	b.Write(v, 0, 11, "48 00.0 S")
	b.Write(v, 0, 0, "0000")
	b.Check = true
	row := b.Rows(v)[0]
	assert.Empty(t, row[8].Check)
	assert.Equal(t, look.Textf(look.LogShould, "48 00.0 S", should[11]), row[11].Check)
	assert.Equal(t, should[0], row[0].Word, "the time is the clock's")
	right, all := b.Kept(v)
	assert.Equal(t, 1, right)
	assert.Equal(t, 18*len(v.Log), all)
	_, name, ok := b.Word(v, 0, 8)
	assert.True(t, ok)
	assert.Contains(t, name, "TAS")
	_, _, ok = b.Word(v, len(v.Log), 8)
	assert.False(t, ok)
}

// TestWhatAgrees: spaces and capitals do not matter, figures may be off by a little.
func TestWhatAgrees(t *testing.T) {
	for _, c := range []struct {
		hand, should string
		within       float64
		want         bool
	}{
		{"47 10.3 s", "47 10.0 S", 0.5, true}, {"47 10.6 S", "47 10.0 S", 0.5, false}, {"47 10.0 N", "47 10.0 S", 0.5, false},
		{"47 59.8 S", "48 00.1 S", 0.5, true}, {"266", "268", 2, true}, {"265", "268", 2, false},
		{"295/27", "295/27", 0, true}, {"295/28", "295/27", 0, false}, {"4L", "4.0 L", 1, true}, {"4 R", "4.0 L", 1, false},
		{"about 5", "5", 2, false}, {"", "5", 2, false}, {"23.5 E", "23.5 e", 0.5, true},
	} {
		assert.Equal(t, c.want, agrees(c.hand, c.should, c.within), "%q for %q", c.hand, c.should)
	}
}

func TestTheLogAsCSV(t *testing.T) {
	b, v, _ := kept(t, "first-look", 40*time.Minute)
	var out bytes.Buffer
	require.NoError(t, b.CSV(&out, v))
	all, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, all, len(v.Log)+1)
	assert.Equal(t, "TAS kt", all[0][8])
}

// TestTheViewIsWrittenIn: by the keyboard; and its page can be saved.
func TestTheViewIsWrittenIn(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	b, _, e := kept(t, "first-look", 40*time.Minute)
	h := helm.New(e)
	defer h.Stop()
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}
	screen.Hints = kit.NewHints(screen)
	var window fyne.Window
	v := New(h, b.plan, screen, func() fyne.Canvas { return window.Canvas() })
	window = test.NewTempWindow(t, v.Content())
	window.Resize(fyne.NewSize(1340, 560))
	assert.NotEmpty(t, v.keys[2].Reason)
	test.Tap(v.keys[1])
	assert.True(t, v.book.Hand)
	assert.Empty(t, v.keys[2].Reason)
	v.sheet.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Equal(t, [2]int{0, 2}, v.sheet.marked)
	v.sheet.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotNil(t, window.Canvas().Overlays().Top(), "a cell is asked for")
	v.book.Write(&v.moment.View, 0, 8, "1")
	test.Tap(v.keys[2])
	var page bytes.Buffer
	require.NoError(t, v.Page()(&page, paint.SVGFile))
	assert.Contains(t, page.String(), look.Text(look.Caution))
	p := v.sheet.places()
	row, column, ok := p.At(p.Edges[3]+1, p.Top+1.5*p.Pitch)
	assert.True(t, ok)
	assert.Equal(t, [2]int{1, 3}, [2]int{row, column})
}
