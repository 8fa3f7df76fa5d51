package linkage

import (
	"bytes"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/chain"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// viewOf is the view of a shipped flight in a window of w by h.
func viewOf(t *testing.T, name string, w, h float32) (*View, *helm.Helm) {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	hm := helm.New(e)
	t.Cleanup(hm.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: w, H: h, ReducedMotion: true}
	window := test.NewTempWindow(t, nil)
	v, err := New(hm, plan, screen, window.Canvas)
	require.NoError(t, err)
	window.SetPadded(false)
	window.SetContent(v.Content())
	window.Resize(fyne.NewSize(w, h-200)) // bar and strip have the rest
	v.Apply(hm.Moment())
	return v, hm
}

// at brings the view to a moment that is as asked for.
func at(t *testing.T, v *View, h *helm.Helm, what string, ok func(*helm.Moment) bool) {
	t.Helper()
	require.Eventually(t, func() bool { return ok(h.Moment()) }, 2*time.Minute, 2*time.Millisecond, what)
	v.Apply(h.Moment())
}

func flyTo(t *testing.T, v *View, h *helm.Helm, d time.Duration) {
	h.GoTo(sim.TicksOf(d))
	at(t, v, h, "there", func(m *helm.Moment) bool { return m.View.Tick == sim.TicksOf(d) })
}

func TestWalkGoesAlongTheWholeChain(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 720}, {Width: 1366, Height: 768}, {Width: 1920, Height: 1080}} {
		v, _ := viewOf(t, "first-look", size.Width, size.Height)
		var seen []picture.Link
		for v.WalkOn(); ; v.WalkOn() {
			seen = append(seen, v.card.link)
			assert.Equal(t, v.card.link, v.shown.Lit)
			assert.True(t, v.card.paper.Visible())
			inside(t, v, v.card.objects()...)
			assert.Zero(t, overlap(v.card.paper, v.spots[v.card.link]), "the card hides link %d at %v", v.card.link, size)
			if v.card.next.Reason != "" {
				break
			}
		}
		assert.Equal(t, chain.Walk(), seen)
		v.WalkBack()
		assert.Equal(t, picture.LinkGround, v.card.link)
		assert.True(t, v.Shut())
		assert.Equal(t, picture.Link(picture.NoLink), v.shown.Lit)
		assert.False(t, v.Shut())
	}
}

func TestEveryCardFits(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 720}, {Width: 1366, Height: 768}, {Width: 1920, Height: 1080}} {
		v, h := viewOf(t, "slipping-drive", size.Width, size.Height)
		h.Reveal(true)
		flyTo(t, v, h, 45*time.Minute)
		v.BreakHere = func([]string) {}
		for _, l := range chain.Walk() {
			test.Tap(v.spots[l])
			require.Equal(t, opened, v.card.mode)
			inside(t, v, v.card.objects()...)
			foot := v.card.close.Position().Y
			if v.card.hands.rows() > 0 {
				foot = v.card.hands.hold.Position().Y
			}
			text := v.card.paper.Position().Y + cardPad + float32(v.card.tall())
			assert.LessOrEqual(t, text, foot+6, "link %d at %v: the text runs into the keys", l, size)
			assert.Zero(t, overlap(v.card.paper, v.spots[l]), "the card hides link %d at %v", l, size)
		}
	}
}

func inside(t *testing.T, v *View, all ...fyne.CanvasObject) {
	t.Helper()
	for _, o := range all {
		if !o.Visible() {
			continue
		}
		p, s := o.Position(), o.Size()
		assert.True(t, p.X >= 0 && p.Y >= 0 && p.X+s.Width <= v.content.Size().Width && p.Y+s.Height <= v.content.Size().Height, "%T at %v %v", o, p, s)
	}
}

func overlap(a, b fyne.CanvasObject) float64 {
	r := func(o fyne.CanvasObject) paint.Rect {
		return paint.R(float64(o.Position().X), float64(o.Position().Y), float64(o.Size().Width), float64(o.Size().Height))
	}
	o := r(a).Intersect(r(b))
	return o.W * o.H
}

func TestFollowTheError(t *testing.T) {
	v, h := viewOf(t, "slipping-drive", 1366, 768)
	flyTo(t, v, h, 40*time.Minute)
	assert.NotEmpty(t, v.whyNoFollow(), "the truth is hidden")
	v.ToggleFollow()
	assert.Equal(t, shut, v.card.mode)
	h.Reveal(true)
	at(t, v, h, "revealed", func(m *helm.Moment) bool { return m.Revealed != nil })
	assert.Equal(t, picture.Broken, v.shown.Links[picture.LinkDrive].Stands)
	v.ToggleFollow()
	assert.Equal(t, picture.LinkDrive, v.card.link)
	for v.card.next.Reason == "" {
		v.WalkOn()
	}
	assert.Equal(t, picture.LinkMarker, v.card.link, "it ends at the marker")
	h.Reveal(false)
	at(t, v, h, "hidden", func(m *helm.Moment) bool { return m.Revealed == nil })
	assert.Equal(t, shut, v.card.mode, "what is hidden is not told any more")
	assert.Equal(t, picture.Unjudged, v.shown.Links[picture.LinkDrive].Stands)
}

func TestHoldTheHeadingByHand(t *testing.T) {
	v, h := viewOf(t, "first-look", 1366, 768)
	flyTo(t, v, h, 5*time.Minute)
	v.Open(picture.LinkResolver)
	k := v.card.hands.all[0]
	k.take(270)
	at(t, v, h, "held", func(m *helm.Moment) bool { return m.Held.Holds(sim.HandHeading) })
	assert.Equal(t, "270T", v.shown.Links[picture.LinkResolver].Value)
	assert.True(t, v.shown.Links[picture.LinkRepeater].Held)
	assert.InDelta(t, -1, v.shown.Hands.BallEast, 1e-12)
	v.dragged(picture.LinkResolver, v.spots[picture.LinkResolver].Position().Add(fyne.NewPos(v.spots[picture.LinkResolver].Size().Width/2, 1)))
	at(t, v, h, "dragged up", func(m *helm.Moment) bool { return m.Held.Heading == 0 })
	v.card.hands.toggle()
	at(t, v, h, "let go", func(m *helm.Moment) bool { return !m.Held.Holds(sim.HandHeading) })
	assert.Equal(t, "040T", v.shown.Links[picture.LinkResolver].Value)
	for _, l := range []picture.Link{picture.LinkAirLog, picture.LinkSecant, picture.LinkWind} {
		v.Open(l)
		require.NotEmpty(t, v.card.hands.knobs)
		v.card.hands.knobs[0].turn(1)
		at(t, v, h, "held", func(*helm.Moment) bool { return v.holds2(h, inputs[l]) })
		assert.True(t, v.shown.Links[l].Held)
	}
}

func (v *View) holds2(h *helm.Helm, i sim.HandInput) bool { return h.Moment().Held.Holds(i) }

func TestSpotsSpeakAndOpen(t *testing.T) {
	v, h := viewOf(t, "first-look", 1366, 768)
	v.screen.Hints = kit.NewHints(v.screen)
	flyTo(t, v, h, 20*time.Minute)
	assert.Equal(t, "Air log, 178.0 knots", v.story.Spoken(picture.LinkAirLog))
	s := v.spots[picture.LinkAirLog]
	s.FocusGained()
	assert.True(t, s.Focused())
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, picture.LinkAirLog, v.card.link)
	v.spots[picture.LinkDrive].FocusGained()
	assert.Equal(t, picture.LinkDrive, v.card.link, "an open card goes along with the focus")
	passed := false
	v.screen.Keys = func(*fyne.KeyEvent) { passed = true }
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	assert.True(t, passed, "the clock has its keys")
}

func TestUnitsOfTheScienceRoom(t *testing.T) {
	v, h := viewOf(t, "first-look", 1366, 768)
	flyTo(t, v, h, 20*time.Minute)
	v.toggleUnits()
	// 178 kt = 91.6 m/s; 59.3 NM = 109.9 km
	assert.Equal(t, [2]string{"91.6", "m/s"}, [2]string{v.shown.Links[picture.LinkAirLog].Value, v.shown.Links[picture.LinkAirLog].Unit})
	assert.Equal(t, "109.9", v.shown.Links[picture.LinkDrive].Value)
	assert.Equal(t, "kPa", v.shown.Links[picture.LinkPitot].Unit)
	v.toggleUnits()
	assert.Equal(t, "178.0", v.shown.Links[picture.LinkAirLog].Value)
}

// TestDrumAndMarkerTellOneStory: what the picture shows is what the view shows.
func TestDrumAndMarkerTellOneStory(t *testing.T) {
	v, h := viewOf(t, "first-look", 1366, 768)
	flyTo(t, v, h, 50*time.Minute)
	m := h.Moment()
	assert.Equal(t, m.View.AirCounters, v.shown.Hands.AirCounters)
	assert.Equal(t, m.View.Marker, v.shown.Small.Plot.Marker)
	assert.InDelta(t, m.View.AirLog.NM()*10, v.shown.Turns.AirLog, 1e-9, "a turn is a tenth of a mile")
	assert.Equal(t, m.View.Heading, v.shown.Hands.Heading)
	assert.InDelta(t, units.Angle(m.Works.Gear).Degrees(), units.Position(m.View.Air).Lat.Degrees(), 1e-9)
	v.Beside(true)
	assert.False(t, v.spots[picture.LinkPitot].Visible(), "only the right part stands beside the chart")
	assert.True(t, v.spots[picture.LinkLongitude].Visible())
	var page bytes.Buffer
	require.NoError(t, v.Page()(&page, paint.SVGFile))
	assert.Contains(t, page.String(), "For teaching and display only")
}

// TestReducedMotionStepsInsteadOfSpinning: while the clock runs the shafts go on
// once a second; stopped, they stand where the engine is.
func TestReducedMotionStepsInsteadOfSpinning(t *testing.T) {
	v, h := viewOf(t, "first-look", 1366, 768)
	now := time.Unix(1e9, 0)
	v.clock = func() time.Time { return now }
	flyTo(t, v, h, time.Minute)
	moment := func(tick int64) *helm.Moment {
		m := *h.Moment()
		m.Playing, m.View.Tick = true, tick
		m.Works.Wound += units.Length(tick) * units.NM / 1000
		return &m
	}
	now = now.Add(2 * time.Second)
	v.Apply(moment(1000))
	first := v.shown.Turns.Drive
	now = now.Add(400 * time.Millisecond)
	v.Apply(moment(1064))
	assert.Equal(t, first, v.shown.Turns.Drive, "it stands")
	now = now.Add(700 * time.Millisecond)
	v.Apply(moment(1128))
	assert.InDelta(t, first+1.28, v.shown.Turns.Drive, 1e-9, "and goes on")
	v.screen.ReducedMotion = false
	v.Apply(moment(1130))
	assert.InDelta(t, first+1.30, v.shown.Turns.Drive, 1e-9)
}
