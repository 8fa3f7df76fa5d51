package trainee

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/navigator"
	"stillair/gui/paint"
	"stillair/gui/training/score"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// seat is a trainee's window without a display, an engine or a flight: all it needs is a
// view of those aboard.
type seat struct {
	*View
	did []aboard.Action
}

func sit(t *testing.T, size fyne.Size) *seat {
	t.Helper()
	test.NewTempApp(t)
	s := &seat{}
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: size.Width, H: size.Height}
	screen.Hints = kit.NewHints(screen)
	start := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	now := &Seen{Seen: navigator.Seen{View: aboard.View{
		Elapsed: 12 * time.Minute, Clock: start.Add(12 * time.Minute), TAS: 185 * units.Knot, IAS: 160 * units.Knot,
		Heading: units.TrueHeading(90 * units.Degree), Compass: units.CompassHeading(66 * units.Degree), VariationSet: units.Variation(24 * units.Degree),
		Ground: units.GroundPosition{Lat: -47 * units.Degree, Lon: 178 * units.Degree}, WindSet: units.Wind{From: 270 * units.Degree, Speed: 30 * units.Knot},
	}}}
	none := func() {}
	deeds := Deeds{
		Crew: navigator.Crew{Do: func(a aboard.Action) { s.did = append(s.did, a) }, LookThrough: func(aboard.Aim) {}, WantOffers: func(bool) {}, Undo: none, SetRate: func(float64) {}},
		Play: none, Pause: none, Rate: func(int) {}, Leave: none, SavePage: none, SaveTable: none,
	}
	brief := Brief{Title: "The quiet dial", Task: "Fly.", Start: start, LogEvery: 10 * time.Minute, Alone: true}
	for _, l := range []string{"air data", "drive", "heading", "resolver", "latitude-longitude", "ground", "crew"} {
		link := score.ChainLink{Name: l, Title: look.Capital(l)}
		for range 17 {
			link.Kinds = append(link.Kinds, score.Kind{ID: l + "-bad", Title: "Static vents see a pressure that differs from the free stream"})
		}
		brief.Chain = append(brief.Chain, link)
	}
	var w fyne.Window
	s.View = New(brief, deeds, &score.Book{}, now, screen, func() fyne.Canvas { return w.Canvas() })
	s.chart.away = func(work func()) { work() }
	w = test.NewTempWindow(t, s.Content())
	w.SetPadded(false)
	w.Resize(size)
	return s
}

var sizes = []fyne.Size{{Width: 1366, Height: 768}, {Width: 1920, Height: 1080}}

// Nothing overlaps, and every key is as wide as its word needs, with any card open.
func TestEverythingHasItsRoom(t *testing.T) {
	for _, size := range sizes {
		s := sit(t, size)
		s.shut()
		s.settled(t, size, "flying")
		for name, open := range map[string]func(){
			"report": func() { s.report.open(true) }, "kinds": func() { s.report.choose(0, -1) }, "sure": func() { s.report.choose(0, 1) },
			"hand": func() { s.report.open(false); s.hand.open(true) },
		} {
			open()
			s.keysFit(t, name)
		}
		s.shut()
		s.Landed(&score.Told{Title: "x", Got: "64", Of: "100"})
		s.keysFit(t, "landed")
	}
}

func (s *seat) keysFit(t *testing.T, when string) {
	for _, o := range s.objects() {
		if k, ok := o.(*kit.Key); ok && k.Visible() && k.Under == "" {
			assert.GreaterOrEqual(t, k.Size().Width, k.Needs()-1, "%s: %s", when, k.Word)
		}
	}
}

func (s *seat) settled(t *testing.T, size fyne.Size, when string) {
	var all []fyne.CanvasObject
	for _, o := range s.objects() {
		if o.Visible() && o != fyne.CanvasObject(s.bar.pane) && o != fyne.CanvasObject(s.under) {
			all = append(all, o)
		}
	}
	for i, a := range all {
		p, q := a.Position(), a.Position().AddXY(a.Size().Width, a.Size().Height)
		assert.True(t, p.X >= 0 && p.Y >= 0 && q.X <= size.Width && q.Y <= size.Height, "%s: %d is outside: %v %v", when, i, p, q)
		for k, b := range all[:i] {
			r, e := b.Position(), b.Position().AddXY(b.Size().Width, b.Size().Height)
			apart := q.X <= r.X || e.X <= p.X || q.Y <= r.Y || e.Y <= p.Y
			assert.True(t, apart, "%s: %d and %d overlap: %v %v", when, i, k, p, r)
		}
	}
	s.keysFit(t, when)
}

func TestWhatIsSuspected(t *testing.T) {
	s := sit(t, sizes[0])
	s.report.open(true)
	test.Tap(s.report.links[1])
	assert.True(t, s.report.more.Visible(), "17 faults have no room at once")
	test.Tap(s.report.alone)
	test.Tap(s.report.not)
	require.Equal(t, []score.Report{{At: 12 * time.Minute, Link: "drive"}}, s.book.Reports)
	s.now.Over = true
	test.Tap(s.report.links[1])
	test.Tap(s.report.kinds[0])
	test.Tap(s.report.sure)
	assert.Len(t, s.book.Reports, 1, "after landing nothing is reported")
}

// By hand from where the instrument stands, by the standby compass, which hangs on no
// repeater: 66 C and 24 E are 090 T.
func TestTheManualAirPlot(t *testing.T) {
	s := sit(t, sizes[1])
	test.Tap(s.bar.hand)
	assert.Equal(t, "090T", s.hand.set.Heading.String())
	test.Tap(s.hand.plot)
	require.NotNil(t, s.byHand())
	s.now.View.Elapsed += 10 * time.Minute
	test.Tap(s.bar.hand)
	assert.NotEqual(t, units.Position(s.now.View.Ground), s.hand.set.From, "it goes on from the DR position")
	test.Tap(s.hand.done)
	assert.Nil(t, s.byHand())
}

func TestSettingsAreActions(t *testing.T) {
	s := sit(t, sizes[0])
	s.shut()
	test.Tap(s.settings[2])
	test.Tap(s.settings[3])
	assert.Equal(t, []aboard.Action{{Kind: aboard.AlternateStatic, On: true}, {Kind: aboard.Resynchronise}}, s.did)
}

// By the keyboard alone: the card opens, Tab goes through it and not through what lies under
// it, and a report is made.
func TestAReportByTheKeyboardAlone(t *testing.T) {
	s := sit(t, sizes[0])
	s.shut()
	c := s.canvas()
	enter := func() { c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	to := func(k *kit.Key, within int) {
		t.Helper()
		for n := 0; c.Focused() != fyne.Focusable(k); n++ {
			require.Less(t, n, within, "%s is not reached", k.Word)
			c.FocusNext()
		}
	}
	c.Focus(s.bar.report)
	enter()
	require.True(t, s.report.on)
	assert.False(t, s.navigator.Content().Visible(), "what lies under the card is out of reach")
	to(s.report.links[2], 4)
	enter()
	to(s.report.kinds[1], 4)
	enter()
	to(s.report.sure, 4)
	enter()
	require.Equal(t, []score.Report{{At: 12 * time.Minute, Link: "heading", Fault: "heading-bad", Sure: true}}, s.book.Reports)
	to(s.report.shut, 1)
	enter()
	assert.False(t, s.report.on)
	assert.True(t, s.navigator.Content().Visible())
}

// Under the lamp the chart is lit round the pointer, else round the marker, and dark beyond.
func TestTheLampOverTheTraineesChart(t *testing.T) {
	s := sit(t, sizes[0])
	s.screen.Palette = look.Of(look.Lamp)
	s.Repaint()
	size := s.chart.Size()
	w, h := int(size.Width), int(size.Height)
	red := func(x, y int) int {
		d := paint.NewImage(w, h)
		z := s.screen.Size(1)
		s.chart.paint(d, float64(w), float64(h), z)
		require.Eventually(t, func() bool { return s.chart.sheet != nil && s.chart.sheet.lit != nil && s.chart.sheet.w == w }, 5*time.Second, time.Millisecond)
		s.chart.paint(d, float64(w), float64(h), z)
		sum := 0
		for i := -4; i <= 4; i++ { // lines cross it
			sum += int(d.Pixels().RGBAAt(x+i, y+i).R)
		}
		return sum / 9
	}
	s.chart.moveLamp(paint.Pt(60, 60), true)
	assert.Greater(t, red(90, 90), 2*red(w-60, h-60))
	s.chart.moveLamp(paint.Pt(float64(w-60), float64(h-60)), true)
	assert.Greater(t, red(w-90, h-90), 2*red(60, 60))
	s.chart.moveLamp(paint.Point{}, false)
	s.now.View.Marker = s.now.View.Ground
	at := s.chart.at.ToPixel(units.Position(s.now.View.Marker))
	require.True(t, s.chart.at.Box.Contains(at))
	assert.Greater(t, red(int(at.X)+60, int(at.Y)+60), 2*red(60, 60))
}
