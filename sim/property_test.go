package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// drawn is a short flight from anywhere but the poles, its wind set right.
func drawn(t *rapid.T) *Plan {
	p := plan(rapid.Float64Range(-70, 70).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"),
		rapid.Float64Range(0, 359).Draw(t, "heading"), rapid.Float64Range(100, 400).Draw(t, "tas"), 8*time.Minute)
	w := wind(rapid.Float64Range(0, 359).Draw(t, "from"), rapid.Float64Range(1, 90).Draw(t, "kt"))
	p.Air.Winds, p.Setting.Wind = []WindEntry{{Wind: w}}, w
	return p
}

func flown(t require.TestingT, p *Plan) Snapshot {
	e := engine(t, p)
	e.Advance(1 << 30)
	return e.Snapshot()
}

// Still air: air and ground are one, in truth and on the counters.
func TestStillAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		p.Air.Winds, p.Setting.Wind = nil, units.Wind{}
		s := flown(t, p)
		require.Equal(t, s.Truth.Air, s.Truth.Position)
		require.Equal(t, units.Position(s.Shown.Air), units.Position(s.Shown.Ground))
		require.InDelta(t, s.Truth.TAS.Knots(), s.Truth.Groundspeed.Knots(), 1e-9)
	})
}

// No meridian is special: turned about the axis a flight is the same flight,
// also across 180 and 0.
func TestNoMeridianIsSpecial(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		a := flown(t, p)
		by := units.Angle(rapid.Float64Range(-180, 180).Draw(t, "turned")) * units.Degree
		p.Aircraft.Position.Lon += by
		b := flown(t, p)
		for _, pair := range [][2]units.Position{
			{a.Truth.Position, b.Truth.Position}, {a.Truth.Air, b.Truth.Air},
			{units.Position(a.Shown.Ground), units.Position(b.Shown.Ground)},
			{units.Position(a.Shown.Air), units.Position(b.Shown.Air)},
		} {
			pair[0].Lon += by
			require.Less(t, OffsetOf(pair[1], pair[0]).NM(), 1e-7)
			require.True(t, pair[1].Lon >= -math.Pi && pair[1].Lon < math.Pi, "%v", pair[1].Lon)
		}
	})
}

// The equator is a mirror, also for flights that cross it.
func TestTheEquatorIsAMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		p.Aircraft.Position.Lat /= 40 // within 1.75 degrees: many cross
		p.Legs[0].TurnRate = 0
		a := flown(t, p)
		p.Aircraft.Position.Lat = -p.Aircraft.Position.Lat
		p.Legs[0].Direction = units.Wrap(math.Pi - p.Legs[0].Direction)
		p.Aircraft.Heading = units.TrueHeading(p.Legs[0].Direction)
		w := p.Setting.Wind
		w.From = units.Wrap(math.Pi - w.From)
		p.Air.Winds, p.Setting.Wind = []WindEntry{{Wind: w}}, w
		b := flown(t, p)
		for _, pair := range [][2]units.Position{
			{a.Truth.Position, b.Truth.Position}, {units.Position(a.Shown.Ground), units.Position(b.Shown.Ground)},
		} {
			pair[0].Lat = -pair[0].Lat
			require.Less(t, OffsetOf(pair[1], pair[0]).NM(), 1e-7)
		}
	})
}

// Whatever speeds and heights a plan orders, within reason and beyond it, every
// figure is a number and the flight ends.
func TestFiniteThroughSpeedsAndHeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan(rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"),
			rapid.Float64Range(0, 360).Draw(t, "heading"), rapid.Float64Range(1, 1000).Draw(t, "tas"), 4*time.Minute)
		p.Pilot = rapid.SampledFrom([]Pilot{Steady, ByInstruments, AsPlanned}).Draw(t, "pilot")
		if rapid.Bool().Draw(t, "earth's field") {
			p.Field = nil
		}
		p.Aircraft.PressureAltitude = units.Length(rapid.Float64Range(-1000, 60000).Draw(t, "feet")) * units.Foot
		p.Air.ISADeviation = rapid.Float64Range(-60, 60).Draw(t, "deviation")
		p.Air.Winds = []WindEntry{{Wind: wind(rapid.Float64Range(0, 360).Draw(t, "from"), rapid.Float64Range(0, 300).Draw(t, "kt"))}}
		height := units.Length(rapid.Float64Range(-1000, 60000).Draw(t, "to feet")) * units.Foot
		speed := SpeedOrder{rapid.SampledFrom([]SpeedKind{HoldTAS, HoldCAS}).Draw(t, "hold"), units.Speed(rapid.Float64Range(1, 600).Draw(t, "speed")) * units.Knot}
		p.Legs = append(p.Legs, Leg{
			Steer:     rapid.SampledFrom([]Steer{HeadingTrue, HeadingMagnetic, HeadingCompass, TrackTrue}).Draw(t, "steer"),
			Direction: 1, Ticks: TicksOf(4 * time.Minute), TurnRate: rapid.Float64Range(0, 30).Draw(t, "turn"),
			Altitude: &height, Climb: units.Speed(rapid.Float64Range(1, 20000).Draw(t, "climb")) * units.Speed(units.Foot) / 60, Speed: &speed,
		})
		e := engine(t, p)
		e.Advance(1 << 30)
		require.True(t, e.Over())
		s := e.Snapshot()
		for _, x := range []float64{
			float64(s.Truth.Position.Lat), float64(s.Truth.Position.Lon), float64(s.Truth.Air.Lat), float64(s.Truth.TAS),
			float64(s.Truth.Heading), float64(s.Truth.Track), float64(s.Truth.Height), float64(s.Sensed.Pitot), float64(s.Sensed.Static),
			float64(s.Shown.North), float64(s.Shown.AirMiles), float64(s.Shown.TAS), s.Error.Air.NM(), s.Error.Ground.NM(),
		} {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%+v", s)
		}
		require.LessOrEqual(t, math.Abs(s.Truth.Position.Lat.Degrees()), 90.0)
	})
}

// The lists of the recorder: a mark each ten seconds exactly, a true point
// beside each, in order; and what was handed out stays as it was.
func TestListsOfTheRecorder(t *testing.T) {
	e := engine(t, busy())
	e.Advance(TicksOf(12 * time.Minute))
	v, truth := e.View(), e.TrueTrack()
	marks, log := append([]aboard.Mark(nil), v.Marks...), append([]aboard.Entry(nil), v.Log...)
	points := append([]TruePoint(nil), truth...)
	at := map[time.Duration]bool{}
	for i, m := range marks {
		at[m.Elapsed] = true
		require.Equal(t, m.Elapsed, TimeOf(points[i].Tick))
		require.True(t, i == 0 || m.Elapsed >= marks[i-1].Elapsed)
	}
	for d := time.Duration(0); d <= 12*time.Minute; d += 10 * time.Second {
		require.True(t, at[d], "a mark at %v", d)
	}
	events := map[aboard.Event]int{}
	for _, m := range marks {
		events[m.Event]++
	}
	assert.Equal(t, 2, events[aboard.LegBegun])
	assert.Equal(t, 1, events[aboard.WindSet])
	assert.Equal(t, 1, events[aboard.CountersSet])
	assert.Equal(t, 1, events[aboard.VarSet])

	e.GoTo(TicksOf(2 * time.Minute))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: units.At(1, 2)}))
	e.GoTo(TicksOf(20 * time.Minute))
	assert.Equal(t, marks, v.Marks)
	assert.Equal(t, log, v.Log)
	assert.Equal(t, points, truth)
}
