package work

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The checks of this file know a triangle by its definition only: the air
// vector and the wind (toward) add to the ground vector.

// six is heading, TAS, track, groundspeed, wind from, wind: as sixHeader.
type six [6]float64

// gap is by how much the vectors fail to add, in knots.
func (f six) gap() float64 {
	north, east := 0.0, 0.0
	for _, v := range [][2]float64{{f[1], f[0]}, {-f[5], f[4]}, {-f[3], f[2]}} {
		s, c := math.Sincos(v[1] * math.Pi / 180)
		north, east = north+v[0]*c, east+v[0]*s
	}
	return math.Hypot(north, east)
}

// without writes the figures as a row with two cells left empty.
func (f six) without(i, j int) string {
	cells := make([]string, 6)
	for k, v := range f {
		if k != i && k != j {
			cells[k] = string(appendNumber(nil, v))
		}
	}
	return strings.Join(cells, ",")
}

// solveSix asks wind-triangle for one row.
func solveSix(t require.TestingT, row string) (f six, drift float64, err error) {
	var out strings.Builder
	err = Run("wind-triangle", strings.NewReader(sixHeader+"\n"+row+"\n"), &out)
	if err != nil {
		return f, 0, err
	}
	_, line, _ := strings.Cut(out.String(), "\n")
	n, scanErr := fmt.Sscanf(strings.ReplaceAll(line, ",", " "), "%g %g %g %g %g %g %g",
		&f[0], &f[1], &f[2], &f[3], &f[4], &f[5], &drift)
	require.NoError(t, scanErr, line)
	require.Equal(t, 7, n)
	return f, drift, nil
}

// drawTriangle makes a figure from air vector and wind, by plain arithmetic.
func drawTriangle(t *rapid.T) six {
	f := six{
		rapid.Float64Range(0, 359.99).Draw(t, "heading"), rapid.Float64Range(50, 500).Draw(t, "tas"), 0, 0,
		rapid.Float64Range(0, 359.99).Draw(t, "from"), rapid.Float64Range(1, 200).Draw(t, "wind"),
	}
	h, d := f[0]*math.Pi/180, f[4]*math.Pi/180
	north := f[1]*math.Cos(h) - f[5]*math.Cos(d)
	east := f[1]*math.Sin(h) - f[5]*math.Sin(d)
	f[3] = math.Hypot(north, east)
	f[2] = math.Mod(math.Atan2(east, north)*180/math.Pi+360, 360)
	return f
}

// isDirection says which of the six are directions; the side of figure k is
// k/2.
func isDirection(k int) bool { return k%2 == 0 }

// TestAllFifteenPairs takes every pair out of random triangles and asks for it.
func TestAllFifteenPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawTriangle(t)
		for i := range 6 {
			for j := i + 1; j < 6; j++ {
				assertPair(t, f, i, j)
			}
		}
	})
}

func assertPair(t *rapid.T, f six, i, j int) {
	got, drift, err := solveSix(t, f.without(i, j))
	switch count := countFigures(f, i, j); {
	case count < 0: // too near a limiting case for the count to be sure
		return
	case isDirection(i) && isDirection(j):
		require.ErrorContains(t, err, "mirror images", "%v without %d, %d", f, i, j)
		return
	case count == 2 && i != 3 && j != 3:
		require.ErrorContains(t, err, "same groundspeed", "%v without %d, %d", f, i, j)
		return
	}
	require.NoError(t, err, "%v without %d, %d", f, i, j)
	require.LessOrEqual(t, got.gap(), 1e-6, "%v without %d, %d gave %v", f, i, j, got)
	require.GreaterOrEqual(t, got[3], f[3]-1e-6, "the figure with the greater groundspeed")
	require.InDelta(t, 0, math.Remainder(got[2]-got[0]-drift, 360), 1e-9)
	for k, v := range got {
		if k != i && k != j {
			require.Equal(t, f[k], v, "what is given stays")
		}
		require.True(t, v >= 0 && (!isDirection(k) || v < 360))
	}
}

// countFigures counts the triangles that have four of the six, for a length of one
// side and a direction of another, by walking round the unknown direction; 1
// for the pairs where the count is plain, -1 if two lie too close to tell.
func countFigures(f six, i, j int) int {
	switch {
	case i/2 == j/2:
		return 1
	case isDirection(i) && isDirection(j):
		return flat(f)
	case !isDirection(i) && !isDirection(j):
		return singular(f, i, j)
	}
	size, dir := i, j
	if isDirection(i) {
		size, dir = j, i
	}
	along, roots, sure := unit(f, size-1), 0, true
	across := func(theta float64) float64 { return cross(along, rest(f, size, dir, theta)) }
	const step = 0.5
	start := f[dir] + 0.217 // off the root that is known
	for m := range int(360 / step) {
		theta := start + float64(m)*step
		a, b := across(theta), across(theta+step)
		if (a < 0) != (b < 0) {
			z := -dot(along, rest(f, size, dir, theta+step*a/(a-b)))
			sure = sure && math.Abs(z) > 0.5
			if z > 0 {
				roots++
			}
		}
		sure = sure && math.Abs(math.Abs(f[dir+1])-math.Abs(offset(f, size, dir, along))) > 1e-2
	}
	if !sure {
		return -1
	}
	return roots
}

// flat is -1 when the three lengths are nearly those of one line: then there is
// one figure, not two.
func flat(f six) int {
	if slack := f[1] + f[3] + f[5] - 2*max(f[1], f[3], f[5]); slack < 1e-6 {
		return -1
	}
	return 2
}

// singular is -1 when two known directions are nearly one line.
func singular(f six, i, j int) int {
	if math.Abs(cross(unit(f, i-1), unit(f, j-1))) < 1e-3 {
		return -1
	}
	return 1
}

// sign of a side in the sum that must vanish: air + wind toward - ground.
func sign(k int) float64 {
	if k/2 == 0 {
		return 1
	}
	return -1
}

// unit is the direction of the side whose direction is figure k.
func unit(f six, k int) [2]float64 {
	s, c := math.Sincos(f[k] * math.Pi / 180)
	return [2]float64{sign(k) * c, sign(k) * s}
}

func cross(a, b [2]float64) float64 { return a[0]*b[1] - a[1]*b[0] }
func dot(a, b [2]float64) float64   { return a[0]*b[0] + a[1]*b[1] }

// rest is the sum of the two sides other than that of size, with direction dir
// turned to theta.
func rest(f six, size, dir int, theta float64) (sum [2]float64) {
	f[dir] = theta
	for k := 0; k < 6; k += 2 {
		if k == size-1 {
			continue
		}
		u := unit(f, k)
		sum[0], sum[1] = sum[0]+f[k+1]*u[0], sum[1]+f[k+1]*u[1]
	}
	return sum
}

// offset is how far the known side lies off the line of the wanted length.
func offset(f six, size, dir int, along [2]float64) float64 {
	for k := 0; k < 6; k += 2 {
		if k != size-1 && k != dir {
			u := unit(f, k)
			return cross(along, [2]float64{f[k+1] * u[0], f[k+1] * u[1]})
		}
	}
	return math.NaN()
}

// The limiting cases, worked by hand on one line or at a right angle. Columns
// as sixHeader: heading, TAS, track, groundspeed, wind from, wind.
func TestTrianglesAtTheLimits(t *testing.T) {
	for row, want := range map[string]six{
		"40,150,,,40,30":          {40, 150, 40, 120, 40, 30},  // head wind
		"40,150,,,220,30":         {40, 150, 40, 180, 220, 30}, // tail wind
		"40,150,40,150,,":         {40, 150, 40, 150, 0, 0},    // still air comes from 0
		"33.3,150.1,33.3,150.1,,": {33.3, 150.1, 33.3, 150.1, 0, 0},
		"40,30,,,40,150":          {40, 30, 220, 120, 40, 150}, // blown backwards
		",150,40,120,,30":         {40, 150, 40, 120, 40, 30},  // all on one line: one figure
		",150,40,180,,30":         {40, 150, 40, 180, 220, 30},
		",150.1,40,180.3,,30.2":   {40, 150.1, 40, 180.3, 220, 30.2},
		",150,,180,220,30":        {40, 150, 40, 180, 220, 30},
		"40,150,,120,,30":         {40, 150, 40, 120, 40, 30},
		",150,0,,90,30":           {math.Asin(0.2) * 180 / math.Pi, 150, 0, math.Sqrt(150*150 - 30*30), 90, 30},
		",30,0,,90,30":            {90, 30, 0, 0, 90, 30},   // just held: no way made good
		",150,90,,0,0":            {90, 150, 90, 150, 0, 0}, // no wind, its direction given
		"90,150,90,,,0":           {90, 150, 90, 150, 0, 0}, // no wind, its direction asked
	} {
		got, _, err := solveSix(t, row)
		if assert.NoError(t, err, row) {
			for k := range want {
				assert.InDelta(t, want[k], got[k], 1e-9, "%s, figure %d", row, k)
			}
		}
	}
}

func TestTrianglesRefused(t *testing.T) {
	for row, reason := range map[string]string{
		",100,0,,90,120":   "no triangle has these", // the wind is stronger than the aircraft
		",150,40,300,,30":  "no triangle has these", // longer than the other two together
		",150,40,130,,30":  "mirror images",
		"40,150,,130,,30":  "mirror images",
		",150,,130,220,30": "mirror images",
		"40,,40,,220,30":   "any number of triangles", // on one line
		"40,,40,,130,30":   "no triangle has these",
		"0,,90,,45,100":    "no triangle has these", // wind from the right cannot push to the right
		",150,,150,90,0":   "any number of triangles",
		"10,37,,,10,37":    "a vector of no length has no direction",
		",,190,20,10,20":   "a vector of no length has no direction",
		"90,150,80,,,0":    "no triangle has these", // no wind, but drift
		"0,150,,,90,":      "columns wind_kt, groundspeed_kt, track_true_deg: 3 of the six figures are given",
		"0,150,10,,90,20":  "5 of the six figures are given",
		"0,-1,,,90,20":     "column tas_kt: -1 is outside 0 or more",
		"0,100,,,361,20":   "column wind_from_deg_true: 361 is outside -360 to 360",
	} {
		_, _, err := solveSix(t, row)
		assert.ErrorContains(t, err, reason, row)
		assert.ErrorContains(t, err, "row 1 (line 2), column", row)
	}
}

func TestTriangleHeaders(t *testing.T) {
	got, err := askOne(t, "wind-triangle", "tas_kt,heading_true_deg,wind_from_deg_true,wind_kt\n240,180,180,35\n")
	assert.NoError(t, err)
	assert.Equal(t, "240,180,180,35,180,205,0", got, "track, groundspeed, drift")

	var out strings.Builder
	require.NoError(t, Run("wind-triangle", strings.NewReader("groundspeed_kt,track_true_deg,tas_kt,heading_true_deg\n205,180,240,180\n"), &out))
	assert.Equal(t, "groundspeed_kt,track_true_deg,tas_kt,heading_true_deg,wind_from_deg_true,wind_kt,drift_deg\n205,180,240,180,180,35,0\n", out.String())

	got, err = askOne(t, "wind-triangle", "note,wind_kt,tas_kt,heading_true_deg,track_true_deg,wind_from_deg_true\n\"a, b\",35,240,180, ,180\n\"c\",,240,180,180,180\n")
	assert.ErrorContains(t, err, "row 2 (line 3), columns")
	assert.Equal(t, "\"a, b\",35,240,180,180,180,205,0", got, "an empty cell is filled in")

	for in, reason := range map[string]string{
		"tas_kt,heading_true_deg,wind_kt\n1,2,3\n":                                  "wind-triangle reads 4 of tas_kt, heading_true_deg",
		"tas_kt,heading_true_deg,wind_from_deg_true,wind_kt,drift_deg\n1,2,3,4,5\n": "already has the column drift_deg",
	} {
		_, err := askOne(t, "wind-triangle", in)
		assert.ErrorContains(t, err, reason, in)
	}
}
