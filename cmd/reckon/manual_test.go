package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/manual"
)

// Every line of the manual that stands in a shell block is tried, in the order of its
// page, in a folder of its own that holds the files of that page.
func TestCommandsOfTheManual(t *testing.T) {
	names, err := filepath.Glob("../../docs/*.md")
	require.NoError(t, err)
	tried := 0
	for _, name := range names {
		page, err := os.ReadFile(name)
		require.NoError(t, err)
		blocks := manual.Blocks(string(page))
		t.Run(filepath.Base(name), func(t *testing.T) {
			t.Chdir(t.TempDir())
			for _, b := range blocks {
				if b.File != "" {
					require.NoError(t, os.WriteFile(b.File, []byte(b.Text), 0o644))
				}
				if b.Kind != "sh" {
					continue
				}
				for i, line := range strings.Split(strings.TrimSpace(b.Text), "\n") {
					try(t, line, b.Line+i)
					tried++
				}
			}
		})
	}
	assert.Greater(t, tried, 25, "the blocks of the manual are found")
}

// try runs a line of the manual.
func try(t *testing.T, line string, at int) {
	t.Helper()
	words, ok := strings.CutPrefix(line, "reckon ")
	require.True(t, ok, "line %d: %s: only reckon can be tried", at, line)
	require.False(t, strings.ContainsAny(words, `|<>"'$`), "line %d: %s: no pipe, no quotes", at, line)
	var out, complaints bytes.Buffer
	status := run(strings.Fields(words), streams{strings.NewReader(""), &out, &complaints})
	require.Zero(t, status, "line %d: %s\n%s", at, line, complaints.String())
	for _, word := range strings.Fields(words) { // what was to be written has been
		if ext := filepath.Ext(word); ext != "" && ext != ".toml" && strings.Contains(".svg.png.pdf.csv.json.gif.kml.geojson.record", ext) {
			made, err := os.Stat(word)
			require.NoError(t, err, line)
			assert.NotZero(t, made.Size(), line)
		}
	}
}
