package geodesy

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

// table reads a file of testdata and asserts its number of rows, so that no row
// is lost unseen.
func table(t testing.TB, name string, n int) []rows.Row {
	t.Helper()
	all := rows.Read(t, "testdata/"+name)
	require.Len(t, all, n, name)
	return all
}
