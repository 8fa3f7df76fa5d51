package geomag

import (
	"bufio"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The World Magnetic Model is read here only, as a second set of coefficients
// with official results for the same sums.

// readWMM reads a .COF text: a line "2025.0 WMM-2025 date", then lines
// "n m g h g' h'", then lines of nines.
func readWMM(t *testing.T, path string) *table {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	out := &table{at: make([]coefficients, 1)}
	scan := bufio.NewScanner(f)
	pairs := 0
	for scan.Scan() {
		fields := strings.Fields(scan.Text())
		switch {
		case len(fields) == 3:
			out.epochs = append(out.epochs, floats(t, fields[:1])[0])
		case len(fields) == 6:
			v := floats(t, fields)
			i := index(int(v[0]), int(v[1]))
			out.at[0][i] = term{v[2], v[3]}
			out.change[i] = term{v[4], v[5]}
			pairs++
		}
	}
	require.NoError(t, scan.Err())
	require.Len(t, out.epochs, 1)
	require.Equal(t, 90, pairs, "pairs of degree 12")
	return out
}

func floats(t *testing.T, fields []string) []float64 {
	out := make([]float64, len(fields))
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		require.NoError(t, err)
		out[i] = v
	}
	return out
}

// modelAt is New for a table that is not IGRF.
func (t *table) modelAt(year float64) *Model { return &Model{year, t.moment(year)} }

// rate is the field of the yearly change alone.
func (t *table) rate() *Model { return &Model{0, t.change} }
