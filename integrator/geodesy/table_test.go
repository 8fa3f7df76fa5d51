package geodesy

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// row is a row of a file in testdata, by column name.
type row map[string]string

// table reads a file of testdata and asserts its number of rows, so that no row
// is lost unseen.
func table(t testing.TB, name string, rows int) []row {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, records, rows+1, name)
	all := make([]row, rows)
	for i, record := range records[1:] {
		all[i] = row{}
		for j, cell := range record {
			all[i][records[0][j]] = cell
		}
	}
	return all
}

// number gives a cell that must be a number.
func (r row) number(t testing.TB, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, column)
	return v
}
