package scenarios

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
)

func TestShipped(t *testing.T) {
	files, err := flightFiles.ReadDir("flights")
	require.NoError(t, err)
	list := Shipped()
	require.Len(t, list, len(files), "every file is offered")
	assert.Equal(t, Default, list[0].Name)
	for _, s := range list {
		p, src, err := Open(s.Name)
		require.NoError(t, err)
		assert.Equal(t, s.Title, p.Title)
		assert.Equal(t, s.Name, src.Name)
		assert.True(t, strings.HasPrefix(string(src.Text), "# "+s.Line+"\n"), "%s: the first line says what it is", s.Name)
		assert.Greater(t, len(s.Line), 20)
		assert.Less(t, len(s.Line), 120)
		assertLegal(t, p)
	}
	_, _, err = Open("first-lok")
	assert.EqualError(t, err, `no shipped flight "first-lok"; did you mean first-look?`)
	_, _, err = Open("zzz")
	assert.EqualError(t, err, `no shipped flight "zzz"; the shipped flights are first-look, weather-triangle, far-south, pitot-ice, old-variation, warm-air, slipping-drive, stuck-repeater, after-the-swing, every-mile, lesson-air-position, lesson-pitot-to-miles, lesson-airspeed-and-height, lesson-true-heading, lesson-north-and-east, lesson-wind, lesson-fix-and-reset, lesson-broken-link, find-the-quiet-dial, find-the-missing-miles, find-the-still-card, find-the-wrong-dial, find-the-warm-bulb, find-the-two`)
}

// flown is a shipped flight flown to its end, with a snapshot each minute.
func flown(t *testing.T, name string) []sim.Snapshot {
	t.Helper()
	p, _, err := Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	minutes := []sim.Snapshot{e.Snapshot()}
	for !e.Over() {
		require.Less(t, len(minutes), 48*60)
		e.Advance(60 * sim.TicksPerSecond)
		minutes = append(minutes, e.Snapshot())
	}
	return minutes
}

func last(s []sim.Snapshot) sim.Snapshot { return s[len(s)-1] }

// distance is NM on a plane chart, good enough over a few miles.
func distance(a, b units.Position) float64 { return math.Hypot(apart(a, b)) }

// The promise of the default flight: in the first two minutes at ten times
// real speed (20 minutes of flight) air and ground position part by miles and
// a turn is made; it crosses 180 and ends at Skerrow after 1.5 to 2 h.
func TestFirstLook(t *testing.T) {
	m := flown(t, "first-look")
	start, _ := terns(t).Place("Port Aldous")
	assert.Less(t, distance(m[0].Truth.Position, start.At), 0.01)
	at10 := m[10]
	assert.Greater(t, distance(units.Position(at10.Shown.Air), units.Position(at10.Shown.Ground)), 4.0)
	turned := false
	for _, s := range m[:20] {
		turned = turned || s.Truth.Heading.Degrees() > 75
	}
	assert.True(t, turned)
	end := last(m)
	assertHours(t, end, 1.5, 2)
	skerrow, _ := terns(t).Place("Skerrow")
	assert.Less(t, distance(end.Truth.Position, skerrow.At), 3.0)
	assert.Equal(t, 1, crossings(m))
}

// Four hours, up and down, across 180 and back.
func TestWeatherTriangle(t *testing.T) {
	m := flown(t, "weather-triangle")
	assertHours(t, last(m), 3.5, 4.5)
	assert.Equal(t, 2, crossings(m))
	top := units.Length(0)
	for _, s := range m {
		top = max(top, s.Truth.Height)
	}
	assert.InDelta(t, 18000, top.Feet(), 1)
	assert.InDelta(t, 5000, last(m).Truth.Height.Feet(), 1)
	home, _ := terns(t).Place("Port Aldous")
	assert.Less(t, distance(last(m).Truth.Position, home.At), 20.0, "found winds are not quite the true ones")
}

// Between 66 and 78 S throughout, and far enough for the secant to exceed 3.5.
func TestFarSouth(t *testing.T) {
	m := flown(t, "far-south")
	assertHours(t, last(m), 3, 4.5)
	south := 0.0
	for _, s := range m {
		lat := s.Truth.Position.Lat.Degrees()
		assert.True(t, lat < -66 && lat > -78, "%v", lat)
		south = min(south, lat)
	}
	assert.Less(t, south, -73.4) // sec 73.4 = 3.5
	assert.Positive(t, crossings(m))
}

func assertHours(t *testing.T, s sim.Snapshot, lo, hi float64) {
	t.Helper()
	hours := sim.TimeOf(s.Tick).Hours()
	assert.True(t, hours >= lo && hours <= hi, "%v", time.Duration(hours*float64(time.Hour)))
}

// crossings counts how often the true longitude jumps at 180.
func crossings(m []sim.Snapshot) int {
	n := 0
	for i := 1; i < len(m); i++ {
		if d := m[i].Truth.Position.Lon - m[i-1].Truth.Position.Lon; d > 3 || d < -3 {
			n++
		}
	}
	return n
}
