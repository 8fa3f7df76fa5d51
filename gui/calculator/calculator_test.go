package calculator

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/calc"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// desk is the view in a window without a display.
type desk struct {
	*View
	window fyne.Window
	shown  *aboard.View
}

func deskOf(t *testing.T, w, h float32) *desk {
	t.Helper()
	test.NewTempApp(t)
	d := &desk{shown: &aboard.View{TAS: 180 * units.Knot, Heading: units.TrueHeading(90 * units.Degree), WindSet: units.Wind{Speed: 30 * units.Knot},
		IAS: 150 * units.Knot, PressureAltitude: 10000 * units.Foot, AirTemperature: units.Celsius(-4.8)}}
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: w, H: h}
	screen.Hints = kit.NewHints(screen)
	d.View = New(screen, func() fyne.Canvas { return d.window.Canvas() }, func() *aboard.View { return d.shown })
	d.window = test.NewTempWindow(t, d.Content())
	d.window.SetPadded(false)
	d.window.Resize(fyne.NewSize(w-44, h-215))
	return d
}

// typeIn writes into the card that asks, and enters it.
func (d *desk) typeIn(t *testing.T, text string) {
	t.Helper()
	require.NotNil(t, d.window.Canvas().Overlays().Top(), "a value is asked for")
	entry := d.window.Canvas().Focused()
	test.Type(entry, text)
	entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func (d *desk) asks() bool { return d.window.Canvas().Overlays().Top() != nil }

func key(o fyne.Focusable, names ...fyne.KeyName) {
	for _, n := range names {
		o.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func (d *desk) texts() (all []string) {
	for q := range calc.Quantities {
		all = append(all, d.triangle.Text(calc.Quantity(q)))
	}
	return all
}

func TestBoxesAreTypedSteppedAndLocked(t *testing.T) {
	d := deskOf(t, 1366, 768)
	heading, track := d.boxes[calc.Heading], d.boxes[calc.Track]
	assert.Equal(t, []string{"050T", "178 kt", "305T", "33 kt", "060T", "189 kt"}, d.texts())
	test.Tap(track)
	assert.False(t, d.asks(), "four are given")
	assert.Same(t, track, d.window.Canvas().Focused(), "the keyboard goes where the hand was")
	assert.True(t, d.screen.Hints.Visible(), "and it says so")
	test.TapAt(heading, fyne.NewPos(30, heading.Size().Height-20))
	assert.Equal(t, calc.Free, d.triangle.State(calc.Heading), "the lock below lets it go")
	test.TapAt(track, fyne.NewPos(30, 20))
	d.typeIn(t, "nowhere")
	assert.True(t, d.asks(), "what cannot be read stays, with the reason")
	key(d.window.Canvas().Focused(), fyne.KeyEscape)
	assert.False(t, d.asks())
	test.TapAt(track, fyne.NewPos(30, 20))
	d.typeIn(t, "090")
	assert.False(t, d.asks())
	assert.Equal(t, calc.Given, d.triangle.State(calc.Track))
	assert.Equal(t, calc.Answer, d.triangle.State(calc.Heading))
	key(track, fyne.KeyUp, fyne.KeyUp, fyne.KeyDown)
	assert.Equal(t, "091T", d.triangle.Text(calc.Track))
	key(track, fyne.KeyL)
	assert.Equal(t, calc.Free, d.triangle.State(calc.Track))
	key(track, fyne.KeyReturn)
	assert.True(t, d.asks(), "Enter types too")
	key(d.window.Canvas().Focused(), fyne.KeyEscape)
	passed := fyne.KeyName("")
	d.screen.Keys = func(e *fyne.KeyEvent) { passed = e.Name }
	for _, name := range []fyne.KeyName{fyne.KeyN, fyne.KeySpace} {
		key(track, name)
		assert.Equal(t, name, passed, "what it does not use goes on")
	}
	assert.Contains(t, track.said(), "Track 091T, free")
	assert.Equal(t, desktop.PointerCursor, track.Cursor())
}

// drag moves the hand on an object from one place to another, in steps.
func drag(o fyne.Draggable, from, to fyne.Position) {
	last := from
	for i := 1; i <= 4; i++ {
		at := from.Add(fyne.NewPos((to.X-from.X)*float32(i)/4, (to.Y-from.Y)*float32(i)/4))
		o.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(at.X-last.X, at.Y-last.Y)})
		last = at
	}
	o.DragEnd()
}

func at(p paint.Point) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

func TestCornersAreDragged(t *testing.T) {
	d := deskOf(t, 1920, 1080)
	figure := d.card().Figure
	air, ground := d.sheet.Corners(&figure)
	before := d.texts()
	drag(d.figure, at(air), at(air).AddXY(-40, 30))
	assert.Equal(t, before, d.texts(), "all that could move is locked")
	assert.True(t, d.screen.Hints.Visible())
	test.Tap(d.letGo)
	sheet := d.sheet
	drag(d.figure, at(air).AddXY(5, -5), at(air).AddXY(-40, 30))
	north, east := d.triangle.At(calc.AirCorner)
	want := paint.Pt(air.X-40, air.Y+30)
	assert.Less(t, sheet.At(north, east).Dist(want), 1e-3, "the tip is where the hand is")
	assert.Equal(t, before[calc.Track], d.triangle.Text(calc.Track), "the other corner stays")
	assert.Equal(t, sheet, d.sheet, "and so does the sheet")
	d.figure.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(ground)}})
	assert.Equal(t, desktop.PointerCursor, d.figure.Cursor())
	d.figure.MouseOut()
	assert.Equal(t, desktop.DefaultCursor, d.figure.Cursor())
	now := d.texts()
	drag(d.figure, fyne.NewPos(20, 60), fyne.NewPos(200, 200))
	assert.Equal(t, now, d.texts(), "a hand that holds no corner moves nothing")
	require.NoError(t, d.triangle.Set(calc.WindSpeed, 30))
	drag(d.figure, at(ground), at(ground).AddXY(25, 10))
	assert.Equal(t, 30.0, d.triangle.Value(calc.WindSpeed), "what is locked stays")
}

func TestFromTheFlight(t *testing.T) {
	d := deskOf(t, 1366, 768)
	test.Tap(d.take)
	// wind_triangle.csv of the physics note: 182.4829 kt, 99.4623.
	assert.Equal(t, []string{"090T", "180 kt", "000T", "30 kt", "099T", "182 kt"}, d.texts())
	// airspeed_rule_of_thumb.csv: 174.05 and 180.0.
	assert.Equal(t, calc.Readings{CAS: "150.0", TAS: "174.1", Rule: "180.0", Height: "10000", Temperature: "-4.8"}, d.computer.Readings())
	d.shown = &aboard.View{Heading: 0, TAS: 100 * units.Knot, IAS: 0}
	test.Tap(d.take)
	assert.Equal(t, "100 kt", d.triangle.Text(calc.TAS), "what can be taken is")
	assert.Equal(t, "150.0", d.computer.Readings().CAS)
	assert.True(t, d.screen.Hints.Visible(), "what cannot is told")
}

func TestTheRingTurns(t *testing.T) {
	d := deskOf(t, 1920, 1080)
	r := float64(d.ring.Size().Width) / 2
	hand := func(deg float64) fyne.Position { return at(paint.Polar(r, r, 0.65*r, deg)) }
	last := hand(0)
	for deg := 1.0; deg <= 20; deg++ {
		next := hand(deg)
		d.ring.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: next}, Dragged: fyne.NewDelta(next.X-last.X, next.Y-last.Y)})
		last = next
	}
	d.ring.DragEnd()
	// 360 log10(v/178) = 20 degrees: v = 178 x 10^(20/360) = 202.29 kt.
	assert.InDelta(t, 178*math.Pow(10, 20.0/360), d.computer.TAS().Knots(), 0.01)
	key(d.ring, fyne.KeyUp)
	assert.InDelta(t, 203, d.computer.TAS().Knots(), 1e-6)
	key(d.ring, fyne.KeyDown, fyne.KeyDown)
	assert.InDelta(t, 201, d.computer.TAS().Knots(), 1e-6)
	d.ring.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -5)})
	assert.InDelta(t, 200, d.computer.TAS().Knots(), 1e-6)
	drag(d.ring, fyne.NewPos(float32(r), float32(r)), hand(90))
	assert.InDelta(t, 200, d.computer.TAS().Knots(), 1e-6, "the middle is not the ring")
	test.Tap(d.ring)
	assert.True(t, d.screen.Hints.Visible())
	assert.Contains(t, d.ring.said(), "158.2 kt calibrated stand against 200.0 kt true")
}

func TestKeysAndPlatesOfTheComputer(t *testing.T) {
	d := deskOf(t, 1366, 768)
	down := func(k *kit.Key) {
		k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
		k.MouseUp(nil)
	}
	down(d.more)
	assert.Equal(t, "8500", d.computer.Readings().Height)
	d.more.Hush()
	test.Tap(d.temp)
	assert.True(t, d.temp.Chosen)
	down(d.less)
	assert.Equal(t, "-2.0", d.computer.Readings().Temperature, "from -1.8 to the next whole degree")
	down(d.less)
	assert.Equal(t, "-3.0", d.computer.Readings().Temperature)
	test.Tap(d.plates[2])
	d.typeIn(t, "40000")
	test.Tap(d.height)
	down(d.more)
	assert.Equal(t, "40000", d.computer.Readings().Height)
	assert.True(t, d.screen.Hints.Visible(), "it says where the heights end")
	test.Tap(d.plates[2])
	d.typeIn(t, "0")
	test.Tap(d.plates[3])
	d.typeIn(t, "15")
	test.Tap(d.plates[1])
	d.typeIn(t, "200")
	assert.Equal(t, calc.Readings{CAS: "200.0", TAS: "200.0", Rule: "200.0", Height: "0", Temperature: "15.0"}, d.computer.Readings())
	test.Tap(d.plates[0])
	d.typeIn(t, "33")
	assert.True(t, d.asks(), "out of the rings")
	key(d.window.Canvas().Focused(), fyne.KeyEscape)
	test.Tap(d.plates[0])
	d.typeIn(t, "150 kt")
	assert.Equal(t, "150.0", d.computer.Readings().CAS)
	exact := d.computer.TAS()
	test.Tap(d.plates[0])
	d.typeIn(t, "150.0")
	assert.Equal(t, exact, d.computer.TAS())
}

// Controls lie within the view and not on one another, in every size; where there is
// one card only, the curve takes the place of the rings.
func TestPlaces(t *testing.T) {
	for _, s := range [][2]float32{{1280, 720}, {1366, 768}, {1600, 900}, {1920, 1080}, {2560, 1440}} {
		d := deskOf(t, s[0], s[1])
		var all []fyne.CanvasObject
		for _, o := range d.objects()[2:] {
			if o.Visible() && o != fyne.CanvasObject(d.plates[2]) && o != fyne.CanvasObject(d.plates[3]) { // those two lie within the ring
				all = append(all, o)
			}
		}
		room := roomOf(d.content)
		rect := func(o fyne.CanvasObject) paint.Rect {
			q := roomOf(o)
			q.X, q.Y = float64(o.Position().X), float64(o.Position().Y)
			return q
		}
		for i, o := range all {
			assert.True(t, room.Covers(rect(o)), "%v: %T at %v", s, o, rect(o))
			for _, other := range all[:i] {
				assert.False(t, rect(o).Overlaps(rect(other)), "%v: %T lies on %T", s, o, other)
			}
		}
		for _, p := range d.plates[2:] {
			assert.True(t, rect(d.ring).Covers(rect(p)), "%v", s)
		}
		assert.Equal(t, s[1] < 900, d.curveKey.Visible(), "%v", s)
		test.Tap(d.curveKey)
		assert.Equal(t, s[1] >= 900, d.ring.Visible(), "%v", s)
		test.Tap(d.curveKey)
		assert.True(t, d.ring.Visible())
	}
}

func TestPageAndLight(t *testing.T) {
	d := deskOf(t, 1366, 768)
	page := d.Page()
	test.Tap(d.letGo)
	var out bytes.Buffer
	require.NoError(t, page(&out, paint.SVGFile))
	for _, words := range []string{"050T", "189 kt", "the rule is 5.5 kt high here,", "exact 234", "answer", look.Text(look.Caution)} {
		assert.Contains(t, out.String(), words, "the page is of the moment at which it was asked for")
	}
	assert.ErrorIs(t, page(broken{}, paint.PNG), errBroken)
	d.screen.Palette = look.Of(look.Night)
	d.Repaint()
	assert.NotNil(t, d.window.Canvas().Capture())
	assert.Equal(t, look.Text(look.CalcWord), d.Name())
	assert.Len(t, d.Named(), 15)
}

var errBroken = errors.New("broken")

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }
