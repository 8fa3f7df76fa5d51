package edit

import (
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
)

// FuzzIndex: of any text that the library decodes, every value stands where the index says:
// put in its own place it changes nothing, and any other value there leaves TOML in which
// the index finds it again.
func FuzzIndex(f *testing.F) {
	for _, text := range files {
		f.Add(text)
	}
	f.Add([]byte("a.b.c = 1\n[x]\n'y z'.\"w\" = { u = [ {v = 1}, {v = 2} ], t = {} } # c\n[[x.l]]\n[[x.l]]\n[x.l.m]\nk=1"))
	f.Add([]byte("\xef\xbb\xbfa = 1\r\n#\r\n[b]\r\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var all map[string]any
		if len(text) > 1<<14 || toml.Unmarshal(text, &all) != nil {
			return
		}
		x, err := read(text)
		require.NoError(t, err)
		for i, field := range x.fields {
			if i > 40 {
				break
			}
			same, err := Set(field.path, Value{string(text[field.value.from:field.value.to])})(x)
			require.NoError(t, err)
			require.Equal(t, string(text), string(same), "%s", field.path)
			other, err := Set(field.path, Whole(7))(x)
			require.NoError(t, err)
			y, err := read(other)
			require.NoError(t, err, "%s", other)
			g, ok := y.field(field.path)
			require.True(t, ok, "%s", field.path)
			require.Equal(t, "7", string(other[g.value.from:g.value.to]))
			if gone, err := Remove(field.path)(x); err == nil {
				_, err = read(gone)
				require.NoError(t, err, "%s removed: %q", field.path, gone)
			}
		}
	})
}
