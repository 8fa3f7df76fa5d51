package airplot

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

const deg = units.Degree

// table reads a file of testdata and makes sure that it is whole.
func table(t testing.TB, name string, count int) []rows.Row {
	t.Helper()
	all := rows.Read(t, "testdata/"+name)
	require.Len(t, all, count)
	return all
}

var figure = regexp.MustCompile(`[-+]?[0-9]+(?:\.[0-9]+)?`)

// figures are the numbers in a text; exactly so many are wanted.
func figures(t testing.TB, text string, count int) []float64 {
	t.Helper()
	var all []float64
	for _, s := range figure.FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		all = append(all, v)
	}
	require.Len(t, all, count, text)
	return all
}

// after cuts a text behind a mark that must be there.
func after(t testing.TB, text, mark string) string {
	t.Helper()
	_, rest, found := strings.Cut(text, mark)
	require.True(t, found, "%q in %q", mark, text)
	return rest
}

// first is the first number after a mark.
func first(t testing.TB, text, mark string) float64 {
	t.Helper()
	s := figure.FindString(after(t, text, mark))
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err, "%q in %q", mark, text)
	return v
}

func angle(degrees float64) units.Angle { return units.Angle(degrees) * deg }
func knots(v float64) units.Speed       { return units.Speed(v) * units.Knot }
func miles(v float64) units.Length      { return units.Length(v) * units.NM }

// assertDirection compares directions in degrees, whatever turn they are in.
func assertDirection(t testing.TB, want float64, got units.Angle, tolerance float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, 0, math.Remainder(got.Degrees()-want, 360), tolerance, msg...)
}

// assertPlace compares latitude and longitude in degrees.
func assertPlace(t testing.TB, lat, lon float64, got units.Position, tolerance float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, lat, got.Lat.Degrees(), tolerance, msg...)
	assertDirection(t, lon, got.Lon, tolerance, msg...)
}

// assertWind compares a wind with one in degrees and knots.
func assertWind(t testing.TB, from, kt float64, got units.Wind, degrees, speed float64, msg ...any) {
	t.Helper()
	assertDirection(t, from, got.From, degrees, msg...)
	assert.InDelta(t, kt, got.Speed.Knots(), speed, msg...)
}
