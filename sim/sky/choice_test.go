package sky

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

func TestNames(t *testing.T) {
	for _, r := range rows.Read(t, "stars.csv") {
		b := body(t, r.Text("name"))
		assert.Equal(t, r.Text("name"), b.String())
		assert.Equal(t, b, body(t, r.Text("bayer")), "%s", r)
		assert.Equal(t, r.Float("V_mag"), b.Magnitude())
		if r.Text("nav_no") != "Polaris" {
			assert.Equal(t, r.Float("nav_no"), float64(b))
		}
	}
	for _, b := range Bodies() {
		assert.True(t, b.Valid())
		assert.Equal(t, b, body(t, b.String()))
	}
	for name, want := range map[string]Body{"SUN": Sun, " moon ": Moon, "al na'ir": 55, "rigil kentaurus": 38,
		"Rigil Kent.": 38, "kaus-australis": 48, "polaris": Polaris} {
		assert.Equal(t, want, body(t, name), name)
	}
	for _, name := range []string{"", "no body", "Pluto", "Sunn", "alpha", "*"} {
		b, err := Lookup(name)
		assert.ErrorContains(t, err, "no body of the sky", name)
		assert.False(t, b.Valid(), name)
	}
	assert.Equal(t, "no body", Body(0).String())
	assert.Zero(t, Sun.Star())
	assert.Panics(t, func() { s := At(time.Time{}); s.Apparent(0) }, "no body is a fault of the caller")
}

func TestWhatCanBeShot(t *testing.T) {
	at := units.At(-47, 178.5)
	names := func(when time.Time) (all []string) {
		s := At(when)
		for _, b := range s.ForSights(nil, at) {
			all = append(all, b.Body.String())
			h, az := s.Horizontal(b.Body, at)
			require.Equal(t, Sighted{b.Body, h, az}, b)
			require.True(t, h >= LowestSight && h <= HighestSight)
		}
		return all
	}
	noon := time.Date(1957, 8, 14, 0, 0, 0, 0, time.UTC)
	assert.Equal(t, []string{"Sun"}, names(noon))
	night := names(noon.Add(12 * time.Hour))
	assert.Contains(t, night, "Canopus")
	assert.NotContains(t, night, "Sun")
	assert.Greater(t, len(night), 5)
	// New moon of 1957 August 25, 11:33 UT (astronomy-engine 2.1.19): up by day, and lost in the Sun.
	assert.Equal(t, []string{"Sun"}, names(time.Date(1957, 8, 25, 1, 0, 0, 0, time.UTC)))
}

// Stars come out with the end of civil twilight, not before.
func TestStarsComeOutAtDusk(t *testing.T) {
	at := units.At(-47, 178.5)
	dusk, ok := NextSun(time.Date(1957, 8, 14, 3, 0, 0, 0, time.UTC), 6*time.Hour, at, CivilDusk, Setting)
	require.True(t, ok)
	stars := func(when time.Time) int {
		s := At(when)
		return len(s.ForSights(nil, at))
	}
	assert.Zero(t, stars(dusk.Add(-time.Minute)))
	assert.Greater(t, stars(dusk.Add(time.Minute)), 5)
}

func TestPairs(t *testing.T) {
	deg := units.Degree
	sirius, canopus, acrux := body(t, "Sirius"), body(t, "Canopus"), body(t, "Acrux")
	up := []Sighted{{acrux, 30 * deg, 10 * deg}, {sirius, 40 * deg, 100 * deg}, {canopus, 50 * deg, 280 * deg}}
	got := Pairs(nil, up, 30*deg)
	require.Len(t, got, 2, "opposite azimuths do not cross")
	assert.InDelta(t, 90, got[0].Crossing.Degrees(), 1e-9)
	assert.InDelta(t, 90, got[1].Crossing.Degrees(), 1e-9)
	for _, p := range got {
		assert.Equal(t, acrux, p.A.Body)
	}
	// Of equals the brighter: Canopus before Acrux, whatever the order they come in.
	up = []Sighted{{sirius, 30 * deg, 0}, {acrux, 40 * deg, 90 * deg}, {canopus, 50 * deg, 90 * deg}}
	got = Pairs(nil, up, 30*deg)
	require.Len(t, got, 2)
	assert.Equal(t, []Body{canopus, acrux}, []Body{got[0].B.Body, got[1].B.Body})
	assert.InDelta(t, 20, Crossing(350*deg, 10*deg).Degrees(), 1e-9)
	assert.InDelta(t, 20, Crossing(10*deg, 170*deg).Degrees(), 1e-9)
	assert.InDelta(t, 0, Crossing(0, 180*deg).Degrees(), 1e-9)
}

func TestPairsAreAllAndInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, at := At(drawTime(t)), drawPlace(t)
		up := s.Up(nil, at, LowestSight, HighestSight)
		all := Pairs(nil, up, 0)
		require.Len(t, all, len(up)*(len(up)-1)/2)
		for i, p := range all {
			require.True(t, p.Crossing >= 0 && p.Crossing <= 90*units.Degree)
			require.True(t, i == 0 || all[i-1].Crossing >= p.Crossing)
		}
		few := Pairs(all, up, 30*units.Degree)
		require.Equal(t, all, few[:len(all)], "what was in dst stays")
		for _, p := range few[len(all):] {
			require.GreaterOrEqual(t, p.Crossing, 30*units.Degree)
		}
	})
}
