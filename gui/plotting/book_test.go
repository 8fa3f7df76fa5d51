package plotting

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

const deg = units.Degree

// trip is a flight that is known in closed form: from 47 S 179 E the marker runs 090 at
// 180 kt; the air position runs 090 at 150 kt, so that the wind shown is 270/30; the
// aircraft runs as the marker does, from a place 6 NM south.
type trip struct {
	aboard.View
	deeds int
}

func begun() *trip {
	v := &trip{}
	v.Clock = time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	v.WindSet = units.Wind{From: 270 * deg, Speed: 30 * units.Knot}
	return v
}

func at(from units.Position, course, kt float64, after time.Duration) units.Position {
	p, err := geodesy.RhumbDirect(from, units.Angle(course)*deg, units.Length(kt*after.Hours())*units.NM)
	if err != nil {
		panic(err)
	}
	return p
}

var departure = units.At(-47, 179)

func groundAt(t time.Duration) units.Position { return at(departure, 90, 180, t) }
func airAt(t time.Duration) units.Position    { return at(departure, 90, 150, t) }
func truthAt(t time.Duration) units.Position  { return at(at(departure, 180, 6, time.Hour), 90, 180, t) }

// fly flies on to a time.
func (v *trip) fly(to time.Duration) {
	for ; v.Elapsed <= to; v.Elapsed += 10 * time.Second {
		if n := len(v.Marks); n > 0 && v.Marks[n-1].Elapsed >= v.Elapsed {
			continue
		}
		v.Marks = append(v.Marks, aboard.Mark{
			Elapsed: v.Elapsed, Air: units.AirPosition(airAt(v.Elapsed)), Ground: units.GroundPosition(groundAt(v.Elapsed)),
		})
	}
	v.Elapsed = to
	v.Clock = time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC).Add(to)
	v.Air, v.Ground, v.Marker = units.AirPosition(airAt(to)), units.GroundPosition(groundAt(to)), units.GroundPosition(groundAt(to))
}

// enter writes a reading in the log.
func (v *trip) enter(r aboard.Reading) {
	v.Log = append(v.Log, aboard.Entry{
		Elapsed: v.Elapsed, Event: aboard.Observed, Heading: units.TrueHeading(90 * deg), TAS: 150 * units.Knot,
		Action: aboard.Action{Kind: aboard.TakeAid, Reading: r},
	})
	v.deeds++
}

// hears enters a bearing of a beacon that lies in a direction from the aircraft, 60 NM off.
func (v *trip) hears(name string, azimuth float64) {
	from := truthAt(v.Elapsed)
	beacon := at(from, azimuth, 60, time.Hour)
	bearing, _, _ := geodesy.GeodesicInverse(from, beacon)
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.Loop, Source: name}, Angle: units.Wrap(bearing - 90*deg), At: beacon})
}

// drifts enters a drift on a heading.
func (v *trip) drifts(heading, drift float64) {
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: units.Angle(drift) * deg})
	v.Log[len(v.Log)-1].Heading = units.TrueHeading(units.Angle(heading) * deg)
}

func (v *trip) take(b *Book, truth Truth) bool { return b.Take(&v.View, v.deeds, truth) }

func miles(p, q units.Position) float64 { return geodesy.Distance(p, q).NM() }

// TestALineIsMovedWithTheRun: a bearing heard at half an hour is moved by what the marker
// ran until the next one, 12 minutes at 180 kt on 090: 36 NM; with the next one it makes a
// fix where the aircraft was, and both its lines are drawn.
func TestALineIsMovedWithTheRun(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.hears("Gannet Rock", 20)
	require.True(t, v.take(&b, nil))
	require.False(t, v.take(&b, nil), "nothing new")
	rows := b.Rows(&v.View)
	require.Len(t, rows, 1)
	assert.Equal(t, "1000Z", rows[0].Time)
	assert.Equal(t, "Loop, Gannet Rock", rows[0].Source)
	assert.Equal(t, "as taken", rows[0].Moved)
	assert.True(t, rows[0].Box && rows[0].Used)
	assert.Empty(t, rows[0].Miss)
	assert.Equal(t, "One more line makes a fix.", b.Card(&v.View).Told)
	on := b.Chart(&v.View)
	require.Len(t, on.Lines, 1)
	assert.Equal(t, "1000Z Gannet Rock", on.Lines[0].Label)
	assert.True(t, on.Lines[0].Fresh && !on.Lines[0].Transferred)
	assert.Empty(t, on.Fixes)

	v.fly(42 * time.Minute)
	v.hears("Sheathbill", 110)
	require.True(t, v.take(&b, nil))
	rows = b.Rows(&v.View)
	assert.Equal(t, "moved 36.0 NM 090T", rows[0].Moved)
	assert.Equal(t, "as taken", rows[1].Moved)
	on = b.Chart(&v.View)
	require.Len(t, on.Fixes, 1)
	assert.Less(t, miles(on.Fixes[0].At, truthAt(42*time.Minute)), 0.05)
	require.Len(t, on.Lines, 3, "one as taken, that moved, and the new one")
	assert.True(t, on.Lines[0].Idle && on.Lines[1].Transferred && !on.Lines[2].Transferred)
	assert.Equal(t, "moved to 1012Z", on.Lines[1].Under)
	require.NotNil(t, on.Lines[1].Moved)
	assert.InDelta(t, 36, miles(on.Lines[1].Moved.From, on.Lines[1].Moved.To), 0.01)
	require.NotNil(t, on.Ellipse)
	assert.Nil(t, on.Hat)

	c := b.Card(&v.View)
	assert.Equal(t, "at 1012Z, two lines", c.When)
	// 126 NM along a parallel 6 NM nearer to the pole are 126 tan 47 x 6/3438 = 0.24 NM more
	// of longitude: 180 - atan(0.24/6) = 177.7
	assert.Equal(t, [2]string{"from the ground position", "6.0 NM 178T"}, c.Rows[0])
	assert.Empty(t, c.Told+c.Truth)
}

// TestThreeLines: a third line makes a cocked hat; one a mile out of place is told by how
// far the fix moves without it, and not used it leaves two.
func TestThreeLines(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.hears("One", 0)
	v.hears("Two", 60)
	v.hears("Three", 120)
	v.Log[2].Action.Reading.Angle += 2 * deg // 2.1 NM at 60 NM
	v.take(&b, nil)
	on, c := b.Chart(&v.View), b.Card(&v.View)
	require.Len(t, on.Fixes, 1)
	assert.Len(t, on.Hat, 3)
	assert.Equal(t, "at 1000Z, 3 lines", c.When)
	require.Len(t, c.Rows, 3)
	assert.Equal(t, "one line left out moves it by", c.Rows[2][0])
	// with normals 60 degrees apart the sum of n n' is 1.5: the fix goes two thirds of 2.09 NM
	assert.InDelta(t, 1.40, miles(on.Fixes[0].At, truthAt(v.Elapsed)), 0.05)
	b.Touch(&v.View, 2)
	on = b.Chart(&v.View)
	require.Len(t, on.Fixes, 1)
	assert.Less(t, miles(on.Fixes[0].At, truthAt(v.Elapsed)), 0.01)
	assert.False(t, b.Rows(&v.View)[2].Used)
	b.Touch(&v.View, 2)
	assert.Len(t, b.Chart(&v.View).Hat, 3)
	made := b.Made
	b.Touch(&v.View, 3)
	b.Touch(&v.View, -1)
	assert.Equal(t, made, b.Made, "there is no such row")
}

// altitude enters a sight of a body that stands so far off in a direction.
func (v *trip) altitude(name string, azimuth, zenith float64) {
	below := geodesy.GreatCirclePoint(truthAt(v.Elapsed), units.Angle(azimuth)*deg, units.Angle(zenith)*deg)
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.Sextant, Source: name}, Observed: (90 - units.Angle(zenith)) * deg, At: below})
}

// TestTwoCrossingsAreShownAsTwo: two bodies near the zenith have small circles of altitude,
// which cross twice: 1.5 degrees off in 060 and in 120, the circles cross at the aircraft
// and as far again east of the line between the bodies: 3 x cos 30 = 2.6 degrees, 156 NM.
func TestTwoCrossingsAreShownAsTwo(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.altitude("Altair", 60, 1.5)
	v.altitude("Vega", 120, 1.5)
	v.take(&b, nil)
	on, c := b.Chart(&v.View), b.Card(&v.View)
	require.Len(t, on.Fixes, 2)
	assert.True(t, on.Fixes[0].Which && on.Fixes[1].Which)
	assert.Nil(t, on.Ellipse)
	assert.Less(t, miles(on.Fixes[0].At, truthAt(v.Elapsed)), 0.5, "the nearer one first")
	assert.InDelta(t, 155.9, miles(on.Fixes[0].At, on.Fixes[1].At), 1)
	assert.Empty(t, c.Fix)
	assert.Contains(t, c.Told, "cross twice")
	assert.Contains(t, c.Told, on.Fixes[0].At.String())
	assert.Contains(t, c.Told, on.Fixes[1].At.String())
	_, ok := b.Reset(&v.View)
	assert.False(t, ok, "neither of two")

	// the navigator takes the nearer one; a third line is worked with the others
	at, two := b.Two()
	require.True(t, two)
	assert.Equal(t, on.Fixes[0].At, at)
	b.TakeNearer(&v.View)
	c = b.Card(&v.View)
	assert.Equal(t, at.String(), c.Fix)
	assert.Equal(t, "0930Z to 1000Z", c.Since)
	require.Len(t, b.Chart(&v.View).Fixes, 1)
	a, ok := b.Reset(&v.View)
	require.True(t, ok)
	assert.Equal(t, at, a.Position)
	_, two = b.Two()
	assert.False(t, two)
	b.Touch(&v.View, 1)
	b.Touch(&v.View, 1)
	assert.NotEmpty(t, b.Card(&v.View).Fix, "the same lines again")
	v.altitude("Deneb", 90, 2)
	v.take(&b, nil)
	require.Len(t, b.Chart(&v.View).Fixes, 1)
	b.Touch(&v.View, 0)
	_, two = b.Two()
	assert.True(t, two, "another two lines are another question")
}

// TestTheWindFound: the aircraft is 6 NM south of the marker and, of its parallel, 90 tan 47 x
// 6/3438 = 0.17 NM east; the marker is 15 NM east of the air position after half an hour. The
// wind has carried it 16.3 NM to 111.6: from 291.6, 32.6 kt. It is set as it is printed.
func TestTheWindFound(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.take(&b, nil)
	_, ok := b.Wind()
	assert.False(t, ok)
	v.hears("One", 10)
	v.hears("Two", 100)
	v.take(&b, nil)
	w, ok := b.Wind()
	require.True(t, ok)
	assert.Equal(t, "292/33", w.String())
	c := b.Card(&v.View)
	assert.Equal(t, "292/33", c.Wind)
	assert.Equal(t, "0930Z to 1000Z", c.Since)
	assert.Equal(t, "wind set now 270/30", c.WindNow)
	require.NotNil(t, b.Chart(&v.View).Fixes[0].Found)
	a, ok := b.SetWind(&v.View)
	require.True(t, ok)
	assert.Equal(t, aboard.SetWind, a.Kind)
	v.WindSet = a.Wind
	_, ok = b.SetWind(&v.View)
	assert.False(t, ok, "it is set")

	// Two minutes on, the fix is run on by the air run of 5 NM and by the wind of 1.08 NM.
	v.fly(32 * time.Minute)
	v.take(&b, nil)
	a, ok = b.Reset(&v.View)
	require.True(t, ok)
	assert.Equal(t, aboard.SetCounters, a.Kind)
	want := at(at(truthAt(30*time.Minute), 90, 5, time.Hour), 112, 33.0/30, time.Hour)
	assert.Less(t, miles(want, a.Position), 0.05)
	v.Marks = append(v.Marks, aboard.Mark{Elapsed: v.Elapsed, Event: aboard.CountersSet, Air: units.AirPosition(a.Position), Ground: units.GroundPosition(a.Position)})
	v.deeds++
	v.take(&b, nil)
	_, ok = b.Reset(&v.View)
	assert.False(t, ok, "once is enough")
}

// TestTheWindByDrift: with a wind of 30 kt from 270 and 150 kt the drift is
// atan(30/150) = 11.31 to the right on 180 and to the left on 360.
func TestTheWindByDrift(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(10 * time.Minute)
	v.drifts(180, -11.31)
	v.take(&b, nil)
	_, ok := b.Wind()
	assert.False(t, ok, "one heading")
	assert.Empty(t, b.Card(&v.View).Wind)
	// on 225: 106.07 S, 106.07 - 30 = 76.07 W, atan(76.07/106.07) = 35.65: a track of 215.65
	v.drifts(225, -9.35)
	v.take(&b, nil)
	w, ok := b.Wind()
	require.True(t, ok)
	assert.Equal(t, "270/30", w.String())
	rows := b.Rows(&v.View)
	assert.Equal(t, "no line", rows[0].Moved)
	assert.Equal(t, "11.3 L", rows[0].Value)
	assert.Contains(t, b.Card(&v.View).Since, "by drift on 2 headings: ")
	b.Touch(&v.View, 1)
	_, ok = b.Wind()
	assert.False(t, ok)
}

// TestWhyThereIsNoFix: what is said when there is none.
func TestWhyThereIsNoFix(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.take(&b, nil)
	assert.Equal(t, "Two lines make a fix.", b.Card(&v.View).Told)
	v.hears("One", 20)
	v.hears("Two", 21)
	v.take(&b, nil)
	assert.Equal(t, "The lines cut at 1° only: no fix.", b.Card(&v.View).Told)
	assert.Empty(t, b.Chart(&v.View).Fixes)
	assert.Len(t, b.Chart(&v.View).Lines, 2, "the lines stay")
	_, ok := b.Reset(&v.View)
	assert.False(t, ok)

	// two circles of altitude side by side: one minute of zenith distance about bodies
	// four degrees apart
	v, b = begun(), Book{}
	v.fly(30 * time.Minute)
	v.altitude("Altair", 90, 1)
	v.altitude("Vega", 270, 3)
	v.Log[0].Action.Reading.Observed += 0.5 * deg
	v.take(&b, nil)
	assert.Equal(t, "These lines do not meet: no fix.", b.Card(&v.View).Told)

	// a reading that failed has no line and no box
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.Loop, Source: "Far"}, Missing: aboard.TooFar})
	v.take(&b, nil)
	row := b.Rows(&v.View)[2]
	assert.True(t, row.Idle && !row.Box && !row.Used)
	assert.Equal(t, "failed: "+look.Text(look.MissingTooFar), row.Moved)
	b.Touch(&v.View, 2)
	assert.False(t, b.Rows(&v.View)[2].Used)
}

// TestAReadingTakenBack: without it the plot is as before; one taken after the counters
// were set puts those from before out of use.
func TestAReadingTakenBack(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.hears("One", 10)
	v.take(&b, nil)
	before, rows := b.Card(&v.View), b.Rows(&v.View)
	v.hears("Two", 100)
	v.take(&b, nil)
	require.NotEmpty(t, b.Card(&v.View).Fix)
	v.Log = v.Log[:1]
	v.deeds++
	require.True(t, v.take(&b, nil))
	assert.Equal(t, before, b.Card(&v.View))
	assert.Equal(t, rows, b.Rows(&v.View))

	// set at the same moment, while the clock stands
	v.Marks = append(v.Marks, aboard.Mark{Elapsed: v.Elapsed, Event: aboard.CountersSet, Air: v.Air, Ground: v.Ground})
	v.Log = append(v.Log, aboard.Entry{Elapsed: v.Elapsed, Event: aboard.CountersSet, Action: aboard.Action{Kind: aboard.SetCounters}})
	v.fly(40 * time.Minute)
	v.hears("Three", 120)
	v.take(&b, nil)
	rows = b.Rows(&v.View)
	assert.False(t, rows[0].Used)
	assert.True(t, rows[1].Used)
	b.Touch(&v.View, 0)
	assert.NotEmpty(t, b.Card(&v.View).Fix, "it can be used again")
	assert.Equal(t, "0930Z", units.TimeText(v.Clock.Add(-v.Elapsed)))
}

// TestTheTruthBesideEveryLine: a line that the truth lies on is nowhere off; one with its
// bearing 2 degrees wrong at 60 NM is 60 sin 2 = 2.1 NM off; the fix tells how far it is.
func TestTheTruthBesideEveryLine(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.hears("One", 10)
	v.hears("Two", 100)
	v.Log[1].Action.Reading.Angle += 2 * deg
	v.drifts(90, 2)
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.Pinpoint, Source: "Skerrow"}, At: at(truthAt(v.Elapsed), 45, 2.5, time.Hour)})
	v.take(&b, nil)
	for _, r := range b.Rows(&v.View) {
		assert.Empty(t, r.Miss)
	}
	assert.Empty(t, b.Card(&v.View).Truth)
	b.Touch(&v.View, 3)
	require.True(t, v.take(&b, truthAt), "what is revealed is news")
	rows := b.Rows(&v.View)
	assert.Equal(t, "0.0 NM off", rows[0].Miss)
	assert.Equal(t, "2.1 NM off", rows[1].Miss)
	assert.Empty(t, rows[2].Miss, "a drift has no line")
	assert.Equal(t, "2.5 NM off", rows[3].Miss)
	// a larger bearing puts the aircraft to the left of the beacon's, north
	assert.Contains(t, b.Card(&v.View).Truth, "2.1 NM 010T")
	require.True(t, v.take(&b, nil))
	assert.Empty(t, b.Rows(&v.View)[1].Miss, "and hidden again")
}

// The page has list, fix and caution, in each kind of file.
func TestThePage(t *testing.T) {
	v, b := begun(), Book{}
	v.fly(30 * time.Minute)
	v.hears("One", 10)
	v.hears("Two", 100)
	v.take(&b, nil)
	for _, name := range []string{"a.pdf", "a.svg", "a.png"} {
		f, err := paint.FormatOf(name)
		require.NoError(t, err)
		var out bytes.Buffer
		require.NoError(t, WritePage(&out, f, "A flight", "1000Z", b.Rows(&v.View), b.Card(&v.View)))
		assert.Greater(t, out.Len(), 4000)
	}
	for _, aid := range []aboard.Aid{aboard.DriftSight, aboard.Sextant, aboard.Loop, aboard.PulseReceiver, aboard.HeadingCheck, aboard.Pinpoint} {
		assert.NotEmpty(t, AidName(aid))
		assert.NotEmpty(t, ShortName(aid))
	}
}
