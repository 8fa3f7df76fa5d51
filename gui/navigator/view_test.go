package navigator

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/charttable"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// seat is the view of a flight, and what came to lie on the chart.
type seat struct {
	*View
	helm   *helm.Helm
	window fyne.Window
	chart  charttable.Plotted
}

// seated takes the navigator's seat in a flight from some time on.
func seated(t *testing.T, name string, at time.Duration) *seat {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	test.NewTempApp(t)
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.GoTo(sim.TicksOf(at))
	s := &seat{helm: helm.New(e)}
	t.Cleanup(s.helm.Stop)
	screen := &kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}
	screen.Hints = kit.NewHints(screen)
	s.View = New(s.helm, plan.Title, screen, func() fyne.Canvas { return s.window.Canvas() })
	s.Plot = func(p charttable.Plotted) { s.chart = p }
	s.window = test.NewTempWindow(t, s.Content())
	s.window.Resize(fyne.NewSize(400, 560))
	s.Bring(true)
	s.pull()
	return s
}

// pull brings the view up to the moment after all that was ordered.
func (s *seat) pull() {
	done := make(chan struct{})
	s.helm.Note(func(*sim.Engine) {})
	s.helm.Aside(func(*sim.Engine, int) { close(done) })
	<-done
	time.Sleep(20 * time.Millisecond)
	s.Apply(s.helm.Moment())
}

// fly flies on.
func (s *seat) fly(d time.Duration) {
	s.helm.Step(sim.TicksOf(d))
	s.pull()
}

// truth is where the aircraft really is.
func (s *seat) truth() units.Position {
	got := make(chan units.Position)
	s.helm.Aside(func(e *sim.Engine, _ int) { got <- e.Snapshot().Truth.Position })
	return <-got
}

// take opens an aid, points it at a source and has the crew read.
func (s *seat) take(t *testing.T, a aboard.Aid, source string) {
	t.Helper()
	test.Tap(s.shelf[a-aboard.DriftSight])
	if s.hand == nil {
		for i, o := range s.had(a) {
			if o.Source == source {
				test.Tap(s.picks[i])
			}
		}
	}
	require.NotNil(t, s.hand, "%v %s", a, source)
	require.Equal(t, source, s.aim.Source)
	s.pull()
	test.Tap(s.keys[crewKey])
	s.pull()
}

func apart(p, q units.Position) float64 {
	_, _, d := geodesy.GeodesicInverse(p, q)
	return d.NM()
}

// TestTheWeatherTriangleIsPutRight: a quarter of an hour behind the front two lines are
// taken, a fix is worked, the wind found is set and the counters are reset; from then on
// the marker runs with the aircraft, and without that it would have gone off.
func TestTheWeatherTriangleIsPutRight(t *testing.T) {
	s := seated(t, "weather-triangle", 2*time.Hour+20*time.Minute)
	before := apart(s.truth(), units.Position(s.moment.View.Marker))
	require.Greater(t, before, 4.0)
	require.NotEmpty(t, s.keys[resetKey].Reason)
	s.take(t, aboard.Loop, "Gannet Rock")
	assert.Len(t, s.chart.Lines, 1)
	s.take(t, aboard.PulseReceiver, s.had(aboard.PulseReceiver)[0].Source)
	s.take(t, aboard.PulseReceiver, s.had(aboard.PulseReceiver)[1].Source)
	require.Len(t, s.rows, 3)
	require.Len(t, s.book.Chart(&s.moment.View).Fixes, 1)
	require.Len(t, s.chart.Fixes, 1)
	require.NotNil(t, s.chart.Ellipse)
	assert.Less(t, apart(s.truth(), s.chart.Fixes[0].At), 4.0)
	assert.NotEmpty(t, s.card.Wind)

	test.Tap(s.keys[windKey])
	s.pull()
	assert.Equal(t, s.card.Wind, s.moment.View.WindSet.String())
	assert.Equal(t, look.Text(look.PlotWindIsSet), s.keys[windKey].Reason)
	test.Tap(s.keys[resetKey])
	s.pull()
	assert.Equal(t, look.Text(look.PlotResetDone), s.keys[resetKey].Reason)
	after := apart(s.truth(), units.Position(s.moment.View.Marker))
	assert.Less(t, after, 4.0)
	assert.Less(t, after, before)

	test.Tap(s.keys[undoKey])
	s.pull()
	assert.InDelta(t, before, apart(s.truth(), units.Position(s.moment.View.Marker)), 1e-6, "the counters stand as they did")
	assert.Empty(t, s.keys[undoKey].Reason, "the wind can be taken back too")
	test.Tap(s.keys[undoKey])
	s.pull()
	assert.Equal(t, "303/52", s.moment.View.WindSet.String())
}

// TestADriftReadByHand: the hand turns the wires until the sea runs along them.
func TestADriftReadByHand(t *testing.T) {
	s := seated(t, "weather-triangle", time.Hour)
	s.helm.SetRate(30)
	s.pull()
	test.Tap(s.shelf[0])
	s.pull()
	assert.Equal(t, 1.0, s.moment.Rate, "the clock goes slowly while one looks")
	require.NotNil(t, s.moment.Scene)
	turns := int(math.Round(s.moment.Scene.Along.Degrees() / 0.1))
	for range turns {
		s.eye.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	for range -turns {
		s.eye.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	}
	value := s.hand.Value()
	s.eye.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.pull()
	assert.Equal(t, 30.0, s.moment.Rate)
	assert.Nil(t, s.hand)
	require.Len(t, s.rows, 1)
	assert.Equal(t, value, s.rows[0].Value)
	assert.Equal(t, look.Text(look.PlotNoLine), s.rows[0].Moved)
	log := s.moment.View.Log
	r := log[len(log)-1].Action.Reading
	assert.InDelta(t, s.truthDrift(t), r.Angle.Degrees(), 1.6, "the sight's own error is left")
}

func (s *seat) truthDrift(t *testing.T) float64 {
	t.Helper()
	got := make(chan float64)
	s.helm.Aside(func(e *sim.Engine, _ int) {
		now := e.Snapshot().Truth
		got <- units.WrapHalf(now.Track - units.Angle(now.Heading)).Degrees()
	})
	return <-got
}

// TestASightTakesTwoMinutes: the body is brought into the bubble; until two minutes are
// over it cannot be read; the mean is the altitude, good for the middle of them.
func TestASightTakesTwoMinutes(t *testing.T) {
	s := seated(t, "weather-triangle", 30*time.Minute)
	test.Tap(s.shelf[aboard.Sextant-aboard.DriftSight])
	s.pull()
	require.NotNil(t, s.hand)
	assert.NotEmpty(t, s.keys[readKey].Reason)
	off := int(math.Round(s.moment.Scene.Altitude.Minutes())) - int(math.Round(wheel(t, s)))
	for range off {
		s.eye.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	began := s.moment.View.Tick
	for range 80 {
		s.fly(1500 * time.Millisecond)
	}
	assert.Equal(t, sim.TicksOf(2*time.Minute), s.moment.View.Tick-began)
	assert.Empty(t, s.keys[readKey].Reason)
	test.Tap(s.keys[readKey])
	s.pull()
	require.Len(t, s.rows, 1)
	log := s.moment.View.Log
	r := log[len(log)-1].Action.Reading
	assert.Equal(t, time.Minute, r.Before)
	require.Len(t, s.chart.Lines, 1)
	require.Equal(t, aboard.Had, r.Missing)
}

// wheel is where the wheel of the sextant stands, minutes.
func wheel(t *testing.T, s *seat) float64 {
	t.Helper()
	value := strings.NewReplacer("°", "", "′", "").Replace(s.hand.Value())
	a, err := units.ParsePosition(value + " N 000 00.0 E")
	require.NoError(t, err)
	return a.Lat.Minutes()
}

// TestTheMissOfALineIsShownOnlyWhenRevealed.
func TestTheMissOfALineIsShownOnlyWhenRevealed(t *testing.T) {
	s := seated(t, "weather-triangle", 50*time.Minute)
	s.take(t, aboard.Loop, "Gannet Rock")
	assert.Empty(t, s.rows[0].Miss)
	s.helm.Reveal(true)
	s.pull()
	assert.Regexp(t, `^\d+\.\d NM off$`, s.rows[0].Miss)
	s.helm.Reveal(false)
	s.pull()
	assert.Empty(t, s.rows[0].Miss)
}

// TestLinesAreTouched: one that is not used does not lie on the chart.
func TestLinesAreTouched(t *testing.T) {
	s := seated(t, "weather-triangle", 50*time.Minute)
	s.take(t, aboard.Loop, "Gannet Rock")
	s.take(t, aboard.Loop, "Cape Linnet")
	require.Len(t, s.chart.Fixes, 1)
	version := s.chart.Version
	s.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	assert.False(t, s.rows[0].Used)
	assert.Len(t, s.chart.Lines, 1)
	assert.Empty(t, s.chart.Fixes)
	assert.NotEqual(t, version, s.chart.Version)
	assert.Equal(t, look.Text(look.PlotMore), s.card.Told)
	var page bytes.Buffer
	require.NoError(t, s.Page()(&page, paint.SVGFile))
	assert.Contains(t, page.String(), "Gannet Rock")
	assert.Contains(t, page.String(), look.Text(look.Caution))
}

// TestNothingIsAskedOutOfSight: what the aids offer is worked only while the view stands,
// and an open aid is shut when it goes.
func TestNothingIsAskedOutOfSight(t *testing.T) {
	s := seated(t, "weather-triangle", 50*time.Minute)
	require.NotEmpty(t, s.moment.Offers)
	test.Tap(s.shelf[0])
	s.pull()
	require.NotNil(t, s.moment.Scene)
	s.Bring(false)
	s.pull()
	assert.Nil(t, s.moment.Scene)
	assert.Nil(t, s.moment.Offers)
	assert.Nil(t, s.hand)
	assert.False(t, s.Shut())
}

// TestTrueAt: between the points of the track, across 180.
func TestTrueAt(t *testing.T) {
	track := []sim.TruePoint{{Tick: 0, Ground: units.At(-47, 179.9)}, {Tick: 160, Ground: units.At(-47.2, -179.9)}}
	p := trueAt(track, units.At(-48, -179), 5*time.Second)
	assert.InDelta(t, -47.1, p.Lat.Degrees(), 1e-9)
	assert.InDelta(t, 180, math.Abs(p.Lon.Degrees()), 1e-9)
	assert.Equal(t, units.At(-48, -179), trueAt(track, units.At(-48, -179), time.Minute))
	assert.Equal(t, track[0].Ground, trueAt(track, units.At(0, 0), 0))
}

// TestScaleOfTheEllipse: the one on the chart holds 95 in 100.
func TestScaleOfTheEllipse(t *testing.T) {
	s := seated(t, "weather-triangle", 50*time.Minute)
	s.take(t, aboard.Loop, "Gannet Rock")
	s.take(t, aboard.Loop, "Cape Linnet")
	used := []bool{true, true}
	fix := airplot.Work(&s.moment.View, used).Fixes[0]
	assert.InDelta(t, math.Sqrt(-2*math.Log(0.05)), float64(s.chart.Ellipse.Major/fix.Ellipse.Major), 1e-9)
}
