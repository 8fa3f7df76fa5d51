package scenarios

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

func terns(t *testing.T) *WatersData {
	t.Helper()
	w, err := Waters("tern-islands")
	require.NoError(t, err)
	return w
}

// plane is a position on a plane chart about 48 S 180, NM east and north;
// longitudes run on past 180.
type plane struct{ x, y float64 }

func onPlane(p units.Position) plane {
	return plane{units.WrapHalfDegrees(p.Lon.Degrees()-180) * 60 * math.Cos(48*math.Pi/180), (p.Lat.Degrees() + 48) * 60}
}

func side(a, b, c plane) float64 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }

func segmentsCross(a, b, c, d plane) bool {
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

func ring(c Coast) []plane {
	out := make([]plane, len(c.Points))
	for i, p := range c.Points {
		out[i] = onPlane(p)
	}
	return out
}

// Within: the winding number is not nought.
func within(p plane, r []plane) bool {
	turns := 0.0
	for i, a := range r {
		b := r[(i+1)%len(r)]
		turns += math.Remainder(math.Atan2(b.y-p.y, b.x-p.x)-math.Atan2(a.y-p.y, a.x-p.x), 2*math.Pi)
	}
	return math.Abs(turns) > math.Pi
}

func offCoast(p plane, r []plane) float64 {
	least := math.Inf(1)
	for i, a := range r {
		b := r[(i+1)%len(r)]
		dx, dy := b.x-a.x, b.y-a.y
		u := max(0, min(1, ((p.x-a.x)*dx+(p.y-a.y)*dy)/(dx*dx+dy*dy)))
		least = min(least, math.Hypot(a.x+u*dx-p.x, a.y+u*dy-p.y))
	}
	return least
}

// The design's extent: 44-52 S across the 180th meridian.
func TestTheTernIslands(t *testing.T) {
	w := terns(t)
	assert.Equal(t, "tern-islands", w.Name)
	assert.Equal(t, "Tern Islands", w.Title)
	assert.NotEmpty(t, w.Line)
	islands, east, west := 0, false, false
	names := map[string]bool{}
	for _, c := range w.Coasts {
		assert.False(t, names[c.Name], "%s twice", c.Name)
		names[c.Name] = true
		if len(c.Points) >= 60 {
			islands++
		}
		for _, p := range c.Points {
			require.True(t, p.Lat.Degrees() > -52.2 && p.Lat.Degrees() < -44)
			require.Greater(t, math.Abs(p.Lon.Degrees()), 174.0)
			require.True(t, p.Lon >= -math.Pi && p.Lon < math.Pi)
			east, west = east || p.Lon > 0, west || p.Lon < 0
		}
	}
	assert.GreaterOrEqual(t, islands, 12)
	assert.True(t, east && west)
}

func TestCoastsAreSimpleRings(t *testing.T) {
	for _, c := range terns(t).Coasts {
		r := ring(c)
		require.GreaterOrEqual(t, len(r), 8, c.Name)
		area := 0.0
		for i, a := range r {
			b := r[(i+1)%len(r)]
			area += a.x*b.y - a.y*b.x
			require.NotEqual(t, a, b, "%s: a point twice", c.Name)
			require.Less(t, math.Hypot(b.x-a.x, b.y-a.y), 2.5, "%s: a long edge", c.Name)
			for j := i + 2; j < len(r); j++ {
				if segmentsCross(a, b, r[j], r[(j+1)%len(r)]) {
					t.Fatalf("%s crosses itself at %v", c.Name, c.Points[i])
				}
			}
		}
		assert.Negative(t, area, "%s goes round clockwise", c.Name)
	}
	assert.True(t, segmentsCross(plane{0, 0}, plane{2, 2}, plane{0, 2}, plane{2, 0}), "the canary crosses")
}

func TestIslandsLieApart(t *testing.T) {
	coasts := terns(t).Coasts
	for i, c := range coasts {
		r := ring(c)
		for _, d := range coasts[i+1:] {
			p := onPlane(d.Points[0])
			if math.Hypot(p.x-r[0].x, p.y-r[0].y) > 200 {
				continue
			}
			assert.False(t, within(p, r), "%s lies on %s", d.Name, c.Name)
			assert.Greater(t, offCoast(p, r), 0.02, "%s touches %s", d.Name, c.Name)
		}
	}
}

// Ports, capes and rocks stand at the water (within a mile), lights near it,
// the rest on land, bays and alighting areas at sea.
func TestPlacesStandWhereTheyShould(t *testing.T) {
	w := terns(t)
	require.True(t, len(w.Places) >= 25 && len(w.Places) <= 40)
	kinds := map[PlaceKind]int{}
	for _, p := range w.Places {
		kinds[p.Kind]++
		ashore, near := false, math.Inf(1)
		for _, c := range w.Coasts {
			r := ring(c)
			ashore = ashore || within(onPlane(p.At), r)
			near = min(near, offCoast(onPlane(p.At), r))
		}
		switch p.Kind {
		case Port, Cape, Rock, Light:
			reach := 1.0
			if p.Kind == Light {
				reach = 3.5 // on the middle of a small island
			}
			assert.Less(t, near, reach, p.Name)
			assert.True(t, ashore || near < 0.1, "%s stands in the sea, %.2f NM off", p.Name, near)
		case Bay, Seaplane:
			assert.False(t, ashore, "%s is no water", p.Name)
		case Town, Airfield, Hill, Weather, Beacon, Chain:
			assert.True(t, ashore || near < 0.1, "%s stands in the sea, %.2f NM off", p.Name, near)
		default:
			t.Errorf("%s: kind %q", p.Name, p.Kind)
		}
	}
	assert.Equal(t, 3, kinds[Chain], "the pulse chain has three stations")
	assert.GreaterOrEqual(t, kinds[Airfield], 4)
	assert.GreaterOrEqual(t, kinds[Beacon], 3)
}

// The places of the design, to a minute.
func TestNamedPlaces(t *testing.T) {
	w := terns(t)
	for name, where := range map[string]string{
		"Port Aldous": "47 10.0 S 178 30.0 E",
		"Skerrow":     "47 26.0 S 179 51.3 W",
		"Cape Linnet": "46 17.3 S 177 36.0 W",
		"Gannet Rock": "47 13.4 S 177 22.4 W",
	} {
		p, ok := w.Place(name)
		require.True(t, ok, name)
		want, err := units.ParsePosition(where)
		require.NoError(t, err)
		assert.InDelta(t, want.Lat.Minutes(), p.At.Lat.Minutes(), 0.5, name)
		assert.InDelta(t, want.Lon.Minutes(), p.At.Lon.Minutes(), 0.5, name)
	}
	p, ok := w.Place("port aldous")
	assert.True(t, ok, "letter case aside")
	assert.Equal(t, "Port Aldous", p.Name)
	assert.Equal(t, "47 10.0 S 178 30.0 E", p.At.String())
	_, ok = w.Place("Atlantis")
	assert.False(t, ok)
	_, err := Waters("atlantis")
	assert.ErrorContains(t, err, "tern-islands")
}
