package flights

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
)

func TestKeepTakesNoFilesPlace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "mine.toml")
	require.NoError(t, Keep(path, []byte("one"), true))
	assert.ErrorIs(t, Keep(path, []byte("two"), true), ErrTaken)
	require.NoError(t, Keep(path, []byte("three"), false))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "three", string(text))
	left, _ := filepath.Glob(path + ".*")
	assert.Empty(t, left)
	assert.Error(t, Keep(filepath.Join(path, "x.toml"), nil, true), "no folder can be there")
}

func TestOpenText(t *testing.T) {
	_, src, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	f, err := OpenText("draft", src.Text)
	require.NoError(t, err)
	assert.Positive(t, f.Length())
	assert.Empty(t, f.Path)
	var refused *Refused
	_, err = OpenText("draft", []byte("schema = 1\n"))
	require.ErrorAs(t, err, &refused)
	assert.NotEmpty(t, refused.Lines)
}
