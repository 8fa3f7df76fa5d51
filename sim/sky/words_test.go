package sky

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// number reads a figure out of the words of a row.
func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	require.NoError(t, err)
	return v
}

// numberAfter reads the figure that stands after a word, skip words further.
func numberAfter(t testing.TB, words []string, after string, skip int) float64 {
	t.Helper()
	for i, w := range words {
		if w == after && i+1+skip < len(words) {
			return number(t, words[i+1+skip])
		}
	}
	require.Fail(t, "the row has no "+after)
	return 0
}
