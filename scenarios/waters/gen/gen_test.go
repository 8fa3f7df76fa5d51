package main

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type file struct {
	Places []struct {
		Name string  `json:"name"`
		Lat  float64 `json:"lat_deg"`
		Lon  float64 `json:"lon_deg"`
	} `json:"places"`
	Coasts []struct {
		Name   string       `json:"name"`
		Points [][2]float64 `json:"points_lat_lon_deg"`
	} `json:"coasts"`
}

// The committed file is what the generator writes. Figures are compared to
// 1.5e-4 degree, for a processor may round the last digit the other way.
func TestTheCommittedFileIsTheGenerators(t *testing.T) {
	committed, err := os.ReadFile("../tern-islands.json")
	require.NoError(t, err)
	var want, got file
	require.NoError(t, json.Unmarshal(committed, &want))
	require.NoError(t, json.Unmarshal([]byte(generate()), &got))
	require.Len(t, got.Places, len(want.Places))
	for i, p := range want.Places {
		assert.Equal(t, p.Name, got.Places[i].Name)
		assert.InDelta(t, p.Lat, got.Places[i].Lat, 1.5e-4)
		assert.InDelta(t, p.Lon, got.Places[i].Lon, 1.5e-4)
	}
	require.Len(t, got.Coasts, len(want.Coasts))
	for i, c := range want.Coasts {
		assert.Equal(t, c.Name, got.Coasts[i].Name)
		require.Len(t, got.Coasts[i].Points, len(c.Points), c.Name)
		for k, p := range c.Points {
			require.InDelta(t, p[0], got.Coasts[i].Points[k][0], 1.5e-4, "%s %d", c.Name, k)
			require.InDelta(t, p[1], got.Coasts[i].Points[k][1], 1.5e-4, "%s %d", c.Name, k)
		}
	}
	assert.Equal(t, strings.Count(string(committed), "\n"), strings.Count(generate(), "\n"))
}

func TestCrosses(t *testing.T) {
	o, e, n := point{0, 0}, point{2, 0}, point{1, 1}
	assert.True(t, crosses(o, e, n, point{1, -1}))
	assert.False(t, crosses(o, e, n, point{1, 0.5}))
	assert.True(t, crosses(o, e, n, point{1, 0}), "touching counts")
	assert.False(t, crosses(o, e, point{3, 1}, point{3, -1}))
	bow := []point{{0, 0}, {1, 1}, {1, 0}, {0, 1}}
	assert.False(t, simple(bow), "the canary: a bow tie crosses itself")
	assert.True(t, simple([]point{{0, 0}, {0, 1}, {1, 1}, {1, 0}}))
}

func TestInside(t *testing.T) {
	square := []point{{0, 0}, {0, 2}, {2, 2}, {2, 0}}
	assert.True(t, inside(point{1, 1}, square))
	assert.False(t, inside(point{3, 1}, square))
	assert.False(t, inside(point{-1, 1}, square))
}

// Whatever the seed, a coast drawn from a simple shape is simple, runs through
// the hand-placed points and has no long edge.
func TestAnyDrawnCoastIsSimple(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := newBrush(rapid.String().Draw(t, "seed"), rapid.Float64Range(0.1, 0.32).Draw(t, "rough"), 0.5)
		n := rapid.IntRange(5, 12).Draw(t, "points")
		shape := make([]point, n)
		for i := range shape {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(3, 8).Draw(t, "radius")
			shape[i] = point{r * c, r * s}
		}
		ring := b.draw(shape)
		if !simple(ring) {
			t.Fatal("crosses itself")
		}
		for _, p := range shape {
			near := math.Inf(1)
			for _, q := range ring {
				near = min(near, p.to(q).length())
			}
			if near > 0 {
				t.Fatalf("hand-placed %v is %v NM off", p, near)
			}
		}
		for i, p := range ring {
			if l := p.to(ring[(i+1)%len(ring)]).length(); l > 1 {
				t.Fatalf("an edge of %v NM", l)
			}
		}
	})
}
