package drill

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/training/score"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/sealed"
)

// A scripted trainee flies the exercises. It is given the view of those aboard once a
// minute and nothing else, does the checks of the trade, keeps a plot by hand from the
// start and a line every five minutes, and reports what a check tells.
type trainee struct {
	book    score.Book
	before  []aboard.View
	named   map[string]bool
	plot    units.Position // by hand
	byHand  bool
	lastTAS units.Speed
}

// chart is the variation of the isogonals over the islands in 1957 and 58, within 2 degrees.
const chart = 24

func (p *trainee) minute(v *aboard.View) {
	if len(p.before) == 0 {
		p.plot, p.lastTAS, p.named = units.Position(v.Ground), v.TAS, map[string]bool{}
	} else {
		h := p.hand(&p.before[len(p.before)-1])
		p.plot = h.Position(v.Elapsed)
	}
	if len(p.before)%5 == 0 {
		p.book.Write(v, "")
	}
	if link, id := p.check(v); id != "" && !p.named[link] {
		p.named[link] = true
		p.book.Report(score.Report{At: v.Elapsed, Link: link, Fault: id, Sure: true})
		p.byHand = true
	}
	if p.byHand {
		p.book.Plot(p.hand(v))
	}
	p.before = append(p.before, *v)
}

// hand goes on from the plot by what is sound: the compass with the variation of the
// chart, the airspeed worked from three dials while the dial lives, the wind set.
func (p *trainee) hand(v *aboard.View) score.Hand {
	if tas := worked(v); tas > p.lastTAS/2 {
		p.lastTAS = tas
	}
	return score.Hand{At: v.Elapsed, From: p.plot, Heading: byCompass(v), TAS: p.lastTAS, Wind: v.WindSet}
}

func worked(v *aboard.View) units.Speed {
	return isa.TASFromCAS(v.IAS, v.PressureAltitude, v.AirTemperature)
}

func byCompass(v *aboard.View) units.TrueHeading {
	return units.TrueHeading(units.Wrap(units.Angle(v.Compass) + chart*units.Degree))
}

// check does the checks, the plainest first.
func (p *trainee) check(v *aboard.View) (link, id string) {
	n := len(p.before)
	if n < 5 {
		return "", ""
	}
	then := &p.before[n-5]
	apart := math.Abs(units.WrapHalf(units.Angle(v.Heading) - units.Angle(byCompass(v))).Degrees())
	turned := math.Abs(units.WrapHalf(units.Angle(v.Compass - then.Compass)).Degrees())
	stood := math.Abs(units.WrapHalf(units.Angle(v.Heading - then.Heading)).Degrees())
	_, run := geodesy.RhumbInverse(units.Position(then.Air), units.Position(v.Air))
	logged := v.AirLog - then.AirLog
	switch {
	case v.IAS < then.IAS/2:
		return "air data", "pitot-ram-blocked"
	case math.Abs(units.Angle(v.VariationSet).Degrees()-chart) > 4:
		return "heading", "variation-mis-set"
	case turned > 20 && stood < 1:
		return "heading", "repeater-stuck"
	case !p.named["heading"] && apart > 5 && turned < 10:
		return "heading", "gyro-drift-unslaved"
	case math.Abs(float64(v.TAS/worked(v))-1) > 0.04:
		return "air data", "temperature-mis-set"
	case turned < 10 && run < 0.9*logged:
		return "drive", "drive-slip"
	}
	return "", ""
}

// fly flies a shipped exercise with somebody in the trainee's seat.
func fly(t *testing.T, name string, minute func(v *aboard.View)) (x score.Exercise, f *score.Flown, level int) {
	t.Helper()
	p, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	for {
		v := e.View()
		minute(&v)
		if e.Over() {
			return ExerciseOf(p), FlownOf(&v, e.TrueTrack(), e.Faults(), true), p.Exercise.Level
		}
		e.Advance(60 * sim.TicksPerSecond)
	}
}

func exercises() (names []string) {
	for _, s := range scenarios.Shipped() {
		if s.Level > 0 {
			names = append(names, s.Name)
		}
	}
	return names
}

func TestTheRightDeedsScoreWell(t *testing.T) {
	names := exercises()
	require.Len(t, names, 6)
	for i, name := range names {
		var p trainee
		x, f, level := fly(t, name, p.minute)
		s := score.Work(x, &p.book, f)
		assert.Equal(t, i+1, level, name)
		assert.Greater(t, s.Total.Got, 85.0, "%s: %v %v", name, s.Marks, s.Tell(Chain()).Found)
		for k := range s.Found {
			assert.Equal(t, score.RightNamed, s.Found[k].Naming, "%s: %s", name, s.Found[k].Title)
		}
		assert.Zero(t, s.False, name)
	}
}

func TestNothingDoneScoresBadly(t *testing.T) {
	for _, name := range exercises() {
		x, f, _ := fly(t, name, func(*aboard.View) {})
		s := score.Work(x, &score.Book{}, f)
		assert.Less(t, s.Total.Got, 20.0, "%s: %v", name, s.Marks)
	}
}

// Reports by guess, one link after another, and no plot: the faults are hit by and by, and
// it does not pay.
func TestGuessingDoesNotPay(t *testing.T) {
	for _, name := range exercises() {
		var b score.Book
		x, f, _ := fly(t, name, func(v *aboard.View) {
			if n := int(v.Elapsed/time.Minute) - 5; n >= 0 && n%5 == 0 && n/5 < len(Chain()) {
				link := Chain()[n/5]
				b.Report(score.Report{At: v.Elapsed, Link: link.Name, Fault: link.Kinds[0].ID, Sure: true})
			}
		})
		assert.Less(t, score.Work(x, &b, f).Total.Got, 60.0, name)
	}
}

// Whatever an exercise breaks shows on a dial of the trainee before landing.
func TestEveryFaultShowsOnADial(t *testing.T) {
	for _, name := range exercises() {
		p, _, err := scenarios.Open(name)
		require.NoError(t, err)
		require.NotEmpty(t, p.Faults, name)
		for _, o := range p.Faults {
			dials, err := sealed.Seen(p, o)
			require.NoError(t, err)
			assert.NotEmpty(t, dials, "%s: %s", name, o.ID)
		}
	}
}

func TestChainIsTheCatalogue(t *testing.T) {
	kinds := 0
	for _, l := range Chain() {
		assert.NotEmpty(t, l.Kinds, l.Name)
		kinds += len(l.Kinds)
	}
	assert.Equal(t, 58, kinds, "65 of the catalogue, seven are explanations")
	link, id := Chain().Title("drive", "drive-slip")
	assert.Equal(t, "Drive", link)
	assert.Equal(t, "Flexible drive or clutch slips", id)
}
