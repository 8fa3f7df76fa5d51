package lesson

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/helm"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// A rate that a step may ask for is one that the helm offers, and the other way round.
func TestRatesAreThoseOfTheHelm(t *testing.T) { assert.Equal(t, helm.Rates, sim.LessonRates) }

const ground = `
schema = 1
title = "steps"
start = 1957-08-14T09:30:00Z
seed = 7
waters = "tern-islands"
[aircraft]
position = "47 10.0 S 178 30.0 E"
heading_true_deg = 90
pressure_altitude_ft = 8000
tas_kt = 180
[[air.wind]]
from_deg_true = 270
speed_kt = 30
[setting]
variation_deg = 10
[[leg]]
heading_true_deg = 90
duration = "2h"
[[fault]]
id = "drive-slip"
at = "30m"
slip = 0.05
`

func stepsOf(t *testing.T, lessons string) *sim.Plan {
	t.Helper()
	p, _, err := scenarios.Load("steps", strings.NewReader(ground+lessons))
	require.NoError(t, err)
	return p
}

func step(keys string) string { return "[[lesson]]\ntitle = \"t\"\ntext = \"t\"\n" + keys + "\n" }

// begun is a course of one step that has begun.
func begun(t *testing.T, keys string) (*flown, *Course) {
	p := stepsOf(t, step(keys))
	f, c := fly(t, p), New(p.Lessons)
	f.begin(c, 0)
	return f, c
}

func variation(deg float64) aboard.Action {
	return aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(units.Angle(deg) * units.Degree)}
}

func wind(from, kt float64) aboard.Action {
	return aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(kt) * units.Knot}}
}

// Where the edge of what is near enough lies, from both sides; and the bar goes by
// what is left.
func TestVariation(t *testing.T) {
	f, c := begun(t, "do = \"d\"\nuntil = { variation_deg = 24, within_deg = 2 }\nstop = true")
	assert.Equal(t, Live{Reading: "10 E"}, c.Live())
	f.do(variation(16))
	f.observe(c)
	assert.InDelta(t, 0.5, c.Live().Share, 1e-9, "of 14 degrees 12 are to be made, 6 are")
	f.do(variation(21.9))
	f.observe(c)
	assert.False(t, c.Done())
	f.do(variation(22))
	f.observe(c)
	assert.Equal(t, Live{Reading: "22 E", Share: 1, Done: true}, c.Live())
	f.do(variation(0))
	f.observe(c)
	assert.True(t, c.Done(), "what was done stays done")
	f.carry(c.Repeat(f.moment(), f.now))
	assert.False(t, c.Done())
	f.observe(c)
	assert.Equal(t, Live{Reading: "10 E"}, c.Live(), "and is taken back when the step is repeated")
}

func TestWindTakesTheCircleRound(t *testing.T) {
	for set, want := range map[[2]float64]bool{
		{355, 30}: true, {6, 30}: true, {14.9, 34.9}: true, {355.1, 25.1}: true, {354.8, 30}: false, {15.2, 30}: false, {5, 35.2}: false, {5, 24.8}: false, {185, 30}: false,
	} {
		f, c := begun(t, "do = \"d\"\nuntil = { wind_from_deg_true = 5, wind_kt = 30 }\nstop = true")
		f.do(wind(set[0], set[1]))
		f.observe(c)
		assert.Equal(t, want, c.Done(), "%v", set)
	}
}

// Counters that come to a place by flying have not been set there.
func TestCountersMustBeSet(t *testing.T) {
	at := "46 50.0 S 179 00.0 E"
	f, c := begun(t, "do = \"d\"\nuntil = { counters = \""+at+"\", within_nm = 1 }\nstop = true")
	place, err := units.ParsePosition("46 50.9 S 179 00.0 E")
	require.NoError(t, err)
	f.do(aboard.Action{Kind: aboard.SetCounters, Position: units.At(-46.8, 179)})
	f.observe(c)
	assert.False(t, c.Done(), "2 NM off")
	f.do(aboard.Action{Kind: aboard.SetCounters, Position: place})
	f.observe(c)
	assert.True(t, c.Done())

	start := "47 10.0 S 178 30.0 E"
	f, c = begun(t, "do = \"d\"\nuntil = { counters = \""+start+"\" }")
	f.observe(c)
	assert.False(t, c.Done(), "they stand there from the start")
}

func TestTimeReached(t *testing.T) {
	f, c := begun(t, "do = \"d\"\nuntil = { time = \"10m\" }\ngo_to = \"5m\"\nrun = \"10m\"\nrate = 60")
	assert.Equal(t, 60.0, f.rate)
	assert.Equal(t, Clock{Running: true, Until: sim.TicksOf(10 * time.Minute)}, c.Clock())
	f.run(c, 7*time.Minute+30*time.Second)
	assert.InDelta(t, 0.5, c.Live().Share, 0.01)
	assert.Equal(t, "0937Z", c.Live().Reading)
	f.engine.Advance(4 * 960) // past it, in one leap
	f.observe(c)
	assert.Equal(t, sim.TicksOf(10*time.Minute), f.engine.Tick(), "the clock comes back to where it was to stop")
	assert.False(t, f.playing)
	assert.True(t, c.Done())
	f.playing = true
	f.engine.Advance(960)
	_, has := c.Observe(f.moment())
	assert.False(t, has, "and once only")
}

// What is still to be seen of the step before is not judged.
func TestStaleMomentsAreNotJudged(t *testing.T) {
	p := stepsOf(t, step("go_to = \"20m\"\nstop = true")+step("do = \"d\"\ngo_to = \"5m\"\nstop = true\nuntil = { time = \"10m\" }"))
	f, c := fly(t, p), New(p.Lessons)
	f.begin(c, 0)
	old := f.moment()
	cue, ok := c.Next(old, f.now)
	require.True(t, ok)
	c.Observe(old)
	assert.False(t, c.Done(), "0950Z was the step before")
	f.carry(cue)
	f.observe(c)
	assert.False(t, c.Done())
	_, ok = c.Next(f.moment(), f.now)
	assert.False(t, ok, "there is no third step")
	cue, ok = c.Back(f.moment(), f.now)
	require.True(t, ok)
	f.carry(cue)
	assert.Equal(t, sim.TicksOf(20*time.Minute), f.engine.Tick())
	_, ok = c.Back(f.moment(), f.now)
	assert.False(t, ok)
}

// A step without a time of its own is repeated where it began.
func TestRepeatGoesWhereTheStepBegan(t *testing.T) {
	f, c := begun(t, "do = \"d\"\nuntil = { wind_from_deg_true = 90, wind_kt = 30 }")
	f.run(c, 3*time.Minute)
	f.do(wind(90, 30))
	f.observe(c)
	require.True(t, c.Done())
	f.carry(c.Repeat(f.moment(), f.now))
	f.observe(c)
	assert.Zero(t, f.engine.Tick())
	assert.False(t, c.Done())
	assert.Zero(t, f.moment().View.WindSet.Speed)
}

func TestAnswersAreJudged(t *testing.T) {
	q := "question = \"q\"\nanswers = [\"a\", \"b\", \"c\"]\nright = 2\nwhy = \"w\"\n"
	_, c := begun(t, q)
	assert.Equal(t, -1, c.Answered())
	assert.False(t, c.Done())
	c.Answer(3)
	c.Answer(-1)
	assert.False(t, c.Done(), "there are three")
	c.Answer(0)
	assert.False(t, c.Right())
	assert.True(t, c.Done(), "any will do")
	_, c = begun(t, q+"until = { answer = \"right\" }")
	c.Answer(2)
	assert.False(t, c.Done())
	c.Answer(1)
	assert.True(t, c.Done() && c.Right())
}

func TestFaultsAndLinksAreNamed(t *testing.T) {
	_, c := begun(t, "do = \"d\"\nuntil = { fault = \"drive-slip\", among = [\"drive-slip\", \"drive-broken\"] }")
	c.Name("drive-broken")
	assert.False(t, c.Done())
	assert.Equal(t, "drive-broken", c.Named())
	c.Name("drive-slip")
	assert.True(t, c.Done())
	_, c = begun(t, "do = \"d\"\nuntil = { link = \"drive\" }")
	c.Pick("air-log")
	assert.False(t, c.Done())
	c.Pick("drive")
	assert.True(t, c.Done())
}

// A planned fault that has been mended is seen as such once the truth is shown;
// one given in flight at once.
func TestMended(t *testing.T) {
	f, c := begun(t, "do = \"d\"\ngo_to = \"40m\"\nreveal = true\nuntil = { mended = \"drive-slip\" }")
	assert.False(t, c.Done())
	require.NoError(t, f.engine.MendAll("drive-slip"))
	f.observe(c)
	assert.True(t, c.Done())
	f, c = begun(t, "do = \"d\"\nuntil = { mended = \"drive-broken\" }")
	require.NoError(t, f.engine.Break(fault.Order{ID: "drive-broken"}))
	f.observe(c)
	assert.False(t, c.Done())
	require.NoError(t, f.engine.MendAll("drive-broken"))
	f.observe(c)
	assert.True(t, c.Done())
}

func TestReadingsStaticsAndReveals(t *testing.T) {
	f, c := begun(t, "do = \"d\"\nuntil = { reading = \"drift\" }")
	take := func(a aboard.Aim) {
		f.do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: a, ByCrew: true}})
		f.observe(c)
	}
	take(aboard.Aim{Aid: aboard.Loop, Source: "Cape Linnet"})
	assert.False(t, c.Done())
	take(aboard.Aim{Aid: aboard.DriftSight})
	assert.True(t, c.Done())
	f, c = begun(t, "do = \"d\"\nuntil = { reading = \"loop\" }")
	take(aboard.Aim{Aid: aboard.Loop, Source: "Nowhere"})
	assert.False(t, c.Done(), "it could not be taken")
	take(aboard.Aim{Aid: aboard.Loop, Source: "Cape Linnet"})
	assert.True(t, c.Done(), "of any beacon")
	f, c = begun(t, "do = \"d\"\nuntil = { alternate_static = true }")
	f.do(aboard.Action{Kind: aboard.AlternateStatic})
	f.observe(c)
	assert.False(t, c.Done())
	f.do(aboard.Action{Kind: aboard.AlternateStatic, On: true})
	f.observe(c)
	assert.True(t, c.Done())
	f, c = begun(t, "do = \"d\"\nuntil = { revealed = true }")
	f.observe(c)
	assert.False(t, c.Done())
	f.revealed = true
	f.observe(c)
	assert.True(t, c.Done())
}

// An input that happens to stand there is not held there.
func TestHands(t *testing.T) {
	f, c := begun(t, "do = \"d\"\nuntil = { hand_heading_deg_true = 90, within_deg = 2 }")
	assert.False(t, c.Done(), "the aircraft flies 090, nobody holds the crank")
	hold := func(h sim.Hand) {
		h.On = true
		require.NoError(t, f.engine.Hold(h))
		f.observe(c)
	}
	hold(sim.Hand{Input: sim.HandHeading, Heading: units.TrueHeading(93 * units.Degree)})
	assert.False(t, c.Done())
	assert.Equal(t, "093T", c.Live().Reading)
	hold(sim.Hand{Input: sim.HandHeading, Heading: units.TrueHeading(91 * units.Degree)})
	assert.True(t, c.Done())
	f, c = begun(t, "do = \"d\"\nuntil = { hand_latitude_deg = 60, within_deg = 1 }")
	hold(sim.Hand{Input: sim.HandLatitude, Latitude: 58 * units.Degree})
	assert.False(t, c.Done())
	hold(sim.Hand{Input: sim.HandLatitude, Latitude: 60 * units.Degree})
	assert.True(t, c.Done())
	f, c = begun(t, "do = \"d\"\nuntil = { hand_speed_kt = 240 }")
	hold(sim.Hand{Input: sim.HandSpeed, Speed: 246 * units.Knot})
	assert.False(t, c.Done())
	hold(sim.Hand{Input: sim.HandSpeed, Speed: 236 * units.Knot})
	assert.True(t, c.Done())
}

// Pins are measured against the truth at the time asked for, nearest first, and
// stay as they were put.
func TestPinsAreMeasured(t *testing.T) {
	text := strings.Replace(ground, "variation_deg = 10", "variation_deg = \"true-to-field\"", 1)
	p, _, err := scenarios.Load("pins", strings.NewReader(text+step("go_to = \"20m\"\npredict = { at = \"40m\" }")))
	require.NoError(t, err)
	f, c := fly(t, p), New(p.Lessons)
	f.revealed = true
	f.begin(c, 0)
	assert.False(t, f.revealed, "it would tell")
	assert.False(t, f.playing)
	assert.False(t, c.Done())
	// True: 40 min at 180 + 30 kt is 140 NM east along 47 10 S; WGS-84, one degree of
	// longitude there is 40.915 NM (N cos(lat) pi/180 with N = a/sqrt(1-e2 sin2 lat) = 6389641 m).
	east := 140.0 / 40.915
	at := func(nm float64) units.Position { return units.At(-47-10/60.0+nm/60, 178.5+east) }
	c.Pins([]Pin{{"A", "window side", at(12)}, {"B", "", at(-3)}})
	cue, ok := c.Reveal()
	require.True(t, ok)
	f.carry(cue)
	f.observe(c)
	assert.True(t, c.Done())
	require.Len(t, c.Answers(), 2)
	assert.Equal(t, "B", c.Answers()[0].Letter)
	assert.InDelta(t, 3, c.Answers()[0].Miles.NM(), 0.35)
	assert.InDelta(t, 12, c.Answers()[1].Miles.NM(), 0.35)
	assert.Equal(t, sim.TicksOf(40*time.Minute), c.Truth().Tick)
	assert.Greater(t, c.Truth().Ground.NM(), 19.0, "30 kt for 40 minutes, and the slip")
	c.Pins(nil)
	assert.Len(t, c.Answers(), 2)
	_, ok = New(stepsOf(t, step("")).Lessons).Reveal()
	assert.False(t, ok)
}

func TestHintComesInItsTime(t *testing.T) {
	f, c := begun(t, "hint = \"h\"\nhint_after = \"40s\"")
	assert.False(t, c.HintDue(f.now.Add(39*time.Second)))
	assert.True(t, c.HintDue(f.now.Add(40*time.Second)))
	c.Hint()
	assert.True(t, c.HintDue(f.now))
	_, c = begun(t, "")
	assert.False(t, c.HintDue(f.now.Add(time.Hour)), "there is none")
	assert.True(t, c.Done(), "nothing is asked")
}
