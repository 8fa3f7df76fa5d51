package conduct

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/exhibit/tongue"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// hands is a crew that notes what it is told.
type hands struct {
	begun   []Flight
	steered []sim.HelmOrder
	set     []units.Wind
	broken  []string
	mended  int
	stopped int
}

func (h *hands) Begin(f Flight) { h.begun = append(h.begun, f) }
func (h *hands) Steer(o sim.HelmOrder, set units.Wind) {
	h.steered, h.set = append(h.steered, o), append(h.set, set)
}
func (h *hands) Break(o fault.Order) { h.broken = append(h.broken, o.ID) }
func (h *hands) Mend()               { h.mended++ }
func (h *hands) Stop()               { h.stopped++ }

// tally is a counter in memory.
type tally struct {
	visits, breaks int
	landed         []float64
}

func (c *tally) Visited(time.Time)             { c.visits++ }
func (c *tally) Broke(time.Time)               { c.breaks++ }
func (c *tally) Landed(_ time.Time, m float64) { c.landed = append(c.landed, m) }
func (c *tally) Best(time.Time) (float64, bool) {
	best := math.Inf(1)
	for _, m := range c.landed {
		best = min(best, m)
	}
	return best, len(c.landed) > 0
}

func exhibit(t require.TestingT, text string) *scenarios.Exhibit {
	all, err := tongue.Load("")
	require.NoError(t, err)
	x, err := scenarios.LoadExhibit("test.toml", strings.NewReader("schema = 1\n"+text), scenarios.ExhibitRules{
		Languages: func(string) ([]string, error) { return []string{"en", "de"}, nil },
		Told:      func(_ string, codes []string) []string { return tongue.Told(all, codes) },
	})
	require.NoError(t, err)
	return x
}

const twoFaults = "[[fault]]\nid = \"drive-slip\"\nslip = 0.2\n[[fault]]\nid = \"repeater-stuck\"\n"

// wednesday is a Wednesday at noon.
var wednesday = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

type stand struct {
	*Machine
	crew  *hands
	count *tally
	at    time.Duration
	wall  time.Time
}

func machine(t require.TestingT, text string) *stand {
	s := &stand{crew: &hands{}, count: &tally{}, wall: wednesday}
	s.Machine = New(exhibit(t, text), s.crew, s.count, 1, false)
	s.pass(0)
	return s
}

func (s *stand) pass(d time.Duration) {
	s.at += d
	s.wall = s.wall.Add(d)
	s.Pass(s.at, s.wall)
}

func TestOneTouchStartsAndNobodyEnds(t *testing.T) {
	s := machine(t, twoFaults)
	assert.Equal(t, Attract, s.Stage())
	s.Touch(Anywhere)
	assert.Equal(t, Playing, s.Stage())
	require.Len(t, s.crew.begun, 1)
	assert.Equal(t, 24.0, s.crew.begun[0].Rate)
	assert.InDelta(t, 62, s.crew.begun[0].Order.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 34, s.crew.begun[0].Set.Speed.Knots(), 1e-9)
	assert.Equal(t, 1, s.count.visits)
	s.pass(89 * time.Second)
	assert.Equal(t, Playing, s.Stage())
	s.Touch(SteerMore)
	s.pass(89 * time.Second)
	assert.Equal(t, Playing, s.Stage(), "a touch is a touch")
	s.pass(time.Second)
	assert.Equal(t, Attract, s.Stage(), "90 s after the last one")
	assert.Equal(t, 1, s.crew.stopped)
	assert.InDelta(t, 62, s.Dial(Heading), 1e-9, "the next visitor finds all as it was")
}

func TestDials(t *testing.T) {
	s := machine(t, twoFaults)
	s.Touch(Anywhere)
	s.Touch(SteerMore)
	assert.Equal(t, 67.0, s.Dial(Heading))
	s.Touch(SteerLess)
	s.Touch(SteerLess)
	assert.Equal(t, 57.0, s.Dial(Heading))
	s.Drag(Heading, -3.4)
	assert.Equal(t, 357.0, s.Dial(Heading))
	s.Touch(SteerMore)
	assert.Equal(t, 2.0, s.Dial(Heading), "over north")
	for range 40 {
		s.Touch(SpeedMore)
		s.Touch(WindMore)
	}
	assert.Equal(t, 300.0, s.Dial(Speed))
	assert.Equal(t, 80.0, s.Dial(WindSpeed))
	for range 40 {
		s.Touch(SpeedLess)
		s.Touch(WindLess)
	}
	assert.Equal(t, 90.0, s.Dial(Speed))
	assert.Equal(t, 0.0, s.Dial(WindSpeed))
	s.Drag(WindFrom, 361)
	assert.Equal(t, 1.0, s.Dial(WindFrom))
	s.Drag(Speed, math.NaN())
	assert.Equal(t, 90.0, s.Dial(Speed))
	n := len(s.crew.steered)
	s.Touch(SpeedLess)
	assert.Len(t, s.crew.steered, n, "no order where nothing changes")
	last := s.crew.steered[n-1]
	assert.Equal(t, last.Wind, s.crew.set[n-1], "the wind that blows is the one that is set")
	s.Again(SpeedMore, time.Second)
	assert.Equal(t, 100.0, s.Dial(Speed))
	s.Again(SpeedMore, 3*time.Second)
	assert.Equal(t, 120.0, s.Dial(Speed), "held long it goes twice as far")
}

// TestKnobs: so many clicks a second, so far; the other way begins anew.
func TestKnobs(t *testing.T) {
	for gap, want := range map[time.Duration]float64{
		300 * time.Millisecond: 10, 200 * time.Millisecond: 10, 100 * time.Millisecond: 19, 50 * time.Millisecond: 46, 20 * time.Millisecond: 91,
	} {
		s := machine(t, twoFaults)
		s.Touch(Anywhere)
		s.Drag(Heading, 100)
		for range 10 {
			s.Turn(Heading, 1)
			s.pass(gap)
		}
		assert.Equal(t, 100+want, s.Dial(Heading), "%v", gap)
		s.Turn(Heading, -1)
		assert.Equal(t, 99+want, s.Dial(Heading), "%v: back by one", gap)
	}
	s := machine(t, twoFaults)
	s.Turn(Speed, 1)
	assert.Equal(t, Playing, s.Stage(), "a knob wakes it too")
	assert.Equal(t, 180.0, s.Dial(Speed))
}

func TestBreakAndMend(t *testing.T) {
	s := machine(t, twoFaults)
	s.Touch(Anywhere)
	assert.False(t, s.Erred())
	s.Touch(BreakKey)
	id, ok := s.Broken()
	assert.True(t, ok)
	assert.Equal(t, "drive-slip", id)
	all, err := tongue.Load("")
	require.NoError(t, err)
	for _, l := range all {
		want, _ := l.Fault("drive-slip")
		assert.Equal(t, want, s.Sentence(l))
	}
	s.Touch(SteerMore)
	want, _ := all["en"].Fault("drive-slip")
	assert.Equal(t, want, s.Sentence(all["en"]), "one sentence at a time: what is broken stays said")
	s.Touch(BreakKey)
	_, ok = s.Broken()
	assert.False(t, ok)
	assert.True(t, s.Erred(), "the standing error stays")
	assert.Equal(t, 1, s.crew.mended)
	s.Touch(BreakKey)
	s.Touch(BreakKey)
	s.Touch(BreakKey)
	assert.Equal(t, []string{"drive-slip", "repeater-stuck", "drive-slip"}, s.crew.broken, "one after the other")
	s.Touch(AgainKey)
	assert.True(t, s.Erred(), "a flight that has only just begun goes on")
	s.pass(time.Second)
	s.Touch(AgainKey)
	assert.False(t, s.Erred())
	assert.Len(t, s.crew.begun, 2)
	for range 2 * mostBreaks {
		s.Touch(BreakKey)
		s.Touch(BreakKey)
	}
	assert.Greater(t, len(s.crew.begun), 2, "a new flight before the engine's bound on faults")
	assert.Equal(t, 3+2*mostBreaks, s.count.breaks)
}

func TestSentencesGoRound(t *testing.T) {
	s := machine(t, twoFaults)
	en := tongue.English()
	s.Touch(Anywhere)
	seen := []string{s.Sentence(en)}
	for range 60 {
		s.pass(time.Second)
		if now := s.Sentence(en); now != seen[len(seen)-1] {
			seen = append(seen, now)
		}
	}
	assert.Equal(t, []string{en.Text(tongue.SayStart), en.Text(tongue.SaySteer), en.Text(tongue.SayWind), en.Text(tongue.SaySpeed),
		en.Text(tongue.SaySteer), en.Text(tongue.SayWind), en.Text(tongue.SaySpeed)}, seen)
	s.Touch(InsideKey)
	assert.True(t, s.Inside())
	assert.Equal(t, en.Text(tongue.SayInside), s.Sentence(en))
	s.Touch(BreakKey)
	s.Touch(InsideKey)
	s.Touch(InsideKey)
	assert.Equal(t, en.Text(tongue.SayInsideBroken), s.Sentence(en))
}

func TestLanguages(t *testing.T) {
	s := machine(t, "languages = [\"de\", \"en\"]\n")
	s.Touch(FirstLanguage + 1)
	assert.Equal(t, Playing, s.Stage(), "a language wakes it")
	assert.Equal(t, 1, s.Language())
	s.Touch(FirstLanguage)
	assert.Equal(t, 0, s.Language())
	s.Touch(FirstLanguage + 5)
	assert.Equal(t, 0, s.Language(), "there is none")
	s.Touch(FirstLanguage + 1)
	s.Touch(LargerKey)
	s.pass(time.Second)
	s.Touch(AgainKey)
	assert.Equal(t, 1, s.Language(), "start again keeps it")
	assert.True(t, s.Larger())
	s.pass(2 * time.Minute)
	assert.Equal(t, 0, s.Language(), "the next visitor has the first")
	assert.False(t, s.Larger())
}

func TestAVisitorsFlightNeverEnds(t *testing.T) {
	s := machine(t, twoFaults)
	s.Touch(Anywhere)
	from := s.x.Flight.From
	s.See(at(from, from))
	assert.Len(t, s.crew.begun, 1)
	far := from
	far.Lat -= 321 * units.ArcMinute
	s.See(at(from, far))
	assert.Len(t, s.crew.begun, 2, "the aircraft is off the chart")
	s.See(at(far, from))
	assert.Len(t, s.crew.begun, 3, "the marker is")
	over := at(from, from)
	over.Over = true
	s.See(over)
	assert.Len(t, s.crew.begun, 4)
	assert.Contains(t, s.Sentence(tongue.English()), "Port Aldous")
}

func TestTroubleIsShownAndPasses(t *testing.T) {
	m := New(exhibit(t, ""), &hands{}, &tally{}, 1, true)
	assert.Equal(t, Trouble, m.Stage())
	m.Pass(29*time.Second, wednesday)
	assert.Equal(t, Trouble, m.Stage())
	m.Pass(30*time.Second, wednesday)
	assert.Equal(t, Attract, m.Stage())
}

// Whatever is touched, pressed and dragged, in whatever order and at whatever time:
// the dials stay within their bounds, and left alone it comes back to the attract loop.
func TestAnythingComesBackToTheAttractLoop(t *testing.T) {
	text := twoFaults + "[hours]\nwednesday = \"00:00-24:00\"\nthursday = \"00:00-24:00\"\n"
	rapid.Check(t, func(t *rapid.T) {
		s := machine(t, text)
		for range rapid.IntRange(1, 300).Draw(t, "deeds") {
			switch rapid.IntRange(0, 6).Draw(t, "deed") {
			case 0, 1:
				s.Touch(Target(rapid.IntRange(0, int(FirstLanguage)+7).Draw(t, "target")))
			case 2:
				s.Drag(Dial(rapid.IntRange(0, int(dials)-1).Draw(t, "dial")), rapid.Float64().Draw(t, "value"))
			case 3:
				s.Turn(Dial(rapid.IntRange(0, int(dials)-1).Draw(t, "dial")), 2*rapid.IntRange(0, 1).Draw(t, "way")-1)
			case 4:
				s.Key(rapid.SampledFrom([]string{"K", "E", "Y", "A", ""}).Draw(t, "key"), rapid.Bool().Draw(t, "down"))
			case 5:
				s.TouchAt(rapid.Float64Range(-1, 2).Draw(t, "x"), rapid.Float64Range(-1, 2).Draw(t, "y"))
			case 6:
				p := s.x.Flight.From
				p.Lat += units.Angle(rapid.Float64Range(-6, 6).Draw(t, "off")) * units.Degree
				s.See(at(p, s.x.Flight.From))
			}
			s.pass(time.Duration(rapid.IntRange(0, 20000).Draw(t, "ms")) * time.Millisecond)
			assert.True(t, s.Dial(Heading) >= 0 && s.Dial(Heading) < 360)
			assert.True(t, s.Dial(WindFrom) >= 0 && s.Dial(WindFrom) < 360)
			assert.True(t, s.Dial(Speed) >= SlowestKt && s.Dial(Speed) <= FastestKt)
			assert.True(t, s.Dial(WindSpeed) >= 0 && s.Dial(WindSpeed) <= StrongestKt)
			assert.Less(t, s.Stage(), stages)
		}
		for range 400 {
			s.pass(time.Second)
			s.See(at(s.x.Flight.From, s.x.Flight.From))
		}
		assert.Equal(t, Attract, s.Stage())
	})
}
