package export

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

func lineOf(c ...coordinate) (all []units.Position) {
	for _, p := range c {
		all = append(all, units.At(p[1], p[0]))
	}
	return all
}

// RFC 7946, 3.1.9: "a line extending from 45 degrees N, 170 degrees E across the
// antimeridian to 45 degrees N, 170 degrees W should be cut in two and represented
// as a MultiLineString": [[170, 45], [180, 45]], [[-180, 45], [-170, 45]].
func TestExampleOfTheStandard(t *testing.T) {
	assert.Equal(t, [][]coordinate{{{170, 45}, {180, 45}}, {{-180, 45}, {-170, 45}}}, split(lineOf(coordinate{170, 45}, coordinate{-170, 45})))
}

// Worked by hand.
func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name string
		line []coordinate
		want [][]coordinate
	}{
		{"not crossing", []coordinate{{1, 2}, {3, 4}}, [][]coordinate{{{1, 2}, {3, 4}}}},
		{"over Greenwich", []coordinate{{-1, 2}, {1, 4}}, [][]coordinate{{{-1, 2}, {1, 4}}}},
		{"westward, a third of the way", []coordinate{{-179, 0}, {178, 3}}, [][]coordinate{{{-179, 0}, {-180, 1}}, {{180, 1}, {178, 3}}}},
		{"there and back", []coordinate{{179, 0}, {-179, 2}, {179, 4}}, [][]coordinate{{{179, 0}, {180, 1}}, {{-180, 1}, {-179, 2}, {-180, 3}}, {{180, 3}, {179, 4}}}},
		{"ends on it", []coordinate{{179, 0}, {-180, 1}}, [][]coordinate{{{179, 0}, {180, 1}}}},
		{"begins on it, eastward", []coordinate{{-180, 0}, {-179, 1}}, [][]coordinate{{{-180, 0}, {-179, 1}}}},
		{"begins on it, westward", []coordinate{{-180, 0}, {179, 1}}, [][]coordinate{{{180, 0}, {179, 1}}}},
		{"touches it", []coordinate{{179, 0}, {-180, 1}, {179, 2}}, [][]coordinate{{{179, 0}, {180, 1}, {179, 2}}}},
		{"through a point on it", []coordinate{{179, 0}, {-180, 1}, {-179, 2}}, [][]coordinate{{{179, 0}, {180, 1}}, {{-180, 1}, {-179, 2}}}},
		{"along it", []coordinate{{-180, 0}, {-180, 1}, {-180, 2}}, [][]coordinate{{{-180, 0}, {-180, 1}, {-180, 2}}}},
		{"no line", []coordinate{{1, 2}}, nil},
		{"nothing", nil, nil},
	} {
		assert.Equal(t, c.want, split(lineOf(c.line...)), c.name)
	}
}

// Whatever the line: every part keeps to one side, has two points at least, and put
// together, whole circles apart, they run through all points of the line in order.
func TestSplitKeepsTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lon, lat := rapid.Float64Range(-180, 179.999).Draw(t, "lon"), 0.0
		var line []units.Position
		for range rapid.IntRange(2, 40).Draw(t, "n") {
			line = append(line, units.At(lat, units.WrapHalfDegrees(lon)))
			lon += rapid.Float64Range(-3, 3).Draw(t, "east")
			lat = math.Max(-80, math.Min(80, lat+rapid.Float64Range(-3, 3).Draw(t, "north")))
		}
		parts := split(line)
		var all []coordinate
		for i, p := range parts {
			require.GreaterOrEqual(t, len(p), 2)
			for j, c := range p {
				require.LessOrEqual(t, math.Abs(c[0]), 180.0)
				if j > 0 {
					require.Less(t, math.Abs(c[0]-p[j-1][0]), 180.0, "a part crosses")
				}
			}
			if i > 0 {
				before := parts[i-1][len(parts[i-1])-1]
				require.Equal(t, 180.0, math.Abs(before[0]))
				require.Equal(t, coordinate{-before[0], before[1]}, p[0])
			}
			all = append(all, p...)
		}
		if len(parts) == 0 { // all its points are one
			for _, p := range line {
				require.True(t, near(coordinateOf(p), coordinateOf(line[0])))
			}
			return
		}
		next := 0
		for _, c := range all {
			for next < len(line) && near(c, coordinateOf(line[next])) {
				next++
			}
		}
		require.Equal(t, len(line), next, "all points are met, in order")
	})
}

func near(a, b coordinate) bool {
	return math.Abs(units.WrapHalfDegrees(a[0]-b[0])) < 1e-9 && math.Abs(a[1]-b[1]) < 1e-9
}
