package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestX(t *testing.T) {
	for _, s := range shipped {
		p, _, err := Open(s)
		require.NoError(t, err)
		t.Log(p.Title, len(p.Legs))
	}
}
