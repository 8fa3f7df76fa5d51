package scenarios

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write testdata/bad/*.want anew; then read them")

// Every bad file has the exact report beside it. The reports were read and
// judged by hand against the flight schema; -update only saves typing.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 20)
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			plan, _, err := Load(filepath.Base(f), strings.NewReader(string(text)))
			require.Nil(t, plan)
			var errs *Errors
			require.True(t, errors.As(err, &errs))
			assertWellFormed(t, errs, strings.Count(string(text), "\n")+1)
			golden := strings.TrimSuffix(f, ".toml") + ".want"
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(err.Error()+"\n"), 0o644))
			}
			want, rerr := os.ReadFile(golden)
			require.NoError(t, rerr)
			assert.Equal(t, string(want), err.Error()+"\n")
		})
	}
}

func assertWellFormed(t *testing.T, errs *Errors, lines int) {
	t.Helper()
	assert.NotEmpty(t, errs.Problems)
	assert.LessOrEqual(t, len(errs.Problems), 50)
	last := 0
	for _, p := range errs.Problems {
		assert.NotEmpty(t, p.File)
		assert.NotEmpty(t, p.Msg)
		assert.True(t, p.Line >= 1 && p.Line <= lines, "line %d of %d", p.Line, lines)
		assert.GreaterOrEqual(t, p.Line, last, "by line")
		assert.NotContains(t, p.Error(), "\n")
		assert.Less(t, len(p.Error()), 2000)
		last = p.Line
	}
}
