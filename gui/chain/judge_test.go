package chain

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// plain is a straight flight on 048 at 178 kt in a uniform field of 24 E and a
// wind that is set right.
const plain = `
schema = 1
title = "Plain"
start = 1957-08-14T09:30:00Z
seed = 7
pilot = "as-planned"
[aircraft]
position = "47 10.0 S 177 30.0 E"
heading_true_deg = 48
pressure_altitude_ft = 8000
tas_kt = 178
[field]
variation_deg = 24
[air]
isa_deviation_c = 10
[[air.wind]]
from_deg_true = 308
speed_kt = 33
[setting]
variation_deg = 24
wind_from_deg_true = 308
wind_kt = 33
[[leg]]
heading_true_deg = 48
duration = "2h"
`

// Every fault that can be given, with its usual parameters, is broken at its
// link while in force, and its flag says so in the room it has.
func TestEveryFaultIsSeenAtItsLink(t *testing.T) {
	given := 0
	for _, e := range fault.Catalogue() {
		f := fly(t, plain)
		f.fly(10 * time.Minute)
		if e.Kind == fault.Explanation || f.Break(fault.Order{ID: e.ID, Params: e.Defaults()}) != nil {
			continue
		}
		given++
		f.fly(6 * time.Minute)
		s := f.story()
		verdicts := s.Judge()
		for _, of := range linksOf(&s.Faults[0].Order) {
			v := verdicts[of]
			if e.ID == "carry-failure" && v.Stands != picture.Broken { // no carry was due yet
				assert.Less(t, s.sum(of).share(), stillOff)
				continue
			}
			assert.Equal(t, picture.Broken, v.Stands, "%s at %d", e.ID, of)
			assert.NotEmpty(t, v.Flag, e.ID)
			assert.LessOrEqual(t, len([]rune(v.Flag)), longestFlag, "%s: %s", e.ID, v.Flag)
			assert.NotContains(t, v.Flag, "%", e.ID)
			assert.NotEmpty(t, s.Follow(), e.ID)
		}
		require.NoError(t, f.Mend(0))
		assert.Empty(t, broken(f.story()), "%s is mended while the clock stands", e.ID)
		f.fly(2 * time.Second)
		for i, v := range f.story().Judge() {
			// A gyro is brought back by its slaving only, a repeater that lost steps by hand.
			later := e.ID == "gyro-drift-unslaved" || e.ID == "turning-error" || e.ID == "slaving-hang-off" || e.ID == "repeater-lost-steps"
			if v.Stands == picture.Broken && !later {
				t.Errorf("%s is mended, but link %d: %s", e.ID, i, v.Flag)
			}
		}
	}
	assert.GreaterOrEqual(t, given, 45)
}

// What is wrong is told in numbers, by hand: 24 - 22, 178 kt less 6 in 100.
func TestFlagsTellNumbers(t *testing.T) {
	f := fly(t, plain)
	require.NoError(t, f.Do(aboard.Action{Kind: aboard.SetVariation, Variation: 22 * units.Variation(units.Degree)}))
	require.NoError(t, f.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 295 * units.Degree, Speed: 27 * units.Knot}}))
	require.NoError(t, f.Break(fault.Order{ID: "drive-slip", Params: []float64{0.06}}))
	f.fly(30 * time.Minute)
	s := f.story()
	v := s.Judge()
	assert.Equal(t, "Variation set 22 E, it is 24 E", v[picture.LinkVariation].Flag)
	assert.Equal(t, "Wind set 295/27, it blows 308/33", v[picture.LinkWind].Flag)
	assert.Equal(t, "Drive slips 6 in 100", v[picture.LinkDrive].Flag)
	// 178 kt for 30 min is 89.0 NM, less 6 in 100 of it, 5.3: on the drive 83.7.
	assert.Equal(t, [2]string{"short 5.3 NM", "air log 89.0"}, v[picture.LinkDrive].Wrong)
	value, unit := s.plate(picture.LinkDrive)
	assert.Equal(t, "83.7 NM", value+" "+unit)
	assert.Equal(t, [2]string{"right: 24 E"}, v[picture.LinkVariation].Wrong)
	assert.Equal(t, [2]string{"2 less than 048T"}, v[picture.LinkRepeater].Wrong)
	for _, of := range []picture.Link{picture.LinkPitot, picture.LinkStatic, picture.LinkCapsules, picture.LinkAirLog, picture.LinkCounter, picture.LinkCompass, picture.LinkDeviation, picture.LinkClock} {
		assert.Equal(t, picture.Agrees, v[of].Stands, of)
	}
	for _, of := range []picture.Link{picture.LinkRepeater, picture.LinkResolver, picture.LinkNorthDisc, picture.LinkEastDisc, picture.LinkLatitude, picture.LinkLongitude, picture.LinkAdders, picture.LinkGround, picture.LinkMarker} {
		assert.Equal(t, picture.Carries, v[of].Stands, of)
	}
	assert.Equal(t, "Air log, 178.0 knots, agrees", s.Spoken(picture.LinkAirLog))
	assert.Equal(t, "Drive, 83.7 nautical miles, broken. Drive slips 6 in 100", s.Spoken(picture.LinkDrive))
}

// Flags read well at both ends of what may be ordered, and no other link is said
// to be broken: no sign without a word for it, no value that differs from itself.
func TestFlagsAtTheEndsOfTheirRanges(t *testing.T) {
	flags := 0
	for _, e := range fault.Catalogue() {
		for _, end := range []func(p *fault.Param) float64{
			func(p *fault.Param) float64 { return p.Min }, func(p *fault.Param) float64 { return p.Max },
		} {
			o := fault.Order{ID: e.ID, Params: e.Defaults()}
			for i := range e.Params {
				if e.Params[i].Type == fault.Number {
					o.Params[i] = end(&e.Params[i])
				}
			}
			f := fly(t, plain)
			f.fly(10 * time.Minute)
			if e.Kind == fault.Explanation || f.Break(o) != nil {
				continue
			}
			f.fly(time.Minute)
			s := f.story()
			for i, v := range s.Judge() {
				if v.Stands != picture.Broken {
					continue
				}
				flags++
				assert.Contains(t, linksOf(&o), picture.Link(i), "%s: %s", e.ID, v.Flag)
				assert.LessOrEqual(t, len([]rune(v.Flag)), longestFlag, v.Flag)
				assert.NotContains(t, v.Flag, "-", e.ID)
				assert.NotContains(t, v.Flag, "set 24 E, it is 24 E")
			}
		}
	}
	assert.Greater(t, flags, 90)
}

// A fault is told at once when it is given while the clock stands, and told no
// more at the tick at which it ends.
func TestFaultsBeginAndEndWithTheirTicks(t *testing.T) {
	f := fly(t, plain)
	f.fly(10 * time.Minute)
	require.NoError(t, f.Break(fault.Order{ID: "drive-slip", Params: []float64{0.06}, For: 160}))
	for range 160 {
		require.Equal(t, []string{"5 Drive slips 6 in 100"}, broken(f.story()), f.Tick())
		f.Advance(1)
	}
	for range 160 {
		require.Empty(t, broken(f.story()), f.Tick())
		f.Advance(1)
	}
}

// Mended, what moves agrees again; the counters keep what they lost and say so,
// until they are set.
func TestMendedCountersKeepTheirError(t *testing.T) {
	f := fly(t, plain)
	require.NoError(t, f.Break(fault.Order{ID: "drive-slip", Params: []float64{0.1}}))
	f.fly(time.Hour)
	require.NoError(t, f.Mend(0))
	f.fly(time.Minute)
	s := f.story()
	v := s.Judge()
	// 17.8 NM were lost on 048: 11.9 north, 13.2 east, which is 19 minutes at 45.
	for of, want := range map[picture.Link]picture.Standing{
		picture.LinkDrive: picture.Agrees, picture.LinkNorthDisc: picture.Agrees, picture.LinkEastDisc: picture.Agrees,
		picture.LinkAdders: picture.Agrees, picture.LinkLatitude: picture.Carries, picture.LinkLongitude: picture.Carries,
		picture.LinkGround: picture.Carries, picture.LinkMarker: picture.Carries, picture.LinkCounter: picture.Agrees,
	} {
		assert.Equal(t, want, v[of].Stands, of)
	}
	assert.Equal(t, "short 17.8 NM", v[picture.LinkDrive].Wrong[0])
	assert.Equal(t, "11.9 too far S", v[picture.LinkNorthDisc].Wrong[0])
	assert.Equal(t, "13.2 too far W", v[picture.LinkEastDisc].Wrong[0])
	assert.Contains(t, v[picture.LinkLatitude].Wrong[0], " too far south")
	assert.Contains(t, s.Card(picture.LinkDrive).Error, "short 17.8 NM")
	steps := s.Follow()
	require.NotEmpty(t, steps)
	assert.Equal(t, picture.LinkLatitude, steps[0].Link)
	assert.Equal(t, picture.LinkMarker, steps[len(steps)-1].Link)
	require.NoError(t, f.Do(aboard.Action{Kind: aboard.SetCounters, Position: f.Snapshot().Truth.Position}))
	f.fly(time.Minute)
	s = f.story()
	assert.Nil(t, s.Follow())
	assert.Equal(t, "short 17.8 NM", s.Judge()[picture.LinkDrive].Wrong[0], "nothing sets that back")
}

// The error is followed from where it begins to the marker; links it does not
// touch are left out.
func TestFollowGoesAlongTheError(t *testing.T) {
	f := fly(t, plain)
	require.NoError(t, f.Break(fault.Order{ID: "pitot-leak", Params: []float64{0.1}}))
	f.fly(30 * time.Minute)
	var way []picture.Link
	for _, step := range f.story().Follow() {
		way = append(way, step.Link)
	}
	assert.Subset(t, way, []picture.Link{
		picture.LinkPitot, picture.LinkCapsules, picture.LinkAirLog, picture.LinkCounter, picture.LinkDrive, picture.LinkNorthDisc,
		picture.LinkEastDisc, picture.LinkLatitude, picture.LinkLongitude, picture.LinkAdders, picture.LinkGround, picture.LinkMarker,
	})
	for _, of := range []picture.Link{picture.LinkStatic, picture.LinkCompass, picture.LinkVariation, picture.LinkRepeater, picture.LinkResolver, picture.LinkClock, picture.LinkWind} {
		assert.NotContains(t, way, of)
	}
	first := f.story().Follow()[0]
	assert.Equal(t, picture.LinkPitot, first.Link)
	assert.True(t, strings.HasPrefix(first.Words, "Here it begins. Pitot line leaks 10 in 100: "), first.Words)
}

// A link that a hand holds is not broken, but what follows it carries.
func TestHeldByHand(t *testing.T) {
	f := fly(t, plain)
	f.fly(time.Minute)
	require.NoError(t, f.Hold(sim.Hand{Input: sim.HandSpeed, On: true, Speed: 120 * units.Knot}))
	f.fly(20 * time.Minute)
	s := f.story()
	v := s.Judge()
	assert.Empty(t, broken(s))
	assert.Equal(t, picture.Carries, v[picture.LinkAirLog].Stands)
	assert.Equal(t, picture.Carries, v[picture.LinkLatitude].Stands)
	var l picture.Linkage
	s.Picture(&l)
	assert.True(t, l.Links[picture.LinkAirLog].Held)
	assert.Equal(t, "120.0", l.Links[picture.LinkAirLog].Value)
	assert.Contains(t, s.law(picture.LinkAirLog), "the shaft turns at 120.0 kt")
}

// The walk passes every link once, and none before what it takes up.
func TestWalkPassesEveryLink(t *testing.T) {
	seen := map[picture.Link]bool{}
	for _, of := range Walk() {
		assert.False(t, seen[of])
		for _, in := range inputs[of] {
			assert.True(t, seen[in], "%d before %d", of, in)
			assert.Less(t, in, of)
		}
		seen[of] = true
	}
	assert.Len(t, seen, int(picture.LinkCount))
}

// A turn of a shaft is a tenth of a mile; of the heading ten degrees, of the
// clock's a minute. 178 kt for 30 min: 890 turns; 048: 4.8.
func TestTurns(t *testing.T) {
	f := fly(t, plain)
	f.fly(30 * time.Minute)
	var l picture.Linkage
	f.story().Picture(&l)
	assert.InDelta(t, 890, l.Turns.AirLog, 1e-6)
	assert.InDelta(t, 890, l.Turns.Drive, 1e-6)
	assert.InDelta(t, 595.53, l.Turns.North, 0.1, "890 cos 48")
	assert.InDelta(t, 661.40, l.Turns.East, 0.1)
	assert.InDelta(t, 4.8, l.Turns.Heading, 1e-9)
	assert.InDelta(t, 30, l.Turns.Wind, 1e-9)
	assert.InDelta(t, l.Turns.North+l.Turns.WindNorth, l.Turns.GroundNorth, 1e-9)
	assert.Zero(t, l.Hands.Deviation)
}

// The crew's check of the counter, 178.0 x 0.5 = 89.0, stands there while it is
// true, a slipping drive or not; not after a change of speed, nor in a hand's.
func TestCounterNoteIsTrue(t *testing.T) {
	f := fly(t, plain)
	require.NoError(t, f.Break(fault.Order{ID: "drive-slip", Params: []float64{0.06}}))
	f.fly(30*time.Minute + 600*time.Millisecond)
	assert.Equal(t, [2]string{"178.0 kt x 0:30:00", "= 89.0 NM"}, f.story().note(picture.LinkCounter))
	require.NoError(t, f.Hold(sim.Hand{Input: sim.HandSpeed, On: true, Speed: 120 * units.Knot}))
	f.fly(time.Minute)
	assert.Equal(t, "tapped before", f.story().note(picture.LinkCounter)[0])

	f = fly(t, fmt.Sprintf(box, "ideal", "")) // 178 kt, then 210 and 150
	times := 0
	for ; !f.Over(); f.fly(time.Second) {
		s := f.story()
		if s.note(picture.LinkCounter)[1] == "the drive" {
			continue
		}
		times++
		require.InDelta(t, 178*s.View.Elapsed.Hours(), s.Now.AirMiles.NM(), 0.2, s.View.Elapsed)
		require.Less(t, s.View.Elapsed, 41*time.Minute)
	}
	assert.Greater(t, times, 2300, "40 minutes at one speed")
}

func BenchmarkPicture(b *testing.B) {
	f := fly(b, plain)
	f.fly(30 * time.Minute)
	s := f.story()
	var l picture.Linkage
	for b.Loop() {
		s.Picture(&l)
	}
}
