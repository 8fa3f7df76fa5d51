package sky

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// The rows are for the Sun seen from the surface, 8.8" lower than from the
// centre; with the model's own tolerance that is 0.003 deg, and in time as much
// as the Sun takes for it.
func TestSunEventRows(t *testing.T) {
	never := 0
	for _, r := range rows.Read(t, "testdata/sun_events_computed.csv") {
		at := units.At(r.Float("lat_deg"), r.Float("lon_deg"))
		h := units.Angle(r.Float("altitude_deg")) * units.Degree
		got, found := NextSun(instant(t, r.Text("from_utc")), 24*time.Hour, at, h, Way(r.Text("way") == "rising"))
		require.Equal(t, r.Has("utc"), found, "%s", r)
		if !found {
			never++
			continue
		}
		want := instant(t, r.Text("utc"))
		before, after := altitudeOf(want.Add(-time.Minute), at), altitudeOf(want.Add(time.Minute), at)
		rate := math.Abs((after - before).Degrees()) / 120 // degrees a second
		assert.InDelta(t, 0, got.Sub(want).Seconds(), 0.003/rate+0.5, "%s", r)
		assert.Equal(t, after > before, r.Text("way") == "rising", "%s", r)
	}
	assert.Equal(t, 24, never, "polar days and nights")
}

func altitudeOf(t time.Time, at units.Position) units.Angle {
	s := At(t)
	h, _ := s.Horizontal(Sun, at)
	return h
}

// The example of NREL/TP-560-34302 (from memory: its program prints sunrise
// 06:12:43 and sunset 17:20:19 in zone -7, for the upper limb with 34' of
// refraction and 16' of semidiameter). The day it means is that of UT, so that
// the sunset is at 00:20:19 UT, before the sunrise; it interpolates in the day's
// places: within 2 seconds.
func TestSunriseOfThePublishedExample(t *testing.T) {
	at := units.At(39.742476, -105.1786)
	midnight := time.Date(2003, 10, 17, 0, 0, 0, 0, time.UTC)
	rise, ok := NextSun(midnight, 24*time.Hour, at, Sunrise, Rising)
	require.True(t, ok)
	set, ok := NextSun(midnight, 24*time.Hour, at, Sunrise, Setting)
	require.True(t, ok)
	assert.InDelta(t, 0, rise.Sub(midnight.Add(13*time.Hour+12*time.Minute+43*time.Second)).Seconds(), 2)
	assert.InDelta(t, 0, set.Sub(midnight.Add(20*time.Minute+19*time.Second)).Seconds(), 2)
}

// Through a morning every kind of light comes once, in order, and changes when
// NextSun says.
func TestLightThroughAMorning(t *testing.T) {
	at := units.At(-47, 178.5)
	night := time.Date(1957, 8, 14, 12, 0, 0, 0, time.UTC)
	limits := []units.Angle{Sunrise, CivilDusk, NauticalDusk, AstronomicalDusk}
	for i, h := range limits {
		when, ok := NextSun(night, 12*time.Hour, at, h, Rising)
		require.True(t, ok)
		before, after := At(when.Add(-time.Second)), At(when.Add(time.Second))
		assert.Equal(t, Light(i+1), before.Light(at))
		assert.Equal(t, Light(i), after.Light(at))
	}
	assert.Equal(t, "night", Night.String())
	assert.Equal(t, "civil twilight", CivilTwilight.String())
	assert.Equal(t, "no such light", Light(9).String())
}

func TestNextSunWithinItsTime(t *testing.T) {
	at := units.At(-47, 178.5)
	from := time.Date(1957, 8, 14, 12, 0, 0, 0, time.UTC)
	rise, ok := NextSun(from, 24*time.Hour, at, Sunrise, Rising)
	require.True(t, ok)
	_, ok = NextSun(from, rise.Sub(from)-time.Second, at, Sunrise, Rising)
	assert.False(t, ok, "it comes after the time is over")
	again, ok := NextSun(from, rise.Sub(from)+time.Second, at, Sunrise, Rising)
	assert.True(t, ok)
	assert.InDelta(t, 0, again.Sub(rise).Seconds(), 1)
	_, ok = NextSun(from, 0, at, Sunrise, Rising)
	assert.False(t, ok)
}
