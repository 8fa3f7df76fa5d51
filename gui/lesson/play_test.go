package lesson

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/sighting"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// lessons are the shipped ones, in order.
func lessons(t *testing.T) (names []string, plans map[string]*sim.Plan) {
	t.Helper()
	plans = map[string]*sim.Plan{}
	for _, s := range scenarios.Shipped() {
		if s.Steps == 0 {
			continue
		}
		p, _, err := scenarios.Open(s.Name)
		require.NoError(t, err)
		assert.Equal(t, s.Steps, len(p.Lessons))
		names, plans[s.Name] = append(names, s.Name), p
	}
	return names, plans
}

// Every lesson is played to its end: each step is not done as it begins, is done
// when what it asks has been done through the engine, and not before.
func TestEveryLessonIsPlayedToItsEnd(t *testing.T) {
	names, plans := lessons(t)
	require.GreaterOrEqual(t, len(names), 8)
	kinds := map[sim.GoalKind]int{}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			p := plans[name]
			assert.GreaterOrEqual(t, len(p.Lessons), 6)
			f, c := fly(t, p), New(p.Lessons)
			for i := range p.Lessons {
				if i > 0 {
					cue, ok := c.Next(f.moment(), f.now)
					require.True(t, ok)
					f.carry(cue)
					f.observe(c)
				} else {
					f.begin(c, 0)
				}
				kinds[c.Step().Until.Kind]++
				f.play(c)
				f.replay(c)
			}
			assert.True(t, c.Last())
		})
	}
	for k := sim.VariationGoal; k <= sim.HandSpeedGoal; k++ {
		if k != sim.StaticGoal { // told by no lesson yet
			assert.Positive(t, kinds[k], "no lesson asks for goal %d", k)
		}
	}
	assert.GreaterOrEqual(t, kinds[sim.ReadingGoal], 2, "readings that the learner takes")
}

// play does what the step in hand asks, and what looks like it first.
func (f *flown) play(c *Course) {
	s, at := c.Step(), c.Step().Title
	asks := s.Until.Kind != sim.NoGoal || s.Predict != nil
	require.Equal(f, !asks, c.Done(), "%s: as it begins", at)
	assert.Equal(f, s.Until.Kind != sim.NoGoal && s.Until.Kind != sim.AnswerGoal, s.Do != "", "%s: says what to do", at)
	if s.Start.RunTo >= 0 && s.Until.Kind != sim.TimeGoal {
		f.run(c, 3*time.Hour)
		require.False(f, f.playing, at)
		require.Equal(f, s.Start.RunTo, f.engine.Tick())
	}
	f.almost(c)
	require.Equal(f, !asks, c.Done(), "%s: what comes near is not it", at)
	f.meet(c)
	require.True(f, c.Done(), "%s: done", at)
	if q := s.Question; q != nil {
		for i := range q.Answers {
			c.Answer(i)
			assert.Equal(f, i == q.Right, c.Right())
		}
	}
}

// replay begins the step anew, which takes back what was done, and does it again.
func (f *flown) replay(c *Course) {
	f.carry(c.Repeat(f.moment(), f.now))
	f.observe(c)
	f.play(c)
}

// almost does what comes near to the goal.
func (f *flown) almost(c *Course) {
	switch g := &c.Step().Until; g.Kind {
	case sim.VariationGoal:
		f.do(variation(float64(g.Variation.Degrees()) + g.WithinDegrees + 0.1))
	case sim.WindGoal:
		f.do(wind(g.Wind.From.Degrees(), g.Wind.Speed.Knots()+g.WithinKnots+0.1))
		f.observe(c)
		f.do(wind(g.Wind.From.Degrees()+g.WithinDegrees+0.1, g.Wind.Speed.Knots()))
	case sim.CountersGoal:
		away := g.Position
		away.Lat += 2 * f.minutes(g.WithinNM)
		f.do(aboard.Action{Kind: aboard.SetCounters, Position: away})
	case sim.FaultGoal:
		for _, id := range g.Among {
			if id != g.Word {
				c.Name(id)
			}
		}
	case sim.LinkGoal:
		for _, l := range sim.LinkNames() {
			if l != g.Word {
				c.Pick(l)
			}
		}
	case sim.ReadingGoal:
		for _, o := range f.engine.Offers() { // another aid, and the same one pointed elsewhere
			if o.Aim.Aid == aboard.DriftSight || o.Aim.Aid == g.Aim.Aid && o.Aim != g.Aim {
				f.do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: o.Aim, ByCrew: true}})
				f.observe(c)
			}
		}
	case sim.TimeGoal:
		f.run(c, sim.TimeOf(g.Tick)-time.Second)
	case sim.HandHeadingGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandHeading, Heading: trueHeading(g.Angle.Degrees() + g.WithinDegrees + 0.1)}))
	case sim.HandLatitudeGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandLatitude, Latitude: -g.Angle + 2*f.minutes(60*g.WithinDegrees)}))
	case sim.HandSpeedGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandSpeed, Speed: g.Speed * 2}))
	}
	f.observe(c)
}

// meet does what the step asks.
func (f *flown) meet(c *Course) {
	s := c.Step()
	switch g := &s.Until; g.Kind {
	case sim.VariationGoal:
		f.do(aboard.Action{Kind: aboard.SetVariation, Variation: g.Variation})
	case sim.WindGoal:
		f.do(aboard.Action{Kind: aboard.SetWind, Wind: g.Wind})
	case sim.CountersGoal:
		f.do(aboard.Action{Kind: aboard.SetCounters, Position: g.Position})
	case sim.FaultGoal:
		c.Name(g.Word)
	case sim.LinkGoal:
		c.Pick(g.Word)
	case sim.TimeGoal:
		f.run(c, sim.TimeOf(g.Tick)+time.Minute)
		require.False(f, f.playing, "%s: the clock stops there", s.Title)
		require.Equal(f, g.Tick, f.engine.Tick())
	case sim.ReadingGoal:
		f.do(aboard.Action{Kind: aboard.TakeAid, Reading: f.byHand(g.Aim)})
	case sim.AnswerGoal:
		c.Answer(s.Question.Right)
	case sim.RevealGoal:
		f.revealed = true
	case sim.MendGoal:
		require.True(f, f.revealed, "else nobody sees it on the card")
		require.NoError(f, f.engine.MendAll(g.Word))
	case sim.HandHeadingGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandHeading, Heading: trueHeading(g.Angle.Degrees())}))
	case sim.HandLatitudeGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandLatitude, Latitude: -g.Angle}), "south is as good as north: a cosine has no sign")
	case sim.HandSpeedGoal:
		require.NoError(f, f.engine.Hold(sim.Hand{On: true, Input: sim.HandSpeed, Speed: g.Speed}))
	}
	if s.Predict != nil {
		c.Pins([]Pin{{Letter: "A", At: f.engine.Snapshot().Truth.Position}})
		cue, ok := c.Reveal()
		require.True(f, ok)
		f.carry(cue)
	}
	f.observe(c)
}

// byHand is what a learner's hand reads: the ring turned until the loop hears least.
func (f *flown) byHand(aim aboard.Aim) aboard.Reading {
	require.Equal(f, aboard.Loop, aim.Aid, "the hand of this test knows the loop")
	s := f.engine.Scene(aim)
	require.Equal(f, aboard.Had, s.Missing, "%s is heard", aim)
	v, hand := f.engine.View(), sighting.New(aim)
	best, at := math.Inf(1), aboard.Reading{}
	for range 3600 {
		hand.See(&s, &v)
		r := hand.Reading()
		if heard := s.Signal(r.Angle); heard < best {
			best, at = heard, r
		}
		hand.Turn(0.2)
	}
	return at
}

// What the readings of the lessons are to be recognised as is so: the null of Gannet Rock
// lies near 056R and makes 116T; the line of Cape Linnet passes the marker to the east. A
// degree either way, as a hand reads, changes neither.
func TestTheReadingsOfTheLessonsAreRecognised(t *testing.T) {
	_, plans := lessons(t)
	f := fly(t, plans["lesson-fix-and-reset"])
	f.engine.GoTo(sim.TicksOf(40 * time.Minute))
	r := f.byHand(aboard.Aim{Aid: aboard.Loop, Source: "Gannet Rock"})
	null := math.Mod(r.Angle.Degrees(), 180) // of two; Sense tells which
	assert.InDelta(t, 56, null, 1)
	at := f.engine.Snapshot().Truth.Position
	assert.InDelta(t, 116, greatCircle(at, gannetRock), 0.5)
	assert.InDelta(t, greatCircle(at, gannetRock), 60+null, 1)

	f = fly(t, plans["lesson-broken-link"])
	f.engine.GoTo(sim.TicksOf(40 * time.Minute))
	r = f.byHand(aboard.Aim{Aid: aboard.Loop, Source: "Cape Linnet"})
	marker := units.Position(f.engine.View().Marker)
	for _, hand := range []float64{-1, 0, 1} {
		read := math.Mod(90+r.Angle.Degrees()+hand, 180)
		// From the marker the beacon bears more to the east than was read: it must go on east
		// until it does not.
		assert.Greater(t, greatCircle(marker, capeLinnet), read)
	}
}

// A lecturer may skip every step, and the way back leads through all of them.
func TestNextIsAlwaysOpen(t *testing.T) {
	names, plans := lessons(t)
	for _, name := range names {
		p := plans[name]
		f, c := fly(t, p), New(p.Lessons)
		f.begin(c, 0)
		n := 1
		for ; ; n++ {
			cue, ok := c.Next(f.moment(), f.now)
			if !ok {
				break
			}
			f.carry(cue)
			f.observe(c)
		}
		assert.Equal(t, len(p.Lessons), n)
		for ; ; n-- {
			cue, ok := c.Back(f.moment(), f.now)
			if !ok {
				break
			}
			f.carry(cue)
			f.observe(c)
		}
		assert.Equal(t, 1, n)
		assert.Zero(t, c.At())
		assert.Equal(t, p.Lessons[0].Start.GoTo, f.engine.Tick(), name)
	}
}

// The words of a lesson are those of the interface: one word for one thing.
func TestLessonsSpeakTheHouseWords(t *testing.T) {
	names, plans := lessons(t)
	for _, name := range names {
		for _, s := range plans[name].Lessons {
			all := strings.ToLower(strings.Join(append(wordsOf(&s), s.Title), " "))
			for _, bad := range []string{"actual position", "real position", "estimated position", "current position", "dead reckoning", "dead-reckoning",
				"actual track", "flown track", "planned track", "course", "air mileage", "distance counter", "odometer", "line of position",
				"bearing line", "ground speed", "air speed", "waypoint", "malfunction", "failure"} {
				assert.NotContains(t, all, bad, "%s: %s", name, s.Title)
			}
		}
	}
}

// wordsOf are all texts of a step but its title.
func wordsOf(s *sim.Lesson) []string {
	all := []string{s.Text, s.Do, s.Hint}
	if q := s.Question; q != nil {
		all = append(append(all, q.Text, q.Why), q.Answers...)
	}
	return all
}
