package notes

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"go.uber.org/goleak"
	"pgregory.net/rapid"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

var noon = time.Date(2030, 1, 1, 12, 0, 0, 0, time.UTC)

func TestWhatIsLeft(t *testing.T) {
	h := Hour{Began: noon, Planned: 50 * time.Minute}
	for past, want := range map[time.Duration][2]string{
		0:                            {"50 min left", "0 min gone of 50"},
		59 * time.Second:             {"50 min left", "0 min gone of 50"},
		time.Minute:                  {"49 min left", "1 min gone of 50"},
		49*time.Minute + time.Second: {"1 min left", "49 min gone of 50"},
		50 * time.Minute:             {"0 min left", "50 min gone of 50"},
		53*time.Minute + time.Second: {"3 min over", "53 min gone of 50"},
		-time.Hour:                   {"50 min left", "0 min gone of 50"}, // a clock that was put back
	} {
		left, gone := h.text(noon.Add(past))
		assert.Equal(t, want, [2]string{left, gone}, "%v", past)
	}
}

func TestPlannedStaysWithin(t *testing.T) {
	assert.Equal(t, usual, PlannedOf(0))
	rapid.Check(t, func(t *rapid.T) {
		h := Hour{Planned: PlannedOf(rapid.IntRange(-100, 10_000).Draw(t, "minutes"))}
		h.Longer(rapid.IntRange(-100, 100).Draw(t, "steps"))
		if h.Planned < Shortest || h.Planned > Longest {
			t.Fatalf("%v", h.Planned)
		}
	})
}

// The largest letters are taken in which the page has room; the longest page a flight file
// allows has room in the window as it opens.
func TestAPageHasRoom(t *testing.T) {
	z := look.SizeOf(900, 700, 1)
	long := func(n int) string {
		words := make([]byte, n)
		for i := range words {
			words[i] = 'n'
			if i%7 == 6 {
				words[i] = ' '
			}
		}
		return string(words)
	}
	p := Page{Title: "Title", Count: "step 1 of 8", Head: long(48), Next: "Next: " + long(48), Clock: "0930Z", Parts: []Part{
		{"text", long(420), true}, {"they do", long(160), true}, {"hint", long(120), false}, {"asked", long(120), true}, {"right is", long(60), false}, {"why", long(200), false},
	}}
	in := paint.R(40, band+edge, 900-80, 700-band-2*edge-row-2*edge)
	l := lines{p: &p, in: in, c: look.Of(look.Paper), size: z.Text(look.TextBody)}
	assert.LessOrEqual(t, l.draw(), in.H)
	few := lines{p: &Page{Head: "Short", Parts: []Part{{"text", "A word.", true}}}, in: in, size: 1.7 * z.Text(look.TextBody), c: l.c}
	assert.LessOrEqual(t, few.draw(), in.H)
}

func TestKeysOfTheNotes(t *testing.T) {
	test.NewTempApp(t)
	now := noon
	var kept time.Duration
	turned := 0
	v := New(PlannedOf(20), &kit.Screen{Palette: look.Of(look.Paper), W: 900, H: 700}, Deeds{
		Back: func() { turned-- }, On: func() { turned += 2 }, Planned: func(d time.Duration) { kept = d },
	}, func() time.Time { return now })
	w := test.NewTempWindow(t, v.Content())
	w.Resize(fyne.NewSize(900, 700))
	v.Show(Page{Head: "A step"})
	tap := func(name string) { test.Tap(v.Named()[name].(*kit.Key)) }
	tap("notes-longer")
	tap("notes-longer")
	tap("notes-shorter")
	assert.Equal(t, 25*time.Minute, kept)
	now = now.Add(24 * time.Minute)
	left, _ := v.hour.text(now)
	assert.Equal(t, "1 min left", left)
	tap("notes-again")
	left, _ = v.hour.text(now)
	assert.Equal(t, "25 min left", left)
	tap("notes-on")
	tap("notes-back")
	assert.Equal(t, 1, turned)
	was := v.key()
	v.page.Head = "Another"
	assert.NotEqual(t, was, v.key(), "it is painted anew")
}
