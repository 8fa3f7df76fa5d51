package trainer

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/drill"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/training/score"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

const minute = 60 * sim.TicksPerSecond

// desk is a trainer's view of an exercise, with the truth revealed and the clock stopped.
type desk struct {
	*View
	h      *helm.Helm
	window fyne.Window
	asked  []string // what the shell was asked for
	ids    []string // at which the card was opened
}

func deskOf(t *testing.T, name string, w, h float32) *desk {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	d := &desk{h: helm.New(e)}
	t.Cleanup(d.h.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: w, H: h}
	screen.Hints = kit.NewHints(screen)
	d.window = test.NewTempWindow(t, nil)
	ask := func(what string) func() { return func() { d.asked = append(d.asked, what) } }
	d.View = New(d.h, plan, drill.ExerciseOf(plan), &score.Book{}, screen, d.window.Canvas, Deeds{
		Break: func(ids []string) { d.ids = ids }, Mend: ask("mend"), Window: ask("window"),
		SavePage: ask("page"), SaveTable: ask("table"),
	})
	d.window.SetPadded(false)
	d.window.SetContent(d.Content())
	d.window.Resize(fyne.NewSize(w, h-200)) // bar and strip have the rest
	d.h.Reveal(true)
	d.until(t, "the truth", func(m *helm.Moment) bool { return m.Revealed != nil })
	return d
}

// until waits for a moment and brings the view up to it; the bound is on a hang.
func (d *desk) until(t *testing.T, what string, ok func(*helm.Moment) bool) {
	t.Helper()
	require.Eventually(t, func() bool { return ok(d.h.Moment()) }, 20*time.Second, time.Millisecond, what)
	d.Apply(d.h.Moment())
}

func (d *desk) flyTo(t *testing.T, tick int64) {
	t.Helper()
	d.h.GoTo(tick)
	d.until(t, "a tick", func(m *helm.Moment) bool { return m.View.Tick == tick && m.Revealed != nil })
}

func (d *desk) key(t *testing.T, name string) *kit.Key {
	t.Helper()
	k, ok := d.Named()["trainer-"+name].(*kit.Key)
	require.True(t, ok, name)
	return k
}

// answer types into the question that is open and presses its main key.
func (d *desk) answer(t *testing.T, text string) {
	t.Helper()
	entry, ok := d.window.Canvas().Focused().(interface {
		fyne.Focusable
		SetText(string)
	})
	require.True(t, ok, "a question is open")
	entry.SetText(text)
	entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// stands is how the faults of an id stand.
func (d *desk) stands(id string) (all []sim.FaultStands) {
	for _, f := range d.faults() {
		if f.Order.ID == id {
			all = append(all, f.Stands)
		}
	}
	return all
}

// breakIt orders a fault as the card does.
func (d *desk) breakIt(t *testing.T, id string, change func(*fault.Order)) {
	t.Helper()
	e, ok := fault.Lookup(id)
	require.True(t, ok)
	o := fault.Order{ID: id, Params: e.Defaults(), At: d.moment.View.Tick}
	if change != nil {
		change(&o)
	}
	n := len(d.faults())
	d.h.Break(o)
	d.until(t, "the order", func(m *helm.Moment) bool { return len(m.Revealed.Faults) > n })
}

// The token of what is broken now appears with its time, the link says it, the truth goes
// its own way, and mending strikes it through.
func TestBreakNow(t *testing.T) {
	d := deskOf(t, "find-the-quiet-dial", 1366, 768)
	d.flyTo(t, 5*minute)
	link := d.key(t, "link-drive")
	assert.Equal(t, "4 kinds", link.Under)
	test.Tap(link)
	require.NotEmpty(t, d.ids)
	e, _ := fault.Lookup(d.ids[0])
	assert.Equal(t, "drive", e.Link, "the card opens at the link")
	d.breakIt(t, "drive-broken", nil)
	assert.Equal(t, []sim.FaultStands{sim.FaultInForce}, d.stands("drive-broken"))
	assert.Equal(t, look.Textf(look.TrainerIn, "1"), link.Under)
	first := d.tokens()[0]
	assert.Equal(t, "drive-broken", first.Order.ID, "what is in force stands first")
	assert.Equal(t, "in force since "+d.clock(5*time.Minute), d.standText(&first))
	before := d.moment.View
	d.flyTo(t, 15*minute)
	assert.InDelta(t, before.Air.Lat.Degrees(), d.moment.View.Air.Lat.Degrees(), 1e-9, "a parted drive turns nothing")
	assert.Greater(t, d.moment.Revealed.Now.Error.Air.NM(), 20.0, "ten minutes at 160 kt or more")
	mend := d.key(t, "mend")
	test.Tap(mend)
	assert.Equal(t, []string{"mend"}, d.asked)
	d.h.Mend(first.Number)
	d.until(t, "mended", func(m *helm.Moment) bool {
		for _, f := range m.Revealed.Faults {
			if f.Number == first.Number {
				return f.Stands == sim.FaultMended
			}
		}
		return false
	})
	last := d.tokens()[len(d.tokens())-1]
	assert.Equal(t, "drive-broken", last.Order.ID, "what is over stands last")
	assert.Equal(t, look.Text(look.TrainerMended), d.standText(&last))
}

// A fault at a time waits with its clock, and comes at that tick.
func TestBreakAtATime(t *testing.T) {
	d := deskOf(t, "find-the-quiet-dial", 1366, 768)
	due := int64(7*minute + 5)
	d.breakIt(t, "drive-slip", func(o *fault.Order) { o.At = due })
	f := d.tokens()[0]
	require.Equal(t, "drive-slip", f.Order.ID)
	assert.Equal(t, sim.FaultPlanned, f.Stands)
	assert.Equal(t, "comes at "+d.clock(sim.TimeOf(due)), d.standText(&f))
	assert.Equal(t, look.Textf(look.TrainerWait, "1"), d.key(t, "link-drive").Under)
	d.flyTo(t, due-1)
	assert.Equal(t, []sim.FaultStands{sim.FaultPlanned}, d.stands("drive-slip"))
	d.flyTo(t, due)
	assert.Equal(t, []sim.FaultStands{sim.FaultInForce}, d.stands("drive-slip"))
}

// A fault on a signal waits as long as none is given; the key gives it.
func TestBreakOnASignal(t *testing.T) {
	d := deskOf(t, "find-the-quiet-dial", 1366, 768)
	signal := d.key(t, "signal")
	test.Tap(signal)
	assert.Empty(t, d.stands("repeater-stuck"))
	d.breakIt(t, "repeater-stuck", func(o *fault.Order) { o.Trigger = fault.Trigger{Kind: fault.BySignal, Signal: 1} })
	d.flyTo(t, 4*minute)
	require.Equal(t, []sim.FaultStands{sim.FaultWaiting}, d.stands("repeater-stuck"))
	f := d.tokens()[0]
	assert.Equal(t, "waits for signal 1", d.standText(&f))
	test.Tap(signal)
	d.until(t, "the signal", func(m *helm.Moment) bool {
		for _, f := range m.Revealed.Faults {
			if f.Order.ID == "repeater-stuck" {
				return f.Stands == sim.FaultInForce && f.Onset == 4*minute
			}
		}
		return false
	})
	_, waits := d.waiting()
	assert.False(t, waits)
}

// A fault at a place comes where the aircraft is within the distance, and not before.
func TestBreakAtAPlace(t *testing.T) {
	d := deskOf(t, "find-the-quiet-dial", 1366, 768)
	d.flyTo(t, 12*minute)
	there := units.Position(d.moment.Revealed.Now.Truth.Position)
	d.flyTo(t, 0)
	d.breakIt(t, "drive-slip", func(o *fault.Order) {
		o.Trigger = fault.Trigger{Kind: fault.ByPlace, Place: there, Within: 2 * units.NM}
	})
	f := d.tokens()[0]
	assert.Equal(t, look.Text(look.TrainerWaitsPlace), d.standText(&f))
	d.flyTo(t, 10*minute) // two minutes at more than 130 kt: over 4 NM to go
	assert.Equal(t, []sim.FaultStands{sim.FaultWaiting}, d.stands("drive-slip"))
	d.flyTo(t, 12*minute)
	assert.Equal(t, []sim.FaultStands{sim.FaultInForce}, d.stands("drive-slip"))
}

// A fault at random is the seed's: typed again it is the same; a wrong seed changes nothing.
func TestBreakAtRandom(t *testing.T) {
	drawn := func(seed string) fault.Order {
		d := deskOf(t, "find-the-quiet-dial", 1366, 768)
		n := len(d.faults())
		test.Tap(d.key(t, "random"))
		d.answer(t, seed)
		d.until(t, "the fault", func(m *helm.Moment) bool { return len(m.Revealed.Faults) == n+1 })
		return d.faults()[n].Order
	}
	one := drawn("42")
	again := drawn("42")
	assert.Equal(t, one, again)
	ids := map[string]bool{one.ID: true}
	for _, seed := range []string{"1", "2", "3", "4"} {
		ids[drawn(seed).ID] = true
	}
	assert.Greater(t, len(ids), 1, "another seed, another fault")

	d := deskOf(t, "find-the-quiet-dial", 1366, 768)
	n := len(d.faults())
	test.Tap(d.key(t, "random"))
	d.answer(t, "twelve")
	d.h.Step(16)
	d.until(t, "a second", func(m *helm.Moment) bool { return m.View.Tick == 16 })
	assert.Len(t, d.faults(), n)
}

// Freeze stops the clock and lets it go on; its key says which.
func TestFreeze(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	freeze := d.key(t, "freeze")
	assert.Equal(t, "Go on", freeze.Word)
	test.Tap(freeze)
	d.until(t, "running", func(m *helm.Moment) bool { return m.Playing && m.View.Tick > 0 })
	assert.Equal(t, "Freeze", freeze.Word)
	test.Tap(freeze)
	d.until(t, "frozen", func(m *helm.Moment) bool { return !m.Playing })
	tick := d.moment.View.Tick
	assert.Never(t, func() bool { return d.h.Moment().View.Tick != tick }, 100*time.Millisecond, 10*time.Millisecond)
}

// Again goes back to the very state of a minute before, faults and all, and stops there;
// what had been broken since is taken back, what was broken before is not.
func TestAgainIsTheSameState(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	d.flyTo(t, 9*minute)
	d.breakIt(t, "wind-speed-mis-set", nil)
	d.flyTo(t, 24*minute)
	hash := d.moment.Hash
	require.NotZero(t, hash)
	events := len(d.events())
	d.flyTo(t, 24*minute+30*sim.TicksPerSecond)
	d.breakIt(t, "drive-broken", nil)
	assert.Len(t, d.events(), events+1)
	d.flyTo(t, 25*minute)
	assert.NotEqual(t, hash, d.moment.Hash)
	test.Tap(d.key(t, "again"))
	d.until(t, "a minute before", func(m *helm.Moment) bool { return m.View.Tick == 24*minute && !m.Playing && m.Hash != 0 })
	assert.Equal(t, hash, d.moment.Hash)
	assert.Empty(t, d.stands("drive-broken"))
	assert.Equal(t, []sim.FaultStands{sim.FaultInForce}, d.stands("wind-speed-mis-set"))
	assert.Len(t, d.events(), events)
	d.flyTo(t, 25*minute)
	later := d.moment.Hash
	d.flyTo(t, 24*minute)
	d.flyTo(t, 25*minute)
	assert.Equal(t, later, d.moment.Hash, "and goes on the same way each time")
	d.flyTo(t, 10*sim.TicksPerSecond)
	test.Tap(d.key(t, "again"))
	d.until(t, "the start", func(m *helm.Moment) bool { return m.View.Tick == 0 })
}

// Notes are kept at the time at which they were begun, and stand among the events.
func TestNotesAreKept(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	d.flyTo(t, 3*minute)
	test.Tap(d.key(t, "note"))
	d.answer(t, "  reads the standby compass ")
	require.Equal(t, []score.Note{{At: 3 * time.Minute, Words: "reads the standby compass"}}, d.book.Notes)
	assert.Equal(t, "note: reads the standby compass", d.events()[0].words)
	assert.False(t, d.events()[0].truth)
	test.Tap(d.key(t, "note"))
	d.answer(t, "   ")
	assert.Len(t, d.book.Notes, 1, "nothing written is no note")
	require.Len(t, d.Sheet().Notes, 1)
}

// Events are told in the order of their times, the newest first; what the trainee does not
// know is marked.
func TestEvents(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	d.flyTo(t, 21*minute)
	at := 21 * time.Minute
	d.book.Report(score.Report{At: at - time.Minute, Link: "heading", Fault: "gyro-drift-unslaved", Sure: true})
	d.book.Write(&d.moment.View, "air log and position part company")
	d.book.Plot(score.Hand{At: at, Heading: 150, TAS: 190 * units.Knot})
	d.Apply(d.moment)
	var words []string
	last := at
	truths := 0
	for _, e := range d.events() {
		assert.LessOrEqual(t, e.at, last)
		last = e.at
		words = append(words, e.words)
		if e.truth {
			truths++
		}
	}
	assert.Contains(t, words, "log: air log and position part company")
	assert.Contains(t, words, "breaks: slaving off or failed, gyro wanders")
	assert.Contains(t, words, "breaks: flexible drive or clutch slips")
	assert.Equal(t, 2, truths)
	assert.Len(t, words, 5)
}

// The marks follow what is reported, page and table with them: the page is a PDF, the
// table has each mark.
func TestTheScoreFollows(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	d.flyTo(t, 10*minute)
	require.NotNil(t, d.Sheet())
	before := d.Sheet().Marks[score.Link].Got
	d.book.Report(score.Report{At: 10 * time.Minute, Link: "heading", Fault: "gyro-drift-unslaved", Sure: true})
	d.Apply(d.moment)
	assert.Greater(t, d.Sheet().Marks[score.Link].Got, before)
	assert.Equal(t, 2*time.Minute, d.Sheet().Found[0].After, "from 8 min to 10 min")
	var page bytes.Buffer
	require.NoError(t, d.Page()(&page, paint.PDFFile))
	assert.True(t, bytes.HasPrefix(page.Bytes(), []byte("%PDF-")))
	var table bytes.Buffer
	require.NoError(t, score.WriteCSV(&table, d.Sheet()))
	r := csv.NewReader(&table)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	assert.Greater(t, len(rows), 5)
	test.Tap(d.key(t, "page"))
	test.Tap(d.key(t, "table"))
	test.Tap(d.key(t, "window"))
	assert.Equal(t, []string{"page", "table", "window"}, d.asked)
}

// With the truth hidden nothing of it stands there, and the page says so.
func TestHiddenTruth(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	d.flyTo(t, 25*minute)
	d.h.Reveal(false)
	d.until(t, "hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
	assert.Empty(t, d.tokens())
	assert.Nil(t, d.Sheet())
	for _, e := range d.events() {
		assert.False(t, e.truth)
	}
}

// At both sizes and under every light the cards keep apart, the keys stand on none but
// their own, and something is drawn on each.
func TestTheViewAtBothSizes(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1366, Height: 768}, {Width: 1920, Height: 1080}} {
		d := deskOf(t, "find-the-two", size.Width, size.Height)
		d.flyTo(t, 25*minute)
		p := placesOf(size.Width, size.Height-200)
		cards := []kit.Box{p.broken, p.dials, p.errors, p.marks, p.events}
		for i, a := range cards {
			for _, b := range cards[i+1:] {
				assert.False(t, a.Meets(b))
			}
		}
		assert.Equal(t, p.broken, d.CardRoom(size.Width, size.Height-200), "the card hides no other")
		foot := p.broken.Y + p.broken.H
		for _, k := range append([]*kit.Key{d.mend}, d.links...) {
			assert.LessOrEqual(t, k.Position().X+k.Size().Width, p.broken.W)
			assert.GreaterOrEqual(t, k.Size().Width, k.Needs()-1, k.Word)
		}
		for _, k := range d.keys {
			assert.GreaterOrEqual(t, k.Position().Y, foot)
		}
		d.Covered(true)
		assert.False(t, d.links[0].Visible())
		d.Covered(false)
		assert.True(t, d.links[0].Visible())
		var pictures [][]byte
		for _, light := range []look.Variant{look.Paper, look.Night, look.Lamp} {
			d.screen.Palette = look.Of(light)
			d.Repaint()
			img := paint.NewImage(int(size.Width), int(size.Height-200))
			d.pane.paint(img, float64(size.Width), float64(size.Height-200), d.screen.Size(1))
			pictures = append(pictures, bytes.Clone(img.Pixels().Pix))
		}
		assert.NotEqual(t, pictures[0], pictures[1])
		assert.NotEqual(t, pictures[1], pictures[2])
	}
}

// What there is no room for is counted.
func TestManyTokens(t *testing.T) {
	d := deskOf(t, "find-the-two", 1366, 768)
	for range 8 {
		d.breakIt(t, "drive-slip", nil)
	}
	assert.Len(t, d.tokens(), 10)
	assert.Equal(t, look.Textf(look.TrainerToMend, "10"), d.mend.Under)
	assert.Equal(t, look.Textf(look.TrainerInAndWait, "8", "1"), d.key(t, "link-drive").Under)
	rec := &paint.Record{}
	room := paint.R(0, 0, 440, 456)
	d.pane.tokens(picture.NewBrush(rec, d.screen.Palette, d.screen.Size(1)), room)
	shown, more := 0, ""
	for _, w := range rec.Texts() {
		assert.LessOrEqual(t, w.At.Y, room.Bottom(), w.Text)
		if strings.HasPrefix(w.Text, "in force since") {
			shown++
		}
		if strings.HasPrefix(w.Text, "and ") {
			more = w.Text
		}
	}
	assert.Positive(t, shown)
	assert.Equal(t, look.Textf(look.TrainerMore, strconv.Itoa(10-shown)), more, "none is left out unsaid")
}
