package editor

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/charttable"
	"stillair/gui/drafting"
	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// desk is an editor on a canvas without a display, and what came of it.
type desk struct {
	*View
	t      *testing.T
	window fyne.Window
	chart  *charttable.Drafted
	view   picture.View
	flown  chan *flights.Flight
	kept   []string
	queue  chan func()
}

// sizes are those of the panel beside the chart in the two windows that must serve.
var sizes = map[string]fyne.Size{"1366x768": {Width: 440, Height: 552}, "1920x1080": {Width: 664, Height: 828}}

func newDesk(t *testing.T, size string) *desk {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	d := &desk{t: t, flown: make(chan *flights.Flight, 1), queue: make(chan func(), 8)}
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}
	if size == "1920x1080" {
		screen.W, screen.H = 1920, 1080
	}
	screen.Hints = kit.NewHints(screen)
	d.View = New(screen, func() fyne.Canvas { return d.window.Canvas() })
	folder := t.TempDir()
	d.folder = func() string { return folder }
	d.Later = func(f func()) { d.queue <- f }
	d.Chart = func(c *charttable.Drafted, fitted bool) error {
		d.chart = c
		if c != nil && fitted {
			d.view = picture.Fit(paint.R(20, 20, 860, 520), 40, c.Shown...)
		}
		if c != nil {
			c.Draw(picture.NewBrush(paint.NewImage(900, 560), screen.Palette, screen.Size(1)), d.view, nil)
		}
		return nil
	}
	d.Fly = func(f *flights.Flight) { d.flown <- f }
	d.Kept = func(path string) { d.kept = append(d.kept, path) }
	d.window = test.NewTempWindow(t, d.Content())
	d.window.SetPadded(false)
	d.window.Resize(sizes[size])
	d.Bring(true)
	return d
}

// drag takes hold of what lies at one position and lets go at another.
func (d *desk) drag(from, to units.Position) bool {
	a, z := d.view.ToPixel(from), d.view.ToPixel(to)
	if !d.chart.Hand.Grab(a, d.view) {
		return false
	}
	for i := range 5 {
		k := float64(i+1) / 5
		d.chart.Hand.Drag(d.view.FromPixel(a.Add((z.X-a.X)*k, (z.Y-a.Y)*k)))
	}
	d.chart.Hand.Drop()
	return true
}

func (d *desk) points() []picture.DraftPoint { r := d.route(); return r.Points }

// tap touches the row with a label.
func (d *desk) tap(label string) {
	d.t.Helper()
	for i := range d.count() {
		if r, _ := d.shown(i); r.Kind != drafting.TitleRow && strings.HasPrefix(r.Label, label) {
			d.first = max(0, min(i, d.count()-d.list.room()))
			y := (float32(i-d.first) + 0.5) * d.pitch()
			d.list.Tapped(&fyne.PointEvent{Position: fyne.NewPos(50, y)})
			return
		}
	}
	d.t.Fatalf("no row %q", label)
}

// typed types a value into the card that is open, and gives what it says is wrong.
func (d *desk) typed(text string) string {
	d.t.Helper()
	top := d.window.Canvas().Overlays().Top()
	require.NotNil(d.t, top, "no card is open")
	wrong := ""
	var keys []*kit.Key
	for _, o := range test.LaidOutObjects(top) {
		switch o := o.(type) {
		case *kit.Key:
			keys = append(keys, o)
		case fyne.Focusable:
			if e, ok := o.(interface{ SetText(string) }); ok {
				e.SetText(text)
			}
		}
	}
	for _, k := range keys {
		if k.Main {
			test.Tap(k)
		}
	}
	for _, o := range test.LaidOutObjects(top) {
		if l, ok := o.(*widget.Label); ok && l.Importance == widget.DangerImportance {
			wrong = l.Text
		}
	}
	if wrong != "" {
		top.Hide()
	}
	return wrong
}

func place(t *testing.T, name string) units.Position {
	t.Helper()
	w, err := scenarios.Waters("tern-islands")
	require.NoError(t, err)
	p, ok := w.Place(name)
	require.True(t, ok)
	return p.At
}

// TestAFlightFromNothing is the whole job: a new flight, its route drawn, its weather,
// settings and faults given, saved, flown; each with the pointer or typed.
func TestAFlightFromNothing(t *testing.T) {
	for size := range sizes {
		t.Run(size, func(t *testing.T) {
			d := newDesk(t, size)
			require.True(t, d.Writes())
			require.True(t, d.drag(d.points()[1].At, place(t, "Skerrow")))
			assert.Equal(t, "Skerrow", d.draft.Plan().Legs[0].Place)
			assert.Equal(t, "leg[1]", d.open, "what was moved is open")
			middle, ok := d.middles()
			require.True(t, ok[0])
			require.True(t, d.drag(d.view.FromPixel(middle[0]), units.At(-46.9, 179.2)))
			require.Len(t, d.draft.Plan().Legs, 2)
			assert.Equal(t, sim.ToPlace, d.draft.Plan().Legs[1].Steer)
			require.True(t, d.drag(d.points()[0].At, place(t, "Mollyhawk")))
			assert.Equal(t, place(t, "Mollyhawk").String(), d.draft.Plan().Aircraft.Position.String())
			test.Tap(d.keys[addKey])
			assert.True(t, d.chart.Tap(units.At(-47.2, 179.9)))
			require.Len(t, d.draft.Plan().Legs, 3)
			test.Tap(d.keys[addKey])

			test.Tap(d.tabs[drafting.WeatherTab])
			test.Tap(d.keys[addKey])
			d.tap("Wind")
			assert.Empty(t, d.typed("300/35"))
			assert.Equal(t, "300/35", d.draft.Plan().Air.Winds[0].Wind.String())
			test.Tap(d.keys[add2Key])
			assert.Len(t, d.draft.Plan().Air.Winds, 2)

			test.Tap(d.tabs[drafting.SettingsTab])
			d.tap("Variation")
			assert.Contains(t, d.typed("200"), "must be -180 to 180", "the loader's words stand in the card")
			d.tap("Wind set")
			assert.Empty(t, d.typed("295/30"))
			d.tap("Class")
			d.tap("service")
			assert.Contains(t, string(d.draft.Text()), `class = "service"`)

			test.Tap(d.tabs[drafting.EventsTab])
			test.Tap(d.keys[addKey])
			d.tap("Set wind")
			test.Tap(d.keys[add2Key])
			d.tap("Ram hole of the pitot head")
			require.Len(t, d.draft.Plan().Faults, 1)
			require.Len(t, d.draft.Plan().Crew, 1)
			from := fyne.NewPos(d.strip.x(sim.TimeOf(d.draft.Plan().Faults[0].At)), lineAt+13)
			to := d.strip.x(5 * time.Minute)
			d.strip.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(to, from.Y)}, Dragged: fyne.NewDelta(to-from.X, 0)})
			d.strip.DragEnd()
			assert.Equal(t, sim.TicksOf(5*time.Minute), d.draft.Plan().Faults[0].At)

			test.Tap(d.keys[saveKey])
			assert.Empty(t, d.typed("out and back"))
			require.Len(t, d.kept, 1)
			text, err := os.ReadFile(d.kept[0])
			require.NoError(t, err)
			assert.Equal(t, string(d.draft.Text()), string(text))
			assert.NotEmpty(t, d.keys[saveKey].Reason, "there is nothing more to save")
			test.Tap(d.keys[flyKey])
			(<-d.queue)()
			f := <-d.flown
			assert.Equal(t, d.kept[0], f.Path)
			assert.Len(t, f.Plan.Legs, 3)

			n := 0
			for d.draft.CanUndo() {
				test.Tap(d.keys[undoKey])
				n++
			}
			assert.GreaterOrEqual(t, n, 11)
			assert.Equal(t, string(drafting.New("x", look.Text(look.EditorNewTitle)).Text()), string(d.draft.Text()))
			for d.draft.CanRedo() {
				test.Tap(d.keys[redoKey])
			}
			assert.Equal(t, string(text), string(d.draft.Text()))
		})
	}
}

func (d *desk) middles() ([]paint.Point, []bool) {
	r := d.route()
	return r.Middles(d.view, d.screen.Size(1))
}

// A copy saved without a change is the same file; no shipped flight's name and no other
// file's is taken.
func TestSavedCopies(t *testing.T) {
	d := newDesk(t, "1366x768")
	_, src, err := scenarios.Open("slipping-drive")
	require.NoError(t, err)
	require.NoError(t, d.Copy("slipping-drive", src.Text))
	test.Tap(d.keys[saveKey])
	assert.Contains(t, d.typed("Slipping-Drive"), "comes with the program")
	test.Tap(d.keys[saveKey])
	assert.Contains(t, d.typed("../other"), "Letters, figures")
	taken := filepath.Join(d.folder(), "mine.toml")
	require.NoError(t, os.WriteFile(taken, []byte("mine"), 0o644))
	test.Tap(d.keys[saveKey])
	assert.Contains(t, d.typed("mine"), "file of that name")
	test.Tap(d.keys[saveKey])
	assert.Empty(t, d.typed("my-slip.toml"))
	text, err := os.ReadFile(filepath.Join(d.folder(), "my-slip.toml"))
	require.NoError(t, err)
	assert.Equal(t, string(src.Text), string(text))
	mine, _ := os.ReadFile(taken)
	assert.Equal(t, "mine", string(mine))
	d.tap("Date and time")
	assert.Empty(t, d.typed("1958-01-02 0300Z"))
	test.Tap(d.keys[saveKey])
	again, _ := os.ReadFile(filepath.Join(d.folder(), "my-slip.toml"))
	assert.Equal(t, strings.Replace(string(src.Text), "1957-10-05T22:15:00Z", "1958-01-02T03:00:00Z", 1), string(again), "one value is another one")
}

// A file written by hand, with an order and a spacing of its own, is changed itself: what
// was changed and taken back leaves its bytes, and a change leaves all others.
func TestAHandWrittenFileIsKept(t *testing.T) {
	const hand = "# By hand,   oddly spaced.\nschema=1\ntitle   = \"Mine\"   # a comment\nstart=1957-08-14T09:30:00Z\nseed = 7\n" +
		"waters=\"tern-islands\"\n\n[aircraft]\nposition = [-47.1667, 178.5]\nheading_true_deg=90\npressure_altitude_ft = 10_000\ntas_kt = 180.0\n\n" +
		"[[leg]]  # out\nheading_true_deg = 90.0\n  duration = \"30m\"\n"
	path := filepath.Join(t.TempDir(), "hand.toml")
	require.NoError(t, os.WriteFile(path, []byte(hand), 0o644))
	read := func() string {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		return string(text)
	}
	d := newDesk(t, "1366x768")
	assert.True(t, d.Free(path))
	require.NoError(t, d.Open(path))
	assert.False(t, d.Free(path), "it is the one that is open")
	assert.True(t, d.Free("other.toml"))
	assert.NotEmpty(t, d.keys[saveKey].Reason, "there is nothing to save")
	d.tap("Date and time")
	assert.Empty(t, d.typed("1958-01-02 0300Z"))
	assert.False(t, d.Free("other.toml"), "it would be lost")
	test.Tap(d.keys[undoKey])
	assert.Equal(t, hand, string(d.draft.Text()))
	test.Tap(d.keys[redoKey])
	test.Tap(d.keys[saveKey])
	assert.Equal(t, strings.Replace(hand, "1957-08-14T09:30:00Z", "1958-01-02T03:00:00Z", 1), read())
	test.Tap(d.keys[undoKey])
	test.Tap(d.keys[saveKey])
	assert.Equal(t, hand, read())
	require.ErrorIs(t, d.Open(filepath.Join(t.TempDir(), "none.toml")), os.ErrNotExist)
	assert.Equal(t, hand, string(d.draft.Text()), "what was open stays")
}

// TestABadFileIsMended: a file with errors can be taken up, its errors stand at the foot
// with their lines, and it cannot be flown until they are gone.
func TestABadFileIsMended(t *testing.T) {
	d := newDesk(t, "1366x768")
	_, src, err := scenarios.Open("slipping-drive")
	require.NoError(t, err)
	bad := strings.Replace(string(src.Text), "heading_true_deg = 85", "heading_true_deg = 385", 1)
	require.NoError(t, d.Copy("bad", []byte(bad)))
	words, wrong := d.words()
	assert.True(t, wrong)
	assert.Contains(t, words, "leg[2].heading_true_deg = 385: must be 0 to 360")
	assert.Contains(t, words, "line 30")
	assert.NotEmpty(t, d.keys[flyKey].Reason)
	assert.Nil(t, d.chart)
	d.tap("Leg 2")
	d.tap("True heading")
	assert.Empty(t, d.typed("85"))
	assert.Equal(t, string(src.Text), string(d.draft.Text()))
	assert.Empty(t, d.keys[flyKey].Reason)
	require.NotNil(t, d.chart)
	assert.ErrorContains(t, d.Copy("worse", []byte("a = = 1\n")), "not TOML")
}

// What cannot be drawn is told and changes nothing; a point dropped on nothing stays.
func TestRefusedDrags(t *testing.T) {
	d := newDesk(t, "1366x768")
	text := string(d.draft.Text())
	start := d.points()[0].At
	assert.True(t, d.drag(d.points()[1].At, units.At(start.Lat.Degrees(), start.Lon.Degrees()+0.0001)))
	assert.Equal(t, text, string(d.draft.Text()))
	words, bad := d.words()
	assert.True(t, bad)
	assert.Contains(t, words, "Too near")
	assert.False(t, d.drag(units.At(-48.4, 178.6), units.At(-48, 178)), "there is nothing to take hold of")
	d.Bring(false)
	assert.Nil(t, d.chart, "the chart is the flight's again")
	assert.False(t, d.Shut())
	d.Bring(true)
	test.Tap(d.keys[addKey])
	assert.True(t, d.Shut())
	assert.False(t, d.adding)
	assert.False(t, d.Shut())
}

// TestNothingStandsInTheWay: on both sizes and every tab no two parts overlap and all are
// inside; words of keys fit.
func TestNothingStandsInTheWay(t *testing.T) {
	for size, room := range sizes {
		d := newDesk(t, size)
		for tab := range drafting.Tabs {
			for _, picking := range []bool{false, true} {
				d.turn(tab)
				if picking {
					d.ask("Some", []drafting.Pick{{Word: "one", Value: "1"}}, func(string) error { return nil })
				}
				var seen []fyne.CanvasObject
				for _, o := range d.content.Objects[1:] {
					if !o.Visible() {
						continue
					}
					p, s := o.Position(), o.Size()
					assert.True(t, p.X >= 0 && p.Y >= 0 && p.X+s.Width <= room.Width && p.Y+s.Height <= room.Height, "%s tab %d: %T at %v %v", size, tab, o, p, s)
					for _, q := range seen {
						a, b := q.Position(), q.Size()
						apart := p.X >= a.X+b.Width || a.X >= p.X+s.Width || p.Y >= a.Y+b.Height || a.Y >= p.Y+s.Height
						assert.True(t, apart, "%s tab %d: %T and %T overlap", size, tab, o, q)
					}
					seen = append(seen, o)
					if k, ok := o.(*kit.Key); ok {
						assert.GreaterOrEqual(t, s.Width+0.6, k.Needs(), "%s: %s", size, k.Word)
					}
				}
				assert.Greater(t, len(seen), 8)
				assert.GreaterOrEqual(t, d.list.room(), 5, "%s tab %d", size, tab)
			}
		}
	}
}

// TestKeyboard: the list is walked, opened and changed without a pointer.
func TestKeyboard(t *testing.T) {
	d := newDesk(t, "1366x768")
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			d.list.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	press(fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, "leg[1]", d.open)
	press(fyne.KeyDown, fyne.KeyReturn)
	require.NotNil(t, d.picking)
	press(fyne.KeyReturn)
	assert.Nil(t, d.picking)
	assert.Equal(t, sim.HeadingTrue, d.draft.Plan().Legs[0].Steer, "the first choice")
	d.turn(drafting.EventsTab)
	made, err := drafting.AddAction(d.draft, "set_wind")
	require.NoError(t, err)
	d.choose(made)
	at := d.draft.Plan().Crew[0].Tick
	d.strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.Equal(t, at+sim.TicksOf(time.Minute), d.draft.Plan().Crew[0].Tick)
	press(fyne.KeyDelete)
	assert.Empty(t, d.draft.Plan().Crew)
}

func TestPageIsWritten(t *testing.T) {
	d := newDesk(t, "1366x768")
	var out bytes.Buffer
	require.NoError(t, d.Page()(&out, paint.SVGFile))
	assert.Greater(t, out.Len(), 5000)
	assert.NotEmpty(t, d.Named())
	d.Repaint()
	assert.Equal(t, look.Text(look.EditorWord), d.Name())
}

// A choice far down the panel leaves the panel where it stood, taken or not.
func TestAChoiceLeavesThePanelWhereItStood(t *testing.T) {
	d := newDesk(t, "1366x768")
	d.Begin()
	d.turn(drafting.SettingsTab)
	for _, take := range []bool{true, false} {
		at := slices.IndexFunc(d.rows, func(r drafting.Row) bool { return r.Label == look.Text(look.DraftClass) })
		require.Positive(t, at)
		d.first = max(0, d.count()-d.list.room())
		require.Positive(t, d.first)
		first := d.first
		d.touch(at)
		require.NotNil(t, d.picking)
		assert.Zero(t, d.first)
		if take {
			d.touch(1)
			assert.Equal(t, look.Text(look.DraftService), d.rows[at].Value)
		} else {
			test.Tap(d.keys[backKey])
		}
		assert.Nil(t, d.picking)
		assert.Equal(t, first, d.first)
		assert.Equal(t, at, d.list.marked)
	}
}
