package airplot

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// along is where one stands on a rhumb line after some time.
func along(t *testing.T, from units.Position, track float64, speed units.Speed, after time.Duration) units.Position {
	t.Helper()
	p, err := geodesy.RhumbDirect(from, angle(track), over(speed, after))
	require.NoError(t, err)
	return p
}

// flown is a view after an hour and a half on 110T at 200 kt over the ground; the marker
// stands off the truth by a displacement until 0:50:07, when the counters are set to a
// place 12 miles from where they stood. It also gives the true positions.
func flown(t *testing.T) (*aboard.View, func(time.Duration) units.Position) {
	t.Helper()
	begin := units.At(-47, 179.5)
	truth := func(at time.Duration) units.Position { return along(t, begin, 110, knots(200), at) }
	reset := 50*time.Minute + 7*time.Second
	shownFrom, setTo := units.At(-47.1, 179.4), units.At(-47.6, -177.1)
	shown := func(at time.Duration) units.Position {
		if at < reset {
			return along(t, shownFrom, 110, knots(200), at)
		}
		return along(t, setTo, 110, knots(200), at-reset)
	}
	air := func(at time.Duration) units.Position {
		if at < reset {
			return along(t, shownFrom, 100, knots(180), at)
		}
		return along(t, setTo, 100, knots(180), at-reset)
	}
	v := &aboard.View{Elapsed: 90 * time.Minute, Clock: time.Date(1957, 8, 14, 11, 0, 0, 0, time.UTC)}
	add := func(at time.Duration, e aboard.Event) {
		v.Marks = append(v.Marks, aboard.Mark{Elapsed: at, Air: units.AirPosition(air(at)), Ground: units.GroundPosition(shown(at)), Event: e})
	}
	for at := time.Duration(0); at <= v.Elapsed; at += 10 * time.Second {
		if at > reset && at-reset < 10*time.Second {
			add(reset, aboard.CountersSet)
		}
		add(at, aboard.Sample)
	}
	return v, truth
}

// hears logs a bearing of a station without an error.
func hears(v *aboard.View, at time.Duration, truth, station units.Position) {
	const heading = 1.7
	azimuth, _, _ := geodesy.GeodesicInverse(truth, station)
	v.Log = append(v.Log, aboard.Entry{
		Elapsed: at, Event: aboard.Observed, Heading: heading,
		Action: aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
			Aim: aboard.Aim{Aid: aboard.Loop, Source: "S"}, Angle: units.Wrap(azimuth - heading), At: station,
		}},
	})
}

// TestWorkedOverASettingOfTheCounters: bearings without error, taken before and after
// the counters were set, give the true position within 0.01 NM; that they were set
// moved nothing.
func TestWorkedOverASettingOfTheCounters(t *testing.T) {
	v, truth := flown(t)
	first, last := 40*time.Minute+3*time.Second, 61*time.Minute+4*time.Second
	hears(v, first, truth(first), units.At(-46.2, -178))
	hears(v, last, truth(last), units.At(-48.6, -176.4))
	s := Work(v, []bool{true, true})
	require.NoError(t, s.Err)
	assert.Equal(t, last, s.At)
	assert.Less(t, geodesy.Distance(truth(last), s.Fixes[0].Position).NM(), 0.01)
	require.Len(t, s.Moved, 2)
	assert.InDelta(t, 200*(last-first).Hours(), s.Moved[0].Line.Run.Distance.NM(), 0.01)
	assert.Zero(t, s.Moved[1].Line.Run.Distance)
	for i := range s.Readings {
		miss, ok := s.Readings[i].Miss(truth(s.Readings[i].When))
		require.True(t, ok)
		assert.Less(t, miss.NM(), 0.01)
	}
	now, err := s.NewPosition(v, units.Wind{})
	require.NoError(t, err)
	still := along(t, s.Fixes[0].Position, 100, knots(180), v.Elapsed-last)
	assert.Less(t, geodesy.Distance(still, now).NM(), 0.01)
}

// TestTheReverseEndOfANull: the end nearer to the station by the plot is taken.
func TestTheReverseEndOfANull(t *testing.T) {
	v, truth := flown(t)
	at := 61 * time.Minute
	hears(v, at, truth(at), units.At(-46.2, -178))
	v.Log[0].Action.Reading.Angle += 180 * units.Degree
	readings := ReadingsOf(v)
	require.Len(t, readings, 1)
	miss, ok := readings[0].Miss(truth(at))
	require.True(t, ok)
	assert.Less(t, miss.NM(), 0.01)
}

// TestTheWindIsFoundSinceTheLastSetting: from air position to fix.
func TestTheWindIsFoundSinceTheLastSetting(t *testing.T) {
	v, truth := flown(t)
	reset := 50*time.Minute + 7*time.Second
	for _, c := range []struct {
		at    time.Duration
		since time.Duration
	}{{45 * time.Minute, 45 * time.Minute}, {80 * time.Minute, 80*time.Minute - reset}, {reset + 5*time.Minute, 0}, {reset, reset}} {
		v.Log = nil
		hears(v, c.at, truth(c.at), units.At(-46.2, -178))
		hears(v, c.at, truth(c.at), units.At(-48.6, -176.4))
		s := Work(v, []bool{true, true})
		require.NoError(t, s.Err)
		assert.Equal(t, c.since, s.Since)
		if c.since > 0 {
			end, err := DRPosition(s.Air, s.Wind, s.Since)
			require.NoError(t, err)
			assert.Less(t, geodesy.Distance(truth(c.at), units.Position(end)).NM(), 0.01)
		}
	}
}

// TestASecondCrossingFarOff: two altitudes cross twice, but the other place is in another
// part of the world: there is one fix.
func TestASecondCrossingFarOff(t *testing.T) {
	v, truth := flown(t)
	at := 61 * time.Minute
	for _, body := range []units.Position{units.At(-20, 150), units.At(-70, -120)} {
		h, _ := sight.Reduce(truth(at), -body.Lon, body.Lat)
		v.Log = append(v.Log, aboard.Entry{Elapsed: at, Event: aboard.Observed, Action: aboard.Action{
			Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aboard.Aim{Aid: aboard.Sextant, Source: "S"}, At: body, Observed: h}}})
	}
	readings := ReadingsOf(v)
	start := v.Clock.Add(-v.Elapsed)
	both, err := Solve(truth(at), append(readings[0].Lines(start), readings[1].Lines(start)...))
	require.NoError(t, err)
	require.Len(t, both, 2)
	s := Work(v, []bool{true, true})
	require.NoError(t, s.Err)
	require.Len(t, s.Fixes, 1)
	assert.Less(t, geodesy.Distance(truth(at), s.Fixes[0].Position).NM(), 0.01)
}

// TestNoFix: nothing used, one line, readings without a line.
func TestNoFix(t *testing.T) {
	v, truth := flown(t)
	at := 61 * time.Minute
	hears(v, at, truth(at), units.At(-46.2, -178))
	v.Log = append(v.Log, aboard.Entry{Elapsed: at, Event: aboard.Observed, Heading: 1, TAS: knots(180), Action: aboard.Action{
		Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: 4 * deg}}})
	for _, used := range [][]bool{nil, {true}, {true, true}} {
		s := Work(v, used)
		require.ErrorIs(t, s.Err, ErrTooFew)
		_, err := s.NewPosition(v, units.Wind{})
		require.ErrorIs(t, err, ErrNoFixYet)
	}
	s := Work(v, []bool{true, true})
	assert.False(t, s.Readings[1].HasLine())
	assert.Equal(t, []Drift{{Heading: 1, TAS: knots(180), Drift: 4 * deg}}, s.DriftsOf())
}

// TestThreeLinesMakeAHat: and leaving one out moves the fix.
func TestThreeLinesMakeAHat(t *testing.T) {
	v, truth := flown(t)
	at := 61 * time.Minute
	for _, s := range []units.Position{units.At(-46.2, -178), units.At(-48.6, -176.4), units.At(-47.9, -173)} {
		hears(v, at, truth(at), s)
	}
	v.Log[2].Action.Reading.Angle += 2 * deg
	s := Work(v, []bool{true, true, true})
	require.NoError(t, s.Err)
	require.NotNil(t, s.Hat)
	assert.Greater(t, s.Hat.AreaNM2, 0.1)
	assert.Greater(t, s.LeftOut.NM(), 0.1)
}
