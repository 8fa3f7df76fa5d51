package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRecordAndReplay: what fly writes down comes out alike; a record that is cut
// off, spoilt or of something else says so.
func TestRecordAndReplay(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.record")
	status, _, said := call("", "fly", "pitot-ice", "--record", file, "--csv", filepath.Join(t.TempDir(), "a.csv"))
	require.Zero(t, status, said)
	status, out, said := call("", "replay", file)
	assert.Zero(t, status, said)
	assert.Contains(t, out, "minutes compared by hashes\nall are alike\n")
	text, err := os.ReadFile(file)
	require.NoError(t, err)

	spoil := func(change func([]byte) []byte) (int, string, string) {
		other := filepath.Join(t.TempDir(), "b.record")
		require.NoError(t, os.WriteFile(other, change(bytes.Clone(text)), 0o600))
		return call("", "replay", other)
	}
	status, out, said = spoil(func(b []byte) []byte { return b[:len(b)-40] })
	assert.Equal(t, exitBad, status)
	assert.Contains(t, out, "there is no closing line")
	assert.Contains(t, said, "the last line is torn")
	status, _, said = spoil(func(b []byte) []byte {
		at := bytes.LastIndex(b, []byte(`"true":[`))
		b[at+12]++
		return b
	})
	assert.Equal(t, exitBad, status)
	assert.Contains(t, said, "has been changed")
	status, _, said = spoil(func([]byte) []byte { return []byte("schema = 1\n") })
	assert.Equal(t, exitBad, status)
	assert.Contains(t, said, "line 1: ")
	status, _, _ = call("", "replay", filepath.Join(t.TempDir(), "none"))
	assert.Equal(t, exitBad, status)
}
