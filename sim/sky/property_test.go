package sky

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

var (
	firstInstant = time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	lastInstant  = time.Date(2031, 1, 1, 0, 0, 0, 0, time.UTC).Unix() - 1
)

func drawTime(t *rapid.T) time.Time {
	s := rapid.Int64Range(firstInstant, lastInstant).Draw(t, "second")
	return time.Unix(s, rapid.Int64Range(0, 999999999).Draw(t, "nanosecond")).UTC()
}

func drawPlace(t *rapid.T) units.Position {
	lat := rapid.OneOf(rapid.Float64Range(-90, 90), rapid.SampledFrom([]float64{-90, 0, 90})).Draw(t, "lat")
	lon := rapid.OneOf(rapid.Float64Range(-180, 180), rapid.SampledFrom([]float64{-180, 0, 180})).Draw(t, "lon")
	return units.At(lat, lon)
}

func drawBody(t *rapid.T) Body { return Body(rapid.IntRange(1, Count).Draw(t, "body")) }

func TestNothingIsNaN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, at, b := At(drawTime(t)), drawPlace(t), drawBody(t)
		gha, dec := s.Place(b)
		alt, az := s.Horizontal(b, at)
		seen, _ := s.Seen(b, at, rapid.Float64Range(0, 1.2).Draw(t, "thin"))
		require.True(t, gha >= 0 && gha < 2*math.Pi && az >= 0 && az < 2*math.Pi)
		require.True(t, math.Abs(dec.Degrees()) <= 90 && math.Abs(alt.Degrees()) <= 90)
		require.InDelta(t, alt.Degrees(), seen.Degrees(), 1.8, "parallax and refraction")
		back, declination := sight.Toward(at, alt, az)
		require.InDelta(t, dec.Degrees(), declination.Degrees(), 1e-6)
		require.InDelta(t, 0, units.WrapHalf(back-gha).Degrees()*math.Cos(dec.Radians()), 1e-6)
		sum := s.SHA(b) + s.Aries() - gha
		require.InDelta(t, 0, units.WrapHalf(sum).Degrees(), 1e-9, "GHA Aries + SHA")
	})
}

// A star is highest when it crosses the meridian: on the side of the elevated
// pole or the other, whichever; a minute before or after it is lower.
func TestHighestAtTransit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		when := drawTime(t)
		b := Body(rapid.IntRange(1, int(lastStar)).Draw(t, "star"))
		s := At(when)
		gha, dec := s.Place(b)
		at := units.Position{Lat: units.Angle(rapid.Float64Range(-89, 89).Draw(t, "lat")) * units.Degree, Lon: -gha}
		top, _ := s.Horizontal(b, at)
		require.InDelta(t, 90-math.Abs((at.Lat-dec).Degrees()), top.Degrees(), 1e-9)
		for _, minutes := range []time.Duration{-60, -10, 10, 60} {
			then := At(when.Add(minutes * time.Minute))
			h, _ := then.Horizontal(b, at)
			require.Less(t, h, top, "%d minutes", minutes)
		}
	})
}

// In a second the sky turns 15" and no body does anything else, whatever
// midnight, year or interval of a table ends there.
func TestTurnsWithoutAJump(t *testing.T) {
	check := func(t require.TestingT, when time.Time, b Body) {
		s, next := At(when), At(when.Add(time.Second))
		turned := units.WrapHalf(next.Aries()-s.Aries()).Degrees() * 3600
		require.InDelta(t, 15.041067, turned, 0.0001, "%v", when)
		// The Moon moves 0.7" in a second, the Sun 0.05", a star 0.002" at most.
		moves := map[bool]float64{true: 0.8, false: 0.06}[b == Moon]
		ra, dec := s.Apparent(b)
		nextRA, nextDec := next.Apparent(b)
		require.Less(t, apart(nextRA, nextDec, ra.Degrees(), dec.Degrees()), moves, "%v %v", when, b)
	}
	rapid.Check(t, func(t *rapid.T) { check(t, drawTime(t), drawBody(t)) })
	for year := 1900; year <= 2030; year++ {
		for _, b := range []Body{Sun, Moon, Polaris, 18} {
			check(t, time.Date(year, 12, 31, 23, 59, 59, 5e8, time.UTC), b)
			check(t, time.Date(year, 7, 2, 11, 59, 59, 5e8, time.UTC), b)
		}
	}
}

func TestSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := At(drawTime(t))
		// The almanac's ranges, from memory: the Sun 15.7' to 16.3', the Moon 14.7' to 16.8' and
		// parallax 53.9' to 61.5', each printed to a tenth.
		require.InDelta(t, 16.0, s.Semidiameter(Sun).Minutes(), 0.3)
		require.InDelta(t, 15.75, s.Semidiameter(Moon).Minutes(), 1.1)
		require.InDelta(t, 57.7, s.Parallax(Moon).Minutes(), 3.9)
		require.InDelta(t, 0.1466, s.Parallax(Sun).Minutes(), 0.0026)
		require.Zero(t, s.Parallax(1))
		require.Zero(t, s.Semidiameter(1))
	})
}

// The first principles of the reference rows: half the last printed digit, and
// 5e-5 of it for their rounded constants.
func TestBubbleRows(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/coriolis_bubble.csv") {
		m := Motion{
			Latitude:      units.Angle(r.Float("lat_deg")) * units.Degree,
			Track:         units.Angle(r.Float("true_track_deg")) * units.Degree,
			Groundspeed:   units.Speed(r.Float("GS_kt")) * units.Knot,
			TurnPerSecond: units.Angle(r.Float("turn_rate_deg_per_min(+=right)")/60) * units.Degree,
		}
		right, ahead := m.Lean()
		want := r.Float("first_principles_coriolis") + r.Float("first_principles_rhumb") + r.Float("first_principles_turn")
		assert.InDelta(t, -want, right.Minutes(), 5e-5*math.Abs(want)+3*0.00005, "%s", r)
		assert.Zero(t, ahead)
		// What the crew add puts it right, to the half per cent of the rows.
		for az := units.Angle(0); az < 6; az++ {
			crew := sight.BubbleShift(m.Groundspeed, m.Latitude, m.Track, 60*m.TurnPerSecond).AltitudeCorrection(az, m.Track)
			require.InDelta(t, 0, (m.Misread(az) + crew).Minutes(), 0.005*11, "%s", r)
		}
	}
	// Gaining a knot a second: 0.5144/9.80665 of a radian, seen ahead.
	m := Motion{Track: 1, GainPerSecond: units.Knot}
	assert.InDelta(t, math.Atan(1852.0/3600/9.80665), m.Misread(1).Radians(), 1e-12)
	for _, lat := range []float64{-90, 90} {
		m := Motion{Latitude: units.Angle(lat) * units.Degree, Track: 1, Groundspeed: 150}
		assert.Less(t, math.Abs(m.Misread(2).Degrees()), 5.0, "no runaway at a pole")
	}
}

var (
	sinkSky   Sky
	sinkAngle units.Angle
	sinkList  [2 * Count]Sighted
	sinkPairs [Count * Count]Pair
)

func TestNothingAllocates(t *testing.T) {
	at, when := units.At(-47, 178.5), time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	assert.Zero(t, testing.AllocsPerRun(20, func() {
		sinkSky = At(when)
		for _, b := range Bodies() {
			sinkAngle, _ = sinkSky.Seen(b, at, 0.5)
		}
		up := sinkSky.ForSights(sinkList[:0], at)
		sinkAngle = Pairs(sinkPairs[:0], up, 0.5)[0].Crossing
		sinkAngle += Motion{Groundspeed: 100}.Misread(1)
		_, _ = NextSun(when, 24*time.Hour, at, Sunrise, Rising)
	}))
}

func TestSkyIsAValue(t *testing.T) {
	when := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	assert.True(t, At(when) == At(when.In(time.FixedZone("", 12*3600))), "compiles only without slices and maps")
}

func BenchmarkAt(b *testing.B) {
	b.ReportAllocs()
	when := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	for i := 0; b.Loop(); i++ {
		sinkSky = At(when.Add(time.Duration(i)))
	}
}

func BenchmarkHorizontalOfAStar(b *testing.B) {
	b.ReportAllocs()
	s, at := At(time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)), units.At(-47, 178.5)
	for b.Loop() {
		sinkAngle, _ = s.Horizontal(18, at)
	}
}

func BenchmarkNextSun(b *testing.B) {
	b.ReportAllocs()
	when := time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)
	for b.Loop() {
		_, _ = NextSun(when, 24*time.Hour, units.At(-47, 178.5), Sunrise, Rising)
	}
}
